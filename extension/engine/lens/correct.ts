/** Takes a lens's lateral colour and distortion out of a scan. */
import { clamp } from "../math/clamp.ts";
import type { LensFaults, LinearScan } from "../types.ts";
import { FIRST, openLensRoom, TAPS } from "./simd/lens-room.ts";
import { NODE } from "./simd/lens-kernels.ts";
import { type Channel, isMoved, largestShift, magnificationOf, radialScale, type RadialScale } from "./radial.ts";

/** A part of a scan, in whole pixels. */
export interface ScanRegion {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

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
  drawing: Drawing,
  { left, top, width: count, height: rows }: ScanRegion,
): void {
  const { reach } = drawing;
  const places = nodePlaces(drawing);
  // Whole nodes, so that a sample comes out alike whatever the region.
  const first = left - (left % NODE);
  const nodeCount = Math.ceil((left + count - first) / NODE);
  const room = openLensRoom(nodeCount, reach);
  const { source, nodes, target, ring } = room;
  const origin = first - room.pad;

  /** Takes row `y` of the photograph into the ring, drawn along the row. */
  const take = (y: number): void => {
    const row = from + y * rowStep;
    const [begin, end] = [Math.max(0, origin), Math.min(width, origin + source.length)];
    for (let x = begin, k = row + begin * columnStep; x < end; x++, k += columnStep) source[x - origin] = data[k];
    source.fill(data[row + begin * columnStep], 0, begin - origin);
    source.fill(data[row + (end - 1) * columnStep], end - origin);
    places.columns(y, first, nodes);
    room.along(y % ring);
  };

  let taken = Math.max(0, top - reach - TAPS) - 1;
  for (let y = top; y < top + rows; y++) {
    // The ring is read before the nodes are overwritten by those of the rows that are taken.
    places.rows(y, first, nodes);
    let farthest = 0;
    for (let k = 0; k < 2 * nodeCount; k += 2) farthest = Math.max(farthest, nodes[k], nodes[k] + NODE * nodes[k + 1]);
    const wanted = Math.min(height - 1, y + Math.floor(farthest) + FIRST + TAPS);
    if (taken < wanted) {
      while (taken < wanted) take(++taken);
      places.rows(y, first, nodes);
    }
    room.down((tap) => clamp(y + tap, 0, height - 1) % ring);
    for (
      let k = left - first, o = from + y * rowStep + left * columnStep;
      k < left - first + count;
      k++, o += columnStep
    )
      data[o] = target[k];
  }
  room.release();
}

/** Shifts of the samples of a row, worked out at every 16th: each node's shift, and the step to the next sample. */
function nodePlaces({ faults, channel, scale: { centreX, centreY, unit } }: Drawing) {
  const magnification = magnificationOf(faults, channel);
  const perUnit = 1 / (unit * unit);
  const at = (x: number, y: number): number => {
    const [dx, dy] = [x - centreX, y - centreY];
    return magnification((dx * dx + dy * dy) * perUnit) - 1;
  };
  const fill = (first: number, out: Float32Array, shift: (x: number) => number): void => {
    let next = shift(first);
    for (let k = 0, x = first; k < out.length; k += 2, x += NODE) {
      out[k] = next;
      next = shift(x + NODE);
      out[k + 1] = (next - out[k]) / NODE;
    }
  };
  return {
    /** How far right of themselves lie, on the photograph's row `y`, the samples that come to stand one below the other. */
    columns: (y: number, first: number, out: Float32Array): void =>
      fill(first, out, (x) => {
        const drawn = y + 0.5;
        // The row of the true picture that was drawn here: the shift changes so slowly that three steps are exact.
        let row = drawn;
        for (let k = 0; k < 3; k++) row = drawn - (row - centreY) * at(x + 0.5, row);
        return (x + 0.5 - centreX) * at(x + 0.5, row);
      }),
    /** How far below themselves the samples of row `y` of the true picture lie on the photograph. */
    rows: (y: number, first: number, out: Float32Array): void =>
      fill(first, out, (x) => (y + 0.5 - centreY) * at(x + 0.5, y + 0.5)),
  };
}
