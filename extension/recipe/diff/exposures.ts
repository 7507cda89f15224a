/** Tells of a frame that is merged from several exposures, or no longer, as one change. */
import type { ResolvedFrame } from "../resolve/resolve.ts";
import type { Change } from "./change.ts";

const KEYS: ReadonlySet<unknown> = new Set(["scan", "scans", "exposures"]);

const COUNTS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"] as const;

/** "three scans", and from ten on in figures. */
const scanCount = (count: number): string => `${COUNTS[count] ?? count} scan${count === 1 ? "" : "s"}`;

/** The changes of a frame, those of its scans as one where it is merged before or after. */
export function withExposures(changes: readonly Change[], before: ResolvedFrame, after: ResolvedFrame): Change[] {
  const own = changes.filter(({ path }) => path.length === 1 && KEYS.has(path[0]));
  const [first] = own;
  if (!first || !(before.merged || after.merged)) return [...changes];
  const rest = changes.filter((change) => !own.includes(change));
  const [was, is] = [before, after].map(({ scans }) => scans.map(({ name }) => name)) as [string[], string[]];
  const names = is.join(", ");
  const text =
    was.length === is.length
      ? `exposures: ${names} instead of ${was.join(", ")}`
      : `exposures: ${scanCount(is.length)} instead of ${COUNTS[was.length] ?? was.length} (${names})`;
  const change: Change = {
    ...first,
    path: ["exposures"],
    name: "exposures",
    kind: "changed",
    before: { value: was, shown: scanCount(was.length) },
    after: { value: is, shown: scanCount(is.length) },
    text,
    sources: own.flatMap(({ sources }) => sources),
  };
  return [change, ...rest];
}
