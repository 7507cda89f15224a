/** The worker of the CPU surface: it paints the canvas off the page's thread. */
import type { FromWorker, ToWorker } from "./render/cpu-messages.ts";
import { makePainter, type Painter } from "./render/painter.ts";
import type { Source } from "./render/source.ts";

const sources = new Map<number, Source>();
let painter: Painter | undefined;

/** The part of a worker's global scope that is used; the page's own types are the ones in force here. */
const scope = globalThis as unknown as {
  onmessage: (event: { data: ToWorker }) => void;
  postMessage(message: FromWorker): void;
};

scope.onmessage = ({ data }) => {
  if (data.kind === "canvas") {
    const context = data.canvas.getContext("2d", { alpha: false });
    if (context) painter = makePainter(context);
  } else if (data.kind === "source") sources.set(data.number, data.source);
  else if (data.kind === "forget") sources.delete(data.number);
  else {
    try {
      if (!painter) throw new Error("This browser gives the picture worker no canvas to draw on.");
      const layers = data.scene.layers.flatMap((number) => sources.get(number) ?? []);
      painter.paint({ ...data.scene, layers });
      scope.postMessage({ id: data.id });
    } catch (error) {
      scope.postMessage({ id: data.id, fault: error instanceof Error ? error.message : String(error) });
    }
  }
};
