/** Lays sources on the canvas's own pixels, as codes: so that a plan runs once for each pixel that is seen. */
import { chained, growth, inverse, moving, scaling, type Affine } from "../state/affine.ts";
import type { Box } from "../state/placing.ts";
import type { Source } from "./source.ts";
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
export function lostOn(
  box: Box,
  layers: readonly Source[],
  toCanvas: Affine,
  lostOf: typeof saturatedPixels,
): Uint8Array {
  const lost = new Uint8Array(box.width * box.height);
  for (const source of layers) {
    const level = levelFor(source, growth(toCanvas));
    const map = toLevel(source, level, toCanvas);
    const { width, height } = source.levels[level];
    const from = lostOf(source, level);
    eachRow(box, map, width, height, (y, first, last, u, v) => {
      for (let x = first, k = y * box.width + first; x < last; x++, k++, u += map.a, v += map.b) {
        lost[k] = from[held(Math.round(v), height) * width + held(Math.round(u), width)];
      }
    });
  }
  return lost;
}

const held = (v: number, count: number): number => (v < 0 ? 0 : v >= count ? count - 1 : v);

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
  const [least, most] = [-0.5 - 1e-6, count - 0.5 + 1e-6];
  if (Math.abs(step) < 1e-9) return start >= least && start <= most ? ([first, last] as const) : ([0, 0] as const);
  const [a, b] = [(least - start) / step, (most - start) / step];
  return [Math.max(first, Math.ceil(Math.min(a, b))), Math.min(last, Math.floor(Math.max(a, b)) + 1)] as const;
}

/** Straight lines between neighbours, in codes: over the width of a pixel that is as good as in light. */
function layOn(
  codes: Uint16Array,
  spans: Int32Array,
  box: Box,
  { codes: from, width, height }: Source["levels"][number],
  map: Affine,
  places: readonly number[],
): void {
  const exact =
    map.a === 1 && map.b === 0 && map.c === 0 && map.d === 1 && Number.isInteger(map.e) && Number.isInteger(map.f);
  const us = Float64Array.from(places.flatMap((p) => places.map((q) => map.a * p + map.c * q)));
  const vs = Float64Array.from(places.flatMap((p) => places.map((q) => map.b * p + map.d * q)));
  const share = 1 / us.length;
  const [right, down] = [width - 1, height - 1];
  eachRow(box, map, width, height, (y, first, last, u0, v0) => {
    const covered = spans[2 * y] < spans[2 * y + 1];
    spans[2 * y] = covered ? Math.min(spans[2 * y], first) : first;
    spans[2 * y + 1] = covered ? Math.max(spans[2 * y + 1], last) : last;
    let k = (y * box.width + first) * 3;
    if (exact) {
      const i = (v0 * width + u0) * 3;
      codes.set(from.subarray(i, i + 3 * (last - first)), k);
      return;
    }
    for (let x = first, u = u0, v = v0; x < last; x++, u += map.a, v += map.b, k += 3) {
      let r = 0.5;
      let g = 0.5;
      let b = 0.5;
      for (let o = 0; o < us.length; o++) {
        let s = u + us[o];
        let t = v + vs[o];
        s = s > 0 ? (s < right ? s : right) : 0;
        t = t > 0 ? (t < down ? t : down) : 0;
        const x0 = s | 0;
        const y0 = t | 0;
        const fx = s - x0;
        const fy = t - y0;
        const i = (y0 * width + x0) * 3;
        const j = x0 < right ? i + 3 : i;
        const below = y0 < down ? width * 3 : 0;
        const w11 = fx * fy * share;
        const w10 = fx * share - w11;
        const w01 = fy * share - w11;
        const w00 = share - w10 - w01 - w11;
        r += w00 * from[i] + w10 * from[j] + w01 * from[i + below] + w11 * from[j + below];
        g += w00 * from[i + 1] + w10 * from[j + 1] + w01 * from[i + below + 1] + w11 * from[j + below + 1];
        b += w00 * from[i + 2] + w10 * from[j + 2] + w01 * from[i + below + 2] + w11 * from[j + below + 2];
      }
      codes[k] = r;
      codes[k + 1] = g;
      codes[k + 2] = b;
    }
  });
}
