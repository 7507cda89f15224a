/**
 * docs/ci/action.yml as a job runs it: a small interpreter of composite actions, for as much of their syntax as the file
 * uses (GitHub's "Metadata syntax": inputs with defaults, `run` with `shell: bash` and `env`, `uses`, `if: always()`).
 * The package is packed and installed as the action says, into a folder of its own.
 */
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { parse } from "yaml";
import { makeRoll } from "../bench/synthetic-roll.ts";
import { pack, root, run } from "./packed.ts";

interface Step {
  readonly uses?: string;
  readonly run?: string;
  readonly shell?: string;
  readonly if?: string;
  readonly env?: Readonly<Record<string, string>>;
  readonly with?: Readonly<Record<string, string>>;
}
interface Action {
  readonly inputs: Readonly<Record<string, { readonly description: string; readonly default?: string }>>;
  readonly runs: { readonly using: string; readonly steps: readonly Step[] };
}

const home = join(root, "docs/ci");
const action = parse(readFileSync(join(home, "action.yml"), "utf8")) as Action;
let folder = "";
let repository = "";
let tarball = "";

const git = (...args: string[]): void => {
  const identity = ["-c", "user.name=Ines Holm", "-c", "user.email=ines@example.org", "-c", "init.defaultBranch=main"];
  const { code, err } = run("git", [...identity, ...args], repository);
  if (code !== 0) throw new Error(err);
};

/** Runs the action in the repository; what other actions would do is reported. */
function runAction(inputs: Readonly<Record<string, string>>) {
  const values = Object.fromEntries(Object.entries(action.inputs).map(([name, one]) => [name, one.default ?? ""]));
  for (const name of Object.keys(inputs)) if (!(name in values)) throw new Error(`The action has no input ${name}.`);
  Object.assign(values, inputs);
  const replaced = (text: string): string =>
    text.replaceAll(/\$\{\{\s*([\w.]+)\s*\}\}/g, (_, name: string) => {
      if (name === "github.action_path") return home;
      const value = values[/^inputs\.(\w+)$/.exec(name)?.[1] ?? ""];
      if (value === undefined) throw new Error(`The action uses \${{ ${name} }}, which there is not.`);
      return value;
    });
  const summary = join(folder, "summary.md");
  rmSync(summary, { force: true });
  const prefix = join(folder, "prefix");
  const environment = {
    GITHUB_ACTION_PATH: home,
    GITHUB_STEP_SUMMARY: summary,
    npm_config_prefix: prefix,
    npm_config_prefer_offline: "true",
    PATH: [join(prefix, "bin"), process.env.PATH].join(delimiter),
  };
  const used: string[] = [];
  let [out, errors, code] = ["", "", 0];
  for (const step of action.runs.steps) {
    if (code !== 0 && step.if !== "always()") continue;
    if (step.uses !== undefined) used.push([step.uses, replaced(step.with?.path ?? "")].join(" ").trim());
    if (step.run === undefined) continue;
    expect(step.shell).toBe("bash");
    const own = Object.entries(step.env ?? {}).map(([name, value]) => [name, replaced(value)]);
    // As a runner starts bash.
    const ran = run("bash", ["--noprofile", "--norc", "-eo", "pipefail", "-c", replaced(step.run)], repository, {
      ...environment,
      ...(Object.fromEntries(own) as Record<string, string>),
    });
    out += ran.out;
    if (ran.code !== 0) errors += ran.err;
    code = ran.code ?? 1;
  }
  return { code, out, errors, used, summary: existsSync(summary) ? readFileSync(summary, "utf8") : "" };
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "action-"));
  tarball = pack(folder).path;
  repository = join(folder, "harbour");
  mkdirSync(repository);
  const recipe = makeRoll(repository, "harbour", { width: 192, height: 128, frames: 1 });
  const format = [join(root, "dist/rollbook.mjs"), "format", recipe];
  if (spawnSync(process.execPath, format).status !== 0) throw new Error("The recipe cannot be formatted.");
  git("init", "-q");
  git("add", "-A");
  git("commit", "-qm", "Start the roll");
  git("switch", "-qc", "brighter");
  const text = readFileSync(recipe, "utf8");
  writeFileSync(
    recipe,
    text.replace(/^ {2}gamma: .*\n/m, (line) => `${line}positive:\n  exposure: 0.5\n`),
  );
  git("commit", "-qam", "Brighten the roll");
}, 300_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.skipIf(process.platform === "win32")("the composite action", () => {
  test("installs the command, reviews the branch, and keeps reports and summary", { timeout: 600_000 }, () => {
    expect(action.runs.using).toBe("composite");
    const { code, out, errors, used, summary } = runAction({ base: "main", package: tarball, report: "reports" });
    expect(errors).toBe("");
    expect(out).toContain("1 recipe: no problems.");
    expect(code).toBe(0);
    expect(used).toEqual(["actions/setup-node@v4", "actions/upload-artifact@v4 reports"]);
    expect(summary).toContain("exposure");
    for (const name of ["check.sarif", "review.html", "summary.md"])
      expect(existsSync(join(repository, "reports", name))).toBe(true);
    const matcher = /^::add-matcher::(.*)$/m.exec(out)?.[1] ?? "";
    expect(JSON.parse(readFileSync(matcher, "utf8"))).toHaveProperty("problemMatcher");
  });

  test("fails on a frame that differs too much, and keeps the reports all the same", { timeout: 600_000 }, () => {
    const review = "--fail-above 0.5 --size 64";
    const { code, used, summary } = runAction({ base: "main", package: tarball, review, report: "second reports" });
    expect(code).toBe(1);
    expect(used.at(-1)).toBe("actions/upload-artifact@v4 second reports");
    expect(summary).toContain("exposure");
  });

  test("never pastes an input into a script, where a shell would carry it out", () => {
    for (const step of action.runs.steps) expect(step.run ?? "").not.toContain("inputs.");
  });
});
