/** Finds a chart's patches on a scan by themselves: even squares that lie on a regular grid of six by four. */
import type { DownsampledScan } from "../detect/downsampled-scan.ts";
import type { Area } from "../types.ts";

export type Point = readonly [x: number, y: number];

/** Places of a chart's patches in overview pixels, row by row, six to a row, as the chart is held: which end is up is open. */
export interface ChartGrid {
  readonly columns: number;
  readonly rows: number;
  readonly centres: readonly Point[];
  /** Side of a patch. */
  readonly size: number;
  /** Patches that were seen as even squares; the others were placed by the grid. */
  readonly seen: number;
  /** Indices into `centres` of those that were placed. */
  readonly unseen: readonly number[];
}

/** A patch seen. */
interface Blob {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Neighbouring pixels of one patch differ by less than this in density. */
const EVEN = 0.03;
/** At least this part of the patches must be seen. */
const MIN_SEEN_SHARE = 0.6;

/** @returns undefined where no such grid is seen */
export function findChart(scan: DownsampledScan, area: Area, columns = 6, rows = 4): ChartGrid | undefined {
  const blobs = squaresIn(scan, area, columns * rows);
  let best: ChartGrid | undefined;
  for (const origin of blobs)
    for (const right of blobs) {
      const step: Point = [right.x - origin.x, right.y - origin.y];
      const pitch = Math.hypot(...step);
      // A neighbour: nearer than two patches, not far off an axis of the scan, on either of the two axes.
      if (pitch < 1.02 * origin.width || pitch > 2 * origin.width) continue;
      if (Math.min(Math.abs(step[0]), Math.abs(step[1])) > 0.25 * pitch) continue;
      for (const [c, r] of [
        [columns, rows],
        [rows, columns],
      ])
        if (Math.abs(step[0]) > Math.abs(step[1]) && step[0] > 0) {
          const grid = gridFrom(blobs, origin, step, c, r);
          if (grid && (!best || grid.seen > best.seen)) best = grid;
        }
    }
  if (!best || best.seen < MIN_SEEN_SHARE * columns * rows) return undefined;
  return best;
}

/** The best window of c × r places on the lattice that one step spans, refined to all squares on it. */
function gridFrom(blobs: readonly Blob[], origin: Blob, step: Point, c: number, r: number): ChartGrid | undefined {
  const down: Point = [-step[1], step[0]];
  const pitch2 = step[0] ** 2 + step[1] ** 2;
  const on = blobs.flatMap((blob) => {
    const [dx, dy] = [blob.x - origin.x, blob.y - origin.y];
    const [i, j] = [(dx * step[0] + dy * step[1]) / pitch2, (dx * down[0] + dy * down[1]) / pitch2];
    const [q, p] = [Math.round(i), Math.round(j)];
    const close = Math.hypot(i - q, j - p) < 0.25 && Math.abs(blob.width / origin.width - 1) < 0.35;
    return close && Math.abs(q) < c && Math.abs(p) < r ? [{ blob, q, p }] : [];
  });
  let best: { q0: number; p0: number; seen: number } | undefined;
  for (let q0 = 1 - c; q0 <= 0; q0++)
    for (let p0 = 1 - r; p0 <= 0; p0++) {
      const within = on.filter(({ q, p }) => q >= q0 && q < q0 + c && p >= p0 && p < p0 + r);
      const seen = new Set(within.map(({ q, p }) => q * 100 + p)).size;
      if (!best || seen > best.seen) best = { q0, p0, seen };
    }
  if (!best || best.seen < 6) return undefined;
  const { q0, p0, seen } = best;
  const within = on.filter(({ q, p }) => q >= q0 && q < q0 + c && p >= p0 && p < p0 + r);
  const fit = (value: (b: Blob) => number): ((q: number, p: number) => number) | undefined =>
    plane(within.map(({ blob, q, p }) => [q - q0, p - p0, value(blob)]));
  const [atX, atY] = [fit((b) => b.x), fit((b) => b.y)];
  if (!atX || !atY) return undefined;
  const centres = Array.from({ length: c * r }, (_, k): Point => {
    const [q, p] = [k % c, Math.floor(k / c)];
    return [atX(q, p), atY(q, p)];
  });
  const sizes = within.map(({ blob }) => Math.min(blob.width, blob.height)).toSorted((a, b) => a - b);
  const found = new Set(within.map(({ q, p }) => (p - p0) * c + q - q0));
  const unseen = centres.flatMap((_, k) => (found.has(k) ? [] : [k]));
  return { columns: c, rows: r, centres, size: sizes[sizes.length >> 1], seen, unseen };
}

/** Least-squares plane value = a + b·q + c·p. */
function plane(points: readonly (readonly [number, number, number])[]): ((q: number, p: number) => number) | undefined {
  const n = points.length;
  const mean = [0, 1, 2].map((k) => points.reduce((s, v) => s + v[k], 0) / n);
  let [qq, pp, qp, qv, pv] = [0, 0, 0, 0, 0];
  for (const [q, p, v] of points) {
    qq += (q - mean[0]) ** 2;
    pp += (p - mean[1]) ** 2;
    qp += (q - mean[0]) * (p - mean[1]);
    qv += (q - mean[0]) * (v - mean[2]);
    pv += (p - mean[1]) * (v - mean[2]);
  }
  const det = qq * pp - qp * qp;
  if (!(det > 1e-9)) return undefined;
  const [b, c] = [(qv * pp - pv * qp) / det, (pv * qq - qv * qp) / det];
  return (q, p) => mean[2] + b * (q - mean[0]) + c * (p - mean[1]);
}

/** Even regions that are about square and of a patch's size. */
function squaresIn(o: DownsampledScan, area: Area, patches: number): Blob[] {
  const { width, height } = o;
  const [x0, x1] = [
    Math.max(2, Math.round(area.left * width)),
    Math.min(width - 2, Math.round((area.left + area.width) * width)),
  ];
  const [y0, y1] = [
    Math.max(2, Math.round(area.top * height)),
    Math.min(height - 2, Math.round((area.top + area.height) * height)),
  ];
  const density = smoothDensity(o);
  const even = new Uint8Array(width * height);
  for (let y = y0; y < y1; y++)
    for (let x = x0; x < x1; x++) {
      const i = y * width + x;
      let steep = 0;
      for (let c = 0; c < 3; c++)
        steep = Math.max(
          steep,
          Math.abs(density[(i + 2) * 3 + c] - density[(i - 2) * 3 + c]),
          Math.abs(density[(i + 2 * width) * 3 + c] - density[(i - 2 * width) * 3 + c]),
        );
      if (steep < EVEN) even[i] = 1;
    }
  const maxArea = ((x1 - x0) * (y1 - y0)) / patches;
  const blobs: Blob[] = [];
  const stack: number[] = [];
  for (let start = 0; start < even.length; start++) {
    if (!even[start]) continue;
    even[start] = 0;
    stack.push(start);
    let [count, left, right, top, bottom] = [0, width, 0, height, 0];
    while (stack.length) {
      const i = stack.pop()!;
      const [x, y] = [i % width, Math.floor(i / width)];
      count++;
      left = Math.min(left, x);
      right = Math.max(right, x);
      top = Math.min(top, y);
      bottom = Math.max(bottom, y);
      for (const k of [i - 1, i + 1, i - width, i + width])
        if (even[k]) {
          even[k] = 0;
          stack.push(k);
        }
    }
    const [w, h] = [right - left + 1, bottom - top + 1];
    const square = Math.min(w, h) / Math.max(w, h) > 0.75 && count > 0.8 * w * h;
    if (square && count > 0.02 * maxArea && w * h < maxArea)
      // What was taken for an edge on either side belongs to the patch.
      blobs.push({ x: (left + right + 1) / 2, y: (top + bottom + 1) / 2, width: w + 3, height: h + 3 });
  }
  return blobs;
}

/** Density of 5 × 5 means: grain must not look like edges. */
function smoothDensity({ width, height, t }: DownsampledScan): Float32Array {
  const across = new Float32Array(t.length);
  const out = new Float32Array(t.length);
  for (let y = 0; y < height; y++)
    for (let x = 2; x < width - 2; x++)
      for (let c = 0; c < 3; c++) {
        let s = 0;
        for (let k = -2; k <= 2; k++) s += t[(y * width + x + k) * 3 + c];
        across[(y * width + x) * 3 + c] = s / 5;
      }
  for (let y = 2; y < height - 2; y++)
    for (let x = 0; x < width; x++)
      for (let c = 0; c < 3; c++) {
        let s = 0;
        for (let k = -2; k <= 2; k++) s += across[((y + k) * width + x) * 3 + c];
        out[(y * width + x) * 3 + c] = -Math.log10(Math.max(s / 5, 1e-4));
      }
  return out;
}

/**
 * The grid between the four corners of the field of patches: that of the first patch, then clockwise as the chart is
 * held; fractions of the scan's width and height.
 */
export function gridBetween(
  o: DownsampledScan,
  corners: readonly [Point, Point, Point, Point],
  columns = 6,
  rows = 4,
): ChartGrid {
  const [a, b, c, d] = corners;
  const centres = Array.from({ length: columns * rows }, (_, k): Point => {
    const u = ((k % columns) + 0.5) / columns;
    const v = (Math.floor(k / columns) + 0.5) / rows;
    const at = (i: 0 | 1): number => (1 - v) * ((1 - u) * a[i] + u * b[i]) + v * ((1 - u) * d[i] + u * c[i]);
    return [at(0) * o.width, at(1) * o.height];
  });
  const size = 0.8 * Math.hypot(centres[1][0] - centres[0][0], centres[1][1] - centres[0][1]);
  return { columns, rows, centres, size, seen: columns * rows, unseen: [] };
}
