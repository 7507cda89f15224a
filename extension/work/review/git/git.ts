/** The git command, read only: never through a shell, never with the index, the working tree or a hook touched. */
import { execFile, spawn } from "node:child_process";

/** Why git could not answer, in a sentence for people. */
export class GitError extends Error {
  override readonly name = "GitError";
  readonly code: "no-git" | "no-repository" | "unknown-revision" | "shallow" | "failed";
  readonly remedy?: string;

  constructor(code: GitError["code"], message: string, remedy?: string) {
    super(message);
    this.code = code;
    this.remedy = remedy;
  }
}

/** A repository to read from. */
export interface Git {
  /** The working tree's top folder, absolute. */
  readonly root: string;
  /** What a git command prints. */
  run(...args: readonly string[]): Promise<string>;
  /** The same, or undefined where git ends with an exit code. */
  ask(...args: readonly string[]): Promise<string | undefined>;
  /** Contents of objects, by id; ids that there is no object for are left out. */
  objects(ids: readonly string[]): Promise<Map<string, Buffer>>;
}

const LARGEST_ANSWER = 512 * 2 ** 20;

/** Nothing that a repository's own settings name is started, and no lock is taken for the sake of speed. */
const QUIET = ["-c", "core.fsmonitor=false", "-c", "core.quotePath=false", "-c", "log.showSignature=false"];

const environment = (): NodeJS.ProcessEnv => ({
  ...process.env,
  GIT_OPTIONAL_LOCKS: "0",
  GIT_TERMINAL_PROMPT: "0",
  LC_ALL: "C",
});

/**
 * @param folder any folder of the working tree
 * @param program the git command; found on the path where not given
 * @throws GitError where there is no git, or no repository
 */
export async function openGit(folder: string, program = "git", signal?: AbortSignal): Promise<Git> {
  const call = (cwd: string, args: readonly string[]): Promise<string> => execute(program, cwd, args, signal);
  const top = (await call(folder, ["rev-parse", "--show-toplevel"])).replace(/\r?\n$/, "");
  return {
    root: top,
    run: (...args) => call(top, args),
    async ask(...args) {
      try {
        return await call(top, args);
      } catch (error) {
        if (error instanceof GitError && error.code === "failed") return undefined;
        throw error;
      }
    },
    objects: (ids) => readObjects(program, top, ids, signal),
  };
}

function execute(program: string, cwd: string, args: readonly string[], signal?: AbortSignal): Promise<string> {
  return new Promise((resolve, reject) => {
    const options = { cwd, env: environment(), maxBuffer: LARGEST_ANSWER, windowsHide: true, signal };
    execFile(program, [...QUIET, ...args], options, (error, stdout, stderr) => {
      if (!error) resolve(stdout);
      else if (signal?.aborted) reject(signal.reason as Error);
      else reject(explain(error, stderr, cwd));
    });
  });
}

function explain(error: Error & { code?: unknown }, complaint: string, cwd: string): Error {
  if (error.code === "ENOENT")
    return new GitError(
      "no-git",
      "The git command was not found, and without it there is no earlier state to compare with.",
      "Install git, and see that it is on the path.",
    );
  if (/not a git repository/i.test(complaint))
    return new GitError(
      "no-repository",
      `${cwd} lies in no git repository, so there is no earlier state to compare with.`,
      'Run "git init" in the folder of the recipes, and commit them.',
    );
  if (/dubious ownership/i.test(complaint))
    return new GitError(
      "no-repository",
      `git does not trust the repository at ${cwd}, because it belongs to another user.`,
      "git's own message tells how to trust it: run git status there.",
    );
  if (/must be run in a work tree/i.test(complaint))
    return new GitError("no-repository", `${cwd} is a bare repository; a review needs a working tree with the scans.`);
  const last = complaint.trim().split("\n").at(-1) ?? "";
  return new GitError("failed", `git could not do it: ${last || error.message}`);
}

/** One `git cat-file --batch` for all of them: a header line, the bytes, a line end, for each. */
function readObjects(
  program: string,
  cwd: string,
  ids: readonly string[],
  signal?: AbortSignal,
): Promise<Map<string, Buffer>> {
  const wanted = [...new Set(ids)];
  if (wanted.length === 0) return Promise.resolve(new Map());
  return new Promise((resolve, reject) => {
    const options = { cwd, env: environment(), windowsHide: true, signal, stdio: ["pipe", "pipe", "pipe"] as const };
    const child = spawn(program, [...QUIET, "cat-file", "--batch"], { ...options, stdio: ["pipe", "pipe", "pipe"] });
    const parts: Buffer[] = [];
    let complaint = "";
    child.stdout.on("data", (part: Buffer) => parts.push(part));
    child.stderr.setEncoding("utf8").on("data", (text: string) => (complaint += text));
    child.on("error", (error) => reject(signal?.aborted ? (signal.reason as Error) : explain(error, "", cwd)));
    child.on("close", (code) => {
      if (code === 0) resolve(splitObjects(Buffer.concat(parts)));
      else reject(explain(new Error(`exit code ${code}`), complaint, cwd));
    });
    child.stdin.on("error", () => {}); // its end is told by "close"
    child.stdin.end(`${wanted.join("\n")}\n`);
  });
}

function splitObjects(all: Buffer): Map<string, Buffer> {
  const objects = new Map<string, Buffer>();
  for (let at = 0; at < all.length;) {
    const end = all.indexOf(10, at);
    const [id = "", kind, size] = all.toString("utf8", at, end).split(" ");
    at = end + 1;
    if (kind === "missing" || size === undefined) continue;
    const length = Number(size);
    objects.set(id, all.subarray(at, at + length));
    at += length + 1;
  }
  return objects;
}
