/** How a contact sheet looks: strips of six on dark ground, lettered like a film's edge. */
import type { SmallPicture } from "./thumbnail.ts";
import { edgeLettering } from "./stroke-font.ts";
import { escapeMarkup } from "../../recipe/plain-text.ts";

export interface ContactCell {
  readonly frame: string;
  readonly title?: string;
  /** What the frame states in the fields that were chosen. */
  readonly fields?: string;
  /** Absent when the frame could not be rendered; `fault` then says why. */
  readonly picture?: SmallPicture;
  readonly failure?: string;
}

export interface ContactLayout {
  readonly width: number;
  readonly height: number;
  /** Top left corner of each picture, centred in its cell. */
  readonly pictures: readonly { left: number; top: number }[];
  /** Top left corner of each cell. */
  readonly cells: readonly { left: number; top: number }[];
}

/** Film base after development under a dim light: almost black, a little warm. */
export const GROUND: readonly [number, number, number] = [19, 17, 15];
/** Side of a picture's cell. A picture fits in whether it lies or stands. */
export const CELL_WIDTH = 372;
export const CELL_HEIGHT = 248;
const COLUMNS = 6;
const GAP = 20;
const MARGIN = 56;
const HEAD = 132;
const CAPTION = 58;
const EDGE_COLOUR = "#e8a33d";
const TEXT_COLOUR = "#cfc8bd";
const DIM_COLOUR = "#8d867c";

/** Lines of fields below a picture, and the height that one takes. */
const [FIELD_LINES, FIELD_LINE] = [2, 20];

export function contactLayout(cells: readonly ContactCell[]): ContactLayout {
  const caption = CAPTION + (cells.some(({ fields }) => fields) ? FIELD_LINES * FIELD_LINE : 0);
  const columns = columnsFor(cells.length);
  const rows = Math.max(1, Math.ceil(cells.length / columns));
  const width = 2 * MARGIN + columns * CELL_WIDTH + (columns - 1) * GAP;
  const height = HEAD + rows * (CELL_HEIGHT + caption) + (rows - 1) * GAP + MARGIN - 16;
  const places = cells.map((_, k) => ({
    left: MARGIN + (k % columns) * (CELL_WIDTH + GAP),
    top: HEAD + Math.floor(k / columns) * (CELL_HEIGHT + caption + GAP),
  }));
  const pictures = cells.map(({ picture }, k) => ({
    left: places[k].left + Math.floor((CELL_WIDTH - (picture?.width ?? CELL_WIDTH)) / 2),
    top: places[k].top + Math.floor((CELL_HEIGHT - (picture?.height ?? CELL_HEIGHT)) / 2),
  }));
  return { width, height, pictures, cells: places };
}

/** Strips of six, as film is cut; a short roll gets the width that leaves the fewest places empty. */
function columnsFor(count: number): number {
  if (count <= 3) return 3;
  if (count > 2 * COLUMNS) return COLUMNS;
  const empty = (columns: number): number => Math.ceil(count / columns) * columns - count;
  return [6, 5, 4].reduce((best, columns) => (empty(columns) < empty(best) ? columns : best));
}

/** The lettering as SVG. Frame numbers are drawn as lines, so that they are there even where no font is installed. */
export function contactOverlay(
  title: string,
  subtitle: string,
  cells: readonly ContactCell[],
  layout: ContactLayout,
): string {
  const out = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${layout.width}" height="${layout.height}">`,
    `<g font-family="'Helvetica Neue', Helvetica, Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif">`,
    label(MARGIN, 66, 34, TEXT_COLOUR, fit(title, layout.width - 2 * MARGIN, 34)),
    label(MARGIN, 98, 19, DIM_COLOUR, fit(subtitle, layout.width - 2 * MARGIN, 19)),
  ];
  cells.forEach((cell, k) => {
    const { left, top } = layout.cells[k];
    const base = top + CELL_HEIGHT + 34;
    out.push(edgeLettering(cell.frame, left + 1, base - 20, 20, EDGE_COLOUR));
    const indent = 16 * cell.frame.length + 18;
    if (cell.title) out.push(label(left + indent, base - 2, 18, TEXT_COLOUR, fit(cell.title, CELL_WIDTH - indent, 18)));
    wrapText(cell.fields ?? "", CELL_WIDTH, 16, FIELD_LINES).forEach((line, i) => {
      if (line) out.push(label(left, base + 20 + FIELD_LINE * i, 16, DIM_COLOUR, line));
    });
    if (cell.picture) return;
    out.push(
      `<rect x="${left + 0.5}" y="${top + 0.5}" width="${CELL_WIDTH - 1}" height="${CELL_HEIGHT - 1}" fill="none" stroke="#4a443c"/>`,
    );
    wrapText(cell.failure ?? "", CELL_WIDTH - 40, 16, 6).forEach((line, i) =>
      out.push(label(left + 20, top + 40 + 22 * i, 16, DIM_COLOUR, line)),
    );
  });
  out.push("</g></svg>");
  return out.join("");
}

const label = (x: number, y: number, size: number, colour: string, text: string): string =>
  `<text x="${x}" y="${y}" font-size="${size}" fill="${colour}">${escapeMarkup(allowedInXml(text))}</text>`;

/** The text without characters that XML 1.0 does not allow (2.2). */
export function allowedInXml(text: string): string {
  return (
    text
      // eslint-disable-next-line no-control-regex
      .replaceAll(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\ufffe\uffff]/g, "")
      .replaceAll(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, "")
  );
}

/** Mean width of a letter, as a part of the size: enough to cut in time, since nothing can be measured here. */
const LETTER = 0.53;

function fit(text: string, width: number, size: number): string {
  const maxLines = Math.max(1, Math.floor(width / (LETTER * size)));
  const letters = Array.from(text);
  return letters.length <= maxLines
    ? text
    : `${letters
        .slice(0, maxLines - 1)
        .join("")
        .trimEnd()}…`;
}

function wrapText(text: string, width: number, size: number, maxLines: number): string[] {
  const lines = [""];
  const maxLetters = Math.floor(width / (LETTER * size));
  for (const word of text.split(/\s+/)) {
    const last = lines.at(-1) as string;
    if (last && last.length + 1 + word.length > maxLetters) lines.push(word);
    else lines[lines.length - 1] = last ? `${last} ${word}` : word;
  }
  return lines.slice(0, maxLines).map((line) => fit(line, width, size));
}
