/** Where one scan gives way to another: a seam through what both show, drawn on a grid of small cells. */
import { quantile } from "../../math/statistics.ts";

/** What is known of a cell: nothing there, only what was laid before, only the new scan, or both. */
export const CELL = { none: 0, old: 1, new: 2, both: 3 } as const;

export interface SeamGrid {
  readonly columns: number;
  readonly rows: number;
  /** A value of `CELL` per cell. */
  readonly state: Uint8Array;
  /** How much the two differ in a cell that both show: mean distance of their logarithms. */
  readonly difference: Float32Array;
}

/** Levels of difference. What lies below the first is the noise that all cells have. */
const LEVELS = 16;
/** The first level, in parts of what one cell in twenty stays below, and the factor from one to the next. */
const [FIRST_LEVEL, NEXT_LEVEL] = [2.2, 1.25];

/**
 * The new scan's share of each cell, 0 or 1. From both sides the cells are claimed in turn, those first that differ most,
 * so that the sides meet where the pictures differ least, and midway where they differ nowhere: a minimum spanning forest
 * (J. Cousty, G. Bertrand, L. Najman, M. Couprie, Watershed cuts, IEEE TPAMI 31 (2009) 1362–1374) grown by Prim's rule.
 * A speck or a mismatch falls to one side as a whole.
 */
export function seamShares({ columns, rows, state, difference }: SeamGrid): Uint8Array {
  const share = new Uint8Array(columns * rows);
  const owner = new Int8Array(columns * rows).fill(-1);
  const level = levelsOf(state, difference);
  const queues = Array.from({ length: LEVELS }, (): number[] => []);
  const heads = new Int32Array(LEVELS);
  const neighbours = neighboursOf(columns, rows);
  const claim = (k: number, side: number): void => {
    owner[k] = side;
    if (state[k] === CELL.both) share[k] = side;
    for (const next of neighbours(k))
      if (state[next] === CELL.both && owner[next] < 0) queues[level[next]].push(next * 2 + side);
  };
  for (let k = 0; k < state.length; k++) {
    if (state[k] === CELL.old) claim(k, 0);
    else if (state[k] === CELL.new) claim(k, 1);
    if (state[k] === CELL.new) share[k] = 1;
  }
  for (let at = LEVELS - 1; at >= 0;) {
    if (heads[at] >= queues[at].length) {
      at--;
      continue;
    }
    const item = queues[at][heads[at]++];
    const k = item >> 1;
    if (owner[k] >= 0) continue;
    claim(k, item & 1);
    at = LEVELS - 1;
  }
  return share;
}

function levelsOf(state: Uint8Array, difference: Float32Array): Uint8Array {
  const known = difference.filter((_, k) => state[k] === CELL.both);
  const unit = Math.max(1e-4, known.length ? quantile(known, 0.05) : 0) * FIRST_LEVEL;
  return Uint8Array.from(difference, (value) =>
    value <= unit ? 0 : Math.min(LEVELS - 1, 1 + Math.floor(Math.log(value / unit) / Math.log(NEXT_LEVEL))),
  );
}

/**
 * Steps from each cell of an overlap to the nearest that only what was laid before has, over the sum of those and the steps
 * to the nearest that only the new scan has: 0 … 1 across the overlap.
 */
export function acrossOverlap({ columns, rows, state }: Pick<SeamGrid, "columns" | "rows" | "state">): Float32Array {
  const [toOld, toNew] = [CELL.old, CELL.new].map((from) => stepsFrom(from, columns, rows, state));
  return Float32Array.from(state, (here, k) => {
    if (here !== CELL.both) return here === CELL.new ? 1 : 0;
    if (toOld[k] < 0) return 1;
    return toNew[k] < 0 ? 0 : toOld[k] / (toOld[k] + toNew[k]);
  });
}

function stepsFrom(from: number, columns: number, rows: number, state: Uint8Array): Int32Array {
  const steps = new Int32Array(state.length).fill(-1);
  const queue: number[] = [];
  const neighbours = neighboursOf(columns, rows);
  state.forEach((here, k) => {
    if (here !== from) return;
    steps[k] = 0;
    queue.push(k);
  });
  for (let head = 0; head < queue.length; head++)
    for (const next of neighbours(queue[head]))
      if (steps[next] < 0 && state[next] === CELL.both) {
        steps[next] = steps[queue[head]] + 1;
        queue.push(next);
      }
  return steps;
}

function neighboursOf(columns: number, rows: number): (k: number) => number[] {
  return (k) => {
    const x = k % columns;
    const found: number[] = [];
    if (x > 0) found.push(k - 1);
    if (x < columns - 1) found.push(k + 1);
    if (k >= columns) found.push(k - columns);
    if (k < columns * (rows - 1)) found.push(k + columns);
    return found;
  };
}

/** Means of each cell and its eight neighbours, `times` over: what a seam fades by. */
export function softened(values: Float32Array, columns: number, rows: number, times: number): Float32Array {
  let from = values;
  for (let round = 0; round < times; round++) {
    const to = new Float32Array(from.length);
    for (let y = 0; y < rows; y++)
      for (let x = 0; x < columns; x++) {
        let [sum, n] = [0, 0];
        for (let j = Math.max(0, y - 1); j <= Math.min(rows - 1, y + 1); j++)
          for (let i = Math.max(0, x - 1); i <= Math.min(columns - 1, x + 1); i++, n++) sum += from[j * columns + i];
        to[y * columns + x] = sum / n;
      }
    from = to;
  }
  return from;
}
