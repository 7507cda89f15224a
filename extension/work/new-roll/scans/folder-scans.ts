/** The first pass over a folder: which files are scans of the roll, and which of them is blank, leader or picture. */
import { bytesToKeep } from "./bytes-to-keep.ts";
import { errorText } from "../../../scans/files/system-errors.ts";
import { firstPassJob } from "../jobs.ts";
import type { Workspace } from "../../files/workspace.ts";
import { eachLimited } from "../../pool/each-limited.ts";
import { type NewRollOptions, type StartContext, StartError } from "../new-roll-options.ts";
import type { FirstPassScan } from "../../../engine/auto/roll/first-pass.ts";
import { threeLights } from "../../../engine/auto/roll/three-lights.ts";
import { type Roles, rolesOf } from "../../../engine/auto/roll/scan-roles.ts";
import { inOrder, type ScanFiles, scanFiles } from "./sort-scans.ts";
import type { KnownRoll } from "../known-roll.ts";
import { unwritableName } from "./unwritable-name.ts";

/**
 * Names of the scans in a folder.
 * @throws StartError where there are none, or a recipe cannot hold a name
 */
export async function listScans(
  { folder, blank }: NewRollOptions,
  workspace: Workspace,
  known?: KnownRoll,
): Promise<ScanFiles> {
  const listed = scanFiles((await workspace.list(workspace.inside(folder))) ?? []);
  // A recipe may name scans in folders below, or a JPEG beside its raw file.
  const named = known ? [...(blank ? [blank] : []), ...known.frames.flatMap(({ scans }) => scans)] : [];
  const files = { ...listed, scans: [...new Set([...listed.scans, ...named])] };
  if (files.scans.length === 0)
    throw new StartError(`There are no scans in ${folder}. Scans are raw files, TIFF or JPEG.`);
  for (const name of files.scans) {
    const reason = unwritableName(name);
    if (reason !== undefined) throw new StartError(reason);
  }
  return files;
}

export interface FolderScans extends Roles {
  /** Scans that could not be read, with the reason. */
  readonly unreadable: readonly { readonly name: string; readonly reason: string }[];
}

/**
 * Decodes every scan once and tells blank, leaders and pictures apart, in the order of the film.
 * @throws StartError where no scan shows a picture, or one that was named is missing
 */
export async function folderScans(
  scans: readonly string[],
  context: StartContext,
  known?: KnownRoll,
): Promise<FolderScans> {
  const { options, pool, signal, pathOf, step } = context;
  const unreadable: { name: string; reason: string }[] = [];
  const firstPasses: FirstPassScan[] = [];
  const keep = bytesToKeep(pool.workers);
  await eachLimited(scans, pool.workers + 1, async (name) => {
    try {
      const path = pathOf(name);
      firstPasses.push({
        name,
        ...(await pool.run(firstPassJob, { path, keep }, { signal, near: path, reads: [path] })),
      });
    } catch (error) {
      if (signal?.aborted) throw error;
      unreadable.push({ name, reason: errorText(error) });
    }
    step(name);
  });
  const ordered = inOrder(firstPasses);
  const coloured = known ? undefined : threeLights(ordered);
  if (coloured) {
    const [first, second, third] = coloured.map(({ name }) => name);
    throw new StartError(
      `${first}, ${second} and ${third} show one picture in three-colour light, each in one colour. A roll of such scans is not created from its folder: write its frames by hand, with the three names under channels, and the bare lights under light.blank.`,
    );
  }
  const roles = rolesOf(ordered, options.blank);
  if (known) return { ...knownRoles(roles, firstPasses, known), unreadable };
  const pictures = between(roles.pictures, options);
  if (options.blank && !roles.blank)
    throw new StartError(
      `The blank ${options.blank} was not found in ${options.folder}, or cannot be read. Name a scan of the bare light that lies there.`,
    );
  if (pictures.length === 0)
    throw new StartError(
      `No scan in ${options.folder} shows a picture, only bare light or unexposed film. Check that this is the folder of the roll.`,
    );
  return { ...roles, pictures, unreadable };
}

/** Pictures are the scans of the recipe's frames, in its order, whatever they look like. */
function knownRoles(
  { blank, leaders, black }: Roles,
  looked: readonly FirstPassScan[],
  { frames, hasBlank }: KnownRoll,
): Roles {
  const names = [...new Set(frames.flatMap((frame) => frame.scans))];
  const pictures = names.flatMap((name) => looked.find((one) => one.name === name) ?? []);
  if (pictures.length === 0)
    throw new StartError(
      "None of the scans that the recipe's frames name can be read. Check the key scans and that the files are there.",
    );
  return {
    ...(blank && hasBlank && !names.includes(blank.name) ? { blank } : {}),
    leaders: leaders.filter(({ name }) => !names.includes(name)),
    black: black.filter(({ name }) => !names.includes(name)),
    pictures,
  };
}

/** The pictures from one scan to another, where a folder holds more than the roll. */
function between(pictures: Roles["pictures"], { from, to }: NewRollOptions): Roles["pictures"] {
  const at = (name: string | undefined, end: number): number => {
    if (name === undefined) return end;
    const index = pictures.findIndex((p) => p.name === name);
    if (index < 0) throw new StartError(`No picture of the folder is called ${name}.`);
    return index;
  };
  return pictures.slice(at(from, 0), at(to, pictures.length - 1) + 1);
}
