/** The files that a roll is made from, and that nothing is ever written over. */
import { statSync } from "node:fs";
import { blanksOf } from "../../recipe/resolve/channels.ts";
import type { ResolvedRoll } from "../../recipe/resolve/resolve.ts";
import { identityOf } from "../../scans/files/file-mark.ts";
import { truePath } from "./true-path.ts";
import type { Workspace } from "./workspace.ts";

/**
 * Everything that a roll is made from: recipe, stock, scans, blanks, printers' profiles. By true path and by the file system's own number:
 * where the case of letters does not matter, or with a hard link, one file has several paths.
 */
export function sourcesOf(roll: ResolvedRoll, workspace: Workspace): Set<string> {
  const places = roll.frames.flatMap(({ scans, light, base }) => [
    ...scans.map((s) => s.path),
    ...blanksOf(light).map((s) => s.path),
    ...(base.read ? [base.read.scan.path] : []),
  ]);
  const profiles = roll.outputs.flatMap(({ print }) => (print?.profile ? [print.profile.path] : []));
  const paths = new Set<string>();
  for (const path of [roll.file, ...places, ...profiles, ...(roll.stock ? [roll.stock.file] : [])])
    try {
      for (const one of identitiesOf(workspace.absolute(path))) paths.add(one);
    } catch {
      // A path that leads out of the workspace is never read, so nothing of it can be lost.
    }
  return paths;
}

/** By true path, and by device and inode. */
export function identitiesOf(path: string): string[] {
  const found = statSync(path, { bigint: true, throwIfNoEntry: false });
  // Some network file systems number nothing.
  const number = found && found.ino !== 0n ? [identityOf(found)] : [];
  return [truePath(path), ...number];
}
