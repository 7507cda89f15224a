/** Which samples of a scan are below the sensor's limit, with those that demosaicing made of samples beyond it left out. */
import type { LinearScan } from "../types.ts";

/** How far the samples of 2 × 2 pixels can be used, 0 … 255, a channel after the other within a cell. */
export interface WellExposed {
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3;
  /** Absent where every sample is well below the limit. */
  readonly shares?: Uint8Array;
  /** The scan's highest signal. */
  readonly highest: number;
}

/** Signal, in parts of the limit, from which samples count less, and from which not at all. */
const [FULL, NONE] = [0.8, 0.93];
/** A scan whose highest samples, within half a percent, are this share of all is clipped there. */
const [PILE, PILE_SHARE] = [0.995, 5e-4];

export function wellExposed(scan: LinearScan): WellExposed {
  const { width: across, height: down, channels, data, black, scale } = scan;
  const [width, height] = [Math.ceil(across / 2), Math.ceil(down / 2)];
  let top = 0;
  for (let i = 0; i < data.length; i++) if (data[i]! > top) top = data[i]!;
  const highest = (top - black) * scale;
  const size = { width, height, channels, highest } as const;
  const limit = Math.min(1, clippedAt(scan, top));
  if (highest < FULL * limit) return size;
  const shares = new Uint8Array(width * height * channels);
  const usable = shareTable(scan, limit);
  const row = width * channels;
  // Extremes of three rows of cells, made as they are reached.
  const rows = [0, 1, 2].map((): CellRow => ({
    high: new Uint16Array(row),
    low: new Uint16Array(row),
    highest: new Uint16Array(row),
    lowest: new Uint16Array(row),
  }));
  const fill = (y: number): void => cellExtremes(scan, Math.min(height - 1, Math.max(0, y)), rows[(y + 3) % 3]!);
  fill(-1);
  fill(0);
  const high = new Uint8Array(channels);
  const low = new Uint8Array(channels);
  for (let y = 0; y < height; y++) {
    fill(y + 1);
    const [h0, h1, h2] = rows.map(({ highest: line }) => line) as [Uint16Array, Uint16Array, Uint16Array];
    const [l0, l1, l2] = rows.map(({ lowest: line }) => line) as [Uint16Array, Uint16Array, Uint16Array];
    for (let x = 0, o = 0; x < width; x++, o += channels) {
      for (let c = 0; c < channels; c++) {
        const k = o + c;
        high[c] = usable[Math.max(h0[k]!, h1[k]!, h2[k]!)]!;
        low[c] = usable[Math.min(l0[k]!, l1[k]!, l2[k]!)]!;
      }
      for (let c = 0; c < channels; c++) {
        let share = high[c]!;
        // Where another channel crosses its limit, demosaicing carries that into this one.
        for (let d = 0; d < channels; d++) if (d !== c) share *= 1 - ((255 - high[d]!) * low[d]!) / 65025;
        shares[y * row + o + c] = share;
      }
    }
  }
  return { ...size, shares };
}

/** The usable share of each sample, 0 … 255. */
function shareTable({ black, scale }: LinearScan, limit: number): Uint8Array {
  return Uint8Array.from({ length: 65536 }, (_, sample) => {
    const t = ((sample - black) * scale - FULL * limit) / ((NONE - FULL) * limit);
    const s = t <= 0 ? 0 : t >= 1 ? 1 : t * t * (3 - 2 * t);
    return Math.round(255 * (1 - s));
  });
}

/** Signal at which samples pile up below the stated limit; Infinity where they do not. */
function clippedAt({ data, black, scale }: LinearScan, top: number): number {
  const from = black + PILE * (top - black);
  const below = black + (2 * PILE - 1) * (top - black);
  let [piled, beside] = [0, 0];
  for (let i = 0; i < data.length; i += 3) {
    const value = data[i]!;
    if (value >= from) piled++;
    else if (value >= below) beside++;
  }
  const clipped = piled > (PILE_SHARE * data.length) / 3 && piled > 4 * beside;
  return clipped ? (top - black) * scale : Infinity;
}

/** The highest and lowest sample of each cell of a row and of the cells on its left and right, by channel. */
function cellExtremes(
  { width, height, channels, data }: LinearScan,
  y: number,
  { high, low, highest, lowest }: CellRow,
): void {
  const stride = width * channels;
  const r0 = 2 * y * stride;
  const r1 = Math.min(2 * y + 1, height - 1) * stride;
  const last = high.length - channels;
  for (let o = 0, k = 0; o <= last; o += channels, k += 2 * channels)
    for (let c = 0; c < channels; c++) {
      const [left, right] = [k + c, Math.min(k + c + channels, stride - channels + c)];
      const a = data[r0 + left]!;
      const b = data[r0 + right]!;
      const d = data[r1 + left]!;
      const e = data[r1 + right]!;
      high[o + c] = Math.max(a > b ? a : b, d > e ? d : e);
      low[o + c] = Math.min(a < b ? a : b, d < e ? d : e);
    }
  for (let o = 0; o <= last + channels - 1; o++) {
    const left = o >= channels ? o - channels : o;
    const right = o < last ? o + channels : o;
    highest[o] = Math.max(high[left]!, high[o]!, high[right]!);
    lowest[o] = Math.min(low[left]!, low[o]!, low[right]!);
  }
}

/** Extremes of a row of cells, by themselves and with the cells beside. */
interface CellRow {
  readonly high: Uint16Array;
  readonly low: Uint16Array;
  readonly highest: Uint16Array;
  readonly lowest: Uint16Array;
}
