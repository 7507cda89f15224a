/** The recipes of one state of a repository, and what tells whether a scan is the same file. */
import { lstat } from "node:fs/promises";
import type { Git } from "./git.ts";
import type { State } from "./revisions.ts";
import { openWorkspace } from "../../files/workspace.ts";

/** Plain data: it crosses to other processes. Paths are from the repository's root, with /. */
export interface Snapshot {
  /** Texts of all recipes. */
  readonly recipes: ReadonlyMap<string, string>;
  /** Ids of the contents of files that git keeps in that state; empty for files on disk. */
  readonly contents: ReadonlyMap<string, string>;
}

const RECIPE = /\.(roll|stock)\.ya?ml$/i;

export async function takeSnapshot(git: Git, state: State): Promise<Snapshot> {
  if (state.kind === "nothing") return { recipes: new Map(), contents: new Map() };
  return state.kind === "disk" ? await fromDisk(git) : await fromCommit(git, state.commit);
}

async function fromCommit(git: Git, commit: string): Promise<Snapshot> {
  const contents = new Map<string, string>();
  const listing = await git.run("ls-tree", "-r", "-z", "--full-tree", commit);
  for (const line of listing.split("\0")) {
    const found = /^(\d+) blob ([0-9a-f]+)\t(.+)$/s.exec(line);
    // Links are left alone: what they lead to is another file's business.
    if (found && found[1] !== "120000") contents.set(found[3]!, found[2]!);
  }
  const recipes = [...contents].filter(([file]) => RECIPE.test(file));
  const objects = await git.objects(recipes.map(([, id]) => id));
  return {
    recipes: new Map(recipes.map(([file, id]) => [file, objects.get(id)?.toString("utf8") ?? ""])),
    contents,
  };
}

/** What lies in the working tree, files that git does not know yet included; ignored files are not. */
async function fromDisk(git: Git): Promise<Snapshot> {
  const disk = openWorkspace(git.root);
  const listing = await git.run("ls-files", "-z", "--cached", "--others", "--exclude-standard");
  const recipes = new Map<string, string>();
  for (const file of listing.split("\0").filter((name) => RECIPE.test(name))) {
    const found = await lstat(`${git.root}/${file}`).catch(() => undefined);
    const text = found?.isFile() ? await disk.read(file) : undefined;
    if (text !== undefined) recipes.set(file, text);
  }
  return { recipes, contents: new Map() };
}

/**
 * Paths of files that are not what they were: their contents differ between the two states. For the working tree that
 * is what git itself sees as changed.
 */
export async function changedContents(
  git: Git,
  states: { readonly before: State; readonly after: State },
  snapshots: { readonly before: Snapshot; readonly after: Snapshot },
): Promise<Set<string>> {
  const { before, after } = snapshots;
  if (states.after.kind !== "disk") {
    const both = [...after.contents].filter(([file]) => before.contents.has(file));
    return new Set(both.filter(([file, id]) => before.contents.get(file) !== id).map(([file]) => file));
  }
  if (states.before.kind !== "commit") return new Set();
  const plain = ["--no-renames", "--no-ext-diff", "--no-textconv"];
  const listing = await git.run("diff", "--name-only", "-z", "--diff-filter=M", ...plain, states.before.commit, "--");
  return new Set(listing.split("\0").filter(Boolean));
}
