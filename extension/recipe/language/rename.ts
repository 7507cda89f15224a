/** Renames a frame. */
import { describeKey } from "../schema/describe.ts";
import type { RecipeDocument } from "../problems/document.ts";
import { child, isMapping, bare } from "./scans.ts";
import { changes, fileEdits } from "./edits.ts";
import { type FileEdits, type Range, rangeIn, type Say } from "./types.ts";

/** The frame id at an offset, without its quotes; undefined where none is. */
export function renameable(document: RecipeDocument, offset: number): { id: string; range: Range } | undefined {
  const { path, part } = document.pathAt(offset);
  const range = document.rangeOf(path, "key");
  if (document.kind !== "roll" || path.length !== 2 || path[0] !== "frames" || part !== "key" || !range)
    return undefined;
  return { id: String(path[1]), range: rangeIn(document, bare(document.text, range)) };
}

/** Gives a frame another id. A sentence tells why where that cannot be done. */
export function rename(
  document: RecipeDocument,
  offset: number,
  name: string,
  t: Say,
): FileEdits | { readonly problem: string } {
  const found = renameable(document, offset);
  if (!found) return { problem: t("Only the id of a frame can be renamed.") };
  const id = name.trim().replace(/^(["'])(.*)\1$/, "$2");
  const pattern = describeKey("roll", ["frames"])?.keyPattern;
  if (pattern && !new RegExp(pattern).test(id))
    return {
      problem: t(
        '{0} is not a frame id: up to three digits and at most one capital letter, as in "07" or "12A".',
        JSON.stringify(name),
      ),
    };
  const frames = child(document.value, "frames");
  if (id !== found.id && isMapping(frames) && Object.hasOwn(frames, id))
    return { problem: t("There is a frame {0} already.", id) };
  const made = changes(document, [{ path: ["frames", found.id], rename: id }]);
  if (!made && id !== found.id) return { problem: t("The recipe cannot be edited while it is not valid YAML.") };
  return fileEdits(document, made ?? []);
}
