/** The paths and file names that a recipe states, with their places. */
import type { RecipeDocument } from "../problems/document.ts";
import { folderOf, joinPath, resolveInside } from "../paths.ts";
import type { RecipePath, TextRange } from "../path.ts";
import { CHANNEL_ORDER } from "../resolve/channels.ts";
import type { Value } from "../yaml/values.ts";
import type { RecipeWorkspace } from "./workspace.ts";

/** A path or file name that stands in a recipe, and where it leads. */
export interface PathValue {
  readonly path: RecipePath;
  /** The text, without quotes. */
  readonly text: string;
  /** The text's place, without quotes. */
  readonly range: TextRange;
  readonly kind: "stock" | "folder" | "scan" | "profile";
  /** Where it leads; undefined where it may not go. */
  readonly file?: string;
}

/** The folder that names of scans are relative to. */
export function scansFolder(document: RecipeDocument): string {
  const folder = child(document.value, "scans");
  return joinPath(folderOf(document.file), typeof folder === "string" ? folder : ".") ?? folderOf(document.file);
}

/** Every path that the recipe states, in no particular order. */
export function pathValues(document: RecipeDocument, workspace: RecipeWorkspace): PathValue[] {
  const found: PathValue[] = [];
  const roots = workspace.roots(document.file);
  const folder = scansFolder(document);
  const add = (path: RecipePath, kind: PathValue["kind"]) => {
    const text = path.reduce<Value | undefined>(child, document.value);
    const range = document.rangeOf(path, "value");
    if (typeof text !== "string" || text === "" || !range) return;
    const from = kind === "scan" ? `${folder}/-` : document.file;
    const file = resolveInside(roots, from, text).path;
    found.push({ path, text, range: bare(document.text, range), kind, file });
  };
  add(["stock"], "stock");
  if (document.kind === "roll") add(["scans"], "folder");
  const outputs = child(document.value, "output");
  if (Array.isArray(outputs)) for (const i of outputs.keys()) add(["output", i, "print", "profile"], "profile");
  const frames = child(document.value, "frames");
  const ids = document.kind === "roll" && isMapping(frames) ? Object.keys(frames) : [];
  for (const level of [[], ...ids.map((id) => ["frames", id])] as RecipePath[]) {
    add([...level, "light", "blank"], "scan");
    for (const channel of CHANNEL_ORDER) add([...level, "light", "blank", channel], "scan");
    add([...level, "negative", "base", "read", "scan"], "scan");
    if (level.length === 0) continue;
    add([...level, "scan"], "scan");
    for (const channel of CHANNEL_ORDER) add([...level, "channels", channel], "scan");
    for (const key of ["scans", "exposures"]) {
      const several = [...level, key].reduce<Value | undefined>(child, document.value);
      if (Array.isArray(several)) for (const i of several.keys()) add([...level, key, i], "scan");
    }
  }
  return found;
}

/** One step into a value. */
export function child(value: Value | undefined, part: string | number): Value | undefined {
  if (typeof value !== "object" || value === null) return undefined;
  return Object.hasOwn(value, part) ? (value as Readonly<Record<string | number, Value>>)[part] : undefined;
}

export const isMapping = (value: Value | undefined): value is Readonly<Record<string, Value>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** A text's range without its quotes. */
export function bare(text: string, [start, end]: TextRange): TextRange {
  const quote = text[start];
  return (quote === '"' || quote === "'") && end - start > 1 && text[end - 1] === quote
    ? [start + 1, end - 1]
    : [start, end];
}
