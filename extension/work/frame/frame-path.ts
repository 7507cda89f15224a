/** The path of a frame's scan. */
import { statSync } from "node:fs";
import { JobError } from "../../failure.ts";
import type { ResolvedFrame } from "../../recipe/resolve/resolve.ts";
import type { Workspace } from "../files/workspace.ts";

/**
 * Absolute path of the one scan of a frame; of a frame that is merged, of its first scan that is there.
 * @throws JobError when it names none or several; WorkspaceError when the path leads out.
 */
export function framePath(frame: ResolvedFrame, workspace: Workspace): string {
  const fail = (code: string, message: string, remedy: string): JobError => new JobError({ code, message, remedy });
  if (frame.merged) {
    const paths = scanPaths(frame, workspace);
    return paths.find(isFile) ?? paths[0]!;
  }
  if (frame.scans.length > 1)
    throw fail(
      "join",
      `Frame ${frame.id} is made of ${frame.scans.length} scans; only rendering and contact sheets join them.`,
      "Render it to see it.",
    );
  const [scan] = frame.scans;
  if (!scan) throw fail("no-scan", `Frame ${frame.id} names no scan.`, "Add the key scan to it.");
  return workspace.absolute(scan.path);
}

/** Absolute paths of all scans of a frame. */
export const scanPaths = ({ scans }: ResolvedFrame, workspace: Workspace): string[] =>
  scans.map(({ path }) => workspace.absolute(path));

/** Whether a file lies there. */
export const isFile = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isFile() ?? false;
