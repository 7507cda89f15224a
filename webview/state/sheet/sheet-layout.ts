/** Where the tiles of the sheet lie: a grid that is drawn only where it is seen. All lengths are CSS pixels. */

export const SIZES = ["contact", "small", "medium", "four"] as const;
/** From a contact print of 35 mm film to four pictures across. */
export type Size = (typeof SIZES)[number];

export interface GridLayout {
  readonly columns: number;
  readonly rows: number;
  /** Outer size of a tile, gap included. */
  readonly stepX: number;
  readonly stepY: number;
  /** Room of the picture in a tile. */
  readonly width: number;
  readonly height: number;
}

export const GAP = 8;
/** Room of the line below a picture. */
export const CAPTION = 24;
/** Height of a picture's room over its width: landscape pictures of 3 : 2 fill it, upright ones fit in. */
const TALL = 0.72;
/** Least widths of pictures; a contact print of 135 film is 36 mm wide: 136 CSS pixels (CSS Values 4: 96 to an inch). */
const WIDTHS: Readonly<Record<Exclude<Size, "four">, number>> = { contact: 136, small: 180, medium: 240 };

/** @param available width for tiles, @param count of tiles */
export function gridLayout(available: number, count: number, size: Size): GridLayout {
  const columns = size === "four" ? 4 : Math.max(1, Math.floor((available - GAP) / (WIDTHS[size] + GAP)));
  const width = Math.max(40, Math.floor((available - GAP) / columns) - GAP);
  const height = Math.round(width * TALL);
  return {
    columns,
    rows: Math.ceil(count / columns),
    stepX: width + GAP,
    stepY: height + CAPTION + GAP,
    width,
    height,
  };
}

/** First tile, and one behind the last, of the rows that are seen or nearly so. */
export function visibleTiles(
  { columns, stepY }: GridLayout,
  count: number,
  scrollTop: number,
  seen: number,
  margin = 2,
): readonly [first: number, end: number] {
  const first = Math.max(0, Math.floor((scrollTop - GAP) / stepY) - margin);
  const end = Math.ceil((scrollTop + seen) / stepY) + margin;
  return [Math.min(count, first * columns), Math.min(count, end * columns)];
}

/** Left top corner of a tile. */
export const tileAt = ({ columns, stepX, stepY }: GridLayout, index: number): readonly [x: number, y: number] => [
  GAP + (index % columns) * stepX,
  GAP + Math.floor(index / columns) * stepY,
];

export const gridHeight = ({ rows, stepY }: GridLayout): number => GAP + rows * stepY;

interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Tiles that a rectangle touches. */
export function tilesWithin(layout: GridLayout, count: number, box: Rectangle): readonly number[] {
  const column = (x: number): number => Math.floor((x - GAP) / layout.stepX);
  const row = (y: number): number => Math.floor((y - GAP) / layout.stepY);
  const [left, right] = [Math.max(0, column(box.x)), Math.min(layout.columns - 1, column(box.x + box.width))];
  const [top, bottom] = [Math.max(0, row(box.y)), Math.min(layout.rows - 1, row(box.y + box.height))];
  const found: number[] = [];
  for (let r = top; r <= bottom; r++)
    for (let c = left; c <= right; c++) if (r * layout.columns + c < count) found.push(r * layout.columns + c);
  return found;
}
