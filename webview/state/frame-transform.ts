/** Where a picture stands: from pixels of the scan to the finished, upright picture, and on to the canvas. */
import { toScan, type Framing, type Placement, place, type Turn } from "../../extension/engine/image/geometry.ts";
import { affine, type Affine, apply, chained, inverse, moving, type Point, scaling, rotation } from "./affine.ts";
import { clamp } from "../../extension/engine/math/clamp.ts";

/** The part of a frame that is shown: what the recipe crops, or the whole scan with the crop drawn over it. */
export interface FrameTransform {
  /** Finished size in pixels of the scan. */
  readonly width: number;
  readonly height: number;
  /** From pixels of the scan to pixels of the finished picture. */
  readonly toFinished: Affine;
}

/** Mirror (left–right) first, then the clockwise turn, of a picture of `width` × `height`. */
function turnAndMirror(width: number, height: number, mirror: boolean, turn: Turn): Affine {
  const mirrored = mirror ? chained(scaling(-1, 1), moving(width, 0)) : affine(1, 0, 0, 1, 0, 0);
  const [w, h] = turn === 90 || turn === 270 ? [height, width] : [width, height];
  return chained(mirrored, moving(-width / 2, -height / 2), rotation(turn), moving(w / 2, h / 2));
}

/** The finished picture. */
export function croppedFrame(scanWidth: number, scanHeight: number, framing: Framing): FrameTransform {
  const p = place({ width: scanWidth, height: scanHeight }, framing);
  const upright = inverse(scanMap(p));
  return {
    width: p.finalWidth,
    height: p.finalHeight,
    toFinished: chained(upright, turnAndMirror(p.width, p.height, framing.mirror, framing.turn)),
  };
}

/** The engine's mapping as an affine map: it is one, so three points give it. */
function scanMap(p: Placement): Affine {
  const [e, f] = toScan(p, 0, 0);
  const [ax, ay] = toScan(p, 1, 0);
  const [cx, cy] = toScan(p, 0, 1);
  return affine(ax - e, ay - f, cx - e, cy - f, e, f);
}

/** The whole scan, mirrored and turned like the picture, not straightened. */
export function wholeScan(width: number, height: number, mirror: boolean, turn: Turn): FrameTransform {
  const lying = turn === 90 || turn === 270;
  return {
    width: lying ? height : width,
    height: lying ? width : height,
    toFinished: turnAndMirror(width, height, mirror, turn),
  };
}

/** How the finished picture is seen: `zoom` device pixels a scan pixel, or fitted; `centre` in fractions of it. */
export interface Viewport {
  readonly zoom: "fit" | number;
  readonly centre: Point;
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Room left free around a fitted picture, in device pixels. */
const MARGIN = 12;
export const MIN_ZOOM = 0.02;
export const MAX_ZOOM = 8;

export function fitZoom(transform: FrameTransform, box: Box): number {
  const available = (side: number): number => Math.max(16, side - 2 * MARGIN);
  return Math.min(available(box.width) / transform.width, available(box.height) / transform.height);
}

export const zoomOf = (viewport: Viewport, transform: FrameTransform, box: Box): number =>
  viewport.zoom === "fit" ? fitZoom(transform, box) : clamp(viewport.zoom, MIN_ZOOM, MAX_ZOOM);

/** From the finished picture to the canvas. */
export function pictureToCanvas(transform: FrameTransform, viewport: Viewport, box: Box): Affine {
  const zoom = zoomOf(viewport, transform, box);
  const centre: Point = viewport.zoom === "fit" ? [0.5, 0.5] : viewport.centre;
  return chained(
    moving(-centre[0] * transform.width, -centre[1] * transform.height),
    scaling(zoom),
    moving(box.x + box.width / 2, box.y + box.height / 2),
  );
}

/** The sight after zooming to `zoom` while the point of the picture at `at` (canvas pixels) stays put. */
export function zoomedAt(transform: FrameTransform, viewport: Viewport, box: Box, zoom: number, at: Point): Viewport {
  const clamped = clamp(zoom, MIN_ZOOM, MAX_ZOOM);
  const [px, py] = apply(inverse(pictureToCanvas(transform, viewport, box)), at);
  const centre: Point = [
    (px - (at[0] - box.x - box.width / 2) / clamped) / transform.width,
    (py - (at[1] - box.y - box.height / 2) / clamped) / transform.height,
  ];
  return { zoom: clamped, centre: inside(transform, box, clamped, centre) };
}

/** The sight after the picture was dragged by `dx`, `dy` device pixels. */
export function panned(transform: FrameTransform, viewport: Viewport, box: Box, dx: number, dy: number): Viewport {
  if (viewport.zoom === "fit") return viewport;
  const zoom = zoomOf(viewport, transform, box);
  const centre: Point = [
    viewport.centre[0] - dx / zoom / transform.width,
    viewport.centre[1] - dy / zoom / transform.height,
  ];
  return { zoom: viewport.zoom, centre: inside(transform, box, zoom, centre) };
}

/** The centre is held so that the box stays filled, or the picture centred where it is smaller. */
function inside(transform: FrameTransform, box: Box, zoom: number, [x, y]: Point): Point {
  const clampCentre = (v: number, picture: number, available: number): number => {
    const half = Math.min(0.5, available / 2 / zoom / picture);
    return Math.min(1 - half, Math.max(half, v));
  };
  return [clampCentre(x, transform.width, box.width), clampCentre(y, transform.height, box.height)];
}

/** From the canvas to 0 … 1 inside the finished picture. */
export function toUnit(transform: FrameTransform, toCanvas: Affine): Affine {
  return chained(inverse(toCanvas), transform.toFinished, scaling(1 / transform.width, 1 / transform.height));
}
