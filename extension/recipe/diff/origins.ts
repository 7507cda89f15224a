/** Names the source of a changed value: stock, roll or frame. */
import type { Origin } from "../resolve/cascade.ts";

/** Whose value it is, for a change of a frame, a roll or a stock. */
export type Subject = "frame" | "roll" | "stock";

/** Where a value comes from, in words; undefined for what a subject states itself before and after. */
export function originText(
  subject: Subject,
  before: Origin | undefined,
  after: Origin | undefined,
): string | undefined {
  const [was, is] = [phrase(subject, before), phrase(subject, after)];
  if (was === is || was === undefined || is === undefined) {
    const only = is ?? was;
    return only === OWN ? undefined : only;
  }
  return `${is}; was ${was}`;
}

/** The same, to be put behind a sentence. */
export const inBrackets = (words: string | undefined): string => (words === undefined ? "" : ` (${words})`);

const OWN = "own value";

function phrase(subject: Subject, origin: Origin | undefined): string | undefined {
  if (!origin) return undefined;
  if (origin.level === "default") return "the default";
  return origin.level === subject ? OWN : `from the ${origin.level}`;
}
