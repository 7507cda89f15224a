import { randomBytes } from "node:crypto";
import { link, mkdir, open, rename, unlink } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { ScanError } from "./errors.ts";

/**
 * Writes a file so that it is there whole or not at all: under another name in the same folder, flushed to the disk,
 * then renamed. An interrupted write leaves no half file under the wanted name.
 * @param options.replace false keeps an existing file and throws ScanError "write"; for everything that is not made
 *   by Rollbook, such as scans, this is the way
 */
export async function writeAtomic(
  path: string,
  bytes: Uint8Array | string,
  options: { readonly replace?: boolean } = {},
): Promise<void> {
  const { replace = true } = options;
  const folder = dirname(path);
  // The name must differ between processes; it shows nowhere in the result.
  const temporary = join(folder, `.${basename(path).slice(0, 60)}.${randomBytes(6).toString("hex")}.part`);
  try {
    await mkdir(folder, { recursive: true });
    await writeFlushed(temporary, bytes);
    if (replace) await rename(temporary, path);
    else await link(temporary, path); // fails where the name is taken; a rename would not
  } catch (error) {
    throw writeError(path, error as NodeJS.ErrnoException);
  } finally {
    await unlink(temporary).catch(() => {}); // already gone after a rename
  }
}

async function writeFlushed(path: string, bytes: Uint8Array | string): Promise<void> {
  const file = await open(path, "wx");
  try {
    await file.writeFile(bytes);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Why, and what to do, by the system's word for it. */
const REASONS: Readonly<Record<string, readonly [why: string, cure: string]>> = {
  EEXIST: ["exists already and is not replaced", "Choose another name or folder."],
  ENOSPC: ["does not fit on the disk", "Free some space and run again."],
  EDQUOT: ["does not fit into this user's share of the disk", "Free some space and run again."],
  EACCES: ["may not be written", "Check the folder's permissions."],
  EPERM: ["may not be written", "Check the folder's permissions."],
  EROFS: ["lies on a disk that may only be read", "Choose another folder."],
  EISDIR: ["is the name of a folder", "Choose another name."],
  ENOTDIR: ["lies below a file, not a folder", "Choose another folder."],
};

function writeError(path: string, error: NodeJS.ErrnoException): ScanError {
  const reason = error.code ?? error.message;
  const [why, cure] = REASONS[reason] ?? [`cannot be written (${reason})`, "Check the disk."];
  return new ScanError("write", path, why, cure);
}
