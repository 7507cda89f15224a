import { realpath } from "node:fs/promises";
import { dirname } from "node:path";
import { decodeRecipe } from "../recipe/yaml/encoding.ts";
import { applyChanges, editRecipe, type ValueEdit } from "../recipe/edit/edit.ts";
import { writeAtomic } from "../scans/files/atomic.ts";
import { fileMark, folderMark } from "../scans/files/file-mark.ts";
import { readPlainFile } from "../work/files/read-plain-file.ts";
import { isDryRun } from "./dry-run.ts";
import { type Call, UsageError } from "./verb.ts";

/**
 * Puts a recipe's new text in place as a whole, if the file still has the text that was seen. In a dry run the lines
 * that would change are printed instead.
 * @returns whether it was written
 */
export async function replaceRecipe(call: Call, file: string, seen: string, text: string): Promise<boolean> {
  // A link to a recipe stays one: what is replaced is the file that it leads to.
  const path = await realpath(file);
  const replace = fileMark(path);
  if (decodeRecipe(readPlainFile(path)) !== seen || replace === undefined)
    throw new UsageError(`${file} was changed while this was running; nothing was written. Run it again.`);
  if (isDryRun(call)) {
    call.terminal.print(`Would change ${file}:`);
    for (const line of changedLines(seen, text)) call.terminal.print(line);
    return false;
  }
  await writeAtomic(path, text, { replace, folder: folderMark(dirname(path)) });
  return true;
}

/**
 * Changes values in a recipe's text and puts the file in place as a whole. The text must still be what the values were
 * worked out from.
 * @returns whether it was written; a dry run writes nothing
 */
export async function changeRecipe(
  call: Call,
  file: string,
  seen: string,
  edits: readonly ValueEdit[],
): Promise<boolean> {
  return replaceRecipe(call, file, seen, applyChanges(seen, editRecipe(seen, edits, { file })));
}

/** The lines between the first and the last that differ, with - and + before them. */
function changedLines(before: string, after: string): string[] {
  const [old, now] = [before.split("\n"), after.split("\n")];
  let start = 0;
  while (start < Math.min(old.length, now.length) && old[start] === now[start]) start++;
  let end = 0;
  while (end < Math.min(old.length, now.length) - start && old.at(-1 - end) === now.at(-1 - end)) end++;
  return [
    ...old.slice(start, old.length - end).map((line) => `- ${line}`),
    ...now.slice(start, now.length - end).map((line) => `+ ${line}`),
  ];
}
