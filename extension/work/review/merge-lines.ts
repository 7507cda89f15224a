import { execFile } from "node:child_process";

/** What git makes of three files line by line. */
export interface MergedLines {
  readonly text: string;
  readonly conflicts: number;
}

/** Merges by lines with git's own merge; the files stay as they are. @throws Error where git cannot read them */
export function mergeLines(base: string, ours: string, theirs: string, size: number): Promise<MergedLines> {
  const labels = ["ours", "base", "theirs"].flatMap((label) => ["-L", label]);
  const args = ["merge-file", "-p", "-q", `--marker-size=${size}`, ...labels, "--", ours, base, theirs];
  return new Promise((resolve, reject) => {
    execFile("git", args, { maxBuffer: 2 ** 26, windowsHide: true }, (error, text, complaint) => {
      // The exit code is the number of conflicts, 127 at most.
      const code = error ? error.code : 0;
      if (typeof code === "number" && code < 128) resolve({ text, conflicts: code });
      else reject(new Error(`git could not merge the lines: ${complaint.trim() || error?.message}`));
    });
  });
}
