/** Finds files that were given another name, by what is in them. */

/** Texts that share less than this part of their lines are different files. */
const minSimilarity = 0.5;

/**
 * For each new file, the one that it was before: the same text first, then the most alike, one for each. Files of other
 * endings are never the same.
 */
export function findRenames(
  gone: ReadonlyMap<string, string>,
  added: ReadonlyMap<string, string>,
): Map<string, string> {
  const likely = [...added].flatMap(([file, text]) =>
    [...gone]
      .filter(([old]) => endingOf(old) === endingOf(file))
      .map(([old, was]) => ({ file, old, score: text === was ? 1.1 : similarity(text, was) })),
  );
  const renames = new Map<string, string>();
  const used = new Set<string>();
  for (const { file, old, score } of likely.toSorted((a, b) => b.score - a.score)) {
    if (score < minSimilarity || renames.has(file) || used.has(old)) continue;
    renames.set(file, old);
    used.add(old);
  }
  return renames;
}

/** The part of their lines that two texts share, 0 … 1; blank lines do not count. */
function similarity(a: string, b: string): number {
  const [left, right] = [countLines(a), countLines(b)];
  let shared = 0;
  for (const [line, count] of left) shared += Math.min(count, right.get(line) ?? 0);
  const all = (lines: ReadonlyMap<string, number>): number => [...lines.values()].reduce((sum, n) => sum + n, 0);
  const longer = Math.max(all(left), all(right));
  return longer === 0 ? 1 : shared / longer;
}

function countLines(text: string): Map<string, number> {
  const lines = new Map<string, number>();
  for (const line of text.split(/\r?\n/)) {
    const key = line.trim();
    if (key !== "") lines.set(key, (lines.get(key) ?? 0) + 1);
  }
  return lines;
}

const endingOf = (file: string): string => /\.(roll|stock)\.ya?ml$/i.exec(file)?.[1]?.toLowerCase() ?? "";
