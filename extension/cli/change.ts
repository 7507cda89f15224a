import { realpath } from "node:fs/promises";
import { dirname } from "node:path";
import { decodeRecipe } from "../recipe/yaml/encoding.ts";
import { applyChanges, editRecipe, type ValueEdit } from "../recipe/edit/edit.ts";
import { writeAtomic } from "../scans/files/atomic.ts";
import { fileMark, folderMark } from "../scans/files/file-mark.ts";
import { readPlainFile } from "../work/files/read-plain-file.ts";
import { UsageError } from "./verb.ts";

/** Puts a recipe's new text in place as a whole, if the file still has the text that was seen. */
export async function replaceRecipe(file: string, seen: string, text: string): Promise<void> {
  // A link to a recipe stays one: what is replaced is the file that it leads to.
  const path = await realpath(file);
  const replace = fileMark(path);
  if (decodeRecipe(readPlainFile(path)) !== seen || replace === undefined)
    throw new UsageError(`${file} was changed while this was running; nothing was written. Run it again.`);
  await writeAtomic(path, text, { replace, folder: folderMark(dirname(path)) });
}

/**
 * Changes values in a recipe's text and puts the file in place as a whole. The text must still be what the values were
 * worked out from.
 */
export async function changeRecipe(file: string, seen: string, edits: readonly ValueEdit[]): Promise<void> {
  await replaceRecipe(file, seen, applyChanges(seen, editRecipe(seen, edits, { file })));
}
