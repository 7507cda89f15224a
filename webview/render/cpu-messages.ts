/** What the CPU surface and its worker tell one another. */
import type { Source } from "./source.ts";
import type { Scene } from "./surface.ts";

/** A scene whose layers are named by number. */
export interface NumberedScene extends Omit<Scene, "layers"> {
  readonly layers: readonly number[];
}

export type ToWorker =
  /** The canvas that shows the picture, handed over once. */
  | { readonly kind: "canvas"; readonly canvas: OffscreenCanvas }
  /** A scan, once: it is large. */
  | { readonly kind: "source"; readonly number: number; readonly source: Source }
  | { readonly kind: "forget"; readonly number: number }
  | { readonly kind: "paint"; readonly id: number; readonly scene: NumberedScene };

/** The answer to `paint`. */
export interface FromWorker {
  readonly id: number;
  /** Why the scene could not be painted. */
  readonly fault?: string;
}
