/** A repository to read from; git's index and the working tree are left alone. */
import { existsSync, realpathSync, statSync } from "node:fs";
import { dirname, join, relative, resolve, sep } from "node:path";
import { GitError, type GitOptions, type GitOutput, runGit } from "./git-command.ts";

export { GitError } from "./git-command.ts";

export interface Git {
  /** The working tree's top folder, absolute. */
  readonly root: string;
  /** What a git command prints. */
  run(...args: readonly string[]): Promise<string>;
  /** The same, or undefined where git ends with an exit code. */
  tryRun(...args: readonly string[]): Promise<string | undefined>;
  /** Contents of objects, by id; ids that no object was found for are left out. */
  objects(ids: readonly string[]): Promise<Map<string, Buffer>>;
  /** Sizes of objects in bytes, by id; the same. */
  sizes(ids: readonly string[]): Promise<Map<string, number>>;
}

/**
 * @param folder any folder of the working tree
 * @param program the git command; found on the path where not given
 * @throws GitError where there is no git, or no repository
 */
export async function openGit(folder: string, program?: string, signal?: AbortSignal): Promise<Git> {
  const root = await topOf(folder, { program, signal });
  const options = { cwd: root, program, signal };
  return {
    root,
    run: async (...args) => textOf(await runGit(args, options), root),
    async tryRun(...args) {
      const output = await runGit(args, options);
      return output.code === 0 ? output.stdout.toString("utf8") : undefined;
    },
    async objects(ids) {
      if (ids.length === 0) return new Map();
      const output = await runGit(["cat-file", "--batch"], { ...options, input: linesOf(ids) });
      return splitObjects(bytesOf(output, root));
    },
    async sizes(ids) {
      if (ids.length === 0) return new Map();
      const output = await runGit(["cat-file", "--batch-check"], { ...options, input: linesOf(ids) });
      const rows = textOf(output, root).split("\n");
      return new Map(rows.flatMap((row) => headerOf(row) ?? []).map(({ id, size }) => [id, size]));
    },
  };
}

const linesOf = (ids: readonly string[]): string => `${[...new Set(ids)].join("\n")}\n`;

const textOf = (output: GitOutput, cwd: string): string => bytesOf(output, cwd).toString("utf8");

function bytesOf({ code, stdout, stderr }: GitOutput, cwd: string): Buffer {
  if (code === 0) return stdout;
  throw explain(stderr, code, cwd);
}

/** The top folder of the repository that a folder lies in. */
async function topOf(folder: string, options: Omit<GitOptions, "cwd">): Promise<string> {
  const run = async (cwd: string): Promise<GitOutput> =>
    await runGit(["rev-parse", "--show-toplevel", "--absolute-git-dir"], { ...options, cwd });
  let from = resolve(folder);
  let output = await run(from);
  // A folder that looks like a bare repository may have come with the clone that it lies in.
  const above = /cannot use bare repository/i.test(output.stderr) ? repositoryAround(from) : undefined;
  if (above) output = await run((from = above));
  const [top = "", own = ""] = textOf(output, from).split(/\r?\n/);
  if (!isOwnFolder(top, own, from))
    throw new GitError(
      "no-repository",
      `The settings of the repository at ${from} name another folder as its working tree: ${top}.`,
      "If that is meant, set GIT_WORK_TREE to it; else remove core.worktree from the repository's settings.",
    );
  return top;
}

/** The nearest folder at or above one that holds `.git`. */
function repositoryAround(folder: string): string | undefined {
  for (let at = folder; ; at = dirname(at)) {
    if (existsSync(join(at, ".git"))) return at;
    if (dirname(at) === at) return undefined;
  }
}

/** Whether a working tree is the folder that holds the repository, not one that its settings point to. */
function isOwnFolder(top: string, own: string, from: string): boolean {
  if (process.env.GIT_DIR || process.env.GIT_WORK_TREE) return true; // the caller said so
  try {
    const way = relative(realpathSync(top), realpathSync(from));
    if (way === ".." || way.startsWith(`..${sep}`)) return false;
    const dot = join(top, ".git");
    return statSync(dot).isDirectory() ? realpathSync(dot) === realpathSync(own) : true;
  } catch {
    return false;
  }
}

function explain(stderrText: string, code: number, cwd: string): GitError {
  if (/not a git repository/i.test(stderrText))
    return new GitError(
      "no-repository",
      `${cwd} lies in no git repository, so there is no earlier state to compare with.`,
      'Run "git init" in the folder of the recipes, and commit them.',
    );
  if (/dubious ownership/i.test(stderrText))
    return new GitError(
      "no-repository",
      `git does not trust the repository at ${cwd}, because it belongs to another user.`,
      "git's own message tells how to trust it: run git status there.",
    );
  if (/must be run in a work tree|cannot use bare repository/i.test(stderrText))
    return new GitError(
      "no-repository",
      `${cwd} is a bare repository; a review needs a working tree with the scans.`,
      "Run it in a clone.",
    );
  const last = stderrText.trim().split("\n").at(-1)?.replace(/\.$/, "") ?? "";
  return new GitError("failed", `git failed in ${cwd}: ${last || `exit code ${code}`}.`, "Run git status there.");
}

/** "<id> <kind> <size>", as `git cat-file --batch` and `--batch-check` write it; undefined for a missing object. */
function headerOf(line: string): { id: string; size: number } | undefined {
  const [, id, size] = /^([0-9a-f]+) \w+ (\d+)$/.exec(line) ?? [];
  return id === undefined ? undefined : { id, size: Number(size) };
}

/** A header line, the bytes, a line end, for each object. */
function splitObjects(all: Buffer): Map<string, Buffer> {
  const objects = new Map<string, Buffer>();
  for (let at = 0; at < all.length;) {
    const end = all.indexOf(10, at);
    const header = headerOf(all.toString("utf8", at, end));
    at = end + 1;
    if (!header) continue;
    objects.set(header.id, all.subarray(at, at + header.size));
    at += header.size + 1;
  }
  return objects;
}
