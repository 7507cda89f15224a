/** The revisions that a recipe can be compared with. */
import { openGit } from "./git.ts";

/** Something that a person may want to compare with. */
export interface Revision {
  /** As git takes it. */
  readonly name: string;
  readonly kind: "branch" | "tag" | "commit";
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

/** Branches, tags and commits, the newest first. @throws GitError */
export async function listRevisions({ folder, file, program }: RevisionOptions): Promise<Revision[]> {
  const git = await openGit(folder, program);
  const format = "%(refname)%00%(refname:short)%00%(contents:subject)%00%(committerdate:relative)";
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
  return [
    ...rows(refs).map(([full = "", name = "", subject = "", age = ""]): Revision => ({
      name,
      kind: full.startsWith("refs/tags/") ? "tag" : "branch",
      subject,
      age,
    })),
    ...rows(log ?? "").map(([name = "", subject = "", age = ""]): Revision => ({ name, kind: "commit", subject, age })),
  ];
}

const rows = (text: string): string[][] =>
  text
    .split("\n")
    .filter(Boolean)
    .map((line) => line.split("\0"));
