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

/** A published characteristic: densities above base at ascending h. */
export interface TabledCharacteristic {
  /** Slope of the straight part, density per decade of exposure. */
  readonly gamma: number;
  readonly h: readonly number[];
  readonly density: readonly number[];
}

/** Straight lines between the table's points; the table's last slope goes on at six tenths of gamma at most. */
function tabledDensity({ gamma, h: at, density }: TabledCharacteristic, h: number): number {
  if (h <= at[0]) return density[0];
  const last = at.length - 1;
  if (h >= at[last]) return density[last] + 0.6 * gamma * (h - at[last]);
  let i = 1;
  while (at[i] < h) i++;
  return density[i - 1] + ((h - at[i - 1]) / (at[i] - at[i - 1])) * (density[i] - density[i - 1]);
}

/** Density above base at h. Rises smoothly from 0 to gamma·(head − foot), or follows the table. */
export function densityAbove(c: Characteristic | TabledCharacteristic, h: number): number {
  if ("h" in c) return tabledDensity(c, h);
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
