/** Merges texts line by line, by git. */
import { dirname, resolve } from "node:path";
import { runGit } from "./git-command.ts";

/** What git makes of three files line by line. */
export interface MergedLines {
  /** As git gives them: a version may be of any encoding. */
  readonly bytes: Buffer;
  readonly conflicts: number;
}

/**
 * Merges by lines with git's own merge; the files stay as they are.
 * @param files base, ours, theirs
 * @throws Error where git cannot read them
 */
export async function mergeLines(
  files: readonly [base: string, ours: string, theirs: string],
  size: number,
  signal?: AbortSignal,
): Promise<MergedLines> {
  const [base, ours, theirs] = files.map((file) => resolve(file)) as [string, string, string];
  const labels = ["ours", "base", "theirs"].flatMap((label) => ["-L", label]);
  const args = ["merge-file", "-p", "-q", `--marker-size=${size}`, ...labels, "--", ours, base, theirs];
  const { code, stdout, stderr } = await runGit(args, { cwd: dirname(ours), signal });
  // The exit code is the number of conflicts, 127 at most.
  if (code < 128) return { bytes: stdout, conflicts: code };
  throw new Error(`git merge-file failed: ${stderr.trim() || `exit code ${code}`}`);
}
