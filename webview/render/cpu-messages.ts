/** What the CPU surface sends to its worker, over the channel of extension/rpc.ts. */
import type { Source } from "./source.ts";
import type { PlacedScene } from "./painter.ts";
import type { Scene } from "./surface.ts";

/** A scene whose layers are named by number. */
export interface NumberedScene extends Omit<Scene, "layers"> {
  readonly layers: readonly number[];
}

/** The same of a scene that is not painted yet. */
export interface NumberedPlaces extends Omit<PlacedScene, "layers"> {
  readonly layers: readonly number[];
}

export interface PainterRequests {
  paint: { request: NumberedScene; reply: null };
}

export interface PainterEvents {
  /** The canvas that shows the picture, handed over once. */
  readonly canvas: OffscreenCanvas;
  /** A scan, once: it is large. */
  readonly source: { readonly number: number; readonly source: Source };
  readonly forget: number;
  /** Scenes that may be painted next. */
  readonly prepare: readonly NumberedPlaces[];
}
