/** The largest rectangle of marked cells in a grid. */

/** A rectangle of whole squares. */
export interface CellBox {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** The largest rectangle of squares that are all marked; undefined where none is. */
export function largestBox(marked: Uint8Array, columns: number, rows: number): CellBox | undefined {
  const heights = new Int32Array(columns + 1);
  let best: CellBox | undefined;
  let max = 0;
  for (let r = 0; r < rows; r++) {
    for (let q = 0; q < columns; q++) heights[q] = marked[r * columns + q] ? heights[q] + 1 : 0;
    // Columns whose heights ascend; a lower one closes those that are higher (the histogram's largest rectangle).
    const open: number[] = [];
    for (let q = 0; q <= columns; q++) {
      while (open.length && heights[open[open.length - 1]] >= (q < columns ? heights[q] : 0)) {
        const height = heights[open.pop()!];
        const left = open.length ? open[open.length - 1] + 1 : 0;
        if (height * (q - left) > max) {
          max = height * (q - left);
          best = { left, top: r - height + 1, width: q - left, height };
        }
        if (q === columns && !open.length) break;
      }
      open.push(q);
    }
  }
  return best;
}
