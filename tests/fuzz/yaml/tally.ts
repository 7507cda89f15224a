/** Plays a run of generated texts and counts what became of them. */
import { type Case, caseOf, checkEdits, checkFormat, type Outcome } from "./promises.ts";

export interface Tally {
  readonly counts: Readonly<Record<string, number>>;
  /** Broken promises, and refusals of ordinary texts; the shortest texts first. */
  readonly finds: readonly string[];
}

export function tally(
  what: "format" | "edits",
  count: number,
  first: number,
  only?: "ordinary",
  onProgress?: (done: number, finds: number) => void,
): Tally {
  const counts: Record<string, number> = {};
  const finds: { length: number; words: string }[] = [];
  for (let seed = first; seed < first + count; seed++) {
    const one = caseOf(seed, only);
    if ((seed - first) % 1000 === 999) onProgress?.(seed - first + 1, finds.length);
    const outcome = what === "format" ? checkFormat(one) : checkEdits(one);
    const name = `${profileOf(one)} ${outcome.kind}`;
    counts[name] = (counts[name] ?? 0) + 1;
    const words = findOf(outcome, one);
    if (words !== undefined)
      finds.push({ length: one.text.length, words: `seed ${seed}, ${profileOf(one)}: ${words}` });
  }
  return { counts, finds: finds.toSorted((a, b) => a.length - b.length).map(({ words }) => words) };
}

const profileOf = ({ manner }: Case): string => (manner.isOrdinary ? "ordinary" : manner.hasExtras ? "extras" : "wild");

function findOf(outcome: Outcome, { text, manner }: Case): string | undefined {
  if (outcome.kind === "broken")
    return `${outcome.what}\n${JSON.stringify(text)}\nbecame\n${JSON.stringify(outcome.after)}`;
  if (outcome.kind === "refused" && !manner.hasExtras)
    return `refused: ${outcome.why} ${JSON.stringify(outcome.edits ?? "")}\n${JSON.stringify(text)}`;
  return undefined;
}
