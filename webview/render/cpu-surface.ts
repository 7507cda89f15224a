/** Shows scenes without WebGL: a worker paints the canvas, or the page itself where there is no worker. */
import { JobError } from "../../extension/failure.ts";
import { createEmitter, createRpcClient, type Post } from "../../extension/rpc.ts";
import type { PainterEvents, PainterRequests } from "./cpu-messages.ts";
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

function fromWorker(canvas: HTMLCanvasElement, worker: Worker): Surface {
  const numbers = new Map<Source, number>();
  let sources = 0;
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

  async function show(scene: Scene): Promise<void> {
    for (const source of scene.layers) {
      if (numbers.has(source)) continue;
      numbers.set(source, ++sources);
      emit("source", { number: sources, source });
    }
    const layers = scene.layers.flatMap((source) => numbers.get(source) ?? []);
    await client.request("paint", { ...scene, layers });
    for (const [source, number] of numbers)
      if (!layers.includes(number)) {
        emit("forget", number);
        numbers.delete(source);
      }
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
    dispose: () => worker.terminate(),
  };
}
