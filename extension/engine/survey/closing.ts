/** Grey closing: what a picture would be without its small dark things. */

/**
 * Closing by a square of 2·reach + 1 pixels (maximum, then minimum), in two passes a direction by van Herk's and
 * Gil and Werman's running extremes: three comparisons a pixel whatever the reach.
 */
export function closing(plane: Uint16Array, width: number, height: number, reach: number): Uint16Array {
  const out = plane.slice();
  for (const most of [true, false]) {
    const row = rowBuffers(width, reach);
    for (let y = 0; y < height; y++) runningExtreme(out, y * width, row, width, reach, most);
    columns(out, width, height, reach, most);
  }
  return out;
}

interface RowBuffers {
  readonly values: Uint16Array;
  readonly forward: Uint16Array;
  readonly backward: Uint16Array;
}

function rowBuffers(count: number, reach: number): RowBuffers {
  const size = 2 * reach + 1;
  const padded = Math.ceil((count + 2 * reach) / size) * size;
  return { values: new Uint16Array(padded), forward: new Uint16Array(padded), backward: new Uint16Array(padded) };
}

/** Extremes along one row in place. */
function runningExtreme(
  data: Uint16Array,
  start: number,
  { values, forward, backward }: RowBuffers,
  count: number,
  reach: number,
  most: boolean,
): void {
  const size = 2 * reach + 1;
  const filler = most ? 0 : 65535;
  values.fill(filler);
  values.set(data.subarray(start, start + count), reach);
  for (let b = 0; b < values.length; b += size) {
    let run = filler;
    for (let i = b; i < b + size; i++) forward[i] = run = most === values[i] > run ? values[i] : run;
    run = filler;
    for (let i = b + size - 1; i >= b; i--) backward[i] = run = most === values[i] > run ? values[i] : run;
  }
  for (let i = 0; i < count; i++) {
    const a = backward[i];
    const b = forward[i + size - 1];
    data[start + i] = most === a > b ? a : b;
  }
}

/** The same along columns, row by row, so that memory is walked in its own order. */
function columns(data: Uint16Array, width: number, height: number, reach: number, most: boolean): void {
  const size = 2 * reach + 1;
  const padded = Math.ceil((height + 2 * reach) / size) * size;
  const filler = most ? 0 : 65535;
  const rowAt = (i: number): number => i - reach;
  // Backward runs of one block of rows, and the forward run of the next one.
  const backward = Array.from({ length: size }, () => new Uint16Array(width));
  const run = new Uint16Array(width);
  const source = data.slice();
  const merge = (into: Uint16Array, row: number): void => {
    if (row < 0 || row >= height) return;
    const from = row * width;
    if (most) for (let x = 0; x < width; x++) into[x] = source[from + x] > into[x] ? source[from + x] : into[x];
    else for (let x = 0; x < width; x++) into[x] = source[from + x] < into[x] ? source[from + x] : into[x];
  };
  for (let b = 0; b < padded; b += size) {
    for (let i = size - 1; i >= 0; i--) {
      if (i === size - 1) backward[i].fill(filler);
      else backward[i].set(backward[i + 1]);
      merge(backward[i], rowAt(b + i));
    }
    run.fill(filler);
    for (let i = 0; i < size; i++) {
      // The window that begins at b + i ends at i − 1 of the next block.
      if (i > 0) merge(run, rowAt(b + size + i - 1));
      const y = b + i;
      if (y >= height) break;
      const at = y * width;
      const back = backward[i];
      for (let x = 0; x < width; x++) {
        const [p, q] = [back[x], run[x]];
        data[at + x] = most === p > q ? p : q;
      }
    }
  }
}
