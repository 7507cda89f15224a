/** Makes folders. */
import { mkdirSync, statSync } from "node:fs";
import { dirname } from "node:path";

/**
 * Makes a folder with those above it. Node's own recursive way never ends where the system answers "not found" to a
 * name in a folder that exists, as below /proc.
 * @throws the system's error, with its path
 */
export function makeFolder(path: string): void {
  if (statSync(path, { throwIfNoEntry: false })?.isDirectory()) return;
  if (dirname(path) !== path) makeFolder(dirname(path));
  try {
    mkdirSync(path);
  } catch (error) {
    if (!statSync(path, { throwIfNoEntry: false })?.isDirectory()) throw error; // else another process was faster
  }
}
