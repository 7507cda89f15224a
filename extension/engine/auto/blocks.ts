/** Block means of scans and their statistics: what the automatic start looks at instead of pixels. */
import type { Rgb } from "../types.ts";

/** Transmittance of a scan's blocks, averaged before any logarithm: red, green, blue interleaved. NaN where there is none. */
export type Blocks = Float32Array;

const MIN_T = 1e-4;

/** Densities of blocks above a base. What lets no light through at all is left out as NaN, and so is clear light. */
export function densitiesAbove(blocks: Blocks, base: Rgb): Float32Array {
  const out = new Float32Array(blocks.length);
  for (let i = 0; i < blocks.length; i += 3) {
    const dark = Math.min(blocks[i], blocks[i + 1], blocks[i + 2]);
    for (let c = 0; c < 3; c++) out[i + c] = dark > MIN_T ? -Math.log10(blocks[i + c]) - base[c] : NaN;
  }
  return out;
}

/** A channel's values over all frames, ascending; what is no number is left out. */
export function sortedChannel(frames: readonly Float32Array[], channel: number): Float64Array {
  const values: number[] = [];
  for (const frame of frames)
    for (let i = channel; i < frame.length; i += 3) if (Number.isFinite(frame[i])) values.push(frame[i]);
  return Float64Array.from(values).sort();
}

/** The value below which a part of ascending values lies, between neighbours; NaN of nothing. */
export function quantile(sorted: Float64Array, part: number): number {
  if (sorted.length === 0) return NaN;
  const at = Math.min(1, Math.max(0, part)) * (sorted.length - 1);
  const i = Math.min(sorted.length - 1, Math.floor(at));
  const next = Math.min(sorted.length - 1, i + 1);
  return sorted[i] + (at - i) * (sorted[next] - sorted[i]);
}
