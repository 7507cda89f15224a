/** How git's end is told, where git is a program of our own. */
import { chmodSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { runGit } from "../../../../extension/work/review/git/git-command.ts";

const home = mkdtempSync(join(tmpdir(), "git-command-"));
afterAll(() => rmSync(home, { recursive: true, force: true }));

/** A program that a signal ends at once, as Ctrl-C ends git. */
function endedBy(signal: string): string {
  const file = join(home, `ended-by-${signal}`);
  writeFileSync(file, `#!/bin/sh\nkill -${signal} $$\n`);
  chmodSync(file, 0o755);
  return file;
}

describe.skipIf(process.platform === "win32")("git that a signal ended", () => {
  test.each(["INT", "TERM", "HUP"])(
    "by %s: an interruption, if this process has the signal a bit later",
    async (by) => {
      const stop = new AbortController();
      setTimeout(() => stop.abort(new Error("interrupted")), 200);
      const call = runGit(["--version"], { cwd: home, program: endedBy(by), signal: stop.signal });
      await expect(call).rejects.toThrow("interrupted");
    },
  );

  test("is a failure where nobody interrupts", async () => {
    const call = runGit(["--version"], { cwd: home, program: endedBy("INT") });
    await expect(call).rejects.toMatchObject({ code: "timed-out" });
  });
});
