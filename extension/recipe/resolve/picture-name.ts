/** The names of the files that a roll's pictures are written to. Rendering, exporting, resuming and dry runs name them here. */
import { isDeviceName } from "../paths.ts";
import type { ResolvedFrame, ResolvedOutput, ResolvedRoll } from "./resolve.ts";

const ENDINGS = { tiff: "tif", jpeg: "jpg", png: "png", webp: "webp", avif: "avif" } as const;

/** Bytes of a title in a file's name: with the rest it stays within the 255 that file systems allow. */
const MAX_TITLE = 120;

/** Where a value is absent, what joins it to the rest goes too. */
const BEFORE = /[-_., ]+$/;
const AFTER = /^[-_., ]+/;

const nameOf = (path: string): string => path.slice(path.lastIndexOf("/") + 1);

/** Name of a recipe's file without its endings. */
export const recipeStem = (file: string): string =>
  nameOf(file.replaceAll("\\", "/")).replace(/(\.(roll|stock))?\.ya?ml$/i, "");

/**
 * A picture's file, relative to the folder that a roll is written into: one folder for each output.
 * Characters of values that some file system refuses become -; an absent value takes along what joins it to the rest.
 */
export function pictureFile(
  roll: Pick<ResolvedRoll, "file">,
  frame: Pick<ResolvedFrame, "id" | "title" | "scans">,
  output: Pick<ResolvedOutput, "name" | "type" | "file">,
): string {
  const values: Readonly<Record<string, string>> = {
    roll: recipeStem(roll.file),
    frame: frame.id,
    title: shortened(fileSafe(frame.title ?? ""), MAX_TITLE),
    scan: fileSafe(nameOf(frame.scans[0]?.name ?? "").replace(/\.[^.]*$/, "")),
    output: output.name,
  };
  const name = filled(output.file ?? "{roll}-{frame}", values);
  return `${output.name}/${name === "" ? frame.id : isDeviceName(name) ? `_${name}` : name}.${ENDINGS[output.type]}`;
}

function filled(pattern: string, values: Readonly<Record<string, string>>): string {
  let name = "";
  let lacking = false;
  for (const part of pattern.split(/(\{\w+\})/)) {
    const key = /^\{(\w+)\}$/.exec(part)?.[1];
    if (key === undefined) {
      name += lacking && name === "" ? part.replace(AFTER, "") : part;
      continue;
    }
    lacking = values[key] === "";
    name = lacking ? name.replace(BEFORE, "") : name + values[key];
  }
  // Brackets around a value that is absent; dots and blanks where Windows drops them or a name would be hidden.
  return name
    .replaceAll(/ *(?:\(\)|\[\])/g, "")
    .replace(/^[. ]+/, "")
    .replace(/[. ]+$/, "");
}

/** What every file system takes as part of a name, in the composed form of its letters. */
const fileSafe = (text: string): string =>
  text
    .normalize("NFC")
    // eslint-disable-next-line no-control-regex
    .replaceAll(/[\\/:*?"<>|\u0000-\u001f\u007f-\u009f]+/g, "-")
    .replaceAll(/\s+/g, " ")
    .replaceAll(/^[-. ]+|[-. ]+$/g, "");

/** Cut between characters, so that it has no more bytes in UTF-8. */
function shortened(text: string, maxBytes: number): string {
  let short = "";
  let bytes = 0;
  for (const character of text) {
    bytes += new TextEncoder().encode(character).length;
    if (bytes > maxBytes) break;
    short += character;
  }
  return short.trimEnd();
}

/** Two frames of a roll whose pictures would have one name, on a file system that does not tell capitals apart. */
export interface SharedName {
  readonly output: ResolvedOutput;
  readonly frames: readonly [string, string];
  readonly file: string;
}

/** The first pair of each output, in the order of the outputs; skipped frames are left out. */
export function sharedNames(roll: ResolvedRoll): SharedName[] {
  return roll.outputs.flatMap((output) => {
    if (output.file === undefined) return [];
    const seen = new Map<string, string>();
    for (const frame of roll.frames) {
      if (frame.skip) continue;
      const file = pictureFile(roll, frame, output);
      const key = file.normalize("NFC").toLowerCase();
      const first = seen.get(key);
      if (first !== undefined) return [{ output, frames: [first, frame.id] as const, file }];
      seen.set(key, frame.id);
    }
    return [];
  });
}
