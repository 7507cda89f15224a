/** docs/ci/check-recipes.sh on a repository with a branch, as a job of a pull request runs it. */
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { makeRoll } from "../../bench/synthetic-roll.ts";

const root = fileURLToPath(new URL("../../../", import.meta.url));
const script = join(root, "docs/ci/check-recipes.sh");
let folder = "";
let recipe = "";

const git = (...args: string[]): string => {
  const identity = ["-c", "user.name=Ines Holm", "-c", "user.email=ines@example.org", "-c", "init.defaultBranch=main"];
  const { status, stdout, stderr } = spawnSync("git", [...identity, ...args], { cwd: folder, encoding: "utf8" });
  if (status !== 0) throw new Error(stderr);
  return stdout;
};

function run(base = "main", environment: Record<string, string> = {}) {
  const { status, stdout, stderr } = spawnSync("bash", [script, base], {
    cwd: folder,
    encoding: "utf8",
    env: { ...process.env, ROLLBOOK: `${process.execPath} ${join(root, "dist/rollbook.mjs")}`, ...environment },
  });
  return { code: status, out: stdout, err: stderr };
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "pull-"));
  recipe = makeRoll(folder, "harbour", { width: 192, height: 128, frames: 2 });
  git("init", "-q");
  git("add", "-A");
  git("commit", "-qm", "Start the roll");
  git("switch", "-qc", "brighter");
  const text = readFileSync(recipe, "utf8");
  const change = spawnSync(process.execPath, [join(root, "dist/rollbook.mjs"), "format", recipe], { encoding: "utf8" });
  if (change.status !== 0) throw new Error(change.stderr);
  writeFileSync(
    recipe,
    `${readFileSync(recipe, "utf8").trimEnd()}\n`.replace(/^frames:/m, "positive: { exposure: 0.5 }\nframes:"),
  );
  if (text === readFileSync(recipe, "utf8")) throw new Error("The recipe was not changed.");
  git("commit", "-qam", "Brighten the roll");
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("the script for pull requests", () => {
  test("reviews a branch against its merge base, and leaves the reports", { timeout: 180_000 }, () => {
    const summaryPage = join(folder, "step.md");
    const ran = run("main", { GITHUB_STEP_SUMMARY: summaryPage });
    expect(ran.err).not.toContain("broke down");
    expect(ran.out).toMatch(/^== Problems$[^]*no problems[^]*^== Layout$[^]*^== Changes since [0-9a-f]{40}$/m);
    const summary = readFileSync(join(folder, "rollbook-report/summary.md"), "utf8");
    expect(ran.out).toContain(summary.trim());
    expect(summary).toContain("exposure");
    expect(readFileSync(summaryPage, "utf8")).toBe(summary);
    const page = readFileSync(join(folder, "rollbook-report/review.html"), "utf8");
    expect(page).toMatch(/data:image\/|base64/);
    expect(JSON.parse(readFileSync(join(folder, "rollbook-report/check.sarif"), "utf8"))).toMatchObject({
      version: "2.1.0",
    });
    expect(git("status", "--porcelain", "--untracked-files=no")).toBe("");
    expect(ran.code).toBe(ran.out.includes("is not formatted") ? 1 : 0);
  });

  test("fails on a problem, and says what is missing", { timeout: 180_000 }, () => {
    writeFileSync(join(folder, "wrong.roll.yaml"), "version: 1\nframs: {}\n");
    git("add", "-A");
    const ran = run("main", { REVIEW: "--words", OUT: "second-report" });
    expect(ran.code).toBe(1);
    expect(ran.out).toMatch(/wrong\.roll\.yaml:2:1 error .*\[unknown-key\]/);
    expect(existsSync(join(folder, "second-report/summary.md"))).toBe(true);
    const lost = run("nowhere");
    expect([lost.code, lost.err]).toEqual([2, expect.stringContaining("have no common commit") as string]);
  });

  test("hooks for a commit run verbs that there are", () => {
    const hooks = readFileSync(join(root, ".pre-commit-hooks.yaml"), "utf8");
    for (const [, verb] of hooks.matchAll(/entry: rollbook (\w+)/g))
      expect(spawnSync(process.execPath, [join(root, "dist/rollbook.mjs"), "help", verb]).status).toBe(0);
  });
});
