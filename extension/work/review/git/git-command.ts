/** The one place that starts git: without a shell, and so that nothing that a repository names is started by it. */
import { spawn } from "node:child_process";
import { accessSync, constants, existsSync, statSync } from "node:fs";
import { delimiter, isAbsolute, join, resolve } from "node:path";

/** Why git could not answer, in a sentence for people. */
export class GitError extends Error {
  override readonly name = "GitError";
  readonly code: "no-git" | "no-repository" | "unknown-revision" | "shallow" | "incomplete" | "timed-out" | "failed";
  readonly remedy?: string;

  constructor(code: GitError["code"], message: string, remedy?: string) {
    super(message);
    this.code = code;
    this.remedy = remedy;
  }
}

export interface GitOptions {
  readonly cwd: string;
  /** Absolute path of the git command; the first on the path where not given. */
  readonly program?: string;
  readonly signal?: AbortSignal;
  /** Text for its standard input. */
  readonly input?: string;
}

export interface GitOutput {
  readonly code: number;
  readonly stdout: Buffer;
  readonly stderr: string;
}

/**
 * Settings that win over the repository's own files. `protocol.allow` alone would not do: a repository may allow single
 * protocols, and only GIT_ALLOW_PROTOCOL wins over those. No command that filters, converts or compares files of the
 * working tree is ever run, so filter.*, diff.* and merge.* of a repository have no say.
 */
const SETTINGS: readonly (readonly [key: string, value: string])[] = [
  ["safe.bareRepository", "explicit"], // a folder in a commit may look like a bare repository, settings and all
  ["core.hooksPath", "/dev/null"],
  ["core.fsmonitor", "false"],
  ["core.quotePath", "false"],
  ["log.showSignature", "false"], // it starts gpg.program
  ["protocol.allow", "never"],
  ["submodule.recurse", "false"],
];

const ARGUMENTS: readonly string[] = [
  "--no-pager",
  "--literal-pathspecs",
  ...SETTINGS.flatMap(([key, value]) => ["-c", `${key}=${value}`]),
];

/** Variables that say where the repository is: git sets them for its hooks. Every other GIT_ variable is dropped. */
const PLACES = [
  "GIT_DIR",
  "GIT_WORK_TREE",
  "GIT_INDEX_FILE",
  "GIT_COMMON_DIR",
  "GIT_OBJECT_DIRECTORY",
  "GIT_QUARANTINE_PATH",
];
const ALLOWED_VARIABLES = new Set([
  ...PLACES,
  "GIT_ALTERNATE_OBJECT_DIRECTORIES",
  "GIT_CEILING_DIRECTORIES",
  "GIT_DISCOVERY_ACROSS_FILESYSTEM",
  "GIT_NAMESPACE",
  "GIT_EXEC_PATH",
]);

/** A pipe in the place of a settings file would keep git waiting for ever. */
const LIMIT_SECONDS = 120;
const LARGEST_ANSWER = 512 * 2 ** 20;

/** Ctrl-C reaches git as well as this process, and git's end may be heard of before the signal itself. */
const ASKED_OF_ALL: ReadonlySet<NodeJS.Signals> = new Set(["SIGINT", "SIGTERM", "SIGHUP"]);
const OWN_SIGNAL_MILLISECONDS = 500;

/**
 * Runs git and waits for its end, whatever its exit code.
 * @throws GitError "no-git", "timed-out", or "failed" for an answer above 512 MB; the signal's reason when aborted
 */
export async function runGit(args: readonly string[], options: GitOptions): Promise<GitOutput> {
  const { cwd, signal, input } = options;
  signal?.throwIfAborted();
  if (!existsSync(cwd)) throw new GitError("no-repository", `There is no folder ${cwd}.`, "Check the path.");
  const program = options.program && isAbsolute(options.program) ? options.program : findProgram("git");
  return new Promise((resolvePromise, reject) => {
    const child = spawn(program, [...ARGUMENTS, ...args], {
      cwd,
      env: environment(),
      windowsHide: true,
      signal,
      timeout: LIMIT_SECONDS * 1000,
      killSignal: "SIGKILL",
      stdio: ["pipe", "pipe", "pipe"],
    });
    const parts: Buffer[] = [];
    let size = 0;
    let stderr = "";
    child.stdout.on("data", (part: Buffer) => {
      parts.push(part);
      size += part.length;
      if (size > LARGEST_ANSWER) child.kill("SIGKILL");
    });
    child.stderr.setEncoding("utf8").on("data", (text: string) => (stderr = (stderr + text).slice(-10_000)));
    child.on("error", (error) => reject(signal?.aborted ? (signal.reason as Error) : notStarted(error)));
    const settle = (code: number | null): void => {
      if (signal?.aborted) reject(signal.reason as Error);
      else if (code !== null) resolvePromise({ code, stdout: Buffer.concat(parts), stderr });
      else reject(size > LARGEST_ANSWER ? tooMuch() : ended());
    };
    child.on("close", (code, by) => {
      if (by && ASKED_OF_ALL.has(by)) setTimeout(settle, OWN_SIGNAL_MILLISECONDS, code);
      else settle(code);
    });
    child.stdin.on("error", () => {}); // its end is reported by "close"
    child.stdin.end(input ?? "");
  });
}

/** The process's own variables, without those by which git would be told to start something or to look elsewhere. */
function environment(): NodeJS.ProcessEnv {
  const kept: NodeJS.ProcessEnv = {};
  for (const [name, value] of Object.entries(process.env))
    if (!/^GIT_/i.test(name) || ALLOWED_VARIABLES.has(name.toUpperCase())) kept[name] = value;
  // git runs in the repository's top folder, whichever folder these are relative to.
  for (const name of PLACES) if (kept[name]) kept[name] = resolve(kept[name]);
  return {
    ...kept,
    GIT_ALLOW_PROTOCOL: "none",
    GIT_NO_LAZY_FETCH: "1", // since 2.44, and in the maintained older ones; before, no protocol is allowed
    GIT_OPTIONAL_LOCKS: "0",
    GIT_TERMINAL_PROMPT: "0",
    LC_ALL: "C",
  };
}

/**
 * The first program of a name in an absolute folder of the path: the folder that a command runs in, which some systems
 * search first or by an empty entry of the path, may hold anything.
 */
function findProgram(name: string): string {
  const file = process.platform === "win32" ? `${name}.exe` : name;
  for (const folder of (process.env.PATH ?? "").split(delimiter)) {
    const path = join(folder, file);
    if (isAbsolute(folder) && isExecutable(path)) return path;
  }
  throw noGit();
}

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}

const noGit = (): GitError =>
  new GitError(
    "no-git",
    "The git command was not found, and without it there is no earlier state to compare with.",
    "Install git, and check that it is on the path.",
  );

const notStarted = (error: NodeJS.ErrnoException): GitError =>
  error.code === "ENOENT"
    ? noGit()
    : new GitError("failed", `git could not be started (${error.code ?? error.message}).`, "Check the installation.");

const tooMuch = (): GitError =>
  new GitError("failed", "git answered with more than 512 MB.", "Check whether large files were committed as recipes.");

const ended = (): GitError =>
  new GitError(
    "timed-out",
    `git took longer than ${LIMIT_SECONDS} s, or was ended, and gave no answer.`,
    "Run git status in the repository; a pipe among its files or a slow network disk may hold it.",
  );
