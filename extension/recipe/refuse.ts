import { type Problem, problem } from "./problems.ts";

/** The largest recipe that is read, in UTF-16 units: some 10,000 frames. */
export const maximumLength = 2_000_000;

/** Open brackets, or dashes in a row, beyond which a text is not read: the YAML reader's time grows with depth. */
const maximumNesting = 200;

/** Why a text is not even read, found by looking at it once; undefined for a text worth reading. */
export function refusal(text: string): Problem | undefined {
  return tooLarge(text) ?? conflict(text) ?? tooDeep(text);
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

/** Conflict markers are found before reading, where they would only give noise. */
function conflict(text: string): Problem | undefined {
  const marker = /^<{7}.*$/m.exec(text);
  if (!marker) return undefined;
  const end = marker.index + marker[0].trimEnd().length;
  return problem(
    "conflict-markers",
    [marker.index, end],
    [],
    "The file holds an unsolved merge conflict. Keep one side, and remove the lines that begin with <<<<<<<, ======= and >>>>>>>.",
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

/** What a stack that ran out means, or a count of brackets. */
export const deep = (at: number): Problem =>
  problem(
    "too-deep",
    [at, at + 1],
    [],
    "Values are nested hundreds of levels deep here. Nothing in a recipe needs more than six; is a bracket left open?",
  );
