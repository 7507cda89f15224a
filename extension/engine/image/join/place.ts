/** Where the scans of a joined frame lie on its first one. */
import type { Rgb } from "../../types.ts";

/**
 * Where a scan lies on the first: pixels of the full scan, and degrees clockwise about its own top left corner; then, where
 * it was measured, the exposure in EV that brings it to the first one's, one number or one a channel.
 */
export type JoinPlace = readonly [x: number, y: number, angle: number, exposure?: number | Rgb];

/** Place on the first scan of a place of another; the angle is in radians. */
export function onFirst(u: number, v: number, x: number, y: number, angle: number): [number, number] {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [x + c * u - s * v, y + s * u + c * v];
}

/** The inverse: place on the other scan of a place of the first. */
export const fromFirst = (p: number, q: number, x: number, y: number, angle: number): [number, number] =>
  onFirst(p - x, q - y, 0, 0, -angle);

/** A rectangle of whole pixels on the first scan's grid. */
export interface JoinFrame {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** A scan's size and its place on the first. */
export interface PlacedSize {
  readonly scan: { readonly width: number; readonly height: number };
  readonly place: JoinPlace;
}

/** The smallest rectangle around all scans, by their sizes and places: what the joined scan fills. */
export function joinFrame(parts: readonly PlacedSize[]): JoinFrame {
  const corners = parts.flatMap(({ scan: { width, height }, place: [x, y, angle] }) =>
    [
      [0, 0],
      [width, 0],
      [0, height],
      [width, height],
    ].map(([u, v]) => onFirst(u, v, x, y, (angle * Math.PI) / 180)),
  );
  const left = Math.floor(Math.min(...corners.map((c) => c[0])));
  const top = Math.floor(Math.min(...corners.map((c) => c[1])));
  const width = Math.ceil(Math.max(...corners.map((c) => c[0]))) - left;
  const height = Math.ceil(Math.max(...corners.map((c) => c[1]))) - top;
  return { left, top, width, height };
}
