/** What may be replaced: a roll's own pictures, and nothing else unless asked for; scans and recipes never. */
import { lstatSync, realpathSync } from "node:fs";
import { join } from "node:path";
import type { ResolvedRoll } from "../recipe/resolve.ts";
import type { Fingerprint } from "../scans/fingerprint.ts";
import { JobError } from "./job-error.ts";
import type { Journal, PictureRecord } from "./journal.ts";
import type { Pool } from "./pool.ts";
import type { Workspace } from "./workspace.ts";

/** A file that is about to be written. */
export interface Target {
  /** Absolute folder that the record's file is relative to. */
  readonly directory: string;
  readonly record: PictureRecord;
  /** Absolute true paths that are never written; see `sourcesOf`. */
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
 * @throws JobError "protected" or "exists" when it may not be replaced.
 */
export async function standing(
  target: Target,
  journal: Journal,
  pool: Pool,
  signal?: AbortSignal,
): Promise<Standing | undefined> {
  const { file, roll, key } = target.record;
  const path = join(target.directory, file);
  const there = lstatSync(path, { throwIfNoEntry: false });
  if (!there) return undefined;
  if (there.isDirectory()) throw refusal("protected", file, path, "is a folder and is never replaced");
  if (target.sources.has(truth(path)))
    throw refusal("protected", file, path, "is a scan or a recipe of this roll and is never replaced");
  const { size, sha256 } = await pool.run("fingerprint", { path }, { signal });
  const known = journal.of(file);
  const mine = known?.roll === roll;
  const whole = mine && known.done?.sha256 === sha256;
  // A record without a fingerprint: this roll was at it when it was interrupted.
  if (!target.overwrite && !whole && !(mine && !known.done))
    throw refusal("exists", file, path, "is there already and is not this roll's own work, or was changed since", true);
  return { size, sha256, current: whole && known.key === key };
}

function refusal(code: string, file: string, path: string, why: string, forcible = false): JobError {
  const cure = `Choose another folder with -o${forcible ? ", or replace it with --overwrite" : ""}.`;
  return new JobError({ name: "JobError", code, message: `${file} ${why}.`, cure, file: path });
}

/** Absolute true paths of everything that a roll is made from: recipe, stock, scans, blanks. */
export function sourcesOf(roll: ResolvedRoll, workspace: Workspace): Set<string> {
  const places = roll.frames.flatMap(({ scans, light, base }) => [
    ...scans.map((s) => s.path),
    ...(light.blank ? [light.blank.path] : []),
    ...(base.read ? [base.read.scan.path] : []),
  ]);
  const paths = new Set<string>();
  for (const path of [roll.file, ...places, ...(roll.stock ? [roll.stock.file] : [])])
    try {
      paths.add(truth(workspace.absolute(path)));
    } catch {
      // A path that leads out of the workspace is never read, so nothing of it can be lost.
    }
  return paths;
}

function truth(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return path;
  }
}
