/** Learns to predict unmix matrices from colour matrices; called by make.mjs and by the test that holds table.ts to it. */
import { solveLinear } from "../../math/least-squares.ts";
import type { ScanningSet, Spectrum } from "../spectra.ts";
import type { Matrix3 } from "../../types.ts";
import { type Prediction, shapeOf } from "./prediction.ts";

/** A camera's unmix and its colour matrices by different makers, who fit them to different surfaces. */
export interface KnownCamera {
  readonly unmix: Matrix3;
  readonly colourMatrices: readonly Matrix3[];
}

/**
 * How firmly the prediction holds to the cameras' mean, in cameras: few cameras of few makers are known, and colour
 * matrices of one camera differ by nearly as much as those of two. From a third to three times of it the error of
 * cameras left out stays within 0.001 D in colours and 0.003 D in greys.
 */
const PRIOR_WEIGHT = 1;

/**
 * Straight lines through six numbers of shape for each of the nine numbers, by ridge regression (Hoerl, Kennard,
 * Technometrics 12 (1970) 55–67) on standardised shapes.
 */
export function fitPrediction(cameras: readonly KnownCamera[]): Prediction {
  const samples = cameras.flatMap(({ unmix, colourMatrices }) =>
    colourMatrices.map((matrix) => ({ shape: known(matrix), unmix: unmix.flat() })),
  );
  const mean = (of: (s: (typeof samples)[number]) => number): number =>
    samples.reduce((sum, s) => sum + of(s), 0) / samples.length;
  const six = [0, 1, 2, 3, 4, 5];
  const middle = six.map((j) => mean((s) => s.shape[j]));
  const spread = six.map((j) => Math.sqrt(mean((s) => (s.shape[j] - middle[j]) ** 2)));
  const unmix = Array.from({ length: 9 }, (_, k) => mean((s) => s.unmix[k]));
  const part = (s: (typeof samples)[number], j: number): number => (s.shape[j] - middle[j]) / spread[j];
  const damping = PRIOR_WEIGHT / cameras.length;
  const normal = six.map((i) => six.map((j) => mean((s) => part(s, i) * part(s, j)) + (i === j ? damping : 0)));
  const slopes = unmix.map((at, k) =>
    solveLinear(
      normal,
      six.map((j) => mean((s) => part(s, j) * (s.unmix[k] - at))),
    ).map((slope, j) => slope / spread[j]),
  );
  const extreme = (of: (...values: number[]) => number): number[] =>
    six.map((j) => of(...samples.map((s) => s.shape[j])));
  return { lowest: extreme(Math.min), greatest: extreme(Math.max), middle, unmix, slopes };
}

function known(matrix: Matrix3): readonly number[] {
  const shape = shapeOf(matrix);
  if (!shape) throw new RangeError(`The colour matrix ${JSON.stringify(matrix)} is not that of a camera.`);
  return shape;
}

/**
 * A camera's colour matrix as least squares gives it: XYZ (Y of white = 1) of surfaces under a light to what the camera
 * sees of them (1 for white).
 * @param observer x̄, ȳ, z̄ of CIE 1931 on the same wavelengths
 */
export function colourMatrixFrom(
  { sensitivity, light }: ScanningSet,
  observer: readonly [Spectrum, Spectrum, Spectrum],
  surfaces: readonly Spectrum[],
): Matrix3 {
  const through = (s: Spectrum, surface?: Spectrum): number =>
    s.reduce((sum, v, i) => sum + v * light[i] * (surface?.[i] ?? 1), 0);
  const luminance = through(observer[1]);
  const xyz = surfaces.map((surface) => observer.map((o) => through(o, surface) / luminance));
  const three = [0, 1, 2];
  const normal = three.map((i) => three.map((j) => xyz.reduce((sum, v) => sum + v[i] * v[j], 0)));
  return sensitivity.map((s) => {
    const white = through(s);
    const seen = surfaces.map((surface) => through(s, surface) / white);
    return solveLinear(
      normal,
      three.map((i) => xyz.reduce((sum, v, k) => sum + v[i] * seen[k], 0)),
    );
  }) as unknown as Matrix3;
}
