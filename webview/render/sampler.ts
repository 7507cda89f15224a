/** Lays sources on the canvas's own pixels, as codes: so that a plan runs once for each pixel that is seen. */
import { chained, growth, inverse, moving, scaling, type Affine } from "../state/affine.ts";
import type { Box } from "../state/frame-transform.ts";
import type { Grid, Source } from "./source.ts";
import { levelFor, saturatedPixels } from "./surface.ts";

/** Codes of a rectangle of the canvas, whole pixels. */
export interface Sampled extends Box {
  /** Three codes a pixel. */
  readonly codes: Uint16Array;
  /** Columns of each row that a scan lies under, as first and one behind the last. */
  readonly spans: Int32Array;
}

/** From the canvas to the pixels of a level; a pixel's middle is at its number. */
function toLevel(source: Source, level: number, toCanvas: Affine): Affine {
  const { width, height } = source.levels[level];
  const { part, scanWidth, scanHeight } = source;
  return chained(
    inverse(toCanvas),
    moving(-part.left * scanWidth, -part.top * scanHeight),
    scaling(width / (part.width * scanWidth), height / (part.height * scanHeight)),
    moving(-0.5, -0.5),
  );
}

/** @param layers coarse first: a layer covers those before it */
export function sampledOn(box: Box, layers: readonly Source[], toCanvas: Affine): Sampled {
  const { width, height } = box;
  const codes = new Uint16Array(width * height * 3);
  const spans = new Int32Array(2 * height);
  for (const source of layers) {
    const level = levelFor(source, growth(toCanvas));
    const map = toLevel(source, level, toCanvas);
    // Where several pixels of the level share one of the canvas, four places in it are read.
    const places = growth(map) > 1.05 ? [-0.25, 0.25] : [0];
    layOn(codes, spans, box, source.levels[level], map, places);
  }
  return { ...box, codes, spans };
}

/** Saturated pixels of the same rectangle, one byte each: the nearest of each source's level. */
export function clippedOn(
  box: Box,
  layers: readonly Source[],
  toCanvas: Affine,
  clippedOf: typeof saturatedPixels,
): Uint8Array {
  const lost = new Uint8Array(box.width * box.height);
  for (const source of layers) {
    const level = levelFor(source, growth(toCanvas));
    const map = toLevel(source, level, toCanvas);
    const { width, height } = source.levels[level];
    const from = clippedOf(source, level);
    eachRow(box, map, width, height, (y, first, last, u, v) => {
      for (let x = first, k = y * box.width + first; x < last; x++, k++, u += map.a, v += map.b) {
        lost[k] = from[clampIndex(Math.round(v), height) * width + clampIndex(Math.round(u), width)];
      }
    });
  }
  return lost;
}

const clampIndex = (v: number, count: number): number => (v < 0 ? 0 : v >= count ? count - 1 : v);

/** Rows of the box, with the columns whose middle lies on a grid, and where the first of them does. */
function eachRow(
  box: Box,
  map: Affine,
  width: number,
  height: number,
  row: (y: number, first: number, last: number, u: number, v: number) => void,
): void {
  for (let y = 0; y < box.height; y++) {
    const [cx, cy] = [box.x + 0.5, box.y + y + 0.5];
    const u0 = map.a * cx + map.c * cy + map.e;
    const v0 = map.b * cx + map.d * cy + map.f;
    const [first, last] = crossing(crossing([0, box.width], u0, map.a, width), v0, map.b, height);
    if (first < last) row(y, first, last, u0 + first * map.a, v0 + first * map.b);
  }
}

/** Narrows columns to those where start + column · step lies between −½ and count − ½. */
function crossing([first, last]: readonly [number, number], start: number, step: number, count: number) {
  const [min, max] = [-0.5 - 1e-6, count - 0.5 + 1e-6];
  if (Math.abs(step) < 1e-9) return start >= min && start <= max ? ([first, last] as const) : ([0, 0] as const);
  const [a, b] = [(min - start) / step, (max - start) / step];
  return [Math.max(first, Math.ceil(Math.min(a, b))), Math.min(last, Math.floor(Math.max(a, b)) + 1)] as const;
}

function layOn(
  codes: Uint16Array,
  spans: Int32Array,
  box: Box,
  grid: Grid,
  map: Affine,
  places: readonly number[],
): void {
  const { codes: from, width, height } = grid;
  const exact =
    map.a === 1 && map.b === 0 && map.c === 0 && map.d === 1 && Number.isInteger(map.e) && Number.isInteger(map.f);
  const offsets = places.flatMap((p) => places.map((q) => [map.a * p + map.c * q, map.b * p + map.d * q] as const));
  const sums = new Float32Array(offsets.length > 1 ? box.width * 3 : 0);
  eachRow(box, map, width, height, (y, first, last, u, v) => {
    const covered = spans[2 * y] < spans[2 * y + 1];
    spans[2 * y] = covered ? Math.min(spans[2 * y], first) : first;
    spans[2 * y + 1] = covered ? Math.max(spans[2 * y + 1], last) : last;
    const row = codes.subarray((y * box.width + first) * 3, (y * box.width + last) * 3);
    if (exact) {
      const i = (v * width + u) * 3;
      row.set(from.subarray(i, i + row.length));
    } else if (offsets.length === 1) {
      row.fill(0);
      addLine(row, grid, { u, v, du: map.a, dv: map.b, share: 1, more: 0.5 });
    } else {
      const sum = sums.subarray(0, row.length).fill(0.5);
      for (const [p, q] of offsets)
        addLine(sum, grid, { u: u + p, v: v + q, du: map.a, dv: map.b, share: 1 / offsets.length, more: 0 });
      row.set(sum);
    }
  });
}

/** A straight line over a grid: its first point and its step per pixel, in pixels of the grid. */
interface SampledLine {
  readonly u: number;
  readonly v: number;
  readonly du: number;
  readonly dv: number;
  /** What every sample is multiplied by, and what is added to it then. */
  readonly share: number;
  readonly more: number;
}

/**
 * Adds `share` of what a line over a grid meets, pixel by pixel, and `more`: straight lines between neighbours, in codes,
 * which over the width of a pixel are as good as in light. Everything that it reads is a local: see engine/plan/run.ts.
 */
function addLine(sum: Float32Array | Uint16Array, grid: Grid, line: SampledLine): void {
  const { codes: from, width, height } = grid;
  const { u, v, du, dv, share, more } = line;
  const right = width - 1;
  const down = height - 1;
  const stride = width * 3;
  for (let k = 0, n = 0; k < sum.length; k += 3, n++) {
    let s = u + n * du;
    let t = v + n * dv;
    s = s > 0 ? (s < right ? s : right) : 0;
    t = t > 0 ? (t < down ? t : down) : 0;
    const x = s | 0;
    const y = t | 0;
    const i = y * stride + x * 3;
    const j = x < right ? i + 3 : i;
    const p = y < down ? i + stride : i;
    const q = p + j - i;
    const fy = (t - y) * share;
    const w11 = (s - x) * fy;
    const w10 = (s - x) * share - w11;
    const w01 = fy - w11;
    const w00 = share - w10 - fy;
    sum[k] += w00 * from[i] + w10 * from[j] + w01 * from[p] + w11 * from[q] + more;
    sum[k + 1] += w00 * from[i + 1] + w10 * from[j + 1] + w01 * from[p + 1] + w11 * from[q + 1] + more;
    sum[k + 2] += w00 * from[i + 2] + w10 * from[j + 2] + w01 * from[p + 2] + w11 * from[q + 2] + more;
  }
}
