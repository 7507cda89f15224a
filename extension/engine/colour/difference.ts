/** Colour differences between two L*a*b* colours. */
import type { Lab } from "./lab.ts";

const RADIAN = Math.PI / 180;

/** ΔE*ab of 1976: the distance in L*a*b*. */
export function deltaE76(one: Lab, two: Lab): number {
  return Math.hypot(one[0] - two[0], one[1] - two[1], one[2] - two[2]);
}

/** Distance in the a*b* plane alone, lightness left out; against a neutral it is the chroma C*ab. */
export function deltaCab(one: Lab, two: Lab): number {
  return Math.hypot(one[1] - two[1], one[2] - two[2]);
}

/**
 * CIEDE2000 with all weights 1 (ISO/CIE 11664-6), as set out by G. Sharma, W. Wu, E. N. Dalal,
 * Color Res. Appl. 30 (2005) 21–30.
 */
export function deltaE2000(one: Lab, two: Lab): number {
  const chroma = (Math.hypot(one[1], one[2]) + Math.hypot(two[1], two[2])) / 2;
  const stretch = 1 + 0.5 * (1 - Math.sqrt(chroma ** 7 / (chroma ** 7 + 25 ** 7)));
  const [a1, a2] = [one[1] * stretch, two[1] * stretch];
  const [c1, c2] = [Math.hypot(a1, one[2]), Math.hypot(a2, two[2])];
  const [h1, h2] = [hue(a1, one[2]), hue(a2, two[2])];

  const grey = c1 * c2 === 0;
  let turn = grey ? 0 : h2 - h1;
  if (turn > 180) turn -= 360;
  else if (turn < -180) turn += 360;
  const dL = two[0] - one[0];
  const dC = c2 - c1;
  const dH = 2 * Math.sqrt(c1 * c2) * Math.sin((turn / 2) * RADIAN);

  const L = (one[0] + two[0]) / 2;
  const C = (c1 + c2) / 2;
  const h = grey ? h1 + h2 : meanHue(h1, h2);
  const T =
    1 -
    0.17 * Math.cos((h - 30) * RADIAN) +
    0.24 * Math.cos(2 * h * RADIAN) +
    0.32 * Math.cos((3 * h + 6) * RADIAN) -
    0.2 * Math.cos((4 * h - 63) * RADIAN);
  const sL = 1 + (0.015 * (L - 50) ** 2) / Math.sqrt(20 + (L - 50) ** 2);
  const sC = 1 + 0.045 * C;
  const sH = 1 + 0.015 * C * T;
  const rotation = 2 * Math.sqrt(C ** 7 / (C ** 7 + 25 ** 7));
  const rT = -rotation * Math.sin(60 * Math.exp(-(((h - 275) / 25) ** 2)) * RADIAN);
  return Math.sqrt((dL / sL) ** 2 + (dC / sC) ** 2 + (dH / sH) ** 2 + rT * (dC / sC) * (dH / sH));
}

/** Hue angle in degrees, 0 … 360; 0 for a neutral. */
function hue(a: number, b: number): number {
  if (a === 0 && b === 0) return 0;
  const degrees = Math.atan2(b, a) / RADIAN;
  return degrees < 0 ? degrees + 360 : degrees;
}

/** The mean of two hue angles, on the shorter way round. */
function meanHue(h1: number, h2: number): number {
  const sum = h1 + h2;
  if (Math.abs(h1 - h2) <= 180) return sum / 2;
  return sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2;
}
