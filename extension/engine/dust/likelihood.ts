/**
 * What a blob's features say for dust by laws, without training: by them the flare of a scan is found. The classifier's
 * own odds do not serve for that: they were trained where the flare is known, and weigh what changes with it (with them
 * half of the specks were found instead of nine in ten).
 */
import { erf, type Features, ERROR_CORRELATION } from "./features.ts";

/** Dust takes this part of the light. */
const OPACITY = [0.63, 0.97] as const;
/** Least part of it in the middle, as far as sampling may miss the middle. */
const MIN_PEAK = 0.57;
/** Spread of a speck of 3 pixels' diameter in the full scan, and how exactly, as ln, it is known: smaller ones are left. */
const [MIN_SIZE, SIZE_ERROR] = [0.32, 0.12];
/** ln of Student's distribution in `d` dimensions at a squared distance, its factors left out: things have outliers. */
const student = (square: number, freedom: number, d: number): number =>
  (-(freedom + d) / 2) * Math.log1p(square / freedom);
const TAU = 2 * Math.PI;

/** ln of what turns a density over opacity into one over `strength`, at one `size`. */
const jacobian = (f: Features): number => Math.log(Math.min(1.5, Math.max(0.1, f.opacity)));
/** Part of a normal law below z. */
const below = (z: number): number => (1 + erf(z / Math.SQRT2)) / 2;

/** ln of the density of dust at a blob's features. */
function dustDensity(f: Features): number {
  const [zr, zb] = [f.red / f.errorRed, f.blue / f.errorBlue];
  const left = 1 - ERROR_CORRELATION ** 2;
  const away = (zr * zr - 2 * ERROR_CORRELATION * zr * zb + zb * zb) / left;
  const colours = student(away, 4, 2) - Math.log(TAU * f.errorRed * f.errorBlue * Math.sqrt(left));
  // Wider things show their edge whole.
  const expected = 0.505 + 0.035 * Math.min(1, Math.max(0, Math.exp(f.size) - 0.6));
  const width = Math.hypot(0.022, 0.3 * f.middle);
  const off = (f.edge - expected) / width;
  const edge = student((off > 0 ? 0.6 * off : off) ** 2, 4, 1) - Math.log(2.5 * width);
  const error = Math.hypot(0.05, 0.09 / f.radius ** 2, f.broad);
  const [min, max] = OPACITY;
  const opacity = (below((f.opacity - min) / error) - below((f.opacity - max) / error)) / (max - min) + 0.02;
  const peak = below((f.peak - MIN_PEAK) / Math.hypot(0.075, f.middle)) + 1e-4;
  const large = f.radius > 4 ? -2 * Math.log(f.radius / 4) : 0;
  const small = below((f.size - Math.log(MIN_SIZE)) / SIZE_ERROR) + 1e-3;
  return colours + edge + Math.log(opacity * peak * small) + large + jacobian(f) - Math.log(2.1);
}

/** Spread of the slopes of things in pictures of all kinds, and where their middle lies against dust. */
const PICTURE = { red: -0.06, blue: 0.07, spread: [0.13, 0.156] } as const;

/** ln of the density of things in pictures of any kind. */
function pictureDensity(f: Features): number {
  const [sr, sb] = [Math.hypot(PICTURE.spread[0], f.errorRed), Math.hypot(PICTURE.spread[1], f.errorBlue)];
  const away = ((f.red - PICTURE.red) / sr) ** 2 + ((f.blue - PICTURE.blue) / sb) ** 2;
  const colours = student(away, 2, 2) - Math.log(TAU * sr * sb);
  const edge = Math.max(Math.log(0.3), -0.5 * ((f.edge - 0.46) / 0.07) ** 2 - Math.log(2.5 * 0.07));
  return colours + edge + jacobian(f) - Math.log(3);
}

/** ln of how much likelier dust is to have such features than the things in pictures are. */
export const evidenceOf = (f: Features): number => dustDensity(f) - pictureDensity(f);
