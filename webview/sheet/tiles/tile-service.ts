/**
 * Paints tiles and compares frames for them: the same in the worker and, where there is none, in the page. Scans are kept
 * as codes, by key, so that another look costs one run of a plan over the pixels of the tile.
 */
import type { Turn } from "../../../extension/engine/image/geometry.ts";
import type { Area, FrameLook } from "../../../extension/engine/types.ts";
import type { Proxy } from "../../../extension/messages.ts";
import { makePainter } from "../../render/painter.ts";
import { placeIn, type Source, sourceOf } from "../../render/source.ts";
import { planFor } from "../../render/view-plans.ts";
import { chained, scaling } from "../../state/affine.ts";
import { croppedFrame, toUnit } from "../../state/frame-transform.ts";

/** A frame's picture at a size. */
export interface TileRequest {
  /** Of a proxy that was handed over before. */
  readonly key: string;
  readonly look: FrameLook;
  readonly area: Area;
  readonly turn: Turn;
  readonly mirror: boolean;
  /** Room for it, in device pixels. */
  readonly width: number;
  readonly height: number;
}

export interface TileService {
  add(key: string, proxy: Proxy): void;
  forget(key: string): void;
  /** @returns undefined where no proxy of that key is kept */
  paint(request: TileRequest): ImageBitmap | undefined;
}

export function makeTileService(): TileService {
  const sources = new Map<string, Source>();
  const canvas = new OffscreenCanvas(1, 1);
  const context = canvas.getContext("2d", { alpha: false });
  if (!context) throw new Error("This browser gives no canvas to draw on.");
  const painter = makePainter(context);
  return {
    add: (key, proxy) => void sources.set(key, sourceOf(proxy)),
    forget: (key) => void sources.delete(key),
    paint({ key, look, width: roomWidth, height: roomHeight, ...framing }) {
      const source = sources.get(key);
      if (!source) return undefined;
      const transform = croppedFrame(source.scanWidth, source.scanHeight, framing);
      const scale = Math.min(roomWidth / transform.width, roomHeight / transform.height);
      const width = Math.max(1, Math.round(transform.width * scale));
      const height = Math.max(1, Math.round(transform.height * scale));
      const toCanvas = chained(transform.toFinished, scaling(width / transform.width, height / transform.height));
      painter.paint({
        width,
        height,
        surround: 0.5,
        layers: [source],
        panes: [
          {
            box: { x: 0, y: 0, width, height },
            plan: planFor("print", look, "srgb", source.weights, placeIn(source, framing)),
            toCanvas,
            toPicture: toUnit(transform, toCanvas),
            warn: "none",
          },
        ],
      });
      return canvas.transferToImageBitmap();
    },
  };
}
