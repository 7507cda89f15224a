/** A table of shooting notes as edits of a roll's recipe: each row fills values of one frame. */
import type { ValueEdit } from "../edit/edit.ts";
import { nearest } from "../problems/nearest.ts";
import { invalidPaths } from "../problems/validate.ts";
import type { ResolvedRoll } from "../resolve/resolve.ts";
import type { Value } from "../yaml/values.ts";
import { type Column, COLUMNS, FRAME_HEADING } from "./columns.ts";

/** A table as its file has it: headings, and rows of as many cells. */
export interface NotesTable {
  readonly headings: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** One value that a note gives a frame. */
export interface ImportedValue {
  readonly frame: string;
  readonly path: readonly string[];
  readonly value: Value;
  /** What applied to the frame before; undefined where nothing did. */
  readonly before?: Value;
}

export interface ImportedNotes {
  readonly edits: readonly ValueEdit[];
  readonly values: readonly ImportedValue[];
  /** Values that a frame states otherwise already, and that stay. */
  readonly kept: readonly ImportedValue[];
  /** What was left out and why, in sentences. Rows are counted as in the file, the headings being row 1. */
  readonly warnings: readonly string[];
}

/**
 * Works out what a table of notes changes in a roll. A value that applies to the frame already is not stated again.
 * @param overwrite whether a value that a frame states itself gives way to the note
 * @throws Error where no column names the frames
 */
export function importNotes(table: NotesTable, roll: ResolvedRoll, { overwrite = false } = {}): ImportedNotes {
  const warnings: string[] = [];
  const { frameAt, columns } = columnsOf(table.headings, warnings);
  const frames = new Map(roll.frames.map(({ id }) => [frameKey(id), id]));
  const seen = new Map<string, number>();
  const values: ImportedValue[] = [];
  const kept: ImportedValue[] = [];
  table.rows.forEach((cells, i) => {
    const row = i + 2;
    if (cells.every((cell) => cell.trim() === "")) return;
    const name = (cells[frameAt] ?? "").trim();
    const frame = frames.get(frameKey(name));
    if (frame === undefined) {
      warnings.push(
        name === ""
          ? `Row ${row} names no frame and was left out.`
          : `Row ${row} is about frame ${name}, which the roll does not have; it was left out.`,
      );
      return;
    }
    const earlier = seen.get(frame);
    if (earlier !== undefined) {
      warnings.push(`Rows ${earlier} and ${row} are both about frame ${frame}; row ${row} was left out.`);
      return;
    }
    seen.set(frame, row);
    for (const noted of valuesOf(cells, columns, frame, row, warnings)) {
      const at = [...noted.path];
      const before = roll.valueAt(frame, at);
      if (same(before, noted.value)) continue;
      const own = roll.originOf(frame, at)?.level === "frame";
      (own && !overwrite ? kept : values).push({ ...noted, ...(before === undefined ? {} : { before }) });
    }
  });
  const edits = values.map(({ frame, path, value }) => ({ path: ["frames", frame, ...path], value }));
  return { edits, values, kept, warnings };
}

interface PlacedColumn {
  readonly column: Column;
  readonly at: number;
}

function columnsOf(headings: readonly string[], warnings: string[]): { frameAt: number; columns: PlacedColumn[] } {
  const names = headings.map((heading) => heading.trim().toLowerCase());
  const frameAt = names.indexOf(FRAME_HEADING);
  const known = [FRAME_HEADING, ...COLUMNS.map(({ heading }) => heading)];
  if (frameAt < 0)
    throw new Error(
      `The notes have no column "${FRAME_HEADING}", which tells the frame of each row. Columns there: ${headings.join(", ")}.`,
    );
  const columns: PlacedColumn[] = [];
  names.forEach((name, at) => {
    if (at === frameAt || name === "") return;
    const column = COLUMNS.find(({ heading }) => heading === name);
    const first = columns.find((placed) => placed.column === column);
    if (column && !first) columns.push({ column, at });
    else if (column) warnings.push(`The column "${name}" is there twice; the second was left out.`);
    else {
      const meant = nearest(name, known);
      const hint = meant === undefined ? `Columns are: ${known.join(", ")}.` : `Did you mean ${meant}?`;
      warnings.push(`The column "${headings[at]}" has no place in a recipe and was left out. ${hint}`);
    }
  });
  return { frameAt, columns };
}

/** Number and letter of a frame: 7, 07 and 007 are one frame. */
const frameKey = (name: string): string =>
  name
    .trim()
    .toUpperCase()
    .replace(/^0+(?=\d)/, "");

function valuesOf(
  cells: readonly string[],
  columns: readonly PlacedColumn[],
  frame: string,
  row: number,
  warnings: string[],
): ImportedValue[] {
  const found: ImportedValue[] = [];
  const coordinates: (Value | undefined)[] = [];
  for (const { column, at } of columns) {
    const cell = (cells[at] ?? "").trim();
    if (cell === "") continue;
    const value = column.read(cell);
    const path = column.path;
    const whole = path[1] === "coordinates";
    if (value === undefined || (!whole && !isValid(path, value))) {
      warnings.push(
        `Row ${row}, column ${column.heading}: "${cell}" cannot be read; it was left out. Write it as in ${column.example}`,
      );
    } else if (whole) coordinates[Number(path[2])] = value;
    else found.push({ frame, path, value });
  }
  const [latitude, longitude] = coordinates;
  const path = ["exposed", "coordinates"];
  if (latitude === undefined && longitude === undefined) return found;
  if (latitude !== undefined && longitude !== undefined && isValid(path, [latitude, longitude]))
    found.push({ frame, path, value: [latitude, longitude] });
  else
    warnings.push(
      `Row ${row}: latitude and longitude do not make a place on the earth; they were left out. Latitude goes from -90 to 90, longitude from -180 to 180, and each needs the other.`,
    );
  return found;
}

/** Whether the recipe's schema takes the value at a path below a frame. */
function isValid(path: readonly string[], value: Value): boolean {
  const frame = path.toReversed().reduce<Value>((inner, key) => ({ [key]: inner }), value);
  return invalidPaths("roll", { version: 1, frames: { "1": frame } }).length === 0;
}

const same = (a: Value | undefined, b: Value): boolean => JSON.stringify(a) === JSON.stringify(b);
