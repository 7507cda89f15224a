/** What may be replaced: a roll's own pictures, and nothing else unless asked for; scans and recipes never. */
import { JobError } from "../../failure.ts";
import { lstatSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { fileMark, folderMark } from "../../scans/files/file-mark.ts";
import type { Fingerprint } from "../../scans/files/fingerprint.ts";
import type { Journal, PictureRecord } from "./journal.ts";
import type { Pool } from "../pool/pool.ts";
import { identitiesOf } from "../files/sources.ts";
import { truePath } from "../files/true-path.ts";
import { fingerprintJob } from "../files/jobs.ts";

/** A file that is about to be written. */
export interface Target {
  /** Absolute folder that the record's file is relative to. */
  readonly directory: string;
  readonly record: PictureRecord;
  /** Files that are never written; see `sourcesOf`. */
  readonly sources: ReadonlySet<string>;
  /** Folder of the roll's scans, absolute: no file there is replaced that the roll did not make. */
  readonly scans: string;
  readonly overwrite: boolean;
}

/** What stands in a target's place. */
export interface ExistingFile extends Fingerprint {
  /** Whole, and made by the same roll from the same recipe and scans. */
  readonly current: boolean;
  /** What it was known by; only that very file may be replaced. */
  readonly mark: string;
}

/**
 * Looks at what is there already; undefined when nothing is.
 * @throws JobError "protected" or "exists" when it may not be replaced, or its folder is a link to another place.
 */
export async function existingFile(
  target: Target,
  journal: Journal,
  pool: Pool,
  signal?: AbortSignal,
): Promise<ExistingFile | undefined> {
  const { file } = target.record;
  const path = join(target.directory, file);
  stayInside(target.directory, path, file);
  const there = lstatSync(path, { throwIfNoEntry: false });
  if (!there) return undefined;
  if (there.isDirectory()) throw protectionError("protected", file, path, "is a folder and is never replaced");
  if (!there.isFile() && !there.isSymbolicLink())
    throw protectionError("protected", file, path, "is a pipe or a device and is never replaced");
  const mark = fileMark(path) ?? "";
  if (identitiesOf(path).some((one) => target.sources.has(one)))
    throw protectionError("protected", file, path, "is a scan or a recipe of this roll and is never replaced");
  const { size, sha256 } = await pool.run(fingerprintJob, { path }, { signal });
  let right = mayReplace(target.record, journal, sha256);
  if (right === "none") {
    journal.refresh(); // another run of this roll may have made it since
    right = mayReplace(target.record, journal, sha256);
  }
  if (right === "none" && truePath(dirname(path)) === truePath(target.scans))
    throw protectionError("protected", file, path, "lies among the roll's scans and is never replaced");
  if (right === "none" && !target.overwrite)
    throw protectionError(
      "exists",
      file,
      path,
      "is there already and is not this roll's own work, or was changed since",
      true,
    );
  return { size, sha256, current: right === "current", mark };
}

/** Whether a file of this content is the roll's own work, and whether it is made from the same recipe and scans. */
function mayReplace({ file, roll, key }: PictureRecord, journal: Journal, sha256: string): "current" | "own" | "none" {
  const mine = journal.all(file).filter((known) => known.roll === roll);
  const made = mine.filter((known) => known.done?.sha256 === sha256);
  if (made.length > 0) return made.some((known) => known.key === key) ? "current" : "own";
  // A newest record without a fingerprint: this roll was at it when it was interrupted, or is at it now.
  const isOpen = journal.of(file)?.roll === roll && mine.at(-1)?.done === undefined;
  return isOpen ? "own" : "none";
}

/**
 * Mark of the folder that a file is about to be written into, which exists.
 * @throws JobError "protected" when it is a link that leads out of the directory
 */
export function targetFolder(directory: string, file: string): string {
  const path = join(directory, file);
  const mark = folderMark(dirname(path));
  stayInside(directory, path, file);
  if (mark === undefined)
    throw protectionError("protected", file, path, "was not written: its folder was deleted meanwhile");
  return mark;
}

/** The folders between the wanted one and the file may be links, laid there by whoever made the folder. */
function stayInside(directory: string, path: string, file: string): void {
  const from = relative(truePath(directory), truePath(dirname(path)));
  if (from !== ".." && !from.startsWith(`..${sep}`)) return;
  throw protectionError("protected", file, path, "would be written through a link that leads out of the folder");
}

function protectionError(code: string, file: string, path: string, why: string, forcible = false): JobError {
  const remedy = `Choose another folder${forcible ? ", or agree to replace it" : ""}.`;
  return new JobError({ code, message: `${file} ${why}.`, remedy, file: path });
}
