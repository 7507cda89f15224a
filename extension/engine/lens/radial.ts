/**
 * The radial model of a lens's geometric faults: where on a photograph a point of the true picture was drawn. Polynomials
 * of the radius are photogrammetry's (D. C. Brown, Photogrammetric Engineering 32 (1966) 444–462; from memory).
 */
import type { LensFaults, RadialTerms } from "../types.ts";

/** Radii are counted from the middle of the scan; half of its diagonal is 1. */
export interface RadialScale {
  readonly centreX: number;
  readonly centreY: number;
  /** Half of the diagonal, in pixels. */
  readonly unit: number;
}

export const radialScale = ({ width, height }: { readonly width: number; readonly height: number }): RadialScale => ({
  centreX: width / 2,
  centreY: height / 2,
  unit: Math.hypot(width, height) / 2,
});

/** a + b·r²: how much larger than green a colour is drawn, as a part of the radius. */
export const lateralAt = ([a, b = 0]: RadialTerms, r2: number): number => a + b * r2;

/** Red, green, blue. */
export type Channel = 0 | 1 | 2;

/**
 * How far from the middle a channel draws a point, over the radius that the point has, as a function of that radius
 * squared: 1 is a lens without faults. The point's radius is counted on the true picture, that of lateral colour on the
 * photographed green one.
 */
export function magnificationOf({ lateral, distortion }: LensFaults, channel: Channel): (r2: number) => number {
  const [k1, k2 = 0] = distortion ?? [0];
  const [a, b = 0] = (channel === 0 ? lateral?.red : channel === 2 ? lateral?.blue : undefined) ?? [0];
  return (r2) => {
    const drawn = 1 + r2 * (k1 + k2 * r2);
    return drawn * (1 + a + b * r2 * drawn * drawn);
  };
}

/** Whether anything moves in a channel. */
export function isMoved({ lateral, distortion }: LensFaults, channel: Channel): boolean {
  const terms = channel === 0 ? lateral?.red : channel === 2 ? lateral?.blue : undefined;
  return [...(terms ?? []), ...(distortion ?? [])].some((term) => term !== 0);
}

/** The farthest that anything in a scan of this size moves, in pixels. */
export function largestShift(faults: LensFaults, size: { readonly width: number; readonly height: number }): number {
  const { unit } = radialScale(size);
  let largest = 0;
  for (const channel of [0, 1, 2] as const) {
    const magnification = magnificationOf(faults, channel);
    for (let k = 1; k <= STEPS; k++)
      largest = Math.max(largest, Math.abs(magnification((k / STEPS) ** 2) - 1) * (k / STEPS) * unit);
  }
  return largest;
}

/** Radii at which the largest shift is looked for. */
const STEPS = 32;
