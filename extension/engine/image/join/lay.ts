/** Lays the scans of a join into one picture, one after the other, each once: memory holds the picture and one scan. */
import { clamp } from "../../math/clamp.ts";
import { median } from "../../math/statistics.ts";
import type { LinearScan, Rgb } from "../../types.ts";
import { type JoinPart, movedRows, type MovedRows } from "./moved-rows.ts";
import { type JoinFrame, joinFrame, type JoinPlace, type PlacedSize } from "./place.ts";
import { acrossOverlap, CELL, seamShares, softened } from "./seam.ts";

/** Level of the joined scan's samples at transmittance 1, and its black: noise around zero stays unbiased. */
export const [JOIN_LEVEL, JOIN_BLACK] = [45_000, 512];

/** Pixels of the full scan along a side of the cells that a seam is drawn on, and of those that are compared in one. */
const [CELL_SIDE, COMPARED] = [8, 2];
/** Cells along a side of the blocks in which slow differences are read, and the most that is evened out (natural log). */
const [BLOCK, MAX_EVENED] = [8, 0.12];
/** Rounds of means over neighbouring cells: the seam fades over about four cells. */
const FADE = 2;
/** Transmittances whose ratio counts. */
const [MIN_TONE, MAX_TONE] = [0.004, 1.2];

export interface LaidJoin {
  /** Lays the next scan on those before. */
  add(part: JoinPart): void;
  /** Transmittance, light divided out: it is read with no field and a ratio of 1. Where no scan reaches it is 0. */
  finish(): LinearScan;
}

/** Scans in the order in which they are laid: the first, then those nearest to it, so that the picture grows without gaps. */
export const layingOrder = (places: readonly JoinPlace[]): number[] =>
  places
    .map(([x, y], i) => [Math.hypot(x - places[0][0], y - places[0][1]), i] as const)
    .toSorted(([p, i], [q, j]) => p - q || i - j)
    .map(([, i]) => i);

/**
 * @param expected the rectangle around all scans, as far as their sizes are known: another costs memory, nothing else
 * @param times how many times shorter the sides of the scans are than at full size
 */
export function startJoin(expected: JoinFrame, times: number, checkpoint: () => void): LaidJoin {
  let frame = expected;
  let data = new Uint16Array(frame.width * frame.height * 3);
  const side = Math.max(2, Math.round(CELL_SIDE / times));
  const sizes: PlacedSize[] = [];
  const resize = (to: JoinFrame): void => {
    if (to.left === frame.left && to.top === frame.top && to.width === frame.width && to.height === frame.height)
      return;
    data = moved(data, frame, to);
    frame = to;
  };
  return {
    add(part) {
      const { width, height } = part.scan;
      sizes.push({ scan: { width, height }, place: part.place });
      const own = joinFrame([part]);
      resize(around(frame, own));
      const shown = within(own, frame, side);
      const rows = (): MovedRows => movedRows(part, shown, gainOf(part));
      const layer: Layer = { data, width: frame.width, own: shown, side, rows, checkpoint };
      layRows(layer, sizes.length === 1 ? undefined : compare(layer));
    },
    finish() {
      resize(joinFrame(sizes));
      const { width, height } = frame;
      return { width, height, channels: 3, data, black: JOIN_BLACK, scale: 1 / JOIN_LEVEL };
    },
  };
}

function around(a: JoinFrame, b: JoinFrame): JoinFrame {
  const [left, top] = [Math.min(a.left, b.left), Math.min(a.top, b.top)];
  const [right, bottom] = [Math.max(a.left + a.width, b.left + b.width), Math.max(a.top + a.height, b.top + b.height)];
  return { left, top, width: right - left, height: bottom - top };
}

/** What two rectangles share, copied from the one to the other. */
function moved(data: Uint16Array, from: JoinFrame, to: JoinFrame): Uint16Array<ArrayBuffer> {
  const out = new Uint16Array(to.width * to.height * 3);
  const [left, right] = [Math.max(from.left, to.left), Math.min(from.left + from.width, to.left + to.width)];
  for (let y = Math.max(from.top, to.top); y < Math.min(from.top + from.height, to.top + to.height); y++) {
    const at = ((y - from.top) * from.width + left - from.left) * 3;
    out.set(data.subarray(at, at + (right - left) * 3), ((y - to.top) * to.width + left - to.left) * 3);
  }
  return out;
}

function gainOf({ place: [, , , exposure = 0] }: JoinPart): Rgb {
  const [r, g, b] = typeof exposure === "number" ? [exposure, exposure, exposure] : exposure;
  return [2 ** r, 2 ** g, 2 ** b];
}

/** A part's rectangle, its corner counted in the picture's own pixels by `x0` and `y0`. */
type OwnFrame = JoinFrame & { readonly x0: number; readonly y0: number };

/** Grown by a cell, so that what lies beside the scan is seen. */
function within(own: JoinFrame, frame: JoinFrame, by: number): OwnFrame {
  const left = Math.max(own.left - by, frame.left);
  const top = Math.max(own.top - by, frame.top);
  const right = Math.min(own.left + own.width + by, frame.left + frame.width);
  const bottom = Math.min(own.top + own.height + by, frame.top + frame.height);
  return { left, top, width: right - left, height: bottom - top, x0: left - frame.left, y0: top - frame.top };
}

interface Layer {
  /** The picture so far; a pixel whose green is 0 is empty. */
  readonly data: Uint16Array;
  readonly width: number;
  readonly own: OwnFrame;
  /** Pixels along a side of a cell. */
  readonly side: number;
  readonly rows: () => MovedRows;
  readonly checkpoint: () => void;
}

/**
 * How a scan goes into what lies there. By cell, seven values: the scan's share, and factors of red, green and blue for the
 * scan and for what lies there, which even out their slow difference across the overlap.
 */
interface Transition {
  readonly columns: number;
  readonly lines: number;
  readonly values: Float32Array;
}
const VALUES = 7;

function compare({ data, width, own, side, rows, checkpoint }: Layer): Transition | undefined {
  const [columns, lines] = [Math.ceil(own.width / side), Math.ceil(own.height / side)];
  const cells = columns * lines;
  const [here, there] = [new Uint16Array(cells), new Uint16Array(cells)];
  const [sum, spread, count] = [new Float32Array(cells * 3), new Float32Array(cells), new Uint16Array(cells)];
  const row = new Float32Array(own.width * 3);
  const reader = rows();
  const log = new Float32Array(3);
  for (let y = 0; y < own.height; y += COMPARED) {
    if (y % (COMPARED * 64) === 0) checkpoint();
    reader.row(y, row, 0, own.width, COMPARED);
    const line = (y + own.y0) * width + own.x0;
    const cellRow = Math.floor(y / side) * columns;
    for (let x = 0; x < own.width; x += COMPARED) {
      const cell = cellRow + Math.floor(x / side);
      const isNew = !Number.isNaN(row[x * 3]);
      const o = (line + x) * 3;
      const isOld = data[o + 1] !== 0;
      if (isNew) here[cell]++;
      if (isOld) there[cell]++;
      if (!isNew || !isOld) continue;
      let isToned = true;
      for (let c = 0; c < 3; c++) {
        const [p, q] = [(data[o + c] - JOIN_BLACK) / JOIN_LEVEL, row[x * 3 + c]];
        isToned &&= p < MAX_TONE && q < MAX_TONE;
        log[c] = Math.log(Math.max(MIN_TONE, p) / Math.max(MIN_TONE, q));
      }
      if (!isToned) continue;
      count[cell]++;
      for (let c = 0; c < 3; c++) sum[cell * 3 + c] += log[c];
      spread[cell] += Math.abs(log[0]) + Math.abs(log[1]) + Math.abs(log[2]);
    }
  }
  const state = Uint8Array.from(here, (n, k) => (n > 0 ? 2 : 0) + (there[k] > 0 ? 1 : 0));
  if (!state.includes(CELL.both)) return undefined;
  const slow = slowDifference({ columns, lines, state, sum, count });
  const difference = Float32Array.from(state, (_, k) => {
    if (count[k] === 0) return 0;
    let off = 0;
    for (let c = 0; c < 3; c++) off += Math.abs(sum[k * 3 + c] / count[k] - slow[k * 3 + c]);
    return off + 0.3 * (spread[k] / count[k]);
  });
  const grid = { columns, rows: lines, state, difference };
  const share = softened(Float32Array.from(seamShares(grid)), columns, lines, FADE);
  const across = softened(acrossOverlap(grid), columns, lines, FADE);
  const values = new Float32Array(cells * VALUES);
  for (let k = 0; k < cells; k++) {
    values[k * VALUES] = share[k];
    for (let c = 0; c < 3; c++) {
      values[k * VALUES + 1 + c] = Math.exp(slow[k * 3 + c] * (1 - across[k]));
      values[k * VALUES + 4 + c] = Math.exp(-slow[k * 3 + c] * across[k]);
    }
  }
  return { columns, lines, values };
}

/** Writes a scan's rows over what lies there, by the transition where both show something. */
function layRows({ data, width, own, side, rows, checkpoint }: Layer, transition: Transition | undefined): void {
  const row = new Float32Array(own.width * 3);
  const reader = rows();
  const line = transition && new Float32Array(transition.columns * VALUES);
  const at = new Float32Array(VALUES);
  for (let y = 0; y < own.height; y++) {
    if (y % 128 === 0) checkpoint();
    reader.row(y, row, 0, own.width);
    if (transition) valuesOfRow(transition, (y + 0.5) / side - 0.5, line!);
    for (let x = 0, i = 0, o = ((y + own.y0) * width + own.x0) * 3; x < own.width; x++, i += 3, o += 3) {
      if (Number.isNaN(row[i])) continue;
      if (!line || data[o + 1] === 0) {
        for (let c = 0; c < 3; c++) data[o + c] = sample(JOIN_BLACK + JOIN_LEVEL * row[i + c]);
        continue;
      }
      const u = clamp((x + 0.5) / side - 0.5, 0, transition!.columns - 1);
      const k = Math.floor(u) * VALUES;
      const next = Math.min(k + VALUES, line.length - VALUES);
      const f = u - Math.floor(u);
      for (let n = 0; n < VALUES; n++) at[n] = line[k + n] + f * (line[next + n] - line[k + n]);
      for (let c = 0; c < 3; c++) {
        const before = JOIN_BLACK + (data[o + c] - JOIN_BLACK) * at[4 + c];
        const after = JOIN_BLACK + JOIN_LEVEL * row[i + c] * at[1 + c];
        data[o + c] = sample(before + at[0] * (after - before));
      }
    }
  }
}

/** Above 0, which marks a pixel that no scan shows. */
const sample = (value: number): number => clamp(Math.round(value), 1, 65535);

function valuesOfRow({ columns, lines, values }: Transition, v: number, out: Float32Array): void {
  const y = clamp(v, 0, lines - 1);
  const j = Math.floor(y);
  const [from, to] = [j, Math.min(j + 1, lines - 1)].map((n) => n * columns * VALUES);
  for (let k = 0; k < out.length; k++) out[k] = values[from + k] + (y - j) * (values[to + k] - values[from + k]);
}

/** Medians over blocks of cells, made smooth: unevenness of the light that the blank did not take, not the picture. */
function slowDifference({
  columns,
  lines,
  state,
  sum,
  count,
}: {
  readonly columns: number;
  readonly lines: number;
  readonly state: Uint8Array;
  readonly sum: Float32Array;
  readonly count: Uint16Array;
}): Float32Array {
  const [wide, high] = [Math.ceil(columns / BLOCK), Math.ceil(lines / BLOCK)];
  const out = new Float32Array(state.length * 3);
  for (let c = 0; c < 3; c++) {
    const values = new Float32Array(wide * high).fill(Number.NaN);
    for (let v = 0; v < high; v++)
      for (let u = 0; u < wide; u++) {
        const found: number[] = [];
        for (let y = v * BLOCK; y < Math.min(lines, (v + 1) * BLOCK); y++)
          for (let x = u * BLOCK; x < Math.min(columns, (u + 1) * BLOCK); x++) {
            const k = y * columns + x;
            if (state[k] === CELL.both && count[k] > 0) found.push(sum[k * 3 + c] / count[k]);
          }
        if (found.length >= BLOCK) values[v * wide + u] = clamp(median(found), -MAX_EVENED, MAX_EVENED);
      }
    const smooth = filled(values, wide, high);
    for (let y = 0; y < lines; y++)
      for (let x = 0; x < columns; x++)
        out[(y * columns + x) * 3 + c] = between(smooth, wide, high, (x + 0.5) / BLOCK - 0.5, (y + 0.5) / BLOCK - 0.5);
  }
  return out;
}

/** Means over each value and its neighbours that are known; then, ring by ring, those that are not known. */
function filled(values: Float32Array, wide: number, high: number): Float32Array {
  let from = values;
  for (let round = 0; round < Math.max(2, wide + high); round++) {
    const to = from.slice();
    let open = 0;
    for (let y = 0; y < high; y++)
      for (let x = 0; x < wide; x++) {
        const k = y * wide + x;
        if (round > 0 && !Number.isNaN(from[k])) continue;
        let [sum, n] = [0, 0];
        for (let j = Math.max(0, y - 1); j <= Math.min(high - 1, y + 1); j++)
          for (let i = Math.max(0, x - 1); i <= Math.min(wide - 1, x + 1); i++) {
            const value = from[j * wide + i];
            if (!Number.isNaN(value)) {
              sum += value;
              n++;
            }
          }
        to[k] = n > 0 ? sum / n : Number.NaN;
        if (n === 0) open++;
      }
    from = to;
    if (round > 0 && open === 0) break;
  }
  return from.map((value) => (Number.isNaN(value) ? 0 : value));
}

/** Straight lines between the middles of cells; the outermost are repeated. */
function between(values: Float32Array, wide: number, high: number, u: number, v: number): number {
  const [x, y] = [clamp(u, 0, wide - 1), clamp(v, 0, high - 1)];
  const [i, j] = [Math.min(Math.floor(x), Math.max(0, wide - 2)), Math.min(Math.floor(y), Math.max(0, high - 2))];
  const [fx, fy] = [x - i, y - j];
  const at = (a: number, b: number): number => values[Math.min(b, high - 1) * wide + Math.min(a, wide - 1)];
  return (at(i, j) * (1 - fx) + at(i + 1, j) * fx) * (1 - fy) + (at(i, j + 1) * (1 - fx) + at(i + 1, j + 1) * fx) * fy;
}
