/** What may be replaced: a roll's own pictures, and nothing else unless asked for; scans and recipes never. */
import { lstatSync, statSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import type { ResolvedRoll } from "../../recipe/resolve/resolve.ts";
import type { Fingerprint } from "../../scans/fingerprint.ts";
import { JobError } from "../pool/job-error.ts";
import type { Journal, PictureRecord } from "./journal.ts";
import type { Pool } from "../pool/pool.ts";
import { truePath } from "../files/true-path.ts";
import type { Workspace } from "../files/workspace.ts";

/** A file that is about to be written. */
export interface Target {
  /** Absolute folder that the record's file is relative to. */
  readonly directory: string;
  readonly record: PictureRecord;
  /** Files that are never written; see `sourcesOf`. */
  readonly sources: ReadonlySet<string>;
  readonly overwrite: boolean;
}

/** What stands in a target's place. */
export interface Standing extends Fingerprint {
  /** Whole, and made by the same roll from the same recipe and scans. */
  readonly current: boolean;
}

/**
 * Looks at what is there already; undefined when nothing is.
 * @throws JobError "protected" or "exists" when it may not be replaced, or its folder is a link to another place.
 */
export async function standing(
  target: Target,
  journal: Journal,
  pool: Pool,
  signal?: AbortSignal,
): Promise<Standing | undefined> {
  const { file } = target.record;
  const path = join(target.directory, file);
  stayInside(target.directory, path, file);
  const there = lstatSync(path, { throwIfNoEntry: false });
  if (!there) return undefined;
  if (there.isDirectory()) throw refusal("protected", file, path, "is a folder and is never replaced");
  if (identities(path).some((one) => target.sources.has(one)))
    throw refusal("protected", file, path, "is a scan or a recipe of this roll and is never replaced");
  const { size, sha256 } = await pool.run("fingerprint", { path }, { signal });
  let right = rightTo(target.record, journal, sha256);
  if (right === "none") {
    journal.refresh(); // another run of this roll may have made it since
    right = rightTo(target.record, journal, sha256);
  }
  if (right === "none" && !target.overwrite)
    throw refusal("exists", file, path, "is there already and is not this roll's own work, or was changed since", true);
  return { size, sha256, current: right === "current" };
}

/** Whether a file of this content is the roll's own work, and whether it is made from the same recipe and scans. */
function rightTo({ file, roll, key }: PictureRecord, journal: Journal, sha256: string): "current" | "own" | "none" {
  const mine = journal.all(file).filter((known) => known.roll === roll);
  const made = mine.filter((known) => known.done?.sha256 === sha256);
  if (made.length > 0) return made.some((known) => known.key === key) ? "current" : "own";
  // A newest record without a fingerprint: this roll was at it when it was interrupted, or is at it now.
  const isOpen = journal.of(file)?.roll === roll && mine.at(-1)?.done === undefined;
  return isOpen ? "own" : "none";
}

/** The folders between the wanted one and the file may be links, laid there by whoever made the folder. */
function stayInside(directory: string, path: string, file: string): void {
  const from = relative(truePath(directory), truePath(dirname(path)));
  if (from !== ".." && !from.startsWith(`..${sep}`)) return;
  throw refusal("protected", file, path, "would be written through a link that leads out of the folder");
}

function refusal(code: string, file: string, path: string, why: string, forcible = false): JobError {
  const remedy = `Choose another folder with -o${forcible ? ", or replace it with --overwrite" : ""}.`;
  return new JobError({ name: "JobError", code, message: `${file} ${why}.`, remedy, file: path });
}

/**
 * Everything that a roll is made from: recipe, stock, scans, blanks. By true path and by the file system's own number:
 * where the case of letters does not matter, or with a hard link, one file has several paths.
 */
export function sourcesOf(roll: ResolvedRoll, workspace: Workspace): Set<string> {
  const places = roll.frames.flatMap(({ scans, light, base }) => [
    ...scans.map((s) => s.path),
    ...(light.blank ? [light.blank.path] : []),
    ...(base.read ? [base.read.scan.path] : []),
  ]);
  const paths = new Set<string>();
  for (const path of [roll.file, ...places, ...(roll.stock ? [roll.stock.file] : [])])
    try {
      for (const one of identities(workspace.absolute(path))) paths.add(one);
    } catch {
      // A path that leads out of the workspace is never read, so nothing of it can be lost.
    }
  return paths;
}

function identities(path: string): string[] {
  const found = statSync(path, { bigint: true, throwIfNoEntry: false });
  // Some network file systems number nothing.
  const number = found && found.ino !== 0n ? [`${found.dev}:${found.ino}`] : [];
  return [truePath(path), ...number];
}
