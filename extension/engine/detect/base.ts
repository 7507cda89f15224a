/**
 * Finds the film's base by itself: the rebate (or a leader) is the thinnest film that is not bare light, flat, and of one
 * colour.
 */
import type { ReadingArea } from "../flat-field/densitometer.ts";
import type { Area, Rgb } from "../types.ts";
import { type CellBox, largestBox } from "../math/largest-rectangle.ts";
import { median } from "../math/statistics.ts";
import { type Cells, cellsOf } from "./uniform-tiles.ts";
import type { DownsampledScan } from "./downsampled-scan.ts";

/** A base that was found. */
export interface FoundBase {
  /** Density per channel, the median over the area. */
  readonly density: Rgb;
  /** Where: the largest rectangle of nothing but base, a little inside its borders. */
  readonly area: ReadingArea;
  /** Part of the scan's film that is as thin and of this colour, 0 … 1. */
  readonly share: number;
  /** 0 … 1: how sure it is that this is base and not a dark part of a picture. */
  readonly confidence: number;
  /** Whether bare light lies on two opposite sides of it: film between perforations, veiled by their light. */
  readonly isBetweenHoles: boolean;
}

/** Film lets at most this much through: clear base reflects about 4 % at each face (common practice). */
const BARE = 0.95;
/** Denser than any base in its thinnest channel: holder, mask, or picture. */
const DENSEST = 1.3;
/** Width of a bin, and half the width of what counts as one density. */
const BIN = 0.003;
const DENSITY_TOLERANCE = 0.009;
/** Squares that must be equally dense, in parts of all squares and in number. */
const MIN_SHARE = 0.0012;
const MIN_TILES = 10;

/**
 * @param pictures where the picture lies, or each of several, once that is known: base is then looked for around them,
 *   where no dark part of a picture can pass for base.
 */
export function findBase(scan: DownsampledScan, pictures?: Area | readonly Area[]): FoundBase | undefined {
  const cells = cellsOf(scan);
  const candidate = candidates(cells, scan, pictures);
  const mode = thinnestMode(cells, candidate, scan.absolute);
  if (!mode) return undefined;
  const member = new Uint8Array(candidate.length);
  let count = 0;
  let film = 0;
  for (let i = 0; i < member.length; i++) {
    if (Math.min(cells.density[i * 3], cells.density[i * 3 + 1], cells.density[i * 3 + 2]) < DENSEST) film++;
    if (!candidate[i] || !near(cells.density, i, mode, DENSITY_TOLERANCE)) continue;
    member[i] = 1;
    count++;
  }
  const box = largestBox(member, cells.columns, cells.rows);
  if (!box) return undefined;
  const { size } = cells;
  const inset = box.width > 2 && box.height > 2 ? size / 2 : 0;
  const [x0, y0] = [box.left * size + inset, box.top * size + inset];
  const [x1, y1] = [(box.left + box.width) * size - inset, (box.top + box.height) * size - inset];
  const density = medianDensity(scan, x0, y0, x1, y1);
  const share = count / Math.max(1, film);
  return {
    density,
    area: [
      round(x0 / scan.width, Math.ceil),
      round(y0 / scan.height, Math.ceil),
      round((x1 - x0) / scan.width, Math.floor),
      round((y1 - y0) / scan.height, Math.floor),
    ],
    share,
    confidence: confidenceOf(share, pictures !== undefined, density),
    isBetweenHoles: isBetweenHoles(cells, box, mode),
  };
}

/** Bare light is thinner than base by at least this in every channel. */
const HOLE_STEP = 0.1;
/** Tiles beside a rectangle of base in which a hole's edge, blurred, gives way to bare light. */
const HOLE_REACH = 4;

/** Whether bare light lies left and right of a rectangle of base, or above and below it. */
function isBetweenHoles({ columns, rows, density }: Cells, { left, top, width, height }: CellBox, base: Rgb): boolean {
  const isBare = (x: number, y: number): boolean => {
    if (x < 0 || y < 0 || x >= columns || y >= rows) return false;
    return base.every((d, c) => density[(y * columns + x) * 3 + c] < d - HOLE_STEP);
  };
  const [x, y] = [left + (width >> 1), top + (height >> 1)];
  const steps = Array.from({ length: HOLE_REACH }, (_, k) => k + 1);
  const across = steps.some((k) => isBare(left - k, y)) && steps.some((k) => isBare(left + width - 1 + k, y));
  const along = steps.some((k) => isBare(x, top - k)) && steps.some((k) => isBare(x, top + height - 1 + k));
  return across || along;
}

const round = (v: number, to: (x: number) => number): number => to(v * 1e4) / 1e4;

/** Surrounding a picture, or most of the scan, it is base; a small patch somewhere may be a shadow of the picture. */
function confidenceOf(share: number, aroundPicture: boolean, d: Rgb): number {
  const masked = d[2] > d[1] && d[1] > d[0] ? 1 : 0.8;
  if (share > 0.6) return masked;
  return masked * Math.min(1, (aroundPicture ? 0.75 : 0.4) + 8 * share);
}

function near(density: Float32Array, cell: number, mode: Rgb, reach: number): boolean {
  for (let c = 0; c < 3; c++) if (Math.abs(density[cell * 3 + c] - mode[c]) > reach) return false;
  return true;
}

/** Squares that may be base: flat, film, and outside the picture. */
function candidates(cells: Cells, scan: DownsampledScan, pictures: Area | readonly Area[] | undefined): Uint8Array {
  const out = new Uint8Array(cells.flat.length);
  const inPictures = [pictures ?? []].flat().map((area) => insideOf(area, scan));
  for (let i = 0; i < out.length; i++) {
    if (!cells.flat[i]) continue;
    const [r, g, b] = [cells.density[i * 3], cells.density[i * 3 + 1], cells.density[i * 3 + 2]];
    if (Math.min(r, g, b) > DENSEST) continue;
    if (scan.absolute && Math.max(r, g, b) < -Math.log10(BARE)) continue;
    if (inPictures.length > 0) {
      const x = ((i % cells.columns) + 0.5) * cells.size;
      const y = (Math.floor(i / cells.columns) + 0.5) * cells.size;
      if (inPictures.some((isInside) => isInside(x, y, cells.size))) continue;
    }
    out[i] = 1;
  }
  return out;
}

/** Whether a square around a place (overview pixels) touches the picture. */
function insideOf(area: Area, { width, height }: DownsampledScan): (x: number, y: number, size: number) => boolean {
  const angle = (area.tilt * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const [cx, cy] = [(area.left + area.width / 2) * width, (area.top + area.height / 2) * height];
  return (x, y, size) => {
    const p = cos * (x - cx) + sin * (y - cy);
    const q = cos * (y - cy) - sin * (x - cx);
    const slack = size * 0.75 + 2;
    return Math.abs(p) < (area.width * width) / 2 + slack && Math.abs(q) < (area.height * height) / 2 + slack;
  };
}

/**
 * The thinnest density that enough squares share. Squares are sorted by their sum of densities; the first clear peak of
 * the histogram is followed to its middle, in all three channels at once.
 */
function thinnestMode(cells: Cells, candidate: Uint8Array, absolute: boolean): Rgb | undefined {
  const sums: number[] = [];
  const index: number[] = [];
  for (let i = 0; i < candidate.length; i++)
    if (candidate[i]) {
      sums.push((cells.density[i * 3] + cells.density[i * 3 + 1] + cells.density[i * 3 + 2]) / 3);
      index.push(i);
    }
  const enough = Math.max(MIN_TILES, MIN_SHARE * candidate.length);
  if (sums.length < enough) return undefined;
  const low = sums.reduce((a, b) => Math.min(a, b));
  const counts = new Float64Array(Math.ceil((DENSEST + 1) / BIN) + 8);
  for (const s of sums) counts[Math.floor((s - low) / BIN) + 3]++;
  // Not smoothed: deep shadows, a hundredth denser than the margin and ten times as many, would swallow it.
  for (let k = 1; k < counts.length - 1; k++) {
    const isPeak = counts[k] >= counts[k - 1] && counts[k] >= counts[k + 1];
    if (!isPeak || counts[k - 1] + counts[k] + counts[k + 1] < enough / 2) continue;
    const mode = settle(cells, index, sums, low + (k - 3 + 0.5) * BIN, enough);
    // Without a blank, bare light in perforations looks like thin film: it is neutral against what lies beside it.
    if (mode && (absolute || !isBareBeside(cells, index, mode))) return mode;
  }
  return undefined;
}

/** Mean shift from a first guess of the mean density; undefined where what is found is no single colour. */
function settle(cells: Cells, index: number[], sums: number[], start: number, enough: number): Rgb | undefined {
  const close = index.filter((_, k) => Math.abs(sums[k] - start) < 1.5 * BIN);
  let mode: Rgb = [0, 1, 2].map((c) => median(close.map((i) => cells.density[i * 3 + c]))) as unknown as Rgb;
  let members: number[] = [];
  for (let round = 0; round < 8; round++) {
    members = index.filter((i) => near(cells.density, i, mode, DENSITY_TOLERANCE));
    if (members.length < enough) return undefined;
    mode = [0, 1, 2].map((c) => median(members.map((i) => cells.density[i * 3 + c]))) as unknown as Rgb;
  }
  return mode;
}

/**
 * Whether a density seen without a blank is bare light: then much more film lies a step denser that is orange (red
 * least, blue most) or at least 0.1 denser in every channel, and almost nothing in between.
 */
function isBareBeside(cells: Cells, index: number[], mode: Rgb): boolean {
  const own = index.filter((i) => near(cells.density, i, mode, DENSITY_TOLERANCE)).length;
  const gap = index.filter((i) => {
    const d = [0, 1, 2].map((c) => cells.density[i * 3 + c] - mode[c]);
    return Math.min(...d) > 0.02 && Math.min(...d) < 0.09;
  }).length;
  const beyond = index.filter((i) => {
    const d = [0, 1, 2].map((c) => cells.density[i * 3 + c] - mode[c]);
    return Math.min(...d) >= 0.09 && Math.min(...d) < 0.5;
  }).length;
  return gap < 0.1 * own && beyond > 2 * own;
}

function medianDensity(o: DownsampledScan, x0: number, y0: number, x1: number, y1: number): Rgb {
  const [left, top] = [Math.floor(x0), Math.floor(y0)];
  const count = Math.ceil(x1 - left) * Math.ceil(y1 - top);
  const values = [0, 1, 2].map(() => new Float64Array(count));
  for (let y = top, k = 0; y < y1; y++)
    for (let x = left; x < x1; x++, k++) for (let c = 0; c < 3; c++) values[c][k] = o.t[(y * o.width + x) * 3 + c];
  const d = values.map((v) => -Math.log10(Math.max(1e-4, median(v))));
  return [d[0], d[1], d[2]];
}
