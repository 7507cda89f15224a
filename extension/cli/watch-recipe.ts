/** The recipe that `rollbook watch` lets grow: on disk, or in memory alone for a dry run. */
import { mkdirSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { dirname } from "node:path";
import { applyChanges, editRecipe } from "../recipe/edit/edit.ts";
import { writeAtomic } from "../scans/files/atomic.ts";
import type { RecipeText } from "../work/copy-stand/recipe/growing-recipe.ts";
import { printWouldChange } from "./change.ts";
import type { Terminal } from "./terminal.ts";

/** The recipe as a file that other programs may change at any time. */
export function recipeFile(file: string): RecipeText {
  const read = async (): Promise<string | undefined> =>
    readFile(file, "utf8").catch((error: NodeJS.ErrnoException) => {
      if (error.code === "ENOENT") return undefined;
      throw error;
    });
  return {
    file,
    read,
    async create(made) {
      mkdirSync(dirname(file), { recursive: true });
      await writeAtomic(file, made, { replace: false });
    },
    async change(seen, edits) {
      if ((await read()) !== seen) return false;
      await writeAtomic(file, applyChanges(seen, editRecipe(seen, edits, { file })));
      return true;
    },
  };
}

/**
 * The same recipe, of which nothing is written: each change is printed, and the next one is made to what would stand there.
 * @param shown the recipe's path as the user gave it
 */
export function unwrittenRecipe(file: string, shown: string, terminal: Terminal): RecipeText {
  const disk = recipeFile(file);
  let changed: string | undefined;
  const read = async (): Promise<string | undefined> => changed ?? (await disk.read());
  const change = (before: string, after: string): void => {
    printWouldChange(terminal, shown, before, after);
    changed = after;
  };
  return {
    file,
    read,
    create: async (made) => change("", made),
    async change(seen, edits) {
      if ((await read()) !== seen) return false;
      change(seen, applyChanges(seen, editRecipe(seen, edits, { file })));
      return true;
    },
  };
}
