/** The revisions that a recipe can be compared with. */
import { type Git, openGit } from "./git.ts";

/** Something that a person may want to compare with. */
export interface Revision {
  /** As git takes it. */
  readonly name: string;
  readonly kind: "base" | "branch" | "tag" | "commit";
  /** Of a merge base: the branch that HEAD left there. */
  readonly of?: string;
  /** First line of the commit's message. */
  readonly subject: string;
  /** "2 days ago" */
  readonly age: string;
}

export interface RevisionOptions {
  /** Any folder of the working tree. */
  readonly folder: string;
  /** Only commits that changed this file, which is absolute. */
  readonly file?: string;
  readonly program?: string;
}

const MAX_REFS = "60";
const MAX_COMMITS = "40";

/** Branches whose merge base with HEAD is looked for: the ones with the newest commits. */
const MAX_BASES = 20;

/** Merge bases with HEAD, the nearest first; then branches, tags and commits, the newest first. @throws GitError */
export async function listRevisions({ folder, file, program }: RevisionOptions): Promise<Revision[]> {
  const git = await openGit(folder, program);
  const format = "%(refname)%00%(refname:short)%00%(contents:subject)%00%(committerdate:relative)%00%(objectname)";
  const refs = await git.run(
    "for-each-ref",
    "--sort=-committerdate",
    `--count=${MAX_REFS}`,
    `--format=${format}`,
    "refs/heads",
    "refs/remotes",
    "refs/tags",
  );
  const only = file === undefined ? [] : ["--follow", "--", file];
  const log = await git.tryRun("log", "-n", MAX_COMMITS, "--no-show-signature", "--format=%h%x00%s%x00%cr", ...only);
  const branches = rows(refs).filter(([full = ""]) => !full.startsWith("refs/tags/"));
  return [
    ...(await mergeBases(git, branches)),
    ...rows(refs).map(([full = "", name = "", subject = "", age = ""]): Revision => ({
      name,
      kind: full.startsWith("refs/tags/") ? "tag" : "branch",
      subject,
      age,
    })),
    ...rows(log ?? "").map(([name = "", subject = "", age = ""]): Revision => ({ name, kind: "commit", subject, age })),
  ];
}

/**
 * The commits at which HEAD left other branches, the nearest first, each once. A branch that HEAD has not left, or that
 * has no commit in common with it, has none.
 * @param branches full name, short name, subject, age and commit of each
 */
async function mergeBases(git: Git, branches: readonly (readonly string[])[]): Promise<Revision[]> {
  const found = await Promise.all(
    branches.slice(0, MAX_BASES).map(async ([full = "", of = "", , , commit = ""]) => {
      const base = (await git.tryRun("merge-base", "HEAD", commit))?.trim();
      const distance = base && (await git.tryRun("rev-list", "--count", `${base}..HEAD`));
      return { full, of, base, distance: Number(distance ?? 0) };
    }),
  );
  const near = found
    .filter(({ distance }) => distance > 0)
    // Of two names for the same place the local one is the shorter.
    .toSorted((a, b) => a.distance - b.distance || Number(a.full > b.full) - Number(a.full < b.full));
  const bases = near.filter(({ base }, i) => near.findIndex((one) => one.base === base) === i);
  return await Promise.all(
    bases.map(async ({ of, base = "" }): Promise<Revision> => {
      const [row] = rows(await git.run("log", "-1", "--no-show-signature", "--format=%h%x00%s%x00%cr", base));
      const [name = base, subject = "", age = ""] = row ?? [];
      return { kind: "base", name, of, subject, age };
    }),
  );
}

const rows = (text: string): string[][] =>
  text
    .split("\n")
    .filter(Boolean)
    .map((line) => line.split("\0"));
