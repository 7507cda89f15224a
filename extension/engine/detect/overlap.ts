/** Whether two scans show parts of one picture: the shift at which what they share agrees. */
import type { DownsampledScan } from "./downsampled-scan.ts";

/** A scan as a very small map of density, the mean of the channels. */
export interface DensityMap {
  readonly width: number;
  readonly height: number;
  readonly density: Float32Array;
}

export interface Overlap {
  /** Shift of the second scan's content on the first, in fractions of the scan's width and height. */
  readonly x: number;
  readonly y: number;
  /** Correlation of what both show, −1 … 1. */
  readonly agreement: number;
}

const WIDTH = 96;

export function densityMapOf(o: DownsampledScan): DensityMap {
  const shrink = Math.max(1, Math.floor(o.width / WIDTH));
  const width = Math.floor(o.width / shrink);
  const height = Math.floor(o.height / shrink);
  const density = new Float32Array(width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      let sum = 0;
      for (let j = 0; j < shrink; j++)
        for (let i = 0; i < shrink; i++) {
          const k = ((y * shrink + j) * o.width + x * shrink + i) * 3;
          sum += o.t[k] + o.t[k + 1] + o.t[k + 2];
        }
      density[y * width + x] = -Math.log10(Math.max(1e-3, sum / (3 * shrink * shrink)));
    }
  return { width, height, density };
}

/** Shifts that are tried along a side, in its fractions, and across it; less than the first is the same scan. */
const MIN_SHIFT = 0.15;
const MAX_SHIFT = 0.85;
const ASIDE = 0.08;
/**
 * The border of a scan shows margin and holder, which look alike in every scan. Along a shift only the outermost part is left
 * out: what a holder shows there lies on the other scan's picture, and an overlap of a quarter has no more to spare.
 */
const [BORDER, ALONG] = [0.1, 0.03];
/** Least part of a side that is compared: thin strips of any two pictures agree at some shift. */
const MIN_SHARED = 0.17;
/** What both show must have at least this contrast (standard deviation of density), or any two skies would agree. */
const CONTRAST = 0.05;
const MIN_AGREEMENT = 0.93;

/** @returns undefined where no shift makes what both show agree */
export function overlapOf(first: DensityMap, second: DensityMap): Overlap | undefined {
  if (first.width !== second.width || first.height !== second.height) return undefined;
  const { width, height } = first;
  let best: Overlap | undefined;
  const attempt = (dx: number, dy: number, borders: readonly [number, number]): void => {
    const agreement = agreementAt(first, second, dx, dy, borders);
    if (agreement > (best?.agreement ?? MIN_AGREEMENT)) best = { x: dx / width, y: dy / height, agreement };
  };
  // A camera turned upright takes a lying picture in two scans side by side, along their shorter side.
  for (const [long, short, lying] of [
    [width, height, true],
    [height, width, false],
  ] as const)
    for (const sign of [1, -1])
      for (let along = Math.round(MIN_SHIFT * long); along <= MAX_SHIFT * long; along++)
        for (let aside = -Math.round(ASIDE * short); aside <= ASIDE * short; aside++)
          if (lying) attempt(sign * along, aside, [ALONG, BORDER]);
          else attempt(aside, sign * along, [BORDER, ALONG]);
  return best;
}

/** Shifts, in cells of the maps, by which a picture that was photographed twice may have moved in the holder. */
const SEARCH_RADIUS = 6;

/** Correlation of two scans' densities where they agree best, −1 … 1; 0 where one of them shows no contrast. */
export function similarity(first: DensityMap, second: DensityMap): number {
  if (first.width !== second.width || first.height !== second.height) return 0;
  let best = -1;
  for (let dy = -SEARCH_RADIUS; dy <= SEARCH_RADIUS; dy++)
    for (let dx = -SEARCH_RADIUS; dx <= SEARCH_RADIUS; dx++) best = Math.max(best, agreementAt(first, second, dx, dy));
  return best <= -1 ? 0 : best;
}

/** Correlation of first(x, y) with second(x − dx, y − dy) over what both show, borders (shares of the sides) left out. */
function agreementAt(
  a: DensityMap,
  b: DensityMap,
  dx: number,
  dy: number,
  [left, top]: readonly [number, number] = [BORDER, BORDER],
): number {
  const { width, height } = a;
  const [bx, by] = [Math.round(left * width), Math.round(top * height)];
  const [x0, x1] = [Math.max(bx, bx + dx), Math.min(width - bx, width - bx + dx)];
  const [y0, y1] = [Math.max(by, by + dy), Math.min(height - by, height - by + dy)];
  if (x1 - x0 < Math.max(6, MIN_SHARED * width) || y1 - y0 < Math.max(6, MIN_SHARED * height)) return -1;
  let [n, sa, sb, saa, sbb, sab] = [0, 0, 0, 0, 0, 0];
  for (let y = y0; y < y1; y++)
    for (let x = x0; x < x1; x++) {
      const p = a.density[y * width + x];
      const q = b.density[(y - dy) * width + x - dx];
      n++;
      sa += p;
      sb += q;
      saa += p * p;
      sbb += q * q;
      sab += p * q;
    }
  const [va, vb] = [saa / n - (sa / n) ** 2, sbb / n - (sb / n) ** 2];
  if (Math.min(va, vb) < CONTRAST ** 2) return -1;
  return (sab / n - (sa / n) * (sb / n)) / Math.sqrt(va * vb);
}
