/**
 * A copied folder with `.git`, and a bare repository among its files, whose settings name a program wherever git's own
 * documentation (git-config, githooks, gitattributes of the installed git) says that one is started. Each leaves a mark.
 */
import { execFileSync, spawnSync } from "node:child_process";
import {
  appendFileSync,
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
} from "node:fs";
import { renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, dirname, join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { readHistory } from "../../extension/work/review/history.ts";
import { listRevisions } from "../../extension/work/review/git/list-revisions.ts";
import { makeRoll } from "../bench/synthetic-roll.ts";
import { run } from "../faults/stage.ts";

const home = mkdtempSync(join(tmpdir(), "hostile-"));
const clone = join(home, "clone");
const rolls = join(clone, "rolls");
const embedded = join(clone, "embedded");
const marks = join(home, "marks");
const programs = join(home, "programs");
/** A program that leaves its name as a mark and hands its input on, as a filter must. Not all are started by a shell. */
function mark(name: string): string {
  const path = join(programs, name.replaceAll(/[^\w.-]/g, "-"));
  if (!existsSync(path)) script(path, `echo '${name}' >> '${marks}'; cat 2>/dev/null; exit 0`);
  return path;
}
const marked = (): readonly string[] => (existsSync(marks) ? readFileSync(marks, "utf8").trim().split("\n") : []);

/** Verbs of git's own that Rollbook or its user runs: an alias or a pager for one of them would be started by it. */
const GIT_VERBS = [
  "rev-parse",
  "cat-file",
  "ls-files",
  "ls-tree",
  "log",
  "diff",
  "merge-base",
  "for-each-ref",
  "config",
];

/** How a documented setting is spelt in the test, by its documented name. */
const NAMES: readonly (readonly [documented: RegExp, real: readonly string[]])[] = [
  [/^alias\.\*$/, GIT_VERBS.map((verb) => `alias.${verb}`)],
  [/^pager\.<cmd>$/, GIT_VERBS.map((verb) => `pager.${verb}`)],
  [/^gpg\.<format>\.program$/, ["gpg.openpgp.program", "gpg.ssh.program", "gpg.x509.program"]],
  [/^includeIf\.<condition>\.path$/, ["includeIf.gitdir:**/.path"]],
];

/** Documented settings of whose names it follows that they start a program, or lead to more settings. */
const STARTS =
  /cmd$|command$|program$|helper$|textconv$|driver$|clean$|smudge$|process$|editor$|pager|askpass$|proxy$|hook$|hookspath$|(upload|receive)pack$|vcs$|fsmonitor$|diffFilter$|viewer$|browser$|^include|external$|^alias|\.update$|tool$|(tool|man|browser)\.<tool>\.path$|smtpServer$|packObjectsHook$/i;
/** What the pattern finds besides. */
const HARMLESS = /^(advice|color|fsck|receive\.fsck|http|column|notes)\.|cachetextconv$|^gitcvs\.|^core\.untracked/i;
/** Documented in gitattributes and git-interpret-trailers, not in the list. */
const UNLISTED = ["filter.<driver>.process", "trailer.<token>.command", "trailer.<token>.cmd", "merge.tool"];

function documented(): string[] {
  const listed = execFileSync("git", ["help", "--config"], { encoding: "utf8" }).split("\n");
  return [...listed.filter((name) => STARTS.test(name) && !HARMLESS.test(name)), ...UNLISTED];
}

function settings(): [key: string, value: string][] {
  const found = documented().flatMap((name): [string, string][] => {
    const real = NAMES.find(([pattern]) => pattern.test(name))?.[1] ?? [
      name.replace(/<(driver|tool)>/, "evil").replace(/<[^>]+>/, "origin"),
    ];
    return real.map((key) => [key, valueOf(key)]);
  });
  return [
    ...found,
    ["extensions.partialClone", "origin"],
    ["remote.origin.promisor", "true"],
    ["remote.origin.url", `ext::${mark("remote.origin.url")}`],
    ["remote.second.promisor", "true"],
    ["remote.second.url", "ssh://host.invalid/x"],
    ["remote.third.promisor", "true"],
    ["remote.third.vcs", "evil"],
    ["protocol.ext.allow", "always"],
    ["protocol.allow", "always"],
    ["log.showSignature", "true"],
    ["safe.bareRepository", "all"],
    ["core.untrackedCache", "true"],
    ["submodule.recurse", "true"],
  ];
}

function valueOf(key: string): string {
  if (key === "core.hooksPath") return join(home, "hooks");
  if (key.startsWith("include")) return join(home, "included");
  if (/^alias\.|^submodule\./.test(key)) return `!${mark(key)}`;
  if (/^remote\.origin\.vcs$/.test(key)) return "";
  if (/^(diff|merge)\.(gui)?tool$/.test(key)) return "evil";
  return mark(key);
}

const HOOKS = ["applypatch-msg", "pre-commit", "post-checkout", "post-merge", "pre-push", "reference-transaction"];
const ALL_HOOKS = [...HOOKS, "post-commit", "post-rewrite", "pre-auto-gc", "fsmonitor-watchman", "post-index-change"];

function writeHooks(folder: string): void {
  mkdirSync(folder, { recursive: true });
  for (const hook of ALL_HOOKS) script(join(folder, hook), `echo hook-${hook} >> '${marks}'; exit 0`);
}

function script(path: string, line: string): void {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, `#!/bin/sh\n${line}\n`);
  chmodSync(path, 0o755);
}

const git = (cwd: string, args: readonly string[], input?: string): string =>
  execFileSync("git", ["-c", "user.name=A", "-c", "user.email=a@example.org", ...args], {
    cwd,
    input,
    encoding: "utf8",
    stdio: ["pipe", "pipe", "ignore"],
    env: { ...process.env, GIT_CONFIG_GLOBAL: "/dev/null", GIT_CONFIG_SYSTEM: "/dev/null" },
  }).trim();

/** Written as text: git itself would act on some of them while it sets the others. */
function configure(file: string): void {
  const lines = settings().map(([key, value]) => {
    const [, section, sub, name] = /^([^.]+)\.(?:(.*)\.)?([^.]+)$/.exec(key)!;
    return `[${section}${sub === undefined ? "" : ` "${sub}"`}]\n\t${name} = "${value.replaceAll('"', '\\"')}"\n`;
  });
  appendFileSync(file, `[core]\n\trepositoryFormatVersion = 1\n${lines.join("")}`);
}

const ATTRIBUTES = "* filter=evil diff=evil merge=evil\n";

beforeAll(() => {
  mkdirSync(programs, { recursive: true });
  for (const name of ["git-remote-evil", "ssh", "gpg", "gpg2"])
    script(join(programs, name), `echo ${name} >> '${marks}'`);
  writeHooks(join(home, "hooks"));
  writeFileSync(
    join(home, "included"),
    `[core]\n\tfsmonitor = ${mark("included")}\n\tsshCommand = ${mark("included-ssh")}\n`,
  );

  makeRoll(rolls, "a", { width: 96, height: 64, frames: 2 });
  writeFileSync(join(clone, ".gitattributes"), ATTRIBUTES);
  git(clone, ["init", "-q", "-b", "main"]);
  git(clone, ["add", "-A"]);
  git(clone, ["commit", "-q", "-m", "one"]);
  change("0.58", "0.6");
  git(clone, ["commit", "-q", "-a", "-m", "two"]);
  signHead();
  const lost = git(clone, ["rev-parse", "HEAD~1:rolls/a.roll.yaml"]);
  rmSync(join(clone, ".git", "objects", lost.slice(0, 2), lost.slice(2)));
  change("gamma: 0.6\n", "gamma: 0.62\n");

  // A repository in disguise, as a commit can bring it.
  cpSync(rolls, embedded, { recursive: true });
  git(embedded, ["init", "-q", "--bare", "bare.git"]);
  for (const name of readdirSync(join(embedded, "bare.git")))
    renameSync(join(embedded, "bare.git", name), join(embedded, name));
  const own = ["--git-dir=.", "--work-tree=."];
  git(embedded, [...own, "add", "a.roll.yaml"]);
  git(embedded, [...own, "commit", "-q", "-m", "x"]);
  for (const [file, from] of [
    [join(embedded, "config"), embedded] as const,
    [join(clone, ".git", "config"), clone] as const,
  ]) {
    configure(file);
    if (from === embedded) appendFileSync(file, '[core]\n\tbare = false\n\tworktree = "."\n');
  }
  for (const folder of [embedded, join(clone, ".git")]) {
    writeHooks(join(folder, "hooks"));
    mkdirSync(join(folder, "info"), { recursive: true });
    writeFileSync(join(folder, "info", "attributes"), ATTRIBUTES);
  }
  writeFileSync(
    join(clone, ".gitmodules"),
    `[submodule "s"]\n\tpath = s\n\turl = ext::x\n\tupdate = !${mark("gitmodules")}\n`,
  );
  // Programs by the names that Rollbook starts.
  for (const folder of [clone, rolls, embedded])
    for (const name of ["git", "node"]) script(join(folder, name), `echo ./${name} >> '${marks}'`);
}, 60_000);
afterAll(() => rmSync(home, { recursive: true, force: true }));
beforeEach(() => rmSync(marks, { force: true }));

function change(from: string, to: string): void {
  const file = join(rolls, "a.roll.yaml");
  writeFileSync(file, readFileSync(file, "utf8").replace(from, to));
}

/** Puts a signature into the last commit, so that whoever shows signatures has to check it. */
function signHead(): void {
  const [head, ...rest] = git(clone, ["cat-file", "commit", "HEAD"]).split("\n\n");
  const signature = "gpgsig -----BEGIN PGP SIGNATURE-----\n \n AAAA\n -----END PGP SIGNATURE-----";
  const text = `${head}\n${signature}\n\n${rest.join("\n\n")}\n`;
  const id = git(clone, ["hash-object", "-t", "commit", "-w", "--stdin"], text);
  git(clone, ["update-ref", "refs/heads/main", id]);
}

/** The folder that a command runs in is searched first by an empty or relative entry of the path. */
const environment = { ...process.env, PATH: ["", ".", programs, process.env.PATH].join(delimiter) };

describe.skipIf(process.platform === "win32")("a hostile clone", () => {
  test("has every setting by which the documentation of git starts a program", () => {
    expect(documented().length).toBeGreaterThan(50);
    // A row for each setting of which it is known; more come with the installed git's own list.
    for (const name of [
      "core.fsmonitor",
      "core.sshCommand",
      "core.hooksPath",
      "core.pager",
      "core.editor",
      "core.askPass",
      "core.gitProxy",
      "core.alternateRefsCommand",
      "diff.external",
      "diff.<driver>.command",
      "diff.<driver>.textconv",
      "filter.<driver>.clean",
      "filter.<driver>.smudge",
      "filter.<driver>.process",
      "merge.<driver>.driver",
      "credential.helper",
      "gpg.program",
      "gpg.ssh.defaultKeyCommand",
      "uploadpack.packObjectsHook",
      "remote.<name>.uploadpack",
      "remote.<name>.vcs",
      "trailer.<token>.command",
      "include.path",
      "sequence.editor",
      "interactive.diffFilter",
      "submodule.<name>.update",
      "alias.*",
    ])
      expect(documented()).toContain(name);
  });

  test("starts programs when git itself is used in it: the marks work", () => {
    const plain = { cwd: clone, env: { ...environment, PATH: [programs, process.env.PATH].join(delimiter) } };
    for (const args of [
      ["status"],
      ["diff", "HEAD"],
      ["log", "-1", "--show-signature"],
      ["cat-file", "-p", "HEAD~1:rolls/a.roll.yaml"],
    ])
      spawnSync("git", args, { ...plain, timeout: 20_000 });
    spawnSync("git", ["status"], { ...plain, cwd: embedded, timeout: 20_000 });
    const started = marked().join("\n");
    for (const name of [
      /fsmonitor|included/,
      /filter\.evil\.(clean|process)/,
      /diff\.(external|evil\.)/,
      /gpg/,
      /hook-post-index-change/,
      /remote\.origin|ssh|git-remote-evil/,
    ])
      expect(started).toMatch(name);
  }, 120_000);

  /** With what they print when they have done their work. */
  const calls: readonly (readonly [args: readonly string[], folder: string, says: string])[] = [
    [["review"], clone, "curve   gamma 0.60 → 0.62"],
    [["review", "--words", "a.roll.yaml"], rolls, "curve   gamma 0.60 → 0.62"],
    [["review", "--words", "HEAD~1..HEAD"], clone, "nothing is fetched"],
    [["review", "--words", "a.roll.yaml"], embedded, "embedded/a.roll.yaml"],
    [["review", "--html", "../page.html", "--markdown", "../page.md"], embedded, "embedded/a.roll.yaml"],
    [["check", "a.roll.yaml"], rolls, "1 recipe"],
    [["check", "a.roll.yaml"], embedded, "1 recipe"],
    [["render", "a.roll.yaml", "-o", "out", "--frames", "1"], rolls, "1 picture written"],
    [["render", "a.roll.yaml", "-o", "out", "--frames", "1"], embedded, "1 picture written"],
    [["survey", "a.roll.yaml"], embedded, "["],
    [["contact", "a.roll.yaml", "-o", "sheet.jpg"], embedded, "pixels"],
    [["base", "a.roll.yaml"], embedded, "LEADER.dng"],
    [["format", "--check", "a.roll.yaml"], embedded, "formatted"],
    [["textconv", "a.roll.yaml"], rolls, "film"],
    [["textconv", "a.roll.yaml"], embedded, "film"],
    [["merge-driver", "b.yaml", "o.yaml", "t.yaml"], embedded, "both sides changed title"],
    [["git-setup"], clone, "Written"],
    [["git-setup", "--undo"], clone, "configuration"],
    [["git-setup"], embedded, "Written"],
  ];
  test.each(calls)(
    "%j starts none of its programs in %s",
    async (args, folder, message) => {
      const sides = { b: "one", o: "two", t: "three" };
      for (const [name, title] of Object.entries(sides))
        writeFileSync(join(folder, `${name}.yaml`), `version: 1\ntitle: ${title}\nnote: x\n`);
      // Files whose times differ from the index's are looked at again by whoever compares.
      for (const scan of filesIn(join(folder === clone ? rolls : folder, "scans")))
        writeFileSync(scan, readFileSync(scan));
      const ended = await run(args, { cwd: folder, env: environment });
      expect(ended.out + ended.err).toContain(message);
      expect(ended.err).not.toMatch(/broke down|\n\s+at /);
      expect(marked()).toEqual([]);
    },
    120_000,
  );

  test("starts none by what an editor asks of git", async () => {
    const before = process.env.PATH;
    process.env.PATH = environment.PATH;
    try {
      for (const folder of [clone, rolls, embedded]) {
        await readHistory({ folder, range: "" });
        await readHistory({ folder, range: "HEAD", sinceLeft: true });
        await listRevisions({ folder, file: join(rolls, "a.roll.yaml") });
        await expect(readHistory({ folder, range: "HEAD~1..HEAD" })).rejects.toThrow("nothing is fetched");
      }
    } finally {
      process.env.PATH = before;
    }
    expect(marked()).toEqual([]);
  }, 120_000);

  test("starts none by variables of git's", async () => {
    const env = {
      ...environment,
      GIT_EXTERNAL_DIFF: mark("GIT_EXTERNAL_DIFF"),
      GIT_PAGER: mark("GIT_PAGER"),
      GIT_EDITOR: mark("GIT_EDITOR"),
      GIT_ASKPASS: mark("GIT_ASKPASS"),
      GIT_SSH: mark("GIT_SSH"),
      GIT_SSH_COMMAND: mark("GIT_SSH_COMMAND"),
      GIT_PROXY_COMMAND: mark("GIT_PROXY_COMMAND"),
      GIT_CONFIG_GLOBAL: join(home, "included"),
      GIT_CONFIG_COUNT: "1",
      GIT_CONFIG_KEY_0: "core.fsmonitor",
      GIT_CONFIG_VALUE_0: mark("GIT_CONFIG"),
      GIT_CONFIG_PARAMETERS: `'core.fsmonitor'='${mark("GIT_CONFIG_PARAMETERS")}'`,
      GIT_ALLOW_PROTOCOL: "ext:ssh:file",
    };
    for (const range of ["HEAD", "HEAD~1..HEAD"]) await run(["review", "--words", range], { cwd: clone, env });
    expect(marked()).toEqual([]);
  }, 120_000);
});

describe("git", () => {
  test("is started in one place", () => {
    const starters = filesIn(join(import.meta.dirname, "../../extension"))
      .filter((file) => file.endsWith(".ts") && readFileSync(file, "utf8").includes("node:child_process"))
      .map((file) => file.replace(/^.*\//, ""));
    expect(starters.toSorted()).toEqual(["git-command.ts", "pool-process.ts"]);
  });

  test("is told by a hook where the repository is", async () => {
    const folder = join(home, "hooked");
    makeRoll(folder, "a", { width: 48, height: 32, frames: 1 });
    git(folder, ["init", "-q", "-b", "main"]);
    git(folder, ["add", "-A"]);
    git(folder, ["commit", "-q", "-m", "one"]);
    const recipe = join(folder, "a.roll.yaml");
    writeFileSync(recipe, readFileSync(recipe, "utf8").replace("0.58", "0.6"));
    const env = { ...process.env, GIT_DIR: ".git", GIT_INDEX_FILE: ".git/index", GIT_WORK_TREE: "." };
    const ended = await run(["review", "--words", "--json"], { cwd: folder, env });
    expect(JSON.parse(ended.out)).toMatchObject({ ok: true, recipes: [{ file: "a.roll.yaml", status: "changed" }] });
  }, 60_000);

  test("names no other folder as the working tree than the repository's own", async () => {
    const folder = join(home, "elsewhere");
    makeRoll(folder, "a", { width: 48, height: 32, frames: 1 });
    git(folder, ["init", "-q", "-b", "main"]);
    for (const place of [home, join(home, "..")]) {
      git(folder, ["config", "core.worktree", place]);
      const ended = await run(["review", "--words"], { cwd: folder });
      expect(ended.code).toBe(2);
      expect(ended.err).toContain("name another folder as its working tree");
    }
  }, 60_000);
});

function filesIn(folder: string): string[] {
  return readdirSync(folder)
    .map((name) => join(folder, name))
    .flatMap((path) => (statSync(path).isDirectory() ? filesIn(path) : [path]));
}
