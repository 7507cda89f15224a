/** Plays a run of generated texts and counts what became of them. */
import { type Case, caseOf, checkEdits, checkFormat, checkMoves, type Outcome } from "./promises.ts";

export interface Tally {
  readonly counts: Readonly<Record<string, number>>;
  /** Broken promises, and refusals of ordinary texts; the shortest texts first. */
  readonly finds: readonly string[];
}

const CHECKS = { format: checkFormat, edits: checkEdits, moves: checkMoves };

export function tally(
  what: "format" | "edits" | "moves",
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
    const outcome = CHECKS[what](one);
    const name = `${profileOf(one)} ${outcome.kind}`;
    counts[name] = (counts[name] ?? 0) + 1;
    const words = findOf(outcome, one, what === "moves");
    if (words !== undefined)
      finds.push({ length: one.text.length, words: `seed ${seed}, ${profileOf(one)}: ${words}` });
  }
  return { counts, finds: finds.toSorted((a, b) => a.length - b.length).map(({ words }) => words) };
}

const profileOf = ({ manner }: Case): string => (manner.isOrdinary ? "ordinary" : manner.hasExtras ? "extras" : "wild");

function findOf(outcome: Outcome, { text, manner }: Case, mayRefuse: boolean): string | undefined {
  if (outcome.kind === "broken")
    return `${outcome.what}\n${JSON.stringify(text)}\nbecame\n${JSON.stringify(outcome.after)}`;
  // A part is moved as it stands or not at all: the test bounds how often not.
  if (outcome.kind === "refused" && !mayRefuse && !manner.hasExtras)
    return `refused: ${outcome.why} ${JSON.stringify(outcome.edits ?? "")}\n${JSON.stringify(text)}`;
  return undefined;
}
