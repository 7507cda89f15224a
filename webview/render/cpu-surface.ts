/** Shows scenes without WebGL: a worker runs the plans, a 2D canvas lays the results down. */
import type { Plan } from "../../extension/engine/plan.ts";
import { apply, chained, growth, inverse, moving, scaling } from "../state/affine.ts";
import { type FromWorker, makeCpuRunner, type ToWorker } from "./cpu-run.ts";
import type { Warn } from "./lost.ts";
import type { Grid, Source } from "./source.ts";
import { levelFor, type Pane, saturatedPixels, type Scene, type Surface } from "./surface.ts";

/** A place that runs plans: the worker, or the page itself. */
interface Runner {
  send(message: ToWorker): void;
  run(grid: number, plan: Plan, warn: Warn): Promise<FromWorker>;
  close(): void;
}

function workerRunner(worker: Worker): Runner {
  const waiting = new Map<number, { resolve: (r: FromWorker) => void; reject: (e: Error) => void }>();
  let last = 0;
  worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
    waiting.get(data.id)?.resolve(data);
    waiting.delete(data.id);
  };
  worker.onerror = (event) => {
    for (const { reject } of waiting.values()) reject(new Error(`The picture worker broke down: ${event.message}`));
    waiting.clear();
  };
  return {
    send: (message) => worker.postMessage(message),
    run: (grid, plan, warn) =>
      new Promise((resolve, reject) => {
        waiting.set(++last, { resolve, reject });
        worker.postMessage({ kind: "run", id: last, grid, plan, warn } satisfies ToWorker);
      }),
    close: () => worker.terminate(),
  };
}

function pageRunner(): Runner {
  const runner = makeCpuRunner();
  return {
    send: (message) => void runner.receive(message),
    async run(grid, plan, warn) {
      const done = runner.receive({ kind: "run", id: 0, grid, plan, warn });
      if (!done) throw new Error("The plan gave no picture.");
      return done;
    },
    close() {},
  };
}

interface Painted {
  readonly plan: Plan;
  readonly warn: Warn;
  readonly canvas: OffscreenCanvas;
}

/** @param makeWorker a worker that runs preview-worker.ts; without one the page runs the plans itself */
export function makeCpuSurface(canvas: HTMLCanvasElement, makeWorker?: () => Worker | undefined): Surface {
  const context = canvas.getContext("2d", { alpha: false });
  if (!context) throw new Error("This browser gives no canvas to draw on.");
  const worker = makeWorker?.();
  const runner = worker ? workerRunner(worker) : pageRunner();
  const numbers = new Map<Grid, number>();
  const painted = new Map<Grid, Painted[]>();
  const lost = new Set<Grid>();
  let grids = 0;
  let wanted: Scene | undefined;
  let working: Promise<void> | undefined;

  function numberOf(source: Source, level: number, warn: boolean): number {
    const grid = source.levels[level];
    let number = numbers.get(grid);
    if (number === undefined || (warn && !lost.has(grid))) {
      number ??= ++grids;
      numbers.set(grid, number);
      if (warn) lost.add(grid);
      runner.send({ kind: "grid", grid: number, value: grid, lost: warn ? saturatedPixels(source, level) : undefined });
    }
    return number;
  }

  async function paint(pane: Pane, source: Source): Promise<{ canvas: OffscreenCanvas; pane: Pane; source: Source }> {
    const level = levelFor(source, growth(pane.toCanvas));
    const grid = source.levels[level];
    const kept = painted.get(grid) ?? [];
    painted.set(grid, kept);
    const known = kept.find((p) => p.plan === pane.plan && p.warn === pane.warn);
    if (known) return { canvas: known.canvas, pane, source };
    const { width, height, pixels } = await runner.run(
      numberOf(source, level, pane.warn !== "none"),
      pane.plan,
      pane.warn,
    );
    const spare = kept.length >= 2 ? kept.shift()?.canvas : undefined;
    const offscreen = spare ?? new OffscreenCanvas(Math.max(1, width), Math.max(1, height));
    offscreen.getContext("2d")?.putImageData(new ImageData(pixels, width, height), 0, 0);
    kept.push({ plan: pane.plan, warn: pane.warn, canvas: offscreen });
    return { canvas: offscreen, pane, source };
  }

  async function show(scene: Scene): Promise<void> {
    const parts = [];
    for (const pane of scene.panes) for (const source of scene.layers) parts.push(await paint(pane, source));
    const [width, height] = [Math.max(1, scene.width), Math.max(1, scene.height)];
    if (canvas.width !== width) canvas.width = width;
    if (canvas.height !== height) canvas.height = height;
    const grey = Math.round(scene.surround * 255);
    const to = context as CanvasRenderingContext2D;
    to.resetTransform();
    to.fillStyle = `rgb(${grey} ${grey} ${grey})`;
    to.fillRect(0, 0, width, height);
    to.imageSmoothingQuality = "high";
    for (const { canvas: picture, pane, source } of parts) {
      to.save();
      clip(to, pane);
      const { left, top, width: w, height: h } = source.part;
      const m = chained(
        scaling((w * source.scanWidth) / picture.width, (h * source.scanHeight) / picture.height),
        moving(left * source.scanWidth, top * source.scanHeight),
        pane.toCanvas,
      );
      to.setTransform(m.a, m.b, m.c, m.d, m.e, m.f);
      to.drawImage(picture, 0, 0);
      to.restore();
    }
    const live = new Set(scene.layers.flatMap((s) => s.levels));
    for (const [grid, number] of numbers)
      if (!live.has(grid)) {
        runner.send({ kind: "forget", grid: number });
        numbers.delete(grid);
        painted.delete(grid);
        lost.delete(grid);
      }
  }

  async function work(): Promise<void> {
    while (wanted) {
      const scene = wanted;
      wanted = undefined;
      await show(scene);
    }
  }

  return {
    kind: "cpu",
    space: "srgb",
    draw(scene) {
      wanted = scene;
      working ??= work().finally(() => (working = undefined));
      return working;
    },
    dispose: () => runner.close(),
  };
}

function clip(to: CanvasRenderingContext2D, { box, toPicture }: Pane): void {
  const canvas = inverse(toPicture);
  const path = new Path2D();
  for (const [i, corner] of (
    [
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
    ] as const
  ).entries()) {
    const [x, y] = apply(canvas, corner);
    if (i === 0) path.moveTo(x, y);
    else path.lineTo(x, y);
  }
  path.closePath();
  to.beginPath();
  to.rect(box.x, box.y, box.width, box.height);
  to.clip();
  to.clip(path);
}
