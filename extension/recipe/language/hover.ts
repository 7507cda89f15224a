/** What is shown for the key or value under the pointer. */
import type { Origin } from "../resolve/cascade.ts";
import { describeKey } from "../schema/describe.ts";
import type { KeyDescription } from "../schema/key-description.ts";
import { pathText, type RecipePath } from "../path.ts";
import { markdown, markdownCode } from "../plain-text.ts";
import type { Value } from "../yaml/values.ts";
import { applying, behind, inheritedUnit, placed } from "./levels.ts";
import type { Reading } from "./document-cache.ts";
import type { Range, Say } from "./types.ts";
import { rangeIn } from "./types.ts";
import { defaultText, rangeText, shortValue } from "./values.ts";
import type { RecipeWorkspace } from "./workspace.ts";

/** What is said of the text at the pointer, in Markdown. */
export interface Hover {
  readonly contents: string;
  readonly range: Range;
}

/** Description, unit, range and default of the key at an offset, what applies there, and where that comes from. */
export function hover(reading: Reading, offset: number, workspace: RecipeWorkspace, t: Say): Hover | undefined {
  const { document } = reading;
  const { path, part } = document.pathAt(offset);
  if (part === "gap" || path.length === 0) return undefined;
  const about = describeKey(document.kind, path);
  const range = document.rangeOf(path, part === "key" ? "key" : "value");
  if (!about || !range || offset < range[0] || offset > range[1]) return undefined;
  const isFrame = path.length === 2 && path[0] === "frames";
  const lines = isFrame ? frameLines(reading, String(path[1]), t) : keyLines(path, about, t);
  const value = isFrame ? undefined : valueLine(reading, path, workspace, t);
  if (value) lines.push(value);
  return { contents: lines.join("\n\n"), range: rangeIn(document, range) };
}

function keyLines(path: RecipePath, about: KeyDescription, t: Say): string[] {
  const name = path.filter((step) => typeof step === "string").at(-1);
  const heading = typeof path.at(-1) === "number" ? `${name}[${path.at(-1)}]` : String(name);
  const lines = [`**${heading}**${about.unit ? ` · ${about.unit}` : ""}`];
  if (about.description) lines.push(about.description);
  return [...lines, ...limits(about, t)];
}

/** Range, allowed values and default, as they apply. */
export function limits(about: KeyDescription, t: Say): string[] {
  const parts: string[] = [];
  const range = rangeText(about);
  if (range) parts.push(t("Range: {0}", range));
  if (about.enum) parts.push(t("One of: {0}", about.enum.map((word) => `\`${word}\``).join(", ")));
  const fallback = defaultText(about);
  if (fallback !== undefined) parts.push(t("Default: {0}", about.defaultText ? fallback : `\`${fallback}\``));
  return parts.length > 0 ? [parts.join(" · ")] : [];
}

function valueLine(reading: Reading, path: RecipePath, workspace: RecipeWorkspace, t: Say): string | undefined {
  const place = placed(inheritedUnit(reading, path));
  const now = applying(reading, place);
  const isMapping = typeof now?.value === "object" && !Array.isArray(now.value);
  if (!now || isMapping) return undefined;
  const stated = reading.document.rangeOf([
    ...(place.frame === undefined ? [] : ["frames", place.frame]),
    ...place.own,
  ]);
  if (!stated) return t("Applies here: {0}, {1}", code(now.value), origin(now.origin, workspace, t));
  const other = behind(reading, place);
  return other && t("Replaces {0}, {1}", code(other.value), origin(other.origin, workspace, t));
}

const code = (value: Value): string => markdownCode(shortValue(value, 60));

/** "from the stock, northlight.stock.yaml:12" with a link. */
function origin(from: Origin, workspace: RecipeWorkspace, t: Say): string {
  if (from.level === "default") return t("the default");
  const file = from.file.slice(from.file.lastIndexOf("/") + 1);
  const at = { line: from.line - 1, character: from.column - 1 };
  const link = `[${markdown(file)}:${from.line}](${workspace.link(from.file, at)})`;
  return from.level === "stock"
    ? t("from the stock, {0}", link)
    : from.level === "roll"
      ? t("from the roll, {0}", link)
      : t("from the frame, {0}", link);
}

function frameLines({ document, resolved }: Reading, id: string, t: Say): string[] {
  const frame = resolved.frames.find((one) => one.id === id);
  const lines = [`**${t("Frame {0}", markdown(id))}**${frame?.title ? ` · ${markdown(frame.title)}` : ""}`];
  if (!frame) return lines;
  if (frame.scans.length > 0) lines.push(t("Scan: {0}", frame.scans.map((scan) => markdownCode(scan.name)).join(", ")));
  const own = statedLeaves(document.value, ["frames", id]).filter((path) =>
    ["light", "negative", "positive"].includes(String(path[2])),
  );
  if (own.length > 0)
    lines.push(t("Its own: {0}", own.map((path) => markdownCode(pathText(path.slice(2)))).join(", ")));
  if (frame.skip) lines.push(t("Skipped: no picture is written."));
  const { choice, rank } = frame;
  if (choice) lines.push(choice === "keep" ? t("Choice: keep") : t("Choice: reject"));
  if (rank) lines.push(t("Rank: {0} of 5", rank));
  if (frame.note) lines.push(`> ${frame.note.trim().split("\n").map(markdown).join("\\\n> ")}`);
  return lines;
}

/** Paths of every value below `path` that is no mapping. */
export function statedLeaves(root: Value | undefined, path: RecipePath): RecipePath[] {
  let value = root;
  for (const step of path) {
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, step)) return [];
    value = (value as Readonly<Record<string | number, Value>>)[step];
  }
  if (typeof value !== "object" || value === null || Array.isArray(value)) return [path];
  return Object.keys(value).flatMap((key) => statedLeaves(root, [...path, key]));
}
