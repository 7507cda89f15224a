/** Runs the same plans on the GPU and on the CPU and says how far they are apart. Driven by gpu-against-cpu.test.ts. */
import { runPlan8 } from "../../extension/engine/run.ts";
import type { FrameLook, OutputSpace, Rgb } from "../../extension/engine/types.ts";
import { makeGpuPlans } from "../../webview/render/gpu-plan.ts";
import { type Grid, transmittanceOf } from "../../webview/render/source.ts";
import { planFor, type View } from "../../webview/render/view-plans.ts";

export interface Case {
  readonly look: FrameLook;
  readonly space: OutputSpace;
  readonly view: View;
  readonly weights?: Rgb;
}

export interface Apart {
  /** Greatest difference of any sample, in 1/255. */
  readonly worst: number;
  /** Part of the samples that differ at all. */
  readonly differing: number;
  /** Distinct values seen: an all-black picture proves nothing. */
  readonly distinct: number;
}

declare global {
  interface Window {
    compareExecutors(codes: number[], width: number, cases: Case[]): Apart[];
    /** Milliseconds from a changed look to its pixels, for each look after the other: compiled, run, waited for. */
    timeLooks(width: number, height: number, looks: FrameLook[]): { renderer: string; gpu: number[]; cpu: number[] };
  }
}

const gl = document.createElement("canvas").getContext("webgl2");
if (!gl) throw new Error("This browser has no WebGL2.");
const plans = makeGpuPlans(gl);

window.compareExecutors = (codes, width, cases) => {
  const grid: Grid = { width, height: codes.length / 3 / width, codes: Uint16Array.from(codes) };
  const n = grid.width * grid.height;
  const t = transmittanceOf(grid);
  return cases.map(({ look, space, view, weights }) => {
    const plan = planFor(view, look, space, weights);
    const cpu = new Uint8ClampedArray(n * 4);
    runPlan8(plan, t, cpu, n);
    const gpu = plans.read(plans.run(plan, grid));
    let worst = 0;
    let differing = 0;
    for (let i = 0; i < cpu.length; i++) {
      const apart = Math.abs(cpu[i] - gpu[i]);
      if (apart > 0) differing++;
      worst = Math.max(worst, apart);
    }
    return { worst, differing: differing / cpu.length, distinct: new Set(cpu).size };
  });
};

window.timeLooks = (width, height, looks) => {
  const codes = Uint16Array.from({ length: width * height * 3 }, (_, i) => 28000 + (Math.imul(i, 2654435761) >>> 18));
  const grid: Grid = { width, height, codes };
  const pixel = new Uint8Array(4);
  const gpu = looks.map((look) => {
    const start = performance.now();
    const result = plans.run(planFor("print", look, "srgb"), grid);
    gl.bindFramebuffer(gl.FRAMEBUFFER, result.frame);
    // Reading one pixel waits until everything is drawn.
    gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, pixel);
    return performance.now() - start;
  });
  const t = transmittanceOf(grid);
  const out = new Uint8ClampedArray(width * height * 4);
  const cpu = looks.map((look) => {
    const start = performance.now();
    runPlan8(planFor("print", look, "srgb"), t, out, width * height);
    return performance.now() - start;
  });
  const info = gl.getExtension("WEBGL_debug_renderer_info");
  return { renderer: String(gl.getParameter(info ? info.UNMASKED_RENDERER_WEBGL : gl.RENDERER)), gpu, cpu };
};
