/** The outline of a recipe. */
import type { RecipeDocument } from "../problems/document.ts";
import { describeKey } from "../schema/describe.ts";
import type { RecipePath } from "../path.ts";
import { type Entry, type Mapping, target } from "../yaml/ast.ts";
import { type Range, rangeIn } from "./types.ts";
import { child } from "./scans.ts";
import { shortValue } from "./values.ts";

/** One line of the outline. */
export interface Symbol {
  readonly name: string;
  readonly detail: string;
  readonly kind: "section" | "frame" | "value";
  /** All of it, and its name alone. */
  readonly range: Range;
  readonly selection: Range;
  readonly children: readonly Symbol[];
}

/** The outline: the recipe's keys, and every frame with what it states itself. Lists are not taken apart. */
export function symbols(document: RecipeDocument): Symbol[] {
  const root = document.ast && target(document.ast);
  return root?.kind === "mapping" ? ofMapping(document, root, []) : [];
}

function ofMapping(document: RecipeDocument, mapping: Mapping, path: RecipePath): Symbol[] {
  return mapping.entries
    .filter(({ key }) => key.end > key.start)
    .map((entry) => symbol(document, entry, [...path, entry.name]));
}

function symbol(document: RecipeDocument, { name, key, value }: Entry, path: RecipePath): Symbol {
  const isFrame = path.length === 2 && path[0] === "frames";
  const inner = target(value);
  const about = describeKey(document.kind, path);
  const opens = inner?.kind === "mapping" && value.kind !== "alias" && !about?.whole;
  const range = [key.start, Math.max(key.end, value.end)] as const;
  return {
    name: isFrame ? name : name || "…",
    detail: isFrame ? frameDetail(document, path) : detail(inner),
    kind: isFrame ? "frame" : inner?.kind === "mapping" ? "section" : "value",
    range: rangeIn(document, range),
    selection: rangeIn(document, [key.start, key.end]),
    children: opens ? ofMapping(document, inner, path) : [],
  };
}

function frameDetail({ value }: RecipeDocument, path: RecipePath): string {
  const frame = child(child(value, "frames"), path[1]);
  const title = child(frame, "title");
  const scan = child(frame, "scan") ?? child(frame, "scans");
  const what = typeof title === "string" ? title : Array.isArray(scan) ? scan.join(", ") : scan;
  return typeof what === "string" ? what : "";
}

function detail(value: ReturnType<typeof target>): string {
  if (value?.kind === "scalar") return value.value === null ? "" : shortValue(value.value).replace(/^"(.*)"$/, "$1");
  return value?.kind === "list" && value.items.length > 0 ? `${value.items.length} ×` : "";
}
