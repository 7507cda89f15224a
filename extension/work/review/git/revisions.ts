/** Which two states a review is about. */
import { type Git, GitError } from "./git.ts";

/** A state of the repository: a commit, the files as they are on disk, or the nothing before the first commit. */
export type State =
  | { readonly kind: "commit"; readonly commit: string; readonly label: string; readonly subject: string }
  | { readonly kind: "disk"; readonly label: string }
  | { readonly kind: "nothing"; readonly label: string };

export interface Range {
  readonly before: State;
  readonly after: State;
}

const DISK: State = { kind: "disk", label: "the working tree" };
const NOTHING: State = { kind: "nothing", label: "nothing" };

/**
 * Reads a range: "" is HEAD and the working tree; "A" is A and the working tree; "A..B" is A and B; "A...B" is the
 * merge base of both and B, what a pull request shows; "A^!" is a commit and the one before it. HEAD stands for an end
 * that is left out.
 * @throws GitError for a revision that there is not
 */
export async function readRange(git: Git, text: string): Promise<Range> {
  const options = text.trim();
  if (options.endsWith("^!")) {
    const after = await commitOf(git, options.slice(0, -2));
    return { before: await parentOf(git, after), after };
  }
  const range = /^(.*?)(\.{2,3})(.*)$/.exec(options);
  if (!range) return { before: await stateOf(git, options || "HEAD"), after: DISK };
  const [, from = "", dots = "", to = ""] = range;
  const after = await stateOf(git, to || "HEAD");
  const before = await stateOf(git, from || "HEAD");
  if (dots === ".." || before.kind !== "commit" || after.kind !== "commit") return { before, after };
  return { before: await mergeBase(git, before, after), after };
}

/** The place where HEAD left another branch, and the working tree. @throws GitError for a revision that there is not */
export async function mergeBaseWithHead(git: Git, revision: string): Promise<Range> {
  const [other, head] = [await commitOf(git, revision), await commitOf(git, "HEAD")];
  return { before: await mergeBase(git, other, head), after: DISK };
}

/** Nothing for HEAD of a repository without commits, and for what lies before the first one. */
async function stateOf(git: Git, revision: string): Promise<State> {
  const found = await tryCommit(git, revision);
  if (found) return found;
  if (revision === "HEAD") return { ...NOTHING, label: "nothing (no commit yet)" };
  const older = /^(.*?)(\^1?|~1?)$/.exec(revision);
  const first = older && (await tryCommit(git, older[1] || "HEAD"));
  if (first) return await parentOf(git, first);
  throw await unknownRevision(git, revision);
}

type Commit = State & { readonly kind: "commit" };

async function commitOf(git: Git, revision: string): Promise<Commit> {
  const found = await tryCommit(git, revision || "HEAD");
  if (!found) throw await unknownRevision(git, revision || "HEAD");
  return found;
}

async function tryCommit(git: Git, revision: string): Promise<Commit | undefined> {
  // A word that begins with a dash would be an option to git, and a null character ends a program's arguments.
  if (revision.startsWith("-") || revision.includes("\0")) return undefined;
  const id = await git.tryRun("rev-parse", "--verify", "--quiet", "--end-of-options", `${revision}^{commit}`);
  if (id === undefined) return undefined;
  const commit = id.trim();
  const subject = (await git.run("log", "-1", "--format=%s", "--no-show-signature", commit)).trim();
  const short = commit.slice(0, 9);
  return {
    kind: "commit",
    commit,
    subject,
    label: commit.startsWith(revision) ? short : `${revision} (${short})`,
  };
}

async function parentOf(git: Git, { commit }: Commit): Promise<State> {
  const parent = await tryCommit(git, `${commit}^1`);
  if (parent) return { ...parent, label: parent.commit.slice(0, 9) };
  // In a shallow clone the oldest commit that is there looks like the first.
  if ((await git.run("rev-parse", "--is-shallow-repository")).trim() === "true")
    throw new GitError(
      "shallow",
      `The clone is shallow and does not reach behind ${commit.slice(0, 9)}.`,
      "Fetch more of the history: git fetch --unshallow.",
    );
  return { ...NOTHING, label: "nothing (before the first commit)" };
}

async function mergeBase(git: Git, a: Commit, b: Commit): Promise<State> {
  const base = await git.tryRun("merge-base", a.commit, b.commit);
  if (base === undefined) {
    const shallow = (await git.run("rev-parse", "--is-shallow-repository")).trim() === "true";
    throw new GitError(
      shallow ? "shallow" : "unknown-revision",
      `${a.label} and ${b.label} have no commit in common${shallow ? ", as far as this shallow clone reaches" : ""}.`,
      shallow
        ? "Fetch more of the history: git fetch --unshallow."
        : "Compare them as they are, with two dots instead of three.",
    );
  }
  const found = await commitOf(git, base.trim());
  const name = ({ label }: Commit): string => label.replace(/ \([0-9a-f]+\)$/, "");
  return { ...found, label: `${found.commit.slice(0, 9)}, where ${name(b)} left ${name(a)}` };
}

async function unknownRevision(git: Git, revision: string): Promise<GitError> {
  const names = (await git.run("for-each-ref", "--format=%(refname:short)", "--count=8", "refs/heads", "refs/tags"))
    .split("\n")
    .filter(Boolean);
  const there = names.length > 0 ? `There are ${names.join(", ")}.` : "The repository has no commit yet.";
  const shallow = (await git.run("rev-parse", "--is-shallow-repository")).trim() === "true";
  return new GitError(
    "unknown-revision",
    `There is no revision "${revision}" in this repository.`,
    shallow ? `${there} The clone is shallow: git fetch --unshallow brings the rest.` : there,
  );
}
