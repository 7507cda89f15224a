/** The files that a recipe names, as links. */
import type { RecipeDocument } from "../problems/document.ts";
import { pathValues } from "./scans.ts";
import { type Range, rangeIn } from "./types.ts";
import type { RecipeWorkspace } from "./workspace.ts";

export interface Link {
  readonly range: Range;
  readonly file: string;
  readonly kind: "stock" | "scan" | "profile";
}

/** The files that a recipe names, to be opened from its text. Whether they are there is for whoever opens them. */
export function links(document: RecipeDocument, workspace: RecipeWorkspace): Link[] {
  return pathValues(document, workspace).flatMap(({ range, file, kind }) =>
    file === undefined || kind === "folder" ? [] : [{ range: rangeIn(document, range), file, kind }],
  );
}
