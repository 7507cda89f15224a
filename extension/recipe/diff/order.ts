/** What was moved between two orders of the same names. */

/** A name that was moved, and the one that it stands before now; null: it is the last. */
export interface OrderMove {
  readonly id: string;
  readonly before: string | null;
}

/**
 * The fewest moves that bring the names that both lists have from the first order into the second. Made one after the
 * other, each finds the name that it goes before in its place already. Takes time n log n.
 */
export function orderMoves(before: readonly string[], after: readonly string[]): OrderMove[] {
  const place = new Map(before.map((id, i) => [id, i]));
  const common = after.filter((id) => place.has(id));
  const kept = longestAscending(common.map((id) => place.get(id)!));
  return common
    .map((id, i): OrderMove => ({ id, before: common[i + 1] ?? null }))
    .filter((_, i) => !kept.has(i))
    .toReversed();
}

/** Places of the longest ascending choice of a list of different numbers. */
function longestAscending(values: readonly number[]): ReadonlySet<number> {
  /** For each length, the place of the smallest value that such a choice can end with. */
  const ends: number[] = [];
  const previous: (number | undefined)[] = [];
  for (const [i, value] of values.entries()) {
    let [low, high] = [0, ends.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (values[ends[middle]!]! < value) low = middle + 1;
      else high = middle;
    }
    previous[i] = ends[low - 1];
    ends[low] = i;
  }
  const chosen = new Set<number>();
  for (let at = ends.at(-1); at !== undefined; at = previous[at]) chosen.add(at);
  return chosen;
}
