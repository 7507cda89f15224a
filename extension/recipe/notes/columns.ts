/** Columns of a table of shooting notes: the heading of each, the recipe's key that it fills, and how its cells are read. */
import type { Value } from "../yaml/values.ts";

/** Reads a cell, trimmed and not empty. Undefined where it is not of the column's form. */
type ReadCell = (cell: string) => Value | undefined;

export interface Column {
  readonly heading: string;
  /** Path below a frame. */
  readonly path: readonly [string, ...string[]];
  readonly read: ReadCell;
  /** What a cell looks like, for messages. */
  readonly example: string;
}

const text: ReadCell = (cell) => cell;

/** A number with point or comma, with or without one of some units around it. */
const numberWith =
  (units: RegExp): ReadCell =>
  (cell) => {
    const bare = cell.replace(units, "").trim().replace(",", ".");
    return /^\d+(\.\d+)?$/.test(bare) ? Number(bare) : undefined;
  };

/** "1/250", "1/250 s", "2 s", '2"', "0,5": a fraction as text, anything else as a number of seconds. */
const shutter: ReadCell = (cell) => {
  const bare = cell.replace(/\s*(s|sec|″|")$/i, "");
  const fraction = /^1\s*\/\s*(\d+)$/.exec(bare);
  return fraction ? `1/${Number(fraction[1])}` : numberWith(/^$/)(bare);
};

/** Year, month, day with -, / or : between them. Other orders are not guessed. */
const date: ReadCell = (cell) => {
  const match = /^(\d{4})[-/:.](\d{1,2})[-/:.](\d{1,2})$/.exec(cell);
  return match ? `${match[1]}-${match[2].padStart(2, "0")}-${match[3].padStart(2, "0")}` : undefined;
};

/** Hours and minutes, with seconds and offset where they are there. */
const time: ReadCell = (cell) => {
  const match = /^(\d{1,2})[:.](\d\d)(?:[:.](\d\d))?\s*(Z|[+-]\d\d:?\d\d)?$/i.exec(cell);
  if (!match) return undefined;
  const [, hours, minutes, seconds, offset] = match;
  const zone =
    offset === undefined ? "" : offset.toUpperCase() === "Z" ? "+00:00" : offset.replace(/(\d\d):?(\d\d)$/, "$1:$2");
  return `${hours.padStart(2, "0")}:${minutes}${seconds === undefined ? "" : `:${seconds}`}${zone}`;
};

/** Decimal degrees with a sign, or with the letter of the side of the earth. */
const degrees =
  (positive: string, negative: string): ReadCell =>
  (cell) => {
    const match = /^([+-]?)(\d+(?:[.,]\d+)?)\s*°?\s*([a-z])?$/i.exec(cell);
    const side = match?.[3]?.toUpperCase();
    if (!match || (side !== undefined && side !== positive && side !== negative)) return undefined;
    const value = Number(match[2].replace(",", "."));
    return (match[1] === "-") !== (side === negative) ? -value : value;
  };

/** Words between semicolons; between commas where there is no semicolon. */
const words: ReadCell = (cell) =>
  cell
    .split(cell.includes(";") ? ";" : ",")
    .map((word) => word.trim())
    .filter((word) => word !== "");

const column = (heading: string, path: string, read: ReadCell, example: string): Column => ({
  heading,
  path: path.split(".") as [string, ...string[]],
  read,
  example,
});

/** The heading of the column that names the frame. */
export const FRAME_HEADING = "frame";

/** Every column but the frame's, in the order of the docs. Latitude and longitude fill one value between them. */
export const COLUMNS: readonly Column[] = [
  column("title", "title", text, "Ferry at the east pier"),
  column("note", "note", text, "hold the sky"),
  column("date", "exposed.date", date, "2026-05-02"),
  column("time", "exposed.time", time, "17:40"),
  column("camera", "exposed.camera", text, "folding 35"),
  column("lens", "exposed.lens", text, "50 mm"),
  column("focal", "exposed.focal", numberWith(/\s*mm$/i), "50"),
  column("aperture", "exposed.aperture", numberWith(/^f\s*\/?\s*/i), "5.6"),
  column("shutter", "exposed.shutter", shutter, "1/250"),
  column("filter", "exposed.filter", text, "yellow, medium"),
  column("rated", "exposed.rated", numberWith(/^(ei|iso)\s*/i), "400"),
  column("place", "exposed.place", text, "Varnhaven"),
  column("latitude", "exposed.coordinates.0", degrees("N", "S"), "58.2406"),
  column("longitude", "exposed.coordinates.1", degrees("E", "W"), "8.3772"),
  column("developer", "exposed.developer", text, "1+9, 8 min at 20 °C"),
  column("caption", "iptc.caption", text, "The east pier from the ferry."),
  column("keywords", "iptc.keywords", words, "harbour; ferry"),
  column("creator", "iptc.creator", text, "Ada Lind"),
  column("copyright", "iptc.copyright", text, "© 2026 Ada Lind"),
];
