/**
 * Half-size pictures straight from a mosaic, for proxies. Every colour is averaged about the centre of its 2 × 2
 * cell, so that red and blue lie on one another; nothing is interpolated from another colour.
 */
import { averageCells, type Tap } from "./cell-averages.ts";
import { levelsOf, type Mosaic, within } from "./mosaic.ts";

/** Interleaved RGB (one channel for monochrome), `floor(width / 2)` by `floor(height / 2)`. */
export function halfSize(mosaic: Mosaic): Uint16Array {
  const { height, period, monochrome } = mosaic;
  const channels = monochrome ? 1 : 3;
  const width = mosaic.width >> 1;
  const out = new Uint16Array(width * (height >> 1) * channels);
  const cells = monochrome || period === 2 ? 1 : period / 2;
  const plans = cellPlans(mosaic, cells, channels);
  if (channels === 3 && cells === 1) {
    const offsets = plans.map((taps) => offsetOf(mosaic, taps, 0, 0));
    averageCells(mosaic, out, plans, offsets);
    return out;
  }
  for (let y = 0; y < height >> 1; y++)
    for (let phase = 0; phase < cells; phase++)
      for (let channel = 0; channel < channels; channel++)
        averageRow(
          mosaic,
          out,
          { y, phase, cells, channel, channels },
          plans[((y % cells) * cells + phase) * channels + channel],
        );
  return out;
}

interface RowPart {
  readonly y: number;
  /** Which of `cells` cells in a row this part is about: x = phase, phase + cells, … */
  readonly phase: number;
  readonly cells: number;
  readonly channel: number;
  readonly channels: number;
}

function averageRow(mosaic: Mosaic, out: Uint16Array, part: RowPart, taps: readonly Tap[]): void {
  const { stride, left, top, period } = mosaic;
  const { gain } = levelsOf(mosaic);
  const { y, phase, cells, channel, channels } = part;
  const width = mosaic.width >> 1;
  const rows = taps.map((tap) => (top + within(2 * y + tap.dy, mosaic.height, period)) * stride + left);
  const weights = taps.map((tap) => tap.weight * gain);
  const offset = offsetOf(mosaic, taps, 2 * y, 2 * phase);

  // At the left and right edge each neighbour's place is looked up; between them it only moves on.
  const edge = (x: number) => {
    const places = taps.map((tap, t) => rows[t] + within(2 * x + tap.dx, mosaic.width, period));
    averageRun(mosaic.data, out, {
      places,
      weights,
      offset,
      count: 1,
      step: 0,
      at: (y * width + x) * channels + channel,
      stride: 0,
    });
  };
  let x = phase;
  for (; x < Math.min(REACH, width); x += cells) edge(x);
  const last = Math.floor((mosaic.width - 2 - REACH) / 2);
  const count = Math.max(0, Math.floor((last - x) / cells) + 1);
  const places = taps.map((tap, t) => rows[t] + 2 * x + tap.dx);
  const at = (y * width + x) * channels + channel;
  averageRun(mosaic.data, out, { places, weights, offset, count, step: 2 * cells, at, stride: cells * channels });
  for (x += count * cells; x < width; x += cells) edge(x);
}

/** What a weighted sum of recorded numbers lacks to be a rounded number of the scan. */
function offsetOf(mosaic: Mosaic, taps: readonly Tap[], y: number, x: number): number {
  const { period, black } = mosaic;
  const { gain, pedestal } = levelsOf(mosaic);
  const blackOf = ({ dy, dx }: Tap) => black[wrap(y + dy, period) * period + wrap(x + dx, period)];
  return pedestal + 0.5 - taps.reduce((sum, tap) => sum + tap.weight * blackOf(tap) * gain, 0);
}

interface Run {
  /** First place of every neighbour, and how far all move on for the next cell. */
  readonly places: readonly number[];
  readonly step: number;
  readonly weights: readonly number[];
  readonly offset: number;
  readonly count: number;
  /** Where the first average goes, and how far the next lies from it. */
  readonly at: number;
  readonly stride: number;
}

/** Weighted sums along a row, four neighbours at a time. */
function averageRun(data: Uint16Array, out: Uint16Array, run: Run): void {
  const { offset, count, step, at, stride } = run;
  const padded = Math.ceil(run.places.length / 4) * 4;
  const place = Int32Array.from({ length: padded }, (_, t) => run.places[t] ?? run.places[0]);
  const weight = Float64Array.from({ length: padded }, (_, t) => run.weights[t] ?? 0);
  const sums = new Float64Array(count).fill(offset);
  for (let t = 0; t < padded; t += 4) {
    const [w0, w1, w2, w3] = weight.subarray(t, t + 4);
    let [p0, p1, p2, p3] = place.subarray(t, t + 4);
    for (let i = 0; i < count; i++) {
      sums[i] += w0 * data[p0] + w1 * data[p1] + w2 * data[p2] + w3 * data[p3];
      p0 += step;
      p1 += step;
      p2 += step;
      p3 += step;
    }
  }
  for (let i = 0; i < count; i++) {
    const sum = sums[i];
    out[at + i * stride] = sum < 0 ? 0 : sum > 65535 ? 65535 : sum | 0;
  }
}

/** Sites beyond the cell that are looked at. */
const REACH = 2;

function wrap(i: number, period: number): number {
  return ((i % period) + period) % period;
}

/** Taps for each cell of the block and each channel. */
function cellPlans(mosaic: Mosaic, cells: number, channels: number): Tap[][] {
  const plans: Tap[][] = [];
  for (let cellY = 0; cellY < cells; cellY++)
    for (let cellX = 0; cellX < cells; cellX++)
      for (let channel = 0; channel < channels; channel++) plans.push(cellTaps(mosaic, 2 * cellY, 2 * cellX, channel));
  return plans;
}

/**
 * Neighbours of one colour with tent weights about the cell's centre. On a 2 × 2 block they centre by themselves;
 * on a 6 × 6 block a smaller share for the farther side pulls the centre of weight back.
 */
function cellTaps({ colours, period, monochrome }: Mosaic, y: number, x: number, channel: number): Tap[] {
  if (monochrome) return [0, 1].flatMap((dy) => [0, 1].map((dx) => ({ dy, dx, weight: 0.25 })));
  const tent = (d: number) => Math.max(0, 1 - Math.abs(d - 0.5) / (period === 2 ? 2 : 3));
  const reach = period === 2 ? 1 : REACH;
  const taps: Tap[] = [];
  for (let dy = -reach; dy <= 1 + reach; dy++)
    for (let dx = -reach; dx <= 1 + reach; dx++)
      if (colours[wrap(y + dy, period) * period + wrap(x + dx, period)] === channel)
        taps.push({ dy, dx, weight: tent(dy) * tent(dx) });
  const total = taps.reduce((sum, tap) => sum + tap.weight, 0);
  return taps.map((tap) => ({ ...tap, weight: tap.weight / total }));
}
