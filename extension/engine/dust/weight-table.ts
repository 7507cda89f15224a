/**
 * Weights of the kinds of evidence for dust on a colour negative, found on subjects drawn by lot: printed by
 * `npm run bench -- dust-weights` (130 subjects, 43262 things, 7832 of them dust). Each is a broken line
 * from the points `at` to their weights, in units of the natural logarithm of odds.
 */

/** The constant of the sum. */
export const BIAS = -3.79;

interface Line {
  readonly at: readonly number[];
  readonly weight: readonly number[];
}

// oxfmt-ignore
export const WEIGHTS = {
  colour: { at: [0.224, 1.338, 2.685, 4.408, 6.682, 14.998], weight: [2, 1.11, 0.07, -0.57, -0.97, -1.64] },
  tone: { at: [-7.109, -1.98, -0.735, 0.091, 0.968, 3.202], weight: [1.96, -0.16, -0.48, -0.3, -0.28, -0.74] },
  toneAndForm: { at: [-7.987, -5.41, -3.432, -2.115, -0.906, 1.706], weight: [3.43, 2.19, 0.86, -0.33, -2.07, -4.08] },
  dust: { at: [-8.35, -3.741, -1.506, 0.738, 4.048, 8.699], weight: [-0.73, -0.98, -1.11, -0.69, 0.82, 2.69] },
  opacity: { at: [0.071, 0.376, 0.584, 0.71, 0.821, 1.048], weight: [1.2, -0.06, -0.37, -0.29, -0.51, 0.03] },
  peak: { at: [0.219, 0.512, 0.632, 0.722, 0.816, 0.96], weight: [-2.9, -0.37, 0.8, 0.86, 0.64, 0.98] },
  strength: { at: [-0.155, 0.927, 1.441, 1.994, 2.657, 4.64], weight: [0.75, 1.14, -0.14, -0.73, -0.86, -0.16] },
  edge: { at: [0.058, 0.482, 0.503, 0.522, 0.554, 0.839], weight: [-1.29, -0.14, 0.17, 0.21, 0.43, 0.62] },
  stretch: { at: [1, 1.062, 1.305, 1.44, 1.993, 12.758], weight: [-0.41, 0.12, 0.01, 0.17, 0.07, 0.04] },
  filled: { at: [1.05, 2.352, 2.597, 2.629, 2.644, 2.67], weight: [-0.78, -0.05, 0.77, 0.56, -0.19, -0.31] },
  bottom: { at: [-1.231, 0.145, 0.422, 0.694, 1.047, 2.038], weight: [2.17, 0.24, -0.28, -0.4, -0.67, -1.05] },
  unrest: { at: [-5.023, -3.875, -3.212, -2.589, -1.919, -0.287], weight: [0.36, 0.2, 0.12, 0.23, 0.2, -1.1] },
} as const satisfies Readonly<Record<string, Line>>;
export type TermName = keyof typeof WEIGHTS;
