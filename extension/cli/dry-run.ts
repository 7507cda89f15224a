/** The option of every verb that writes files: everything happens but the writing. */
import type { OutputFile } from "../work/files/output-file.ts";
import { type Call, flag } from "./verb.ts";

export const DRY_RUN_OPTION = { "dry-run": { help: "write nothing, and report what would be written" } } as const;

export const isDryRun = (call: Call): boolean => flag(call, "dry-run");

/**
 * Writes a file, or only reports it.
 * @param file its path as the user gave it
 * @returns whether it was written
 */
export async function writeOutput(call: Call, output: OutputFile, file: string, text: string): Promise<boolean> {
  if (isDryRun(call)) call.terminal.print(`Would write ${file} (${Buffer.byteLength(text)} bytes).`);
  else await output.write(text);
  return !isDryRun(call);
}
