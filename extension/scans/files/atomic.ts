/** Writes files whole or not at all: to a part beside the target, then renamed. */
import { createHash, randomBytes } from "node:crypto";
import { closeSync, openSync, rmSync } from "node:fs";
import { link, open, readdir, rename, stat, unlink } from "node:fs/promises";
import { hostname } from "node:os";
import { basename, dirname, join } from "node:path";
import { ScanError } from "../errors.ts";
import { fileMark, folderMark } from "./file-mark.ts";
import { makeFolder } from "./make-folder.ts";
import { reasonOf } from "./system-errors.ts";

/** What a file that is written may replace, and where it may lie. */
export interface WriteOptions {
  /**
   * true replaces whatever there is; false nothing; a mark (see `fileMark`) only what had it. For everything that this
   * program has not made itself, false or a mark is the way.
   */
  readonly replace?: boolean | string;
  /** Mark of the folder when it was looked at (see `folderMark`): another one in its place is not written to. */
  readonly folder?: string;
}

/**
 * Writes a file so that it is there whole or not at all: under another name in the same folder, flushed to the disk,
 * then renamed. An interrupted write leaves no half file under the wanted name. A file that is replaced hands on its
 * permissions. What did not exist is created exclusively: a file that appeared meanwhile is not replaced.
 * @throws ScanError "write", or "exists" where another file lies there than `replace` allows
 */
export async function writeAtomic(
  path: string,
  bytes: Uint8Array | string,
  { replace = true, folder: mark }: WriteOptions = {},
): Promise<void> {
  const folder = dirname(path);
  // The name must differ between processes; it shows nowhere in the result.
  const temporary = join(folder, `.${basename(path).slice(0, 60)}.${WRITER}-${randomBytes(6).toString("hex")}.part`);
  try {
    if (mark === undefined) makeFolder(folder);
    checkFolder(path, mark);
    temporaries.add(temporary);
    const mode = replace === false ? undefined : (await stat(path).catch(() => undefined))?.mode;
    await writeFlushed(temporary, bytes, mode);
    checkFolder(path, mark);
    if (replace === false) await createAs(temporary, path);
    else {
      if (replace !== true && fileMark(path) !== replace) throw wasCreated(path);
      await rename(temporary, path);
    }
  } catch (error) {
    throw error instanceof ScanError ? error : writeError(path, error as NodeJS.ErrnoException);
  } finally {
    await unlink(temporary).catch(() => {}); // already gone after a rename
    temporaries.delete(temporary);
  }
}

/** Unfinished files of this thread, for whoever ends the program at once. */
const temporaries = new Set<string>();

/** Removes what this thread was writing. Nothing waits: it is called when the process ends. */
export function removeUnfinished(): void {
  for (const path of temporaries) rmSync(path, { force: true });
}

function checkFolder(path: string, mark: string | undefined): void {
  if (mark === undefined || folderMark(dirname(path)) === mark) return;
  throw new ScanError(
    "write",
    path,
    "was not written: its folder was replaced by another, or by a link, meanwhile",
    "Check who changes that folder, and run again.",
  );
}

const wasCreated = (path: string): ScanError =>
  new ScanError(
    "exists",
    path,
    "exists already, or was changed meanwhile, and is not replaced",
    "Move that file, or choose another name or folder, and run again.",
  );

/** Disks without hard links (FAT, some network disks) answer one of these. */
const NO_LINKS = new Set(["EPERM", "ENOTSUP", "EOPNOTSUPP", "ENOSYS", "EMLINK"]);

/** Gives a file its name where nothing has that name. A rename would replace what has it, a link does not. */
async function createAs(temporary: string, path: string): Promise<void> {
  try {
    await link(temporary, path);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === "EEXIST") throw wasCreated(path);
    if (!NO_LINKS.has(code ?? "")) throw error;
    await createEmpty(path); // takes the name: there is no other way here, and a crash now leaves an empty file
    await rename(temporary, path);
  }
}

async function createEmpty(path: string): Promise<void> {
  try {
    await (await open(path, "wx")).close();
  } catch (error) {
    throw (error as NodeJS.ErrnoException).code === "EEXIST" ? wasCreated(path) : error;
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
    if (host !== HOST || isRunning(Number(id))) continue;
    const path = join(folder, name);
    const stats = await stat(path).catch(() => undefined);
    if (stats?.isFile() && Date.now() - stats.mtimeMs > ABANDONED) await unlink(path).catch(() => {});
  }
}

function isRunning(id: number): boolean {
  try {
    process.kill(id, 0); // asks only
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code !== "ESRCH";
  }
}

async function writeFlushed(path: string, bytes: Uint8Array | string, mode?: number): Promise<void> {
  // Created at once: an opening that waits for its turn could come after `removeUnfinished`, and leave an empty file.
  closeSync(openSync(path, "wx"));
  const file = await open(path, "r+");
  try {
    if (mode !== undefined) await file.chmod(mode & 0o777);
    await file.writeFile(bytes);
    await file.sync();
  } finally {
    await file.close();
  }
}

function writeError(path: string, error: NodeJS.ErrnoException): ScanError {
  const [why, remedy] = reasonOf(error, "write");
  return new ScanError("write", path, why, remedy);
}
