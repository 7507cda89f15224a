/** Where everything lies on the pages of a contact sheet for printing. Lengths in points, 1/72 inch, from the top left. */

/** Papers that a contact sheet can be printed on: width and height in points. */
export const SHEET_PAPERS = {
  "8x10in": [576, 720],
  a4: [(210 / 25.4) * 72, (297 / 25.4) * 72],
} as const satisfies Record<string, readonly [number, number]>;

export type SheetPaper = keyof typeof SHEET_PAPERS;

/** Pixels per inch of the pictures on a page. */
export const SHEET_PPI = 300;

/** Sizes of letters. */
export const TYPE = { title: 14, head: 8, frame: 8, text: 6, foot: 6 } as const;
export const LINE = 1.25;

const MARGIN = 30;
const COLUMNS = 6;
const GAP = 7;
/** Below the title line and the line of the roll's record, without the note. */
const HEAD = 36;
const FOOT = 12;
/** Lines of a frame's fields at most, and of the roll's note. */
export const FIELD_LINES = 3;
export const NOTE_LINES = 3;

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export interface PdfLayout {
  readonly width: number;
  readonly height: number;
  readonly margin: number;
  /** Place of each frame's picture field, page by page; captions lie below. */
  readonly pages: readonly (readonly Box[])[];
  /** Width and height in pixels that a picture may have. */
  readonly pixels: readonly [width: number, height: number];
}

/** Height of what stands below a picture. */
const captionHeight = (fieldLines: number): number => TYPE.frame * LINE + fieldLines * TYPE.text * LINE + 2;

/**
 * @param count frames
 * @param fieldLines lines of fields below each picture, 0 … FIELD_LINES
 * @param noteLines lines of the roll's note in the head of the first page, 0 … NOTE_LINES
 */
export function pdfLayout(count: number, paper: SheetPaper, fieldLines: number, noteLines: number): PdfLayout {
  const [width, height] = SHEET_PAPERS[paper];
  const cellWidth = (width - 2 * MARGIN - (COLUMNS - 1) * GAP) / COLUMNS;
  // A picture lies or stands: in a field of 3 : 2 it fits either way.
  const cellHeight = (cellWidth * 2) / 3;
  const pitch = cellHeight + captionHeight(fieldLines) + GAP;
  const pages: Box[][] = [];
  for (let k = 0; k < Math.max(1, count);) {
    const head = MARGIN + HEAD + (pages.length === 0 ? noteLines * TYPE.head * LINE : 0);
    const rows = Math.max(1, Math.floor((height - MARGIN - FOOT - head + GAP) / pitch));
    const here = Math.min(rows * COLUMNS, count - k);
    pages.push(
      Array.from({ length: here }, (_, i) => ({
        left: MARGIN + (i % COLUMNS) * (cellWidth + GAP),
        top: head + Math.floor(i / COLUMNS) * pitch,
        width: cellWidth,
        height: cellHeight,
      })),
    );
    k += Math.max(1, here);
  }
  const pixels = [cellWidth, cellHeight].map((v) => Math.floor((v / 72) * SHEET_PPI)) as [number, number];
  return { width, height, margin: MARGIN, pages, pixels };
}
