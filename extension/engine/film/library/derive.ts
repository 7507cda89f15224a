/** Works out what the library states of a colour film beyond its sheet: which dyes explain it, and its colour matrix. */
import { deltaE2000 } from "../../colour/difference.ts";
import { labOf, type Lab } from "../../colour/lab.ts";
import { SPACES, toD50 } from "../../colour/spaces.ts";
import { apply } from "../../math/matrix.ts";
import type { Matrix3, Rgb } from "../../types.ts";
import { leastSquares, solveLinear } from "../../math/least-squares.ts";
import type { DyeSet, Spectrum } from "./types.ts";

/**
 * Difference between spectra of density that counts as a difference of dyes and not of digitising: curves of one film
 * from two sheets differ by 0.01 to 0.02 D.
 */
const DIGITISING = 0.02;

/**
 * How well each dye set explains a mid-scale neutral: weights that sum to 1, in the order of `sets`.
 * @param image spectral density of a neutral without the base
 */
export function dyeWeights(image: Spectrum, sets: readonly DyeSet[]): number[] {
  const rms = sets.map((dyes) => {
    const normal = dyes.map((a) => dyes.map((b) => a.reduce((s, v, i) => s + v * b[i], 0)));
    const amounts = solveLinear(
      normal,
      dyes.map((a) => a.reduce((s, v, i) => s + v * image[i], 0)),
    );
    const rest = image.map((v, i) => v - dyes.reduce((s, dye, k) => s + amounts[k] * dye[i], 0));
    return Math.sqrt(rest.reduce((s, v) => s + v * v, 0) / rest.length);
  });
  const minError = Math.min(...rms);
  const raw = rms.map((r) => Math.exp(-(r * r - minError * minError) / (2 * DIGITISING ** 2)));
  const total = raw.reduce((a, b) => a + b, 0);
  return raw.map((w) => w / total);
}

/** A surface as the film's layers see it, 1 for white, and its colour under D50. */
export interface FilmSurface {
  readonly exposures: Rgb;
  readonly lab: Lab;
}

const TO_D50 = toD50(SPACES.srgb);
/** Keeps numbers that the surfaces do not decide near the identity, ΔE00 for a change of 1. */
const PENALTY = 0.5;

/** The matrix from layer exposures to linear light with sRGB's primaries: least ΔE00 over the surfaces, rows sum to 1. */
export function colourMatrix(surfaces: readonly FilmSurface[]): Matrix3 {
  const rows = ([a, b, c, d, e, f]: readonly number[]): Matrix3 => [
    [1 - a - b, a, b],
    [c, 1 - c - d, d],
    [e, f, 1 - e - f],
  ];
  const seen = (m: Matrix3, { exposures }: FilmSurface): Lab =>
    labOf(apply(TO_D50, apply(m, exposures)).map((v) => Math.max(v, 1e-6)) as unknown as Rgb);
  const errors = (x: readonly number[]): number[] => [
    ...surfaces.map((s) => deltaE2000(seen(rows(x), s), s.lab)),
    ...x.map((v) => PENALTY * v),
  ];
  return rows(leastSquares(errors, [-0.3, 0, 0, -0.2, 0, -0.1], 60));
}

/** Indices of `count` points that lie far apart: each next one is the farthest from those that are taken. */
export function farthestPoints(points: readonly (readonly number[])[], count: number): number[] {
  const taken = [0];
  const distance = (i: number, j: number): number => Math.hypot(...points[i].map((v, k) => v - points[j][k]));
  const nearest = points.map((_, i) => distance(i, 0));
  while (taken.length < count) {
    const next = nearest.indexOf(Math.max(...nearest));
    taken.push(next);
    nearest.forEach((d, i) => (nearest[i] = Math.min(d, distance(i, next))));
  }
  return taken;
}
