/** Limits of a recipe's text: its length, and what the YAML reader would need too long for. */
import { type Problem, problem } from "../problems.ts";
import { badByteIn } from "./encoding.ts";

/** The largest recipe that is read, in UTF-16 units. */
export const maximumLength = 2_000_000;

/**
 * The YAML reader takes 3 to 10 µs for each line, quote, bracket, comma, escape, anchor, alias and tag, and next to
 * nothing for the letters between them. So many of them take about a second; 3,000 adjusted frames have fewer.
 */
const maximumMarks = 120_000;

/** Open brackets, or dashes in a row, beyond which a text is not read: the YAML reader's time grows with depth. */
const maximumNesting = 200;

/** Why a text is not even read, found by looking at it once; undefined for a text worth reading. */
export function limitProblem(text: string): Problem | undefined {
  return tooLarge(text) ?? notUtf8(text) ?? conflict(text) ?? tooDeep(text) ?? tooManyMarks(text);
}

function tooLarge(text: string): Problem | undefined {
  if (text.length <= maximumLength) return undefined;
  const size = (text.length / 1e6).toFixed(1);
  return problem(
    "too-large",
    [0, 1],
    [],
    `The recipe has ${size} million characters; at most 2 million are read. Split the roll, or check that this is a recipe at all.`,
  );
}

/** Read as it is, a text of another encoding would lose its letters when it is written. */
function notUtf8(text: string): Problem | undefined {
  const bad = badByteIn(text);
  if (!bad) return undefined;
  const what =
    bad.byte === 0xff
      ? "A letter here could not be read as UTF-8, or was lost when the file was saved"
      : `The byte ${bad.byte.toString(16).toUpperCase()} here is not UTF-8`;
  const fix = "Reopen the file with its own encoding in your editor, or rewrite the letter, and save it as UTF-8";
  return problem("not-utf8", [bad.at, bad.at + 1], [], `${what}. ${fix}; until then nothing is read or changed.`);
}

/** Conflict markers are found before reading, where they would only give noise. */
function conflict(text: string): Problem | undefined {
  const marker = /^<{7}.*$/m.exec(text);
  if (!marker) return undefined;
  const end = marker.index + marker[0].trimEnd().length;
  return problem(
    "conflict-markers",
    [marker.index, end],
    [],
    "The file holds an unresolved merge conflict. Keep one side, and remove the lines that begin with <<<<<<<, ======= and >>>>>>>.",
  );
}

/** Counts brackets without looking at quotes and comments: no remark has hundreds of brackets left open. */
function tooDeep(text: string): Problem | undefined {
  let open = 0;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 0x5b || code === 0x7b) {
      if (++open > maximumNesting) return deep(at);
    } else if ((code === 0x5d || code === 0x7d) && open > 0) open--;
  }
  const dashes = new RegExp(`^ *(?:[-?:][ \\t]+){${maximumNesting}}`, "m").exec(text);
  return dashes ? deep(dashes.index + dashes[0].trimEnd().length - 1) : undefined;
}

/** Counts without looking at quotes and comments, too: a bracket, whose reader's complaint costs most, counts twice. */
function tooManyMarks(text: string): Problem | undefined {
  let marks = 0;
  for (let at = 0; at < text.length; at++) {
    marks += WEIGHTS[text.charCodeAt(at)] ?? 0;
    if (marks > maximumMarks)
      return problem(
        "too-large",
        [0, 1],
        [],
        `The recipe has more than ${maximumMarks} lines, quotes, brackets and commas; so long a text is not read. Split the roll, or check that this is a recipe at all.`,
      );
  }
  return undefined;
}

const WEIGHTS = new Uint8Array(128);
for (const mark of "\n\r\"'\\,&*!%?") WEIGHTS[mark.charCodeAt(0)] = 1;
for (const mark of "[]{}") WEIGHTS[mark.charCodeAt(0)] = 2;

/** What a stack that ran out means, or a count of brackets. */
export const deep = (at: number): Problem =>
  problem(
    "too-deep",
    [at, at + 1],
    [],
    "Values are nested hundreds of levels deep here. Nothing in a recipe needs more than six; is a bracket left open?",
  );
