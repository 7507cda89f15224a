/** Reads from git what a review compares. */
import { openGit } from "./git/git.ts";
import { mergeBaseWithHead, type Range, readRange } from "./git/revisions.ts";
import { type Snapshot, takeSnapshot } from "./git/snapshot.ts";

/** Everything that a review has to know of git. Plain data: it crosses from the pool's process to the editor. */
export interface History {
  /** The working tree's top folder, absolute. */
  readonly root: string;
  readonly states: Range;
  readonly snapshots: { readonly before: Snapshot; readonly after: Snapshot };
}

export interface HistoryOptions {
  /** Any folder of the working tree. */
  readonly folder: string;
  /** As `readRange` takes it. */
  readonly range: string;
  /** Compare what `range` names, at the place where HEAD left it, with the working tree: a branch with what is not committed. */
  readonly sinceLeft?: boolean;
  /** The git command, where it is not on the path. */
  readonly program?: string;
}

/** Reads both states of a range from git. @throws GitError */
export async function readHistory(
  { folder, range, sinceLeft, program }: HistoryOptions,
  signal?: AbortSignal,
): Promise<History> {
  const git = await openGit(folder, program, signal);
  const states = sinceLeft ? await mergeBaseWithHead(git, range) : await readRange(git, range);
  const snapshots = { before: await takeSnapshot(git, states.before), after: await takeSnapshot(git, states.after) };
  return { root: git.root, states, snapshots };
}
