/** Go to definition: from a path to its file, from a value to where it is inherited from. */
import { applying, behind, inheritedUnit, placed } from "./levels.ts";
import type { Reading, DocumentCache } from "./document-cache.ts";
import { pathValues } from "./scans.ts";
import { fileStart, type Location, type Range, rangeIn } from "./types.ts";
import type { RecipeWorkspace } from "./workspace.ts";

/** Where a text leads: the whole text that is underlined, and its target. */
export interface Definition extends Location {
  readonly from: Range;
}

/** The file that a path names; of a value, the place that it replaces; of a key that is not stated as a value, where it comes from. */
export async function definition(
  reading: Reading,
  offset: number,
  workspace: RecipeWorkspace,
  documents: DocumentCache,
): Promise<Definition | undefined> {
  const { document } = reading;
  const named = pathValues(document, workspace).find(({ range }) => offset >= range[0] && offset <= range[1]);
  if (named?.file && named.kind !== "folder" && (await workspace.exists(named.file)))
    return { from: rangeIn(document, named.range), file: named.file, range: fileStart };

  const at = document.pathAt(offset);
  if (at.part === "gap" || at.path.length === 0) return undefined;
  const path = inheritedUnit(reading, at.path);
  const from = document.rangeOf(path, at.part === "key" ? "key" : "value");
  if (!from) return undefined;
  const place = placed(path);
  const now = applying(reading, place)?.origin;
  const isHere =
    now !== undefined &&
    now.level !== "default" &&
    now.file === document.file &&
    now.range[0] === document.rangeOf(path)?.[0];
  const target = isHere || !now ? behind(reading, place)?.origin : now;
  if (!target || target.level === "default") return undefined;
  const other = target.file === document.file ? document : await documents.file(target.file);
  return other && { from: rangeIn(document, from), file: target.file, range: rangeIn(other, target.range) };
}
