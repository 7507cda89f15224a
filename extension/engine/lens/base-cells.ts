/** Where a scan shows the film's base, cell by cell: all of it lets the same light through, so it shows the falloff. */
import type { FilmPlane, PixelBox } from "../flat-field/film-plane.ts";
import type { Area, Rgb } from "../types.ts";
import { radialScale } from "./radial.ts";

/** A cell of clear film: place in halves of the scan's diagonal from its middle, and its light. */
export interface BaseCell {
  readonly x: number;
  readonly y: number;
  /** EV against the base as the recipe states it, mean of the three channels. */
  readonly light: number;
}

/** Side of a cell in parts of the scan's width, and at least, pixels. */
const [CELL, MIN_CELL] = [1 / 128, 6];
/** Kept free of the picture's own edges, in parts of the scan's width: they are blurred, and halation reaches beyond. */
const MARGIN = 0.005;
/** A cell is left out where light beside it, outside of the pictures, differs by this part: holder or bare light reach in. */
const BESIDE = 0.2;
/** The base has one colour: the densities of the three channels over the base differ by less, D. */
const COLOUR = 0.03;
/** No falloff between two places of a copy set-up is larger, D; on the side of the bare light less on film without a mask. */
const [FARTHEST, MASK] = [0.4, 0.25];
/** The quarters of a cell differ by less than this part of its light, or by so many standard errors: else it holds an edge. */
const [EVEN, SIGNIFICANT] = [0.012, 4];

/**
 * Cells of a scan that show the film's base, outside of the pictures: by colour and density, and without any edge.
 * @param plane transmittance without any falloff taken out
 * @param pictures areas of all frames on the scan; none on a leader
 * @param base density of the base, D per channel
 */
export function readBaseCells(plane: FilmPlane, pictures: readonly Area[], base: Rgb): BaseCell[] {
  const { width, height } = plane;
  const side = Math.max(MIN_CELL, Math.round(CELL * width));
  const { centreX, centreY, unit } = radialScale(plane);
  const thinnest = Math.max(...base) - Math.min(...base) > MASK ? FARTHEST : Math.max(0.06, 0.6 * Math.min(...base));
  const step = side >> 1;
  const [columns, rows] = [width, height].map((all) => Math.max(0, Math.floor((all - side) / step) + 1));
  const boxOf = (q: number, r: number): PixelBox => ({
    x0: q * step,
    x1: q * step + side,
    y0: r * step,
    y1: r * step + side,
  });
  const outside = Array.from({ length: columns * rows }, (_, i) => {
    const box = boxOf(i % columns, Math.floor(i / columns));
    return pictures.some((area) => touches(box, area, plane)) ? undefined : readCell(plane, box);
  });
  return outside.flatMap((cell, i): BaseCell[] => {
    if (!cell?.even || besideOther(outside, i, columns)) return [];
    const over = cell.mean.map((light, c) => -Math.log10(light) - base[c]);
    const mean = (over[0] + over[1] + over[2]) / 3;
    if (over.some((d) => Math.abs(d - mean) > COLOUR) || mean > FARTHEST || mean < -thinnest) return [];
    const { x0, y0 } = boxOf(i % columns, Math.floor(i / columns));
    const [x, y] = [x0 + side / 2 - centreX, y0 + side / 2 - centreY];
    return [{ x: x / unit, y: y / unit, light: -mean * EV_PER_DENSITY }];
  });
}

/** Whether a cell next to this one, half over it or not, has quite another light. */
function besideOther(cells: readonly (CellLight | undefined)[], at: number, columns: number): boolean {
  const green = cells[at]!.mean[1];
  for (let down = -2; down <= 2; down++)
    for (let across = -2; across <= 2; across++) {
      const q = (at % columns) + across;
      const other = q < 0 || q >= columns ? undefined : cells[at + down * columns + across];
      if (other && Math.abs(other.mean[1] / green - 1) > BESIDE) return true;
    }
  return false;
}

const EV_PER_DENSITY = Math.log2(10);

/** Whether a cell lies in a picture or beside its edge. */
function touches(box: PixelBox, area: Area, { width, height }: FilmPlane): boolean {
  const angle = (-area.tilt * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const [dx, dy] = [
    (box.x0 + box.x1) / 2 - (area.left + area.width / 2) * width,
    (box.y0 + box.y1) / 2 - (area.top + area.height / 2) * height,
  ];
  const reach = (box.x1 - box.x0) / 2 + MARGIN * width;
  return (
    Math.abs(cos * dx - sin * dy) < (area.width * width) / 2 + reach &&
    Math.abs(sin * dx + cos * dy) < (area.height * height) / 2 + reach
  );
}

interface CellLight {
  /** Transmittance per channel, above 0. */
  readonly mean: readonly [number, number, number];
  /** Whether its quarters are alike: it holds no edge. */
  readonly even: boolean;
}

function readCell({ width, data }: FilmPlane, { x0, y0, x1, y1 }: PixelBox): CellLight {
  const [mx, my] = [(x0 + x1) >> 1, (y0 + y1) >> 1];
  const sums = new Float64Array(12);
  const counts = new Float64Array(4);
  let square = 0;
  for (let y = y0; y < y1; y++)
    for (let x = x0, k = (y * width + x0) * 3; x < x1; x++, k += 3) {
      const q = (y < my ? 0 : 2) + (x < mx ? 0 : 1);
      counts[q]++;
      for (let c = 0; c < 3; c++) sums[q * 3 + c] += data[k + c];
      square += data[k + 1] * data[k + 1];
    }
  const n = (x1 - x0) * (y1 - y0);
  const mean = [0, 1, 2].map((c) => Math.max(1e-6, (sums[c] + sums[3 + c] + sums[6 + c] + sums[9 + c]) / n));
  const deviation = Math.sqrt(Math.max(0, square / n - mean[1] ** 2));
  const limit = EVEN * mean[1] + (SIGNIFICANT * deviation) / Math.sqrt(n / 4);
  const even = [0, 1, 2, 3].every((q) => Math.abs(sums[q * 3 + 1] / counts[q] - mean[1]) <= limit);
  return { mean: mean as [number, number, number], even };
}
