/** Writes changed recipes whole, or prints what a dry run would change. */
import { realpath } from "node:fs/promises";
import { dirname, relative } from "node:path";
import { decodeRecipe } from "../recipe/yaml/encoding.ts";
import { applyChanges, editRecipe, type ValueEdit } from "../recipe/edit/edit.ts";
import { writeAtomic } from "../scans/files/atomic.ts";
import { fileMark, folderMark } from "../scans/files/file-mark.ts";
import { readPlainFile } from "../work/files/read-plain-file.ts";
import { isDryRun } from "./dry-run.ts";
import type { Terminal } from "./terminal.ts";
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
    printWouldChange(call.terminal, file, seen, text);
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

/** Prints what a dry run would change. @param before empty for a file that would be created */
export function printWouldChange(terminal: Terminal, file: string, before: string, after: string): void {
  terminal.print(`Would ${before === "" ? "create" : "change"} ${relative("", file)}:`);
  for (const line of changedLines(before, after)) terminal.print(line);
}

/** The lines between the first and the last that differ, with - and + before them. */
function changedLines(before: string, after: string): string[] {
  const lines = (text: string): string[] => (text === "" ? [] : text.split("\n"));
  const [old, now] = [lines(before), lines(after)];
  let start = 0;
  while (start < Math.min(old.length, now.length) && old[start] === now[start]) start++;
  let end = 0;
  while (end < Math.min(old.length, now.length) - start && old.at(-1 - end) === now.at(-1 - end)) end++;
  return [
    ...old.slice(start, old.length - end).map((line) => `- ${line}`),
    ...now.slice(start, now.length - end).map((line) => `+ ${line}`),
  ];
}
