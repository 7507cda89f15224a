/** Draws a picture from a scan's rows at any size and tilt, a few rows at a time. */
import { clamp } from "../math/clamp.ts";
import type { Placement } from "./geometry.ts";
import { type Kernel, lanczosKernel } from "./lanczos.ts";
import { makePasses } from "./resample-passes.ts";
import { turnedWriter } from "./orientation.ts";
import type { LinearScan, Raster } from "../types.ts";

/** The scan's rows and columns that a picture is made of, kernels included; `lastRow` is the last, `to` one beyond. */
export interface Span {
  readonly firstRow: number;
  readonly lastRow: number;
  readonly from: number;
  readonly to: number;
}

/** A picture that is being drawn out of a scan, row by row. */
export interface Drawing {
  readonly span: Span;
  /** Takes columns span.from … span.to − 1 of a row. Rows come once each, from span.firstRow to span.lastRow. */
  row(y: number, samples: Uint16Array): void;
  /** The finished picture, after the last row. */
  finish(): Raster<Uint16Array>;
}

/**
 * Draws a picture out of a scan that is read once, from top to bottom: crop, straightening and size in one mapping
 * and two passes, along the rows and then down the columns (Catmull & Smith 1980), with Lanczos-3 kernels that widen
 * when the picture shrinks. Beyond the scan's edge the outermost samples are repeated. A picture that needs none of
 * this is copied sample by sample.
 *
 * Memory: the finished picture and the rows that the column pass spans (height of the kernel plus the drop of a tilted
 * row).
 *
 * @param scan gives up its memory to the picture, where every row can be laid down behind those that are still to be
 *   read; the scan is then lost. Absent where the scan is to be kept.
 */
export function startDrawing(p: Placement, channels: 1 | 3, scan?: LinearScan): Drawing {
  return p.exact ? copy(p, channels, scan) : resample(p, channels, scan);
}

/**
 * The scan's memory, if the picture can lie in it.
 * @param rowFor the scan's row that must have been read before an upright row is laid down
 */
function memoryOf(
  scan: LinearScan | undefined,
  p: Placement,
  channels: number,
  rowFor: (v: number) => number,
): Uint16Array | undefined {
  if (!scan || p.turn !== 0) return undefined;
  for (let v = 0; v < p.height; v++)
    if ((v + 1) * p.width * channels > (rowFor(v) + 1) * scan.width * scan.channels) return undefined;
  return scan.data;
}

/** Fills `out` with the samples of columns `from` … `to - 1` of a scan row, interleaved from the start of `out`. */
export type RowSource = (y: number, out: Uint16Array, from: number, to: number) => void;

/** Draws one picture; `source` is asked for every needed row exactly once, in ascending order. */
export function placePicture(p: Placement, channels: 1 | 3, source: RowSource): Raster<Uint16Array> {
  const drawing = startDrawing(p, channels);
  const { firstRow, lastRow, from, to } = drawing.span;
  const row = new Uint16Array((to - from) * channels);
  for (let y = firstRow; y <= lastRow; y++) {
    source(y, row, from, to);
    drawing.row(y, row);
  }
  return drawing.finish();
}

/** What a picture will ask of its scan. */
export function spanOf(p: Placement): Span {
  if (!p.exact) return resampledSpan(p, kernelsOf(p));
  const [left, top] = [p.centreX - p.width / 2, p.centreY - p.height / 2];
  const from = clamp(left, 0, p.scanWidth - 1);
  return {
    firstRow: clamp(top, 0, p.scanHeight - 1),
    lastRow: clamp(top + p.height - 1, 0, p.scanHeight - 1),
    from,
    to: clamp(left + p.width, from + 1, p.scanWidth),
  };
}

function copy(p: Placement, channels: 1 | 3, scan?: LinearScan): Drawing {
  const left = p.centreX - p.width / 2;
  const top = p.centreY - p.height / 2;
  const span = spanOf(p);
  const { from, to } = span;
  const rowOf = (v: number): number => clamp(top + v, 0, p.scanHeight - 1);
  const inside = from === left && to === left + p.width;
  const out = turnedWriter(p, channels, memoryOf(scan, p, channels, rowOf));
  let v = 0;
  return {
    span,
    row(y, samples) {
      if (inside) out.row.set(samples.length === out.row.length ? samples : samples.subarray(0, out.row.length));
      else
        for (let u = 0; u < p.width; u++) {
          const x = clamp(left + u, from, to - 1) - from;
          for (let c = 0; c < channels; c++) out.row[u * channels + c] = samples[x * channels + c];
        }
      // Beyond the scan's edge a row stands for several.
      for (; v < p.height && rowOf(v) === y; v++) out.next();
    },
    finish: () => out.finish(),
  };
}

function resample(p: Placement, channels: 1 | 3, scan?: LinearScan): Drawing {
  // Along a source row, output columns lie 1/cos apart and shift by tan per row; down a column they lie cos apart.
  const stepAcross = p.stepX / p.cos;
  const kernels = kernelsOf(p);
  const { across, down } = kernels;
  const tan = p.sin / p.cos;
  const halfWide = (p.width * p.stepX) / 2;
  const halfHigh = (p.height * p.stepY) / 2;
  const span = resampledSpan(p, kernels);
  const { firstRow, lastRow } = span;
  const slope = p.sin * p.stepX;
  const slots = Math.min(lastRow - firstRow + 1, Math.ceil(Math.abs(slope) * p.width) + down.taps + 2);
  /** Where output column 0 lies on a source row, counted in the span's columns. */
  const startAcross = (y: number): number =>
    p.centreX - halfWide / p.cos + 0.5 * stepAcross - tan * (y + 0.5 - p.centreY) - 0.5 - span.from;
  /** Where output row v lies at column 0, counted in the scan's rows. */
  const startDown = (v: number): number =>
    p.centreY + p.sin * (0.5 * p.stepX - halfWide) + p.cos * ((v + 0.5) * p.stepY - halfHigh) - 0.5;
  const count = span.to - span.from;
  // A tilted row begins and ends beyond the span, the more the further it is from the centre.
  const starts = [startAcross(firstRow), startAcross(lastRow)];
  const beyond = Math.max(-Math.min(...starts), Math.max(...starts) + stepAcross * p.width - count, 0);
  const border = Math.ceil(beyond) + across.taps;
  const slotOf = (y: number): number => clamp(y, firstRow, lastRow) % slots;
  const drop = Math.max(0, slope * (p.width - 1));
  const lastRowFor = (v: number): number =>
    clamp(Math.floor(startDown(v) + drop) + down.first + down.taps, firstRow, lastRow);
  const out = turnedWriter(p, channels, memoryOf(scan, p, channels, lastRowFor));
  const passes = makePasses(channels, { width: p.width, count, border, slots }, across, down, out.row);
  let v = 0;
  let wanted = lastRowFor(0);
  return {
    span,
    row(y, samples) {
      const { source } = passes;
      source.set(samples.length === source.length ? samples : samples.subarray(0, source.length));
      passes.row(y % slots, startAcross(y), stepAcross);
      while (v < p.height && wanted <= y) {
        passes.columns(slotOf, startDown(v), slope);
        out.next();
        wanted = lastRowFor(++v);
      }
    },
    finish() {
      passes.release();
      return out.finish();
    },
  };
}

interface Kernels {
  readonly across: Kernel;
  readonly down: Kernel;
}

const kernelsOf = (p: Placement): Kernels => ({
  across: lanczosKernel(p.stepX / p.cos),
  down: lanczosKernel(p.stepY * p.cos),
});

function resampledSpan(p: Placement, { across, down }: Kernels): Span {
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
