/** Falloff of light and lens as a few numbers, for rolls without a blank: what was fitted on the film's own base. */
import type { Falloff } from "../types.ts";
import type { LightField } from "./light-field.ts";

/** Falloff with the place where the light counts as 1: where the base was read, so that the base keeps its density. */
export interface PlacedFalloff extends Falloff {
  /** Fractions of the scan's width and height; the middle of the scan where absent. */
  readonly at?: readonly [x: number, y: number];
}

/** Light at a place in EV against the middle; x to the right and y down, in halves of the diagonal. */
export function falloffAt({ radial: [a, b = 0], oval = 0, gradient }: Falloff, x: number, y: number): number {
  const r2 = x * x + y * y;
  return r2 * (a + b * r2) + oval * (x * x - y * y) + gradient[0] * x + gradient[1] * y;
}

/** Cells along the longer side: cubic interpolation between them is off by less than 1e-5 of the light. */
const CELLS = 48;

/** The falloff as a field for scans of a size, all channels alike: 1 at the place where the base was read. */
export function falloffField(falloff: PlacedFalloff, width: number, height: number): LightField {
  const long = Math.max(width, height);
  const [columns, rows] = [width, height].map((side) => Math.max(2, Math.round((CELLS * side) / long)));
  const unit = Math.hypot(width, height) / 2;
  const at = (u: number, v: number): number =>
    falloffAt(falloff, ((u - 0.5) * width) / unit, ((v - 0.5) * height) / unit);
  const zero = at(...(falloff.at ?? [0.5, 0.5]));
  const level = Float32Array.from({ length: columns * rows }, (_, i) => {
    const [q, r] = [i % columns, Math.floor(i / columns)];
    return 2 ** (at((q + 0.5) / columns, (r + 0.5) / rows) - zero);
  });
  return { columns, rows, channels: 1, level, mean: [1, 1, 1], exposure: {} };
}
