/** Shows scenes without WebGL: a worker paints the canvas, or the page itself where there is no worker. */
import { JobError } from "../../extension/failure.ts";
import { createEmitter, createRpcClient, type Post } from "../../extension/rpc.ts";
import type { NumberedPlaces, PainterEvents, PainterRequests } from "./cpu-messages.ts";
import { makePainter } from "./painter.ts";
import type { Source } from "./source.ts";
import type { Scene, Surface } from "./surface.ts";

/** @param makeWorker a worker that runs preview-worker.ts; without one the page paints by itself */
export function makeCpuSurface(canvas: HTMLCanvasElement, makeWorker?: () => Worker | undefined): Surface {
  const worker = "transferControlToOffscreen" in canvas ? makeWorker?.() : undefined;
  return worker ? fromWorker(canvas, worker) : fromPage(canvas);
}

function fromPage(canvas: HTMLCanvasElement): Surface {
  const context = canvas.getContext("2d", { alpha: false });
  if (!context) throw new Error("This browser gives no canvas to draw on.");
  const painter = makePainter(context);
  return { kind: "cpu", space: "srgb", draw: async (scene) => painter.paint(scene), dispose() {} };
}

/** Scans that the worker keeps: the one in view with its detail, and those that were prepared last. */
const MAX_SOURCES = 5;

/** Where the panes of a scene lie: a plan is sent when it is run. */
const placesOf = ({ panes }: Scene): NumberedPlaces["panes"] =>
  panes.map(({ box, toCanvas, toPicture, warn, holder }) => ({ box, toCanvas, toPicture, warn, holder }));

function fromWorker(canvas: HTMLCanvasElement, worker: Worker): Surface {
  const numbers = new Map<Source, number>();
  let sources = 0;
  let shown: readonly Source[] = [];
  let wanted: Scene | undefined;
  let working: Promise<void> | undefined;
  const post: Post = (message, transfer = []) => worker.postMessage(message, transfer as Transferable[]);
  const client = createRpcClient<PainterRequests>(post);
  const emit = createEmitter<PainterEvents>(post);

  worker.onmessage = ({ data }) => client.receive(data);
  worker.onerror = ({ message }) =>
    client.reset(() => new JobError({ code: "worker-died", message: `The picture worker broke down: ${message}` }));
  const offscreen = canvas.transferControlToOffscreen();
  emit("canvas", offscreen, [offscreen]);

  /** Hands a scan to the worker, unless it has it; what was used longest ago is forgotten. @returns its number */
  function handOver(source: Source, inUse: readonly Source[]): number {
    const number = numbers.get(source) ?? ++sources;
    if (!numbers.delete(source)) emit("source", { number, source });
    numbers.set(source, number);
    for (const [old, at] of numbers) {
      if (numbers.size <= MAX_SOURCES) break;
      if (old === source || inUse.includes(old)) continue;
      emit("forget", at);
      numbers.delete(old);
    }
    return number;
  }

  async function show(scene: Scene): Promise<void> {
    shown = scene.layers;
    const layers = scene.layers.map((source) => handOver(source, scene.layers));
    await client.request("paint", { ...scene, layers });
  }

  /** Scenes that came meanwhile are overtaken by the last of them. */
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
    prepare(scenes) {
      const inUse = [...shown, ...scenes.flatMap(({ layers }) => layers)];
      const numbered = scenes.map((scene) => ({
        layers: scene.layers.map((source) => handOver(source, inUse)),
        panes: placesOf(scene),
      }));
      emit("prepare", numbered);
    },
    dispose: () => worker.terminate(),
  };
}
