/** Checks of a sheet to print: whether it can be, and keys that have no effect on it. */
import { type Borders, type Orientation, paperSize, sheetProblem } from "../../../engine/image/paper.ts";
import type { Value } from "../../yaml/values.ts";
import { type Checked, type Fields, fields, numbers, text } from "./check.ts";

const SHEET_TYPES: ReadonlySet<string> = new Set(["tiff", "jpeg"]);
const DEFAULT_BORDER = 10;
const DEFAULT_RESOLUTION = 300;

/** A printed sheet that can be, in a file type that holds it. */
export function checkPrint({ report }: Pick<Checked, "report">, index: number, output: Fields): void {
  const print = fields(output.print);
  if (!print) return;
  const path = ["output", index];
  const type = text(output.type);
  if (type !== undefined && !SHEET_TYPES.has(type))
    report("print-impossible", [...path, "type"], `A sheet to print cannot be a ${type} file. Choose tiff or jpeg.`);
  const problem = sheetProblemOf(print);
  if (problem !== undefined) report("print-impossible", [...path, "print"], problem, { part: "key" });

  const without = (key: string, inner: boolean, message: string): void => {
    const at = inner ? [...path, "print", key] : [...path, key];
    report("without-effect", at, `${message} Remove it.`, { part: "key", data: { key } });
  };
  if (output.long !== undefined)
    without("long", false, "The paper decides the size of a sheet, so long has no effect.");
  if (print.length !== undefined && print.fit === "fill")
    without("length", true, "A picture that fills the paper has no length of its own.");
  if (print.profile !== undefined && output.space !== undefined)
    without("space", false, "The file is in the colours of the printer's profile, so space has no effect.");
  if (print.profile === undefined)
    for (const key of ["intent", "blackPointCompensation"])
      if (print[key] !== undefined)
        without(key, true, `Without a profile nothing is converted, so ${key} has no effect.`);
  if (
    print.profile !== undefined &&
    print.blackPointCompensation !== undefined &&
    print.intent !== undefined &&
    print.intent !== "relative-colorimetric"
  )
    without(
      "blackPointCompensation",
      true,
      `The intent ${text(print.intent) ?? ""} has its own rule for black, so blackPointCompensation has no effect.`,
    );
}

/** Values of a wrong shape are the schema's matter. */
function sheetProblemOf({ paper, orientation, border, resolution }: Fields): string | undefined {
  const size = sizeOf(paper);
  const borders = typeof border === "number" || border === undefined ? fourOf(border) : numbers(border);
  if (!size || borders?.length !== 4) return undefined;
  return sheetProblem({
    paper: size,
    orientation: (text(orientation) ?? "picture") as Orientation,
    border: borders as Borders,
    resolution: typeof resolution === "number" ? resolution : DEFAULT_RESOLUTION,
  });
}

const fourOf = (width: number | undefined): Borders => {
  const w = width ?? DEFAULT_BORDER;
  return [w, w, w, w];
};

function sizeOf(paper: Value | undefined): readonly [number, number] | undefined {
  const sides = numbers(paper);
  if (sides?.length === 2) return sides as readonly [number, number];
  try {
    return paperSize(text(paper) ?? "");
  } catch {
    return undefined;
  }
}
