/** Characteristic curves: density above base against h, the log10 exposure relative to mid-grey (0.18). */

export interface Characteristic {
  /** Slope of the straight part, density per decade of exposure. */
  readonly gamma: number;
  /** Where the straight part, prolonged, meets the base: log10 exposure relative to mid-grey. */
  readonly foot: number;
  /** Where it would meet the greatest density. */
  readonly head: number;
  /** How gradually toe and shoulder turn, decades. */
  readonly toe: number;
  readonly shoulder: number;
}

const softplus = (x: number, width: number): number => {
  const u = x / width;
  return u > 40 ? x : width * Math.log1p(Math.exp(u));
};

/** Density above base at h. Rises smoothly from 0 to gamma·(head − foot). */
export function densityAbove(c: Characteristic, h: number): number {
  return c.gamma * (softplus(h - c.foot, c.toe) - softplus(h - c.head, c.shoulder));
}

/** Tables over h share this axis. */
export const H_LOW = -4;
export const H_HIGH = 5;
export const H_STEP = 1 / 128;
export const H_NODES = Math.round((H_HIGH - H_LOW) / H_STEP) + 1;

/** Linear interpolation in a table over h; held at its ends. */
export function atH(table: Float32Array, h: number): number {
  const u = (h - H_LOW) / H_STEP;
  if (!(u > 0)) return table[0];
  if (u >= H_NODES - 1) return table[H_NODES - 1];
  const i = u | 0;
  return table[i] + (u - i) * (table[i + 1] - table[i]);
}
