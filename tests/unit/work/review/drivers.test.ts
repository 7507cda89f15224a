/** The command as git calls it, and as a CI job does: exit codes, what is written, what is taken away again. */
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { Repository, rollText, stockText } from "./repository.ts";

const root = fileURLToPath(new URL("../../../..", import.meta.url));
// Beside the packages, so that what is not bundled is found.
const programs = join(root, "node_modules", ".cache", `review-test-${process.pid}`);
const program = join(programs, "rollbook.mjs");

beforeAll(async () => {
  mkdirSync(programs, { recursive: true });
  await build({
    absWorkingDir: root,
    entryPoints: ["extension/cli/main.ts"],
    outfile: program,
    bundle: true,
    format: "esm",
    platform: "node",
    target: "node20",
    external: ["sharp"],
    define: { ROLLBOOK_VERSION: '"test"' },
    banner: { js: "import { createRequire as r } from 'node:module'; const require = r(import.meta.url);" },
    logLevel: "error",
  });
  for (const name of ["review.js", "review.css"]) writeFileSync(join(programs, name), "");
});
afterAll(() => rmSync(programs, { recursive: true, force: true }));

let repository: Repository;
beforeEach(() => {
  repository = new Repository();
  repository.write("stocks/northlight.stock.yaml", stockText(1.35));
  repository.write("film.roll.yaml", rollText("Film", 3, "stocks/northlight.stock.yaml"));
  repository.commit("start");
});
afterEach(() => repository.remove());

const rollbook = (...args: readonly string[]) => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], {
    cwd: repository.root,
    encoding: "utf8",
  });
  return { status, stdout, stderr };
};

describe("git-setup", () => {
  test("what it writes it takes away, and nothing else", () => {
    repository.write(".git/info/attributes", "*.dng binary\n");
    const config = repository.read(".git/config");
    expect(rollbook("git-setup")).toMatchObject({
      status: 0,
      stdout: expect.stringContaining("diff.rollbook.textconv"),
    });
    expect(repository.read(".git/info/attributes")).toContain("*.roll.yaml diff=rollbook merge=rollbook");
    const again = repository.read(".git/info/attributes");
    rollbook("git-setup");
    expect(repository.read(".git/info/attributes")).toBe(again);
    expect(rollbook("git-setup", "--undo").status).toBe(0);
    expect(repository.read(".git/info/attributes")).toBe("*.dng binary\n");
    expect(repository.read(".git/config").trim()).toBe(config.trim());
    expect(rollbook("git-setup", "--undo").stdout).toContain("There is nothing to remove.");
  });

  test("one of the two alone", () => {
    rollbook("git-setup");
    rollbook("git-setup", "--only", "merge");
    expect(repository.read(".git/info/attributes")).toMatch(/^\*\.roll\.yaml merge=rollbook$/m);
    expect(repository.read(".git/config")).not.toContain("textconv");
    expect(rollbook("git-setup", "--only", "both").status).toBe(2);
  });

  test("shared attributes go when nothing else is in them", () => {
    rollbook("git-setup", "--shared");
    expect(existsSync(join(repository.root, ".gitattributes"))).toBe(true);
    rollbook("git-setup", "--undo");
    expect(existsSync(join(repository.root, ".gitattributes"))).toBe(false);
  });

  test("git diff shows resolved values, of older states too", () => {
    rollbook("git-setup");
    repository.swap(
      "film.roll.yaml",
      "scan: F02.dng",
      "scan: F02.dng   # the good one\n    positive: { exposure: 0.33 }",
    );
    repository.commit("lighter");
    const lines = repository
      .git("diff", "HEAD^", "HEAD")
      .split("\n")
      .filter((line) => /^[-+] /.test(line));
    expect(lines).toEqual(["+  balance · exposure +0.33 EV"]);
    expect(repository.git("diff", "HEAD^", "HEAD")).toContain(" frame 02");
  });
});

describe("merging", () => {
  const branch = (name: string, change: () => void): void => {
    repository.git("checkout", "-q", "-b", name, "main");
    change();
    repository.commit(name);
  };
  const frame = (id: string, keys: string) => () =>
    repository.swap("film.roll.yaml", `"${id}":\n    scan: F${id}.dng`, `"${id}":\n    scan: F${id}.dng\n    ${keys}`);

  test("neighbouring frames and values of one frame do not conflict", () => {
    rollbook("git-setup");
    branch("mine", frame("02", "positive: { exposure: 0.5 }"));
    branch("theirs", frame("02", "positive: { contrast: 1.2 }"));
    repository.git("merge", "-q", "-m", "both", "mine");
    expect(repository.read("film.roll.yaml")).toContain("positive: { exposure: 0.5, contrast: 1.2 }");
  });

  test("without the driver the same merge conflicts", () => {
    branch("mine", frame("02", "positive: { exposure: 0.5 }"));
    branch("theirs", frame("02", "positive: { contrast: 1.2 }"));
    expect(() => repository.git("merge", "-q", "-m", "both", "mine")).toThrow("Command failed");
  });

  test("a real conflict is marked on the value, and git knows of it", () => {
    rollbook("git-setup");
    branch("mine", frame("02", "positive: { exposure: 0.5 }"));
    branch("theirs", frame("02", "positive: { exposure: 0.2 }"));
    expect(() => repository.git("merge", "-q", "-m", "both", "mine")).toThrow(
      /both sides changed frames\."02"\.positive\.exposure/,
    );
    expect(repository.git("status", "--porcelain")).toContain("UU film.roll.yaml");
    expect(repository.read("film.roll.yaml").match(/^[<=>]{7}.*$/gm)).toEqual([
      "<<<<<<< ours",
      "=======",
      ">>>>>>> theirs",
    ]);
  });

  test("a text that is not YAML is merged by lines", () => {
    rollbook("git-setup");
    branch("mine", () => repository.swap("film.roll.yaml", "title: Film", "title: Film one"));
    branch("theirs", () => repository.write("film.roll.yaml", `${repository.read("film.roll.yaml")}broken: [\n`));
    repository.git("merge", "-q", "-m", "both", "mine");
    expect(repository.read("film.roll.yaml")).toMatch(/title: Film one[^]*broken: \[/);
  });

  test("files that are not there leave the merge to git", () => {
    expect(rollbook("merge-driver", "a.yaml", "b.yaml", "c.yaml").status).toBeGreaterThan(128);
  });
});

describe("review in a CI job", () => {
  test("exit codes", () => {
    expect(rollbook("review", "--words", "--fail-on-change").status).toBe(0);
    repository.swap("film.roll.yaml", "title: Film", "title: Another");
    expect(rollbook("review", "--words", "--fail-on-change").status).toBe(0);
    repository.swap("stocks/northlight.stock.yaml", "1.35", "1.5");
    expect(rollbook("review", "--words").status).toBe(0);
    expect(rollbook("review", "--words", "--fail-on-change")).toMatchObject({
      status: 1,
      stderr: expect.stringContaining("film.roll.yaml: frame 01 looks different."),
    });
    repository.swap("stocks/northlight.stock.yaml", "1.5", "many");
    expect(rollbook("review", "--words").status).toBe(1);
    expect(rollbook("review", "nowhere").status).toBe(2);
    expect(rollbook("review", "--html", "film.roll.yaml").status).toBe(2);
    expect(rollbook("review", "HEAD", "main").status).toBe(2);
  });

  test("JSON is one object, Markdown holds no markup of a recipe's making", () => {
    repository.swap("film.roll.yaml", "title: Film", 'title: "<b>|Film|</b> @someone [x](http://y)"');
    const found = JSON.parse(rollbook("review", "--words", "--json").stdout) as { recipes: { changes: unknown[] }[] };
    expect(found.recipes[0]?.changes).toHaveLength(1);
    const markdown = rollbook("review", "--words", "--markdown", "-").stdout;
    expect(markdown).toContain("&lt;b&gt;&#124;Film&#124;&lt;/b&gt; &#64;someone &#91;x&#93;(http&#58;//y)");
    rollbook("review", "--words", "--html", "out/review.html", "--markdown", "out/review.md");
    expect(readFileSync(join(repository.root, "out/review.html"), "utf8")).not.toContain("<b>|");
    // A file also ends in a comment by which it is known again.
    expect(repository.read("out/review.md").startsWith(markdown.trimEnd())).toBe(true);
  });

  test("outside a repository", () => {
    rmSync(join(repository.root, ".git"), { recursive: true });
    expect(rollbook("review")).toMatchObject({
      status: 2,
      stderr: expect.stringContaining("lies in no git repository"),
    });
  });
});
