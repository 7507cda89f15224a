/** Tells of a frame that is merged or joined from several scans, or no longer, as one change. */
import type { ResolvedFrame } from "../resolve/resolve.ts";
import type { Change } from "./change.ts";

const KEYS: ReadonlySet<unknown> = new Set(["scan", "scans", "exposures", "channels"]);

const COUNTS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"] as const;

/** "three scans", and from ten on in figures. */
const scanCount = (count: number): string => `${COUNTS[count] ?? count} scan${count === 1 ? "" : "s"}`;

/** The changes of a frame, those of its scans as one where it is merged or joined before or after. */
export function withExposures(changes: readonly Change[], before: ResolvedFrame, after: ResolvedFrame): Change[] {
  const own = changes.filter(({ path }) => path.length === 1 && KEYS.has(path[0]));
  const [first] = own;
  const isMerged = before.merged ?? after.merged ?? false;
  if (!first || !(isMerged || before.scans.length > 1 || after.scans.length > 1)) return [...changes];
  const rest = changes.filter((change) => !own.includes(change));
  const [was, is] = [before, after].map(namesOf) as [string[], string[]];
  const names = is.join(", ");
  const inColours = before.channels || after.channels;
  const [key, name] = inColours
    ? ["channels", "three-colour light"]
    : isMerged
      ? ["exposures", "exposures"]
      : ["scans", after.scans.length > 1 ? "joined from" : "no longer joined"];
  const counted =
    was.length === is.length && before.channels === after.channels
      ? `${names} instead of ${was.join(", ")}`
      : `${countText(after, before)} instead of ${countText(before, after, true)} (${names})`;
  const change: Change = {
    ...first,
    path: [key!],
    name: isMerged ? name! : "scans",
    kind: "changed",
    before: { value: was, shown: scanCount(was.length) },
    after: { value: is, shown: scanCount(is.length) },
    text: name === "joined from" ? `${name} ${counted}` : `${name}: ${counted}`,
    sources: own.flatMap(({ sources }) => sources),
  };
  return [change, ...rest];
}

/** Names of a frame's scans in the order of the text: red, green, blue. */
function namesOf({ scans, channels }: ResolvedFrame): string[] {
  const names = scans.map(({ name }) => name);
  const [green, red, blue] = names;
  return channels ? [red!, green!, blue!] : names;
}

/** "three scans", "three exposures" where only their meaning differs; the number alone where the word stands before. */
function countText({ scans, channels, merged }: ResolvedFrame, other: ResolvedFrame, short = false): string {
  const count = COUNTS[scans.length] ?? String(scans.length);
  if (scans.length === other.scans.length) return `${count} ${channels ? "lights" : merged ? "exposures" : "parts"}`;
  return short ? count : scanCount(scans.length);
}
