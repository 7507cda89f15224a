/** What the language features ask of the files around a recipe. */
import type { RecipeKind } from "../path.ts";
import type { RecipeFiles } from "../resolve/workspace.ts";
import type { Place } from "./types.ts";

/**
 * All that the language features need to know of the world. Paths have the form of the recipe's own: absolute, with /.
 * `read` gives the text as the editor has it, unsaved changes included; `list` puts a / behind the names of folders.
 */
export interface RecipeWorkspace extends Omit<RecipeFiles, "roots"> {
  /** Folders that paths in this recipe may lead into. */
  roots(file: string): readonly string[];
  /** Every recipe of a kind in the workspace. */
  find(kind: RecipeKind): Promise<readonly string[]>;
  /** An address that opens a file in the editor, for links in hovers. */
  link(file: string, at?: Place): string;
}
