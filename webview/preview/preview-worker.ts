/** The worker of the CPU surface: it paints the canvas off the page's thread. */
import { createRpcServer, dispatchEvent, type EventHandlers, type RpcMessage } from "../../extension/rpc.ts";
import type { PainterEvents, PainterRequests } from "../render/cpu-messages.ts";
import { makePainter, type Painter } from "../render/painter.ts";
import type { Source } from "../render/source.ts";

const sources = new Map<number, Source>();
let painter: Painter | undefined;

/** The part of a worker's global scope that is used; the page's own types are the ones in force here. */
const scope = globalThis as unknown as {
  onmessage: (event: { data: unknown }) => void;
  postMessage(message: RpcMessage): void;
};

const events: EventHandlers<PainterEvents> = {
  canvas(canvas) {
    const context = canvas.getContext("2d", { alpha: false });
    if (context) painter = makePainter(context);
  },
  source: ({ number, source }) => void sources.set(number, source),
  forget: (number) => void sources.delete(number),
};

const server = createRpcServer<PainterRequests>(
  {
    async paint(scene) {
      if (!painter) throw new Error("This browser gives the picture worker no canvas to draw on.");
      painter.paint({ ...scene, layers: scene.layers.flatMap((number) => sources.get(number) ?? []) });
      return null;
    },
  },
  (message) => scope.postMessage(message),
);

scope.onmessage = ({ data }) => {
  if (!dispatchEvent(data, events)) server.receive(data);
};
