import { appendFileSync, existsSync, mkdirSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

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
  add(record: PictureRecord): void;
}

const FOLDER = ".rollbook";

/**
 * Opens a folder's journal: lines of JSON under `.rollbook`, one file for each roll and share, so that shares on
 * several machines never write to the same file. Lines are only ever added, and a torn last line (a crash, a full
 * disk) is passed over, so the journal needs no repair. A picture's line is written before the picture, and again with
 * its fingerprint after: a picture that a crash left between the two is still known as this roll's own.
 *
 * @param name one file's name for this roll and share.
 */
export function openJournal(directory: string, name: string): Journal {
  const folder = join(directory, FOLDER);
  const known = new Map<string, PictureRecord>();
  if (existsSync(folder))
    for (const file of readdirSync(folder).toSorted())
      if (file.endsWith(".jsonl"))
        for (const line of readFileSync(join(folder, file), "utf8").split("\n")) {
          const record = parse(line);
          if (record) known.set(record.file, record);
        }
  const own = join(folder, `${name}.jsonl`);
  // A torn last line would swallow the next one.
  let separator = existsSync(own) && !readFileSync(own, "utf8").endsWith("\n") ? "\n" : "";
  return {
    of: (file) => known.get(file),
    add(record) {
      mkdirSync(folder, { recursive: true });
      appendFileSync(own, `${separator}${JSON.stringify(record)}\n`);
      separator = "";
      known.set(record.file, record);
    },
  };
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
