/**
 * Local adjustments laid out over a picture's place in its scan, as every executor reads them: at the nodes of an even
 * grid, with straight lines between. Fine enough for a feather of MIN_FEATHER, and small enough to be made while one drags.
 */
import { type Framing, place, type Placement, toScan, toShown } from "../image/geometry.ts";
import type { LocalArea } from "../types.ts";
import { adjuster, aspectOf, type LocalAdjustment } from "./areas.ts";

/** Where a picture lies: a scan's size in pixels (of any scale of it), and the frame's crop, turn and mirroring. */
export interface PicturePlace {
  readonly scanWidth: number;
  readonly scanHeight: number;
  readonly framing: Framing;
}

/** Values of a node: density added to red, green and blue; factor of the light; factor of the contrast. */
export const NODE_VALUES = 5;

/** Nodes along the longer side. */
const LONG = 576;

/** The nodes lie over a rectangle of the scan, the first and last on its edges. Plain data. */
export interface LocalGrid {
  readonly columns: number;
  readonly rows: number;
  /** NODE_VALUES a node, row by row. */
  readonly values: Float32Array;
  /** The rectangle in fractions of the scan. */
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** The last grid of a list of areas: while other values are moved the areas stay the same object. */
const made = new WeakMap<readonly LocalArea[], { readonly key: string; readonly grid: LocalGrid }>();

/** @returns undefined where there are no areas */
export function localGrid(areas: readonly LocalArea[] | undefined, at: PicturePlace): LocalGrid | undefined {
  if (areas === undefined || areas.length === 0) return undefined;
  const key = JSON.stringify(at);
  const known = made.get(areas);
  if (known?.key === key) return known.grid;
  const grid = makeGrid(areas, at);
  made.set(areas, { key, grid });
  return grid;
}

/** What areas add up to at places of the scan, in fractions of it; undefined where there are none. */
export function adjustmentsIn(
  areas: readonly LocalArea[] | undefined,
  { scanWidth, scanHeight, framing }: PicturePlace,
): ((at: readonly [x: number, y: number]) => LocalAdjustment) | undefined {
  if (areas === undefined || areas.length === 0) return undefined;
  const placement = place({ width: scanWidth, height: scanHeight }, framing);
  const { a, b, c, d, e, f } = toShown(placement);
  const adjust = adjuster(areas, aspectOf(placement.finalWidth, placement.finalHeight));
  return ([u, v]) => {
    const [x, y] = [u * scanWidth, v * scanHeight];
    return adjust(a * x + c * y + e, b * x + d * y + f);
  };
}

function makeGrid(areas: readonly LocalArea[], { scanWidth, scanHeight, framing }: PicturePlace): LocalGrid {
  const placement = place({ width: scanWidth, height: scanHeight }, framing);
  const [x0, y0, x1, y1] = boundsOf(placement);
  const long = Math.max(x1 - x0, y1 - y0);
  const columns = Math.max(2, Math.round(((x1 - x0) / long) * LONG));
  const rows = Math.max(2, Math.round(((y1 - y0) / long) * LONG));
  const values = new Float32Array(columns * rows * NODE_VALUES);
  const adjust = adjustmentsIn(areas, { scanWidth, scanHeight, framing })!;
  for (let r = 0, k = 0; r < rows; r++)
    for (let q = 0; q < columns; q++, k += NODE_VALUES) {
      const [x, y] = [x0 + ((x1 - x0) * q) / (columns - 1), y0 + ((y1 - y0) * r) / (rows - 1)];
      const { density, exposure, contrast } = adjust([x / scanWidth, y / scanHeight]);
      values[k] = density[0];
      values[k + 1] = density[1];
      values[k + 2] = density[2];
      values[k + 3] = 2 ** exposure;
      values[k + 4] = contrast;
    }
  return {
    columns,
    rows,
    values,
    left: x0 / scanWidth,
    top: y0 / scanHeight,
    width: (x1 - x0) / scanWidth,
    height: (y1 - y0) / scanHeight,
  };
}

/** The picture's bounding rectangle in the scan, in pixels. */
function boundsOf(p: Placement): [left: number, top: number, right: number, bottom: number] {
  const corners = [0, p.width].flatMap((u) => [0, p.height].map((v) => toScan(p, u, v)));
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

/** A straight row of places: the first one and the step between two, in fractions of the scan. */
export interface PlaceRow {
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
}

/**
 * Reads the adjustments along a row of `n` places into `out`, NODE_VALUES each. Places beyond the grid read its edge.
 * @returns whether any of them differs from no adjustment
 */
export function readGrid(grid: LocalGrid, { x, y, dx, dy }: PlaceRow, n: number, out: Float32Array): boolean {
  const { columns, rows, values } = grid;
  const [su, sv] = [(columns - 1) / grid.width, (rows - 1) / grid.height];
  const [u0, v0] = [(x - grid.left) * su, (y - grid.top) * sv];
  const [du, dv] = [dx * su, dy * sv];
  const [lastColumn, lastRow] = [columns - 1, rows - 1];
  let differs = false;
  for (let i = 0, k = 0; i < n; i++, k += NODE_VALUES) {
    let u = u0 + i * du;
    let v = v0 + i * dv;
    u = u > 0 ? (u < lastColumn ? u : lastColumn) : 0;
    v = v > 0 ? (v < lastRow ? v : lastRow) : 0;
    const q = u | 0;
    const r = v | 0;
    const fu = u - q;
    const fv = v - r;
    const a = (r * columns + q) * NODE_VALUES;
    const b = q < lastColumn ? a + NODE_VALUES : a;
    const down = r < lastRow ? columns * NODE_VALUES : 0;
    for (let c = 0; c < NODE_VALUES; c++) {
      const upper = values[a + c] + (values[b + c] - values[a + c]) * fu;
      const lower = values[a + down + c] + (values[b + down + c] - values[a + down + c]) * fu;
      out[k + c] = upper + (lower - upper) * fv;
    }
    differs ||= !isPlain(out, k);
  }
  return differs;
}

/** Whether the adjustment at `k` changes nothing. */
export const isPlain = (values: Float32Array, k: number): boolean =>
  values[k] === 0 && values[k + 1] === 0 && values[k + 2] === 0 && values[k + 3] === 1 && values[k + 4] === 1;
