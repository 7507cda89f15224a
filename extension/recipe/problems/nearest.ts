/** Edits between two words: letters added, left out, changed, or swapped with their neighbour (Damerau–Levenshtein, optimal string alignment). */
export function distance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = last[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      row[j] = Math.min(last[j]! + 1, row[j - 1]! + 1, change);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        row[j] = Math.min(row[j]!, before[j - 2]! + 1);
    }
    before = last;
    last = row;
  }
  return last[b.length]!;
}

/** The word that was probably meant: at most a third of its letters wrong, capitals and separators ignored. */
export function nearest<T extends string | number>(word: string, allowed: readonly T[]): T | undefined {
  const plain = (text: string) => text.toLowerCase().replaceAll(/[\s_-]/g, "");
  if (word.length > 64) return undefined;
  const mine = plain(word);
  let best: T | undefined;
  let minCost = Infinity;
  for (const candidate of allowed) {
    const theirs = plain(String(candidate));
    const steps = distance(mine, theirs);
    const limit = Math.max(1, Math.floor(Math.max(mine.length, theirs.length) / 3));
    const startsWith = mine.length >= 3 && theirs.startsWith(mine);
    const cost = startsWith ? Math.min(steps, 1.5) : steps;
    if ((steps <= limit || startsWith) && cost < minCost) {
      best = candidate;
      minCost = cost;
    }
  }
  // A word of one or two letters is near to everything.
  return best !== undefined && (mine.length > 2 || minCost <= 1) && minCost < Math.max(mine.length, 1)
    ? best
    : undefined;
}
