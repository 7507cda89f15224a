/** The guard of every single file that a command writes: reports, summaries, recipes. */
import { JobError } from "../../failure.ts";
import { createHash } from "node:crypto";
import { lstatSync } from "node:fs";
import { basename, dirname, resolve } from "node:path";
import { writeAtomic } from "../../scans/files/atomic.ts";
import { makeFolder } from "../../scans/files/make-folder.ts";
import { fileMark, folderMark } from "../../scans/files/file-mark.ts";
import { identitiesOf } from "./sources.ts";
import { readPlainFile } from "./read-plain-file.ts";

export interface OutputRequest {
  readonly file: string;
  /** Endings of its name, with the dot, in small letters; the first is the usual one. */
  readonly endings: readonly string[];
  /** Replace a file that this program did not write. Folders, pipes and devices are never replaced. */
  readonly overwrite: boolean;
  /** Files that are never written, with `overwrite` neither; see `sourcesOf`. */
  readonly sources?: ReadonlySet<string>;
}

/** A name that may be written to. */
export interface OutputFile {
  /**
   * Puts the text in place as a whole.
   * @throws ScanError "exists" when another file came into its place since, "write" where it cannot be written
   */
  write(text: string): Promise<void>;
}

/**
 * Looks at what lies in a file's place before the work begins. A text that this program has sealed (see `sealed`) may be
 * replaced; nothing else without `overwrite`. Recipes have no seal, since people edit them: they always need it.
 * @throws JobError "ending", "protected" or "exists"
 */
export function openOutput({ file, endings, overwrite, sources = new Set() }: OutputRequest): OutputFile {
  const path = resolve(file);
  const refuse = (code: string, why: string, remedy: string): JobError =>
    new JobError({ code, message: `${file} ${why}.`, remedy, file: path });
  if (!endings.some((ending) => basename(path).toLowerCase().endsWith(ending) && basename(path).length > ending.length))
    throw refuse("ending", `does not end in ${endings.join(" or ")}`, `Name a file such as NAME${endings[0]}.`);
  const mark = fileMark(path);
  const found = mark === undefined ? undefined : lstatSync(path);
  const isRecipe = /\.(roll|stock)\.ya?ml$/i.test(path);
  const elsewhere = "Choose another name.";
  if (found?.isDirectory()) throw refuse("protected", "is a folder", elsewhere);
  if (found && !found.isFile() && !found.isSymbolicLink())
    throw refuse("protected", "is a pipe or a device, not a file", elsewhere);
  if (found && identitiesOf(path).some((one) => sources.has(one)))
    throw refuse("protected", "is a scan or a recipe of this roll and is never replaced", elsewhere);
  if (found && !overwrite && !(found.isFile() && isSealed(readPlainFile(path))))
    throw refuse(
      "exists",
      isRecipe
        ? "exists already and was not touched"
        : "exists already and was not touched: rollbook did not write it, or it was changed since",
      "Choose another name, or agree to replace it.",
    );
  return {
    async write(text) {
      makeFolder(dirname(path));
      // A link is replaced, never followed.
      await writeAtomic(path, text, { replace: mark ?? false, folder: folderMark(dirname(path)) });
    },
  };
}

export const HTML_ENDINGS = [".html", ".htm"] as const;
export const ROLL_ENDINGS = [".roll.yaml", ".roll.yml"] as const;
export const STOCK_ENDINGS = [".stock.yaml", ".stock.yml"] as const;
export const MARKDOWN_ENDINGS = [".md", ".markdown"] as const;

const SEAL = /\n<!-- rollbook sha256:([0-9a-f]{64}) -->\n$/;

/** HTML or Markdown with a last line, a comment, by which it is known again as this program's own and unchanged. */
export function sealed(text: string): string {
  const body = text.replace(/\n*$/, "\n");
  return `${body}\n<!-- rollbook sha256:${sha256(body)} -->\n`;
}

function isSealed(bytes: Buffer): boolean {
  const text = bytes.toString("utf8");
  const seal = SEAL.exec(text);
  return seal !== null && sha256(text.slice(0, seal.index)) === seal[1];
}

const sha256 = (text: string): string => createHash("sha256").update(text).digest("hex");
