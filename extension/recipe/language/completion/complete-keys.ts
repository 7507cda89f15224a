/** Completions of keys. */
import { describeKey } from "../../schema/describe.ts";
import type { KeyDescription } from "../../schema/key-description.ts";
import type { RecipeKind, RecipePath } from "../../path.ts";
import type { Completion, CompletionPlace } from "./completion.ts";
import type { WritingContext } from "./context.ts";
import { limits } from "../hover.ts";
import { mayBeScanName } from "../../scan-names.ts";
import { blanksOf } from "../../resolve/channels.ts";
import { scansFolder } from "../scans.ts";
import type { Say } from "../types.ts";
import { shortValue, valueText } from "../values.ts";

/** The keys that the mapping at the caret may have and does not have yet, in canonical order. */
export async function keyCompletions(context: WritingContext, place: CompletionPlace): Promise<Completion[]> {
  const { kind } = place.reading.document;
  const about = describeKey(kind, context.path);
  if (about?.keyPattern && context.path[0] === "frames") return [await nextFrame(context, place)];
  return (about?.keys ?? [])
    .filter((key) => !context.present.includes(key))
    .map((key, i) => {
      const path = [...context.path, key];
      const inner = describeKey(kind, path) ?? { type: "string" };
      return {
        label: key,
        kind: inner.keys || inner.keyPattern ? ("section" as const) : ("key" as const),
        detail: inner.unit ?? (inner.required ? place.t("required") : undefined),
        documentation: documentation(inner, place.t),
        snippet: context.hasColon ? key : keySnippet(kind, path, inner, context.flow),
        range: place.range,
        sort: String(i).padStart(3, "0"),
        again: !context.hasColon && asksForValue(inner),
      };
    });
}

export function documentation(about: KeyDescription, t: Say): string | undefined {
  const lines = [...(about.description ? [about.description] : []), ...limits(about, t)];
  return lines.length > 0 ? lines.join("\n\n") : undefined;
}

const asksForValue = (about: KeyDescription): boolean =>
  about.enum !== undefined || about.isPath === true || [about.type].flat().includes("boolean");

/** A key with its colon and a place for its value, laid out as the canonical format lays it out. */
function keySnippet(kind: RecipeKind, path: RecipePath, about: KeyDescription, flow: boolean): string {
  const key = String(path.at(-1));
  if (asksForValue(about)) return `${key}: $0`;
  const example = about.examples?.[0];
  const isMapping = about.keys !== undefined || about.keyPattern !== undefined;
  if (isMapping && about.layout !== "flow") return flow ? `${key}: { $0 }` : `${key}:\n  $0`;
  if (isMapping) return `${key}: ${flowSnippet(kind, path, about)}`;
  if ([about.type].flat().includes("array") && typeof example === "string") return `${key}: ${placeholders(example)}`;
  if (isBlock(example)) return flow ? `${key}: { $0 }` : `${key}:\n  ${placeholders(example).replaceAll("\n", "\n  ")}`;
  const value = about.default ?? example;
  return value === undefined
    ? `${key}: $0`
    : `${key}: \${1:${escaped(typeof example === "string" && about.default === undefined ? example : valueText(value))}}`;
}

/** An example that takes several lines: it cannot stand on the line of its key. */
export const isBlock = (example: unknown): example is string => typeof example === "string" && example.includes("\n");

/** { left: 0, top: 0, … }: every key with its default or example; only the required ones where there are many. */
function flowSnippet(kind: RecipeKind, path: RecipePath, about: KeyDescription): string {
  const example = about.examples?.[0];
  if (typeof example === "string") return placeholders(example);
  const keys = about.requiredKeys?.length ? about.requiredKeys : (about.keys ?? []).slice(0, 5);
  const parts = keys.map((key, i) => {
    const inner = describeKey(kind, [...path, key]);
    return `${key}: \${${i + 1}:${escaped(valueText(inner?.default ?? inner?.examples?.[0] ?? inner?.enum?.[0] ?? 0))}}`;
  });
  return `{ ${parts.join(", ")} }`;
}

/** Every number and every word behind a colon becomes a place to stop at. */
export function placeholders(example: string): string {
  let stop = 0;
  return escaped(example).replaceAll(
    /(?<=[[\s,])-?\d+(?:\.\d+)?(?=[\],\s]|\\})|(?<=: )[^\s[{,][^,{[\]\\]*(?=,|\s*\\}|$)/g,
    (value) => {
      const text = value.trimEnd();
      return `\${${++stop}:${text}}${value.slice(text.length)}`;
    },
  );
}

const escaped = (text: string): string => text.replaceAll(/[$}\\]/g, "\\$&");

/** The frame after the last, with the next scan that no frame uses. */
async function nextFrame(
  context: WritingContext,
  { reading, range, workspace, t }: CompletionPlace,
): Promise<Completion> {
  const numbers = context.present.map((id) => Number.parseInt(id, 10)).filter((number) => !Number.isNaN(number));
  const id = String(Math.min(numbers.length > 0 ? Math.max(...numbers) + 1 : 1, 999)).padStart(2, "0");
  const used = new Set(reading.resolved.frames.flatMap((frame) => frame.scans.map((scan) => scan.name)));
  const names = ((await workspace.list(scansFolder(reading.document))) ?? []).filter(mayBeScanName).toSorted();
  const last = names.findLastIndex((name) => used.has(name));
  const blanks = blanksOf(reading.resolved.shared.light).map(({ name }) => name);
  const base = reading.resolved.shared.base.read?.scan.name;
  const scan = names.slice(last + 1).find((name) => !blanks.includes(name) && name !== base) ?? "";
  const head = `"\${1:${id}}":`;
  return {
    label: `"${id}"`,
    kind: "frame",
    detail: scan ? shortValue(scan) : t("the next frame"),
    documentation: describeKey("roll", ["frames"])?.description,
    snippet: context.hasColon
      ? `"${id}"`
      : context.flow
        ? `${head} { scan: \${2:${escaped(scan)}} }`
        : `${head}\n  scan: \${2:${escaped(scan)}}$0`,
    range,
    sort: "000",
  };
}
