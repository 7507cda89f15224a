/** Inlay hints: what a value replaces, and the inherited values of a section. */
import type { Origin } from "../resolve/cascade.ts";
import { describeKey } from "../schema/describe.ts";
import { pathText, type RecipePath } from "../path.ts";
import { type Entry, type Mapping, target, type AstNode } from "../yaml/ast.ts";
import { applying, behind, isCascading, isShared, placed } from "./levels.ts";
import type { Reading } from "./document-cache.ts";
import { type Place, placeIn, type Say } from "./types.ts";
import type { Value } from "../yaml/values.ts";
import { sameValue, shortValue, valueText } from "./values.ts";

/** A remark shown within a line, not part of the text. */
export interface Inlay {
  readonly at: Place;
  readonly label: string;
  readonly tooltip: string;
  /** Where the value is stated, unless it is a default. */
  readonly origin?: Exclude<Origin, { level: "default" }>;
}

/** How many inherited values of one section are shown. */
const maxInlays = 3;

/**
 * Behind a value: what it replaces. Behind the head of a section: the values in it that are inherited. Only values that
 * some file states are shown, never defaults, and only for the lines asked for.
 * @param lines first and last line, counted from 0
 */
export function inlays(reading: Reading, [first, last]: readonly [number, number], t: Say): Inlay[] {
  const { document } = reading;
  const root = document.ast && target(document.ast);
  if (root?.kind !== "mapping") return [];
  const found: Inlay[] = [];
  const lineOf = (offset: number) => document.positionOf(offset).line - 1;
  const walk = (mapping: Mapping, path: RecipePath): void => {
    for (const entry of mapping.entries) {
      if (lineOf(entry.value.end) < first) continue;
      if (lineOf(entry.key.start) > last) break;
      const here = [...path, entry.name];
      const own = placed(here).own;
      const isFrame = here[0] === "frames";
      const inner = target(entry.value);
      const about = describeKey(document.kind, here);
      if (inner?.kind === "mapping" && !about?.whole) {
        const isBlock = !inner.flow && entry.value.kind !== "alias";
        if (isBlock && own.length > 0 && (isFrame ? isShared(own) : isCascading(own))) {
          const inlay = inherited(reading, entry, here, t);
          if (inlay) found.push(inlay);
        }
        if (isBlock || onOneLine(document.text, entry.value)) walk(inner, here);
      } else if (about && !about.whole && own.length > 1) {
        const inlay = replacing(reading, entry, here, t);
        if (inlay) found.push(inlay);
      }
    }
  };
  walk(root, []);
  return found.filter(({ at }) => at.line >= first && at.line <= last);
}

const onOneLine = (text: string, { start, end }: AstNode): boolean => !text.slice(start, end).includes("\n");

function replacing(reading: Reading, { value }: Entry, path: RecipePath, t: Say): Inlay | undefined {
  const place = placed(path);
  const other = behind(reading, place);
  const now = applying(reading, place);
  if (!other || other.origin.level === "default" || !now || sameValue(other.value, now.value)) return undefined;
  if (typeof other.value === "object" && JSON.stringify(other.value).length > 40) return undefined;
  return {
    at: placeIn(reading.document, value.end),
    label: t("instead of {0}", shortValue(other.value, 24)),
    tooltip: tooltip(other.origin, t),
    origin: other.origin,
  };
}

function inherited(reading: Reading, { name, key, value }: Entry, path: RecipePath, t: Say): Inlay | undefined {
  const place = placed(path);
  const keys = describeKey(reading.document.kind, path)?.keys ?? [];
  const own = new Set(value.kind === "mapping" ? value.entries.map((entry) => entry.name) : []);
  const shown = keys
    .filter((inner) => !own.has(inner))
    .flatMap((inner) => {
      const found = applying(reading, { ...place, own: [...place.own, inner] });
      return found && found.origin.level !== "default" ? [{ inner, ...found, origin: found.origin }] : [];
    });
  if (shown.length === 0) return undefined;
  const words = shown.slice(0, maxInlays).map((one) => inlayText(one.inner, one.value));
  const rest = shown.length > maxInlays ? " …" : "";
  const all = shown.map(
    ({ inner, value: whole, origin }) => `${pathText([name, inner])}: ${shortValue(whole, 80)} (${tooltip(origin, t)})`,
  );
  return {
    at: placeIn(reading.document, key.end + 1),
    label: words.join(", ") + rest,
    tooltip: all.join("\n"),
    origin: shown[0]!.origin,
  };
}

function tooltip(origin: Origin, t: Say): string {
  if (origin.level === "default") return t("the default");
  const file = origin.file.slice(origin.file.lastIndexOf("/") + 1);
  return t("stated in {0}", `${file}:${origin.line}`);
}

/** "contrast 1.5", of a mapping "magenta 4, yellow 7"; of what is too long the name alone. */
function inlayText(name: string, value: Value): string {
  if (typeof value === "object" && value !== null && !Array.isArray(value)) {
    const inner = Object.entries(value as Readonly<Record<string, Value>>).map(([key, one]) => inlayText(key, one));
    return inner.length > maxInlays ? `${name} …` : inner.join(", ");
  }
  const text = valueText(value);
  return `${name} ${text.length > 24 ? "…" : text}`;
}
