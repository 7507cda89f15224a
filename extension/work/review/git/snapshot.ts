/** The recipes of one state of a repository, and what identifies the contents of its other files. */
import { decodeRecipe } from "../../../recipe/yaml/encoding.ts";
import { lstat } from "node:fs/promises";
import { type Git, GitError } from "./git.ts";
import type { State } from "./revisions.ts";
import { openWorkspace } from "../../files/workspace.ts";

/** Plain data: it crosses to other processes. Paths are from the repository's root, with /. */
export interface Snapshot {
  /** Texts of all recipes. */
  readonly recipes: ReadonlyMap<string, string>;
  /**
   * What identifies the contents of files in that state: a git object's id, or "sha256:" and the file's own SHA-256 in
   * hexadecimal where git keeps a pointer to it (Git LFS). Empty for files on disk.
   */
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
  const [recipes, others] = [[...contents].filter(isRecipe), [...contents].filter((file) => !isRecipe(file))];
  const objects = await git.objects(recipes.map(([, id]) => id));
  const texts = recipes.map(([file, id]): [string, string] => {
    const object = objects.get(id);
    if (!object) throw incomplete(file, commit);
    return [file, decodeRecipe(object)];
  });
  const pointers = await pointersAmong(
    git,
    others.map(([, id]) => id),
  );
  return {
    recipes: new Map(texts),
    contents: new Map([...contents].map(([file, id]) => [file, pointers.get(id) ?? id])),
  };
}

const isRecipe = ([file]: readonly [file: string, id: string]): boolean => RECIPE.test(file);

/** git would fetch what is missing, by whatever program or address the clone's settings name; this is left to the user. */
const incomplete = (file: string, commit: string): GitError =>
  new GitError(
    "incomplete",
    `This clone does not have ${file} as commit ${commit.slice(0, 9)} has it, and nothing is fetched during a review.`,
    "Bring the rest of the history first: git fetch --refetch, or a full clone.",
  );

/** Longer files are no pointers (Git LFS specification, v1: "under 1024 bytes"). */
const LARGEST_POINTER = 1024;

/** What pointers among objects stand for, by the pointer's id. */
async function pointersAmong(git: Git, ids: readonly string[]): Promise<Map<string, string>> {
  const sizes = await git.sizes(ids);
  const small = [...sizes].filter(([, size]) => size < LARGEST_POINTER).map(([id]) => id);
  const pointers = new Map<string, string>();
  for (const [id, bytes] of await git.objects(small)) {
    const text = bytes.toString("latin1");
    const [, sha256] = /^oid sha256:([0-9a-f]{64})$/m.exec(text) ?? [];
    if (sha256 && /^version https:\/\/[^\n]*\/spec\/v\d+\n/.test(text)) pointers.set(id, `sha256:${sha256}`);
  }
  return pointers;
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
