/** Order statistics of small sets. */

/** The value below which the part `p` (0 … 1) of the values lies; NaN for none. Does not change its argument. */
export function quantile(values: ArrayLike<number>, p: number): number {
  if (values.length === 0) return NaN;
  const copy = new Float64Array(values);
  const at = p * (copy.length - 1);
  const low = Math.floor(at);
  const below = select(copy, low);
  if (at === low) return below;
  let above = Infinity;
  for (let i = low + 1; i < copy.length; i++) if (copy[i] < above) above = copy[i];
  return below + (at - low) * (above - below);
}

/** The value of a rank, 0 the least, by Hoare's selection: those of lower ranks are moved before it, higher ones after. */
function select(values: Float64Array, rank: number): number {
  let [first, last] = [0, values.length - 1];
  while (first < last) {
    const pivot = values[rank];
    let [i, j] = [first, last];
    while (i <= j) {
      while (values[i] < pivot) i++;
      while (values[j] > pivot) j--;
      if (i > j) break;
      const held = values[i];
      values[i++] = values[j];
      values[j--] = held;
    }
    if (j < rank) first = i;
    if (rank < i) last = j;
  }
  return values[rank];
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
