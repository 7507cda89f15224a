/** Runs the same plans on the GPU and on the CPU, as the panel and as a render does, and says how far they are apart. Driven by gpu-against-cpu.test.ts. */
import { runCodes8, runPlan8 } from "../../extension/engine/plan/run.ts";
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
    const written = new Uint8ClampedArray(n * 4);
    runPlan8(plan, t, written, n);
    const cpu = new Uint8ClampedArray(n * 4);
    runCodes8(plan, grid.codes, cpu, n);
    const gpu = plans.read(plans.run(plan, grid));
    let worst = 0;
    let differing = 0;
    for (let i = 0; i < cpu.length; i++) {
      const apart = Math.abs(written[i] - gpu[i]);
      if (apart > 0) differing++;
      worst = Math.max(worst, apart, Math.abs(written[i] - cpu[i]));
    }
    return { worst, differing: differing / cpu.length, distinct: new Set(cpu).size };
  });
};
