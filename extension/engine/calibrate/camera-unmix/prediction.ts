/**
 * The unmix matrix that a camera of unknown sensitivities probably needs, from its colour matrix: the nine numbers, XYZ to
 * camera, that raw files or their decoder state (DNG Specification, "Mapping Camera Color Space to CIE XYZ Space").
 */
import { determinant } from "../../math/matrix.ts";
import type { Matrix3 } from "../../types.ts";

/** What was learnt from cameras of published sensitivities; fit-prediction.ts makes it, table.ts holds it. */
export interface Prediction {
  /** Of the six numbers of `shapeOf`: the least, the greatest and the mean over those cameras. */
  readonly lowest: readonly number[];
  readonly greatest: readonly number[];
  readonly middle: readonly number[];
  /** The nine numbers of the unmix at `middle`, row by row, and how each moves with each of the six. */
  readonly unmix: readonly number[];
  readonly slopes: readonly (readonly number[])[];
}

/** CIE D65, XYZ with Y = 1 (ISO/CIE 11664-2). */
const WHITE = [0.9505, 1, 1.0891] as const;
/** Ranges of the known cameras that a number may lie outside of theirs. Published matrices lie within 0.83 of it. */
const MARGIN = 0.9;
/** Volume that three rows span at least, each scaled to see white as 1. Published matrices span 0.8 to 2.6. */
const MIN_VOLUME = 0.3;

/**
 * What a colour matrix says of the shape of the three sensitivities: each row is scaled so that white gives 1, for a
 * channel's gain does not matter here; then the weights of X and Y are the shape, and that of Z follows from them.
 * @param matrix XYZ under daylight to camera red, green, blue; any scale
 * @returns six numbers, X and Y of red, green, blue; undefined where the matrix cannot be a camera's: a channel that
 * does not see white, rows that depend on one another, a unit matrix in place of one, numbers that are none
 */
export function shapeOf(matrix: Matrix3): readonly number[] | undefined {
  const scaled = matrix.map((row) => {
    const white = row[0] * WHITE[0] + row[1] * WHITE[1] + row[2] * WHITE[2];
    return row.map((v) => (white > 0 ? v / white : Number.NaN));
  }) as unknown as Matrix3;
  const mixed = matrix.some((row, i) => row.some((v, j) => i !== j && v !== 0));
  if (!mixed || !(determinant(scaled) >= MIN_VOLUME)) return undefined;
  return scaled.flatMap(([x, y]) => [x, y]);
}

/**
 * Beyond the range of the known cameras the prediction stays where the range ends: a matrix of another make of numbers
 * may be less help, but does no harm.
 * @param matrix as for `shapeOf`
 * @returns camera densities above base to Status M densities above base; undefined where the matrix cannot be a camera's
 */
export function predictUnmix(known: Prediction, matrix: Matrix3): Matrix3 | undefined {
  const shape = shapeOf(matrix);
  if (!shape) return undefined;
  const from: number[] = [];
  for (const [i, v] of shape.entries()) {
    const [low, high] = [known.lowest[i], known.greatest[i]];
    const margin = MARGIN * (high - low);
    if (!(v >= low - margin && v <= high + margin)) return undefined;
    from.push(Math.min(high, Math.max(low, v)) - known.middle[i]);
  }
  const [a, b, c, d, e, f, g, h, i] = known.slopes.map((row, k) =>
    row.reduce((sum, slope, j) => sum + slope * from[j], known.unmix[k]),
  );
  return [
    [a, b, c],
    [d, e, f],
    [g, h, i],
  ];
}
