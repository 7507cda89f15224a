/** Order statistics of small sets. */

/** The value below which the part `p` (0 … 1) of the values lies; NaN for none. Does not change its argument. */
export function quantile(values: ArrayLike<number>, p: number): number {
  const sorted = new Float64Array(values).sort();
  if (sorted.length === 0) return NaN;
  const at = p * (sorted.length - 1);
  const low = Math.floor(at);
  const high = Math.min(sorted.length - 1, low + 1);
  return sorted[low] + (at - low) * (sorted[high] - sorted[low]);
}

export const median = (values: ArrayLike<number>): number => quantile(values, 0.5);

export const mean = (values: ArrayLike<number>): number => {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i];
  return sum / values.length;
};

/** Robust standard deviation: 1.4826 × the median distance from the median (for a normal law the standard deviation). */
export function deviation(values: ArrayLike<number>): number {
  const middle = median(values);
  const away = new Float64Array(values.length);
  for (let i = 0; i < away.length; i++) away[i] = Math.abs(values[i] - middle);
  return 1.4826 * median(away);
}
