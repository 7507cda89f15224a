/** Takes a lens's lateral colour and distortion out of a scan. */
import { clamp } from "../math/clamp.ts";
import { lanczosKernel, PHASES } from "../image/lanczos.ts";
import type { LensFaults, LinearScan } from "../types.ts";
import { type Channel, isMoved, largestShift, magnificationOf, radialScale, type RadialScale } from "./radial.ts";

/** A part of a scan, in whole pixels. */
export interface ScanRegion {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

const { taps: TAPS, first: FIRST, weights: WEIGHTS } = lanczosKernel(1);
/** Columns between the places that are worked out; straight lines between them are off by less than 0.001 px. */
const NODE = 16;

/** Pixels around a region that correcting it reads. */
export const correctionReach = (
  faults: LensFaults,
  size: { readonly width: number; readonly height: number },
): number => Math.ceil(largestShift(faults, size)) + TAPS;

/**
 * Moves every sample to where a lens without these faults had drawn it, in place: size, middle and scale stay. Channels
 * that nothing moves keep their samples. Each channel takes two passes, along the rows and then down the columns
 * (Catmull & Smith 1980), with Lanczos-3 weights; beyond the scan's border the outermost samples are repeated.
 *
 * @param region the part that is wanted; the scan must hold `correctionReach` more on every side, where it has that
 */
export function correctLens(
  scan: LinearScan,
  faults: LensFaults,
  region: ScanRegion = { left: 0, top: 0, width: scan.width, height: scan.height },
): void {
  const { width, height, channels, data } = scan;
  const drawn = channels === 1 ? ([1] as const) : ([0, 1, 2] as const);
  for (const [k, channel] of drawn.entries())
    if (isMoved(faults, channel)) {
      const lattice = { data, width, height, from: k, columnStep: channels, rowStep: width * channels };
      const reach = Math.ceil(largestShift(faults, scan));
      correctLattice(lattice, { faults, channel, scale: radialScale(scan), reach }, region);
    }
}

/** What a sensor recorded under filters that repeat every two rows and columns. */
export interface FilterMosaic {
  /** Size of the picture part, which begins at (`left`, `top`) of rows of `stride` sites. */
  readonly width: number;
  readonly height: number;
  readonly stride: number;
  readonly left: number;
  readonly top: number;
  readonly data: Uint16Array;
  /** Colours of the four sites, 0 red, 1 green, 2 blue, from the picture part's top left. */
  readonly colours: readonly number[];
}

/**
 * Takes lateral colour out of a mosaic, in place, before its colours are interpolated: demosaicing lends red and blue
 * the detail of green, which must lie at the same place. Red sites are drawn out of red sites, blue ones out of blue.
 */
export function correctMosaic(mosaic: FilterMosaic, lateral: NonNullable<LensFaults["lateral"]>): void {
  const { data, stride, colours } = mosaic;
  const faults: LensFaults = { lateral };
  const { centreX, centreY, unit } = radialScale(mosaic);
  const reach = Math.ceil(largestShift(faults, mosaic) / 2);
  for (const [site, colour] of colours.entries()) {
    if (colour === 1 || !isMoved(faults, colour as Channel)) continue;
    const [x, y] = [site % 2, site >> 1];
    const size = { width: (mosaic.width - x + 1) >> 1, height: (mosaic.height - y + 1) >> 1 };
    const from = (mosaic.top + y) * stride + mosaic.left + x;
    const lattice = { data, ...size, from, columnStep: 2, rowStep: 2 * stride };
    // Sites of one colour lie two apart: their own grid's middle and unit, the first site's middle at 0.5.
    const scale = { centreX: (centreX - x + 0.5) / 2, centreY: (centreY - y + 0.5) / 2, unit: unit / 2 };
    correctLattice(lattice, { faults, channel: colour as Channel, scale, reach }, { left: 0, top: 0, ...size });
  }
}

/** Samples of one channel in a larger array. */
interface Lattice {
  readonly data: Uint16Array;
  readonly width: number;
  readonly height: number;
  /** Place of the first sample, and steps to the next column and row. */
  readonly from: number;
  readonly columnStep: number;
  readonly rowStep: number;
}

interface Drawing {
  readonly faults: LensFaults;
  readonly channel: Channel;
  readonly scale: RadialScale;
  /** The largest shift, in whole samples. */
  readonly reach: number;
}

function correctLattice(
  { data, width, height, from, columnStep, rowStep }: Lattice,
  { faults, channel, scale, reach }: Drawing,
  { left, top, width: count, height: rows }: ScanRegion,
): void {
  const ring = 2 * reach + TAPS + 4;
  const across = Array.from({ length: ring }, () => new Float32Array(count));
  const [pad, source] = [reach + TAPS, new Float32Array(count + 2 * (reach + TAPS))];
  const [columns, rowsAt] = [new Float32Array(count), new Float32Array(count)];
  const placesOf = placeTable(faults, channel, scale);

  /** Takes row `y` of the photograph into the ring, drawn along the row. */
  const take = (y: number): void => {
    const row = from + y * rowStep;
    const [first, end] = [Math.max(0, left - pad), Math.min(width, left - pad + source.length)];
    for (let x = first, k = row + first * columnStep; x < end; x++, k += columnStep) source[x - left + pad] = data[k];
    source.fill(data[row + first * columnStep], 0, first - left + pad);
    source.fill(data[row + (end - 1) * columnStep], end - left + pad);
    placesOf.columns(y, left, columns);
    alongRow(source, columns, left - pad, across[y % ring]);
  };

  let taken = Math.max(0, top - reach - TAPS) - 1;
  for (let y = top; y < top + rows; y++) {
    placesOf.rows(y, left, rowsAt);
    let last = y;
    for (let k = 0; k < count; k++) if (rowsAt[k] > last) last = rowsAt[k];
    const wanted = Math.min(height - 1, Math.floor(last) + FIRST + TAPS);
    while (taken < wanted) take(++taken);
    downColumns(across, rowsAt, height, data.subarray(from + y * rowStep + left * columnStep), columnStep);
  }
}

/** Where the samples of a row lie on the photograph, worked out at every 16th and straight between. */
function placeTable(faults: LensFaults, channel: Channel, { centreX, centreY, unit }: RadialScale) {
  const magnification = magnificationOf(faults, channel);
  const perUnit = 1 / (unit * unit);
  const at = (x: number, y: number): number => {
    const [dx, dy] = [x - centreX, y - centreY];
    return magnification((dx * dx + dy * dy) * perUnit) - 1;
  };

  const fill = (left: number, out: Float32Array, place: (x: number) => number): void => {
    const end = left + out.length;
    let next = place(left - (left % NODE));
    for (let node = left - (left % NODE); node < end; node += NODE) {
      const here = next;
      next = place(node + NODE);
      const step = (next - here) / NODE;
      for (let x = Math.max(node, left), to = Math.min(node + NODE, end); x < to; x++)
        out[x - left] = here + (x - node) * step;
    }
  };
  return {
    /** Columns of the photograph's row `y` at which the samples lie that come to stand one below the other. */
    columns: (y: number, left: number, out: Float32Array): void =>
      fill(left, out, (x) => {
        const [dx, drawn] = [x + 0.5 - centreX, y + 0.5];
        // The row of the true picture that was drawn here: the shift changes so slowly that three steps are exact.
        let row = drawn;
        for (let k = 0; k < 3; k++) row = drawn - (row - centreY) * at(x + 0.5, row);
        return x + dx * at(x + 0.5, row);
      }),
    /** Rows of the photograph at which the samples of row `y` of the true picture lie. */
    rows: (y: number, left: number, out: Float32Array): void =>
      fill(left, out, (x) => y + (y + 0.5 - centreY) * at(x + 0.5, y + 0.5)),
  };
}

/** @param origin the column that the first of `source` is */
function alongRow(source: Float32Array, places: Float32Array, origin: number, out: Float32Array): void {
  for (let k = 0; k < out.length; k++) {
    const place = places[k] - origin;
    const whole = Math.floor(place);
    const w = Math.round((place - whole) * PHASES) * TAPS;
    const i = whole + FIRST;
    out[k] =
      WEIGHTS[w] * source[i] +
      WEIGHTS[w + 1] * source[i + 1] +
      WEIGHTS[w + 2] * source[i + 2] +
      WEIGHTS[w + 3] * source[i + 3] +
      WEIGHTS[w + 4] * source[i + 4] +
      WEIGHTS[w + 5] * source[i + 5];
  }
}

function downColumns(
  across: readonly Float32Array[],
  places: Float32Array,
  height: number,
  out: Uint16Array,
  step: number,
): void {
  const ring = across.length;
  let at = NaN;
  let rows: Float32Array[] = [];
  for (let k = 0, o = 0; k < places.length; k++, o += step) {
    const whole = Math.floor(places[k]);
    if (whole !== at) {
      rows = Array.from({ length: TAPS }, (_, t) => across[clamp(whole + FIRST + t, 0, height - 1) % ring]);
      at = whole;
    }
    const w = Math.round((places[k] - whole) * PHASES) * TAPS;
    const sum =
      WEIGHTS[w] * rows[0][k] +
      WEIGHTS[w + 1] * rows[1][k] +
      WEIGHTS[w + 2] * rows[2][k] +
      WEIGHTS[w + 3] * rows[3][k] +
      WEIGHTS[w + 4] * rows[4][k] +
      WEIGHTS[w + 5] * rows[5][k];
    out[o] = sum <= 0 ? 0 : sum >= 65535 ? 65535 : sum + 0.5;
  }
}
