/** The journal of a folder of pictures: which file a roll has written, from which recipe. */
import { JobError } from "../../failure.ts";
import { appendFileSync, closeSync, constants, existsSync, lstatSync, openSync } from "node:fs";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { writeAtomic } from "../../scans/files/atomic.ts";
import { makeFolder } from "../../scans/files/make-folder.ts";
import { fileMark, folderMark } from "../../scans/files/file-mark.ts";
import { readPlainFile } from "../files/read-plain-file.ts";

/** What is known of a picture that a roll has written into a folder. */
export interface PictureRecord {
  /** The roll's recipe, relative to the folder. */
  readonly roll: string;
  readonly frame: string;
  readonly output: string;
  /** Relative to the folder, with / between folders. */
  readonly file: string;
  /** Everything that decides the picture: recipe, program version, size and time of the scans. */
  readonly key: string;
  /** Absent while the picture is being made. */
  readonly done?: { readonly bytes: number; readonly sha256: string };
}

/** The record of which pictures in a folder are whose. */
export interface Journal {
  /** The newest record of a file, whichever roll wrote it. */
  of(file: string): PictureRecord | undefined;
  /** Every record of a file that still says something, the newest last: shares each have a journal of their own. */
  all(file: string): readonly PictureRecord[];
  /** Reads the folder's journals again: another run may have written pictures meanwhile. */
  refresh(): void;
  add(record: PictureRecord): void;
  /** Withdraws the record of a picture that was not written: a file that lies there later is not the roll's own. */
  abandon(record: PictureRecord): void;
}

const FOLDER = ".rollbook";

/**
 * Opens a folder's journal: lines of JSON under `.rollbook`, one file for each roll and share, so that shares on
 * several machines never write to the same file. Lines are only ever added, and a torn last line (a crash, a full
 * disk) is skipped, so the journal needs no repair. A picture's line is written before the picture, and again with
 * its fingerprint after: a picture that a crash left between the two is still known as this roll's own.
 *
 * @param name one file's name for this roll and share.
 * @throws JobError "protected" when the journal is a link: it would be written to wherever that leads.
 */
export function openJournal(directory: string, name: string): Journal {
  const folder = join(directory, FOLDER);
  const own = join(folder, `${name}.jsonl`);
  refuseOther(folder, "isDirectory");
  refuseOther(own, "isFile");
  const known = new Map<string, PictureRecord[]>();
  const keep = (record: PictureRecord): void => {
    const others = known
      .get(record.file)
      ?.filter(({ roll, key, done }) => roll !== record.roll || (done && key !== record.key));
    known.set(record.file, [...(others ?? []), record]);
  };
  const refresh = (): void => {
    known.clear();
    for (const path of existsSync(folder) ? journalsIn(folder) : [])
      for (const line of readFileSync(path, "utf8").split("\n")) {
        const record = parse(line);
        if (record) keep(record);
      }
  };
  refresh();
  const add = (record: PictureRecord): void => {
    makeFolder(folder);
    hideFromGit(folder);
    refuseOther(folder, "isDirectory");
    refuseOther(own, "isFile");
    const descriptor = openSync(own, APPEND);
    try {
      appendFileSync(descriptor, `${separator}${JSON.stringify(record)}\n`);
    } finally {
      closeSync(descriptor);
    }
    separator = "";
    keep(record);
  };
  // A torn last line would swallow the next one.
  let separator = existsSync(own) && !readFileSync(own, "utf8").endsWith("\n") ? "\n" : "";
  return {
    of: (file) => known.get(file)?.at(-1),
    all: (file) => known.get(file) ?? [],
    refresh,
    add,
    abandon: (record) => add({ ...record, done: { bytes: 0, sha256: "none" } }),
  };
}

/** Tells git that nothing of a journal's folder is anybody's work. Without it everything works just as well. */
function hideFromGit(folder: string): void {
  try {
    writeFileSync(join(folder, ".gitignore"), "*\n", { flag: "wx" });
  } catch {
    // there already, or not to be written
  }
}

/** Appends, and follows no link that came into the file's place. */
const APPEND = constants.O_WRONLY | constants.O_APPEND | constants.O_CREAT | (constants.O_NOFOLLOW ?? 0);

/**
 * Takes the names `<stem>-…` of a folder for one roll, before its first frame: two recipes of one name would write each
 * other's pictures. Whoever comes first has them, as long as its recipe exists.
 * @param roll the recipe, relative to the folder
 * @throws JobError "taken" where another roll has them, unless `overwrite`
 */
export async function claimNames(directory: string, stem: string, roll: string, overwrite: boolean): Promise<void> {
  const path = join(directory, FOLDER, `${stem}.owner`);
  try {
    await writeAtomic(path, `${roll}\n`, { replace: false });
    hideFromGit(join(directory, FOLDER));
    return;
  } catch (error) {
    if ((error as { code?: unknown }).code !== "exists") throw error;
  }
  refuseOther(path, "isFile");
  const mark = fileMark(path);
  const owner = readPlainFile(path).toString("utf8").trim();
  if (owner === roll) return;
  if (!overwrite && existsSync(resolve(directory, owner)))
    throw new JobError({
      code: "taken",
      message: `The pictures ${stem}-… in ${directory} are those of another recipe, ${owner}.`,
      remedy: "Choose another folder, rename one of the recipes, or agree to take the names over.",
      file: path,
    });
  await writeAtomic(path, `${roll}\n`, { replace: mark ?? false });
}

/**
 * Notices folders that were exchanged for others, or for links, while a roll is rendered.
 * @returns remembers a folder's mark at the first call
 * @throws JobError "protected" by the returned function
 */
export function folderWatch(directory: string): (folder: string, mark?: string) => void {
  const marks = new Map([[directory, folderMark(directory)]]);
  return (folder, mark = folderMark(folder)) => {
    if (!marks.has(folder)) marks.set(folder, mark);
    if (marks.get(folder) === mark) return;
    throw new JobError({
      code: "protected",
      message: `The folder ${folder} was replaced by another, or by a link, meanwhile.`,
      remedy: "Check who changes that folder, and run again.",
      file: folder,
    });
  };
}

/** The one that was last written to comes last. */
function journalsIn(folder: string): string[] {
  const found = readdirSync(folder)
    .filter((name) => name.endsWith(".jsonl"))
    .map((name) => ({ path: join(folder, name), stats: lstatSync(join(folder, name)) }));
  const files = found.filter(({ stats }) => stats.isFile());
  return files
    .toSorted((a, b) => a.stats.mtimeMs - b.stats.mtimeMs || (a.path < b.path ? -1 : 1))
    .map(({ path }) => path);
}

function refuseOther(path: string, kind: "isDirectory" | "isFile"): void {
  const there = lstatSync(path, { throwIfNoEntry: false });
  if (!there || there[kind]()) return;
  throw new JobError({
    code: "protected",
    message: `${path} is a link or a device, and no record of pictures is written to it.`,
    remedy: "Remove it, or choose another folder.",
    file: path,
  });
}

function parse(line: string): PictureRecord | undefined {
  if (!line.startsWith("{")) return undefined;
  try {
    const value = JSON.parse(line) as Partial<PictureRecord>;
    const texts = [value.roll, value.frame, value.output, value.file, value.key];
    const done = value.done === undefined || typeof value.done?.sha256 === "string";
    return texts.every((t) => typeof t === "string") && done ? (value as PictureRecord) : undefined;
  } catch {
    return undefined;
  }
}
