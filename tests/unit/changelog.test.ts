/** The change log's check, and what `npm version` does with it. */
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";

const root = fileURLToPath(new URL("../../", import.meta.url));
let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "changelog-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function run(text: string, ...args: string[]) {
  const file = join(folder, "CHANGELOG.md");
  writeFileSync(file, text);
  const script = join(root, ".ci/changelog.mjs");
  const { status, stderr } = spawnSync(process.execPath, [script, "--file", file, ...args], { encoding: "utf8" });
  return { code: status, err: stderr, text: readFileSync(file, "utf8") };
}

const GOOD =
  "# Changelog\n\n## [Unreleased]\n\n### Added\n\n- A bar.\n\n## [0.1.0] - 2026-05-02\n\n### Added\n\n- All.\n";

describe("the change log", () => {
  test("of the project is in order, and npm version gives its section a heading", () => {
    expect(run(readFileSync(join(root, "CHANGELOG.md"), "utf8"))).toMatchObject({ code: 0, err: "" });
    const { scripts } = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as {
      scripts: Record<string, string>;
    };
    expect(scripts.version).toContain(".ci/changelog.mjs --release");
    expect(scripts.lint).toContain(".ci/changelog.mjs");
  });

  test("gives what is unreleased the version's heading", () => {
    const released = run(GOOD, "--release", "0.2.0", "--date", "2026-12-01");
    expect(released.code).toBe(0);
    expect(released.text).toContain(
      "## [Unreleased]\n\n## [0.2.0] - 2026-12-01\n\n### Added\n\n- A bar.\n\n## [0.1.0]",
    );
    expect(run(released.text).code).toBe(0);
    const again = run(released.text, "--release", "0.3.0");
    expect([again.code, again.err]).toEqual([
      1,
      expect.stringContaining("Nothing stands under [Unreleased]") as string,
    ]);
    expect(again.text).toBe(released.text);
  });

  test(
    "stops npm version before anything is changed, and else gives commit, tag and section",
    { timeout: 120_000 },
    () => {
      const clone = join(folder, "clone");
      mkdirSync(join(clone, ".ci"), { recursive: true });
      for (const name of ["package.json", "package-lock.json", ".ci/changelog.mjs"])
        cpSync(join(root, name), join(clone, name));
      const program = (name: string, ...args: string[]) => {
        const inherited = Object.entries(process.env).filter(([key]) => !/^(npm_|GIT_)/i.test(key));
        const identity = { NAME: "Ines Holm", EMAIL: "ines@example.org" };
        const own = Object.entries(identity).flatMap(([key, value]) => [
          [`GIT_AUTHOR_${key}`, value],
          [`GIT_COMMITTER_${key}`, value],
        ]);
        const env = Object.fromEntries([...inherited, ...own]) as NodeJS.ProcessEnv;
        const { status, stdout, stderr } = spawnSync(name, args, { cwd: clone, encoding: "utf8", env });
        return { code: status, out: stdout.trim(), err: stderr };
      };
      const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { version: string };
      const next = version.replace(/\.(\d+)\.\d+$/, (_, minor: string) => `.${Number(minor) + 1}.0`);
      const log = "# Changelog\n\n## [Unreleased]\n\n";
      writeFileSync(join(clone, "CHANGELOG.md"), `${log}### Added\n\n- A bar.\n`);
      program("git", "init", "-q");
      program("git", "add", "-A");
      expect(program("git", "commit", "-qm", "Start").code).toBe(0);

      const released = program("npm", "version", "minor");
      expect([released.code, released.out.split("\n").at(-1)]).toEqual([0, `v${next}`]);
      expect(program("git", "tag", "--points-at", "HEAD").out).toBe(`v${next}`);
      expect(program("git", "show", "--format=%s", "--name-only", "HEAD").out.split(/\n+/)).toEqual([
        next,
        "CHANGELOG.md",
        "package-lock.json",
        "package.json",
      ]);
      expect(readFileSync(join(clone, "CHANGELOG.md"), "utf8")).toMatch(
        new RegExp(`## \\[Unreleased\\]\n\n## \\[${next}\\] - \\d{4}-\\d\\d-\\d\\d\n\n### Added\n\n- A bar\\.`),
      );

      // Nothing has been written since: there is nothing to release.
      const refused = program("npm", "version", "minor");
      expect(refused.code).not.toBe(0);
      expect(refused.err).toContain("Nothing stands under [Unreleased]");
      expect(program("git", "status", "--porcelain").out).toBe("");
      expect(program("git", "tag").out).toBe(`v${next}`);
    },
  );

  test.each([
    [GOOD.replace("[Unreleased]", "[Next]"), [], "The first section must be [Unreleased]"],
    [GOOD.replace("- 2026-05-02", "May"), [], "must have the form"],
    [GOOD.replace("### Added\n\n- A", "### News\n\n- A"), [], '"News" is none of'],
    [`${GOOD}\n## [0.2.0] - 2026-01-01\n`, [], "the newest comes first"],
    [GOOD, ["--release", "0.1.0"], "is not above 0.1.0"],
    [GOOD, ["--release", "next"], "is no version"],
  ])("is refused where it is out of order", (text, args, message) => {
    const { code, err } = run(text, ...args);
    expect([code, err]).toEqual([1, expect.stringContaining(message) as string]);
  });
});
