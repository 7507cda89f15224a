/** The worker of the CPU surface: it paints the canvas off the page's thread. */
import { createRpcServer, dispatchEvent, type EventHandlers, type RpcMessage } from "../../extension/rpc.ts";
import type { NumberedPlaces, PainterEvents, PainterRequests } from "../render/cpu-messages.ts";
import { makePainter, type Painter } from "../render/painter.ts";
import type { Source } from "../render/source.ts";

const sources = new Map<number, Source>();
let painter: Painter | undefined;
/** Scenes that are still to be prepared. */
let unprepared: readonly NumberedPlaces[] = [];

/** The part of a worker's global scope that is used; the page's own types are the ones in force here. */
const scope = globalThis as unknown as {
  onmessage: (event: { data: unknown }) => void;
  postMessage(message: RpcMessage): void;
};

const layersOf = (numbers: readonly number[]): readonly Source[] =>
  numbers.flatMap((number) => sources.get(number) ?? []);

/** One scene a turn, so that a picture that is to be painted meanwhile waits for no more than one. */
function prepareNext(): void {
  const [scene, ...rest] = unprepared;
  unprepared = rest;
  if (rest.length > 0) setTimeout(prepareNext);
  if (scene) painter?.prepare({ ...scene, layers: layersOf(scene.layers) });
}

const events: EventHandlers<PainterEvents> = {
  canvas(canvas) {
    const context = canvas.getContext("2d", { alpha: false });
    if (context) painter = makePainter(context);
  },
  source: ({ number, source }) => void sources.set(number, source),
  forget: (number) => void sources.delete(number),
  prepare(scenes) {
    if (unprepared.length === 0) setTimeout(prepareNext);
    unprepared = scenes;
  },
};

const server = createRpcServer<PainterRequests>(
  {
    async paint(scene) {
      if (!painter) throw new Error("This browser gives the picture worker no canvas to draw on.");
      painter.paint({ ...scene, layers: layersOf(scene.layers) });
      return null;
    },
  },
  (message) => scope.postMessage(message),
);

scope.onmessage = ({ data }) => {
  if (!dispatchEvent(data, events)) server.receive(data);
};
