import type { Placement } from "./geometry.ts";
import { type Kernel, lanczosKernel } from "./kernel.ts";
import { colourPasses, greyPasses } from "./passes.ts";
import { turnedWriter } from "./turning.ts";
import type { Raster } from "./types.ts";

/** Fills `out` with the samples of columns `from` … `to - 1` of a scan row, interleaved from the start of `out`. */
export type RowSource = (y: number, out: Uint16Array, from: number, to: number) => void;

/**
 * Draws a picture out of a scan that is read once, from top to bottom: crop, straightening and size in one mapping
 * and two passes, along the rows and then down the columns (Catmull & Smith 1980), with Lanczos-3 kernels that widen
 * when the picture shrinks. Beyond the scan's edge the outermost samples are repeated. A picture that needs none of
 * this is copied sample by sample.
 *
 * Memory: the finished picture and the rows that the column pass spans (height of the kernel plus the drop of a tilted
 * row). `source` is asked for every needed row exactly once, in ascending order.
 */
export function placePicture(p: Placement, channels: 1 | 3, source: RowSource): Raster<Uint16Array> {
  return p.exact ? copy(p, channels, source) : resample(p, channels, source);
}

function copy(p: Placement, channels: 1 | 3, source: RowSource): Raster<Uint16Array> {
  const out = turnedWriter(p, channels);
  const left = p.centreX - p.width / 2;
  const top = p.centreY - p.height / 2;
  const from = clamp(left, 0, p.scanWidth - 1);
  const to = clamp(left + p.width, from + 1, p.scanWidth);
  const inside = from === left && to === left + p.width;
  const held = new Uint16Array((to - from) * channels);
  let y = -1;
  for (let v = 0; v < p.height; v++) {
    const wanted = clamp(top + v, 0, p.scanHeight - 1);
    if (wanted !== y) source((y = wanted), held, from, to);
    if (inside) out.row.set(held);
    else
      for (let u = 0; u < p.width; u++) {
        const x = clamp(left + u, from, to - 1) - from;
        for (let c = 0; c < channels; c++) out.row[u * channels + c] = held[x * channels + c];
      }
    out.next();
  }
  return out.finish();
}

/** The scan's rows and columns that a placement touches, kernels included. */
interface Span {
  readonly firstRow: number;
  readonly lastRow: number;
  readonly from: number;
  readonly to: number;
}

function resample(p: Placement, channels: 1 | 3, source: RowSource): Raster<Uint16Array> {
  // Along a source row, output columns lie 1/cos apart and shift by tan per row; down a column they lie cos apart.
  const stepAcross = p.stepX / p.cos;
  const across = lanczosKernel(stepAcross);
  const down = lanczosKernel(p.stepY * p.cos);
  const tan = p.sin / p.cos;
  const halfWide = (p.width * p.stepX) / 2;
  const halfHigh = (p.height * p.stepY) / 2;
  const span = spanOf(p, across, down);
  const slope = p.sin * p.stepX;
  const drop = Math.ceil(Math.abs(slope) * p.width);
  const slots = Math.min(span.lastRow - span.firstRow + 1, drop + down.taps + 2);
  /** Where output column 0 lies on a source row, counted in the span's columns. */
  const startOf = (y: number): number =>
    p.centreX - halfWide / p.cos + 0.5 * stepAcross - tan * (y + 0.5 - p.centreY) - 0.5 - span.from;
  const count = span.to - span.from;
  // A tilted row begins and ends beyond the span, the more the further it is from the centre.
  const starts = [startOf(span.firstRow), startOf(span.lastRow)];
  const beyond = Math.max(-Math.min(...starts), Math.max(...starts) + stepAcross * p.width - count, 0);
  const border = Math.ceil(beyond) + across.taps;
  const makePasses = channels === 3 ? colourPasses : greyPasses;
  const passes = makePasses(p.width, count, border, slots, across, down);
  const out = turnedWriter(p, channels);
  let read = span.firstRow - 1;

  /** Reads rows up to y and passes each along the row into its slot. */
  const readTo = (y: number): void => {
    while (read < y) {
      read++;
      source(read, passes.source, span.from, span.to);
      passes.row(read % slots, startOf(read), stepAcross);
    }
  };
  const slotOf = (y: number): number => clamp(y, span.firstRow, span.lastRow) % slots;
  for (let v = 0; v < p.height; v++) {
    const start = p.centreY + p.sin * (0.5 * p.stepX - halfWide) + p.cos * ((v + 0.5) * p.stepY - halfHigh) - 0.5;
    const lowest = Math.max(start, start + slope * (p.width - 1));
    readTo(clamp(Math.floor(lowest) + down.first + down.taps, span.firstRow, span.lastRow));
    passes.columns(slotOf, start, slope);
    out.row.set(passes.target);
    out.next();
  }
  return out.finish();
}

function spanOf(p: Placement, across: Kernel, down: Kernel): Span {
  const halfWide = (p.width * p.stepX) / 2;
  const halfHigh = (p.height * p.stepY) / 2;
  const lean = Math.abs(p.sin) * halfWide + p.cos * halfHigh;
  const reach = p.cos * halfWide + Math.abs(p.sin) * halfHigh;
  const from = clamp(Math.floor(p.centreX - reach) + across.first - 1, 0, p.scanWidth - 1);
  return {
    firstRow: clamp(Math.floor(p.centreY - lean) + down.first - 1, 0, p.scanHeight - 1),
    lastRow: clamp(Math.ceil(p.centreY + lean) + down.taps, 0, p.scanHeight - 1),
    from,
    to: clamp(Math.ceil(p.centreX + reach) + across.taps, from + 1, p.scanWidth),
  };
}

const clamp = (v: number, low: number, high: number): number => Math.min(high, Math.max(low, v));
