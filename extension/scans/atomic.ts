import { createHash, randomBytes } from "node:crypto";
import { link, mkdir, open, readdir, rename, stat, unlink } from "node:fs/promises";
import { hostname } from "node:os";
import { basename, dirname, join } from "node:path";
import { ScanError } from "./errors.ts";

/**
 * Writes a file so that it is there whole or not at all: under another name in the same folder, flushed to the disk,
 * then renamed. An interrupted write leaves no half file under the wanted name. A file that is replaced hands on its
 * permissions.
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
  const temporary = join(folder, `.${basename(path).slice(0, 60)}.${WRITER}-${randomBytes(6).toString("hex")}.part`);
  try {
    await mkdir(folder, { recursive: true });
    const mode = replace ? (await stat(path).catch(() => undefined))?.mode : undefined;
    await writeFlushed(temporary, bytes, mode);
    if (replace) await rename(temporary, path);
    else await link(temporary, path); // fails where the name is taken; a rename would not
  } catch (error) {
    throw writeError(path, error as NodeJS.ErrnoException);
  } finally {
    await unlink(temporary).catch(() => {}); // already gone after a rename
  }
}

const HOST = createHash("sha256").update(hostname()).digest("hex").slice(0, 8);
const WRITER = `${HOST}-${process.pid}`;
/** A live writer's part is younger: it is written in one go. */
const ABANDONED = 60_000;

/**
 * Takes away what a killed process of this computer left of its writing in a folder. Parts of other computers, of
 * processes that live, and young ones (a process's number may be another's in another container) are left alone.
 */
export async function removeAbandonedParts(folder: string): Promise<void> {
  for (const name of await readdir(folder).catch(() => [] as string[])) {
    const [, host, id] = /^\..*\.([0-9a-f]{8})-(\d+)-[0-9a-f]{12}\.part$/.exec(name) ?? [];
    if (host !== HOST || lives(Number(id))) continue;
    const path = join(folder, name);
    const stats = await stat(path).catch(() => undefined);
    if (stats?.isFile() && Date.now() - stats.mtimeMs > ABANDONED) await unlink(path).catch(() => {});
  }
}

function lives(id: number): boolean {
  try {
    process.kill(id, 0); // asks only
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code !== "ESRCH";
  }
}

async function writeFlushed(path: string, bytes: Uint8Array | string, mode?: number): Promise<void> {
  const file = await open(path, "wx");
  try {
    if (mode !== undefined) await file.chmod(mode & 0o777);
    await file.writeFile(bytes);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Why, and what to do, by the system's word for it. */
const REASONS: Readonly<Record<string, readonly [why: string, remedy: string]>> = {
  EEXIST: ["exists already and is not replaced", "Choose another name or folder."],
  ENOSPC: ["does not fit on the disk", "Free some space and run again."],
  EDQUOT: ["does not fit into this user's share of the disk", "Free some space and run again."],
  EFBIG: ["is larger than this user may write", "Raise the limit on the size of files, or choose a smaller output."],
  EACCES: ["may not be written", "Check the folder's permissions."],
  EPERM: ["may not be written", "Check the folder's permissions."],
  EROFS: ["lies on a disk that may only be read", "Choose another folder."],
  EISDIR: ["is the name of a folder", "Choose another name."],
  ENOTDIR: ["lies below a file, not a folder", "Choose another folder."],
};

function writeError(path: string, error: NodeJS.ErrnoException): ScanError {
  const reason = error.code ?? error.message;
  const [why, remedy] = REASONS[reason] ?? [`cannot be written (${reason})`, "Check the disk."];
  return new ScanError("write", path, why, remedy);
}
