/** Recipe texts of a revision, read as if they were files. */
import type { RecipeFiles } from "../../recipe/resolve/workspace.ts";

/** The recipes of one state of a repository as files that a roll can be loaded from. Scans are not looked for. */
export const recipesAsFiles = (texts: ReadonlyMap<string, string>): RecipeFiles => ({
  read: (path) => Promise.resolve(texts.get(path)),
  exists: (path) => Promise.resolve(texts.has(path)),
  // Scans are looked for where they are opened.
  list: () => Promise.resolve(undefined),
});
