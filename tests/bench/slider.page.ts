/** Moves of a slider on the panel's own surfaces, timed in the page. Driven by slider.ts. */
import { runCodes8, runPlan8 } from "../../extension/engine/plan/run.ts";
import type { Plan } from "../../extension/engine/plan/compile.ts";
import type { FrameLook } from "../../extension/engine/types.ts";
import { makeCpuSurface } from "../../webview/render/cpu-surface.ts";
import { makeGpuSurface } from "../../webview/render/gpu-surface.ts";
import { type Source, sourceOf, transmittanceOf } from "../../webview/render/source.ts";
import type { Scene, Surface } from "../../webview/render/surface.ts";
import { planFor } from "../../webview/render/view-plans.ts";
import { type Affine, chained, inverse, moving, scaling } from "../../webview/state/affine.ts";

/** Milliseconds of each move. */
export interface Moves {
  readonly renderer: string;
  /** The plan alone by the plain loop, over every pixel of the proxy: the yardstick, which nothing here changes. */
  readonly plan: readonly number[];
  /** The plan alone as the CPU path runs it. */
  readonly codes: readonly number[];
  /** From the changed look to the picture on its canvas, waited for. */
  readonly cpu: readonly number[];
  /** On the CPU path, the same where the picture has moved on the canvas as well, at 0.7 of its size. */
  readonly viewport: readonly number[];
  readonly gpu: readonly number[];
}

declare global {
  interface Window {
    timeMoves(width: number, height: number, looks: FrameLook[]): Promise<Moves>;
  }
}

const workerText = fetch("/preview-worker.js").then(async (r) => await r.text());

window.timeMoves = async (width, height, looks) => {
  const source = drawn(width, height);
  const n = width * height;
  const t = transmittanceOf(source.levels[0]);
  const out = new Uint8ClampedArray(n * 4);
  const timedPlans = (run: (plan: Plan) => void): number[] =>
    looks.map((look) => {
      const start = performance.now();
      run(planFor("print", look, "srgb"));
      return performance.now() - start;
    });
  const plan = timedPlans((p) => runPlan8(p, t, out, n));
  const codes = timedPlans((p) => runCodes8(p, source.levels[0].codes, out, n));
  const workerAt = URL.createObjectURL(new Blob([await workerText], { type: "text/javascript" }));
  const makeCpu = (canvas: HTMLCanvasElement): Surface => makeCpuSurface(canvas, () => new Worker(workerAt));
  const still = (): Affine => scaling(1);
  const cpu = await timed(looks, source, makeCpu, still);
  const viewport = await timed(looks, source, makeCpu, (i) => chained(scaling(0.7), moving(i, i / 3)));
  const gl = canvasOf(8, 8).getContext("webgl2");
  const info = gl?.getExtension("WEBGL_debug_renderer_info");
  const renderer = gl ? String(gl.getParameter(info ? info.UNMASKED_RENDERER_WEBGL : gl.RENDERER)) : "none";
  const gpu = await timed(looks, source, (canvas) => makeGpuSurface(canvas, false), still, waitForGl);
  return { renderer, plan, codes, cpu, viewport, gpu };
};

async function timed(
  looks: readonly FrameLook[],
  source: Source,
  make: (canvas: HTMLCanvasElement) => Surface | undefined,
  toCanvasOf: (move: number) => Affine,
  wait: (canvas: HTMLCanvasElement) => void = () => undefined,
): Promise<number[]> {
  const { scanWidth: width, scanHeight: height } = source;
  const canvas = canvasOf(width, height);
  document.body.replaceChildren(canvas);
  const surface = make(canvas);
  if (!surface) return [];
  const times: number[] = [];
  for (const [i, look] of looks.entries()) {
    // A gesture's moves come once a frame of the screen.
    await new Promise(requestAnimationFrame);
    const start = performance.now();
    await surface.draw(sceneOf(look, source, width, height, toCanvasOf(i)));
    wait(canvas);
    times.push(performance.now() - start);
  }
  surface.dispose();
  return times;
}

/** At `scaling(1)` the picture fills the canvas, a pixel of the proxy on each of its pixels. */
function sceneOf(look: FrameLook, source: Source, width: number, height: number, toCanvas: Affine): Scene {
  const pane = {
    box: { x: 0, y: 0, width, height },
    plan: planFor("print", look, "srgb"),
    toCanvas,
    toPicture: chained(inverse(toCanvas), scaling(1 / width, 1 / height)),
    warn: "none",
  } as const;
  return { width, height, surround: 0.5, layers: [source], panes: [pane] };
}

/** Reading one pixel waits until everything is drawn. */
function waitForGl(canvas: HTMLCanvasElement): void {
  const gl = canvas.getContext("webgl2");
  gl?.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, new Uint8Array(4));
}

function canvasOf(width: number, height: number): HTMLCanvasElement {
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [width, height];
  return canvas;
}

/** Slow gradients of density with grain. */
function drawn(width: number, height: number): Source {
  const codes = new Uint16Array(width * height * 3);
  let seed = 1;
  for (let y = 0, k = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      for (let c = 0; c < 3; c++, k++) {
        seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
        const wave = Math.sin(x / 97) + Math.sin(y / 71);
        codes[k] = 32000 - 3000 * c + 3000 * wave + 900 * (seed / 2 ** 32);
      }
  return sourceOf({
    source: "drawn",
    scanWidth: width,
    scanHeight: height,
    part: { left: 0, top: 0, width: 1, height: 1 },
    width,
    height,
    codes: new Uint8Array(codes.buffer),
    weights: [1 / 3, 1 / 3, 1 / 3],
    warnings: [],
  });
}
