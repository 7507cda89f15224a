/** Scans as planes of log signal, at half the size and its halves: what two exposures of one picture are compared on. */
import type { LinearScan } from "../types.ts";

/** log2 of the signal of green, where it is well exposed; NaN elsewhere. */
export interface LogPlane {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
  /** Pixels of the scan along a side of one of the plane's. */
  readonly step: number;
}

/** Signal within which a sample counts: above black's own errors, and below where sensors bend. */
const [DARKEST, BRIGHTEST] = [0.003, 0.85];
/** A scan's longer side in pixels from which its finest plane is made at half the size. */
const LARGE = 3200;
/** Longer side of the coarsest plane, at most. */
const COARSEST = 256;

/**
 * Planes from the finest to the coarsest.
 * @param large longer side in pixels from which the finest is made at half the size
 */
export function logPlanes(scan: LinearScan, large = LARGE): LogPlane[] {
  const step = Math.max(scan.width, scan.height) >= large ? 2 : 1;
  const planes = [finestPlane(scan, step)];
  for (;;) {
    const last = planes.at(-1)!;
    if (Math.max(last.width, last.height) <= COARSEST) return planes;
    planes.push(halved(last));
  }
}

function finestPlane(
  { width: across, height: down, channels, data, black, scale }: LinearScan,
  step: number,
): LogPlane {
  const [width, height] = [Math.floor(across / step), Math.floor(down / step)];
  const out = new Float32Array(width * height);
  const channel = channels === 3 ? 1 : 0;
  const [low, high] = [DARKEST / scale + black, BRIGHTEST / scale + black];
  for (let y = 0, o = 0; y < height; y++)
    for (let x = 0; x < width; x++, o++) {
      let sum = 0;
      let highest = 0;
      for (let j = 0; j < step; j++)
        for (let i = 0; i < step; i++) {
          const value = data[((y * step + j) * across + x * step + i) * channels + channel]!;
          sum += value;
          if (value > highest) highest = value;
        }
      const mean = sum / (step * step);
      out[o] = highest > high || mean < low ? Number.NaN : Math.log2((mean - black) * scale);
    }
  return { width, height, data: out, step };
}

/** Means of 2 × 2; one of them that does not count leaves none. */
function halved({ width: across, height: down, data, step }: LogPlane): LogPlane {
  const [width, height] = [across >> 1, down >> 1];
  const out = new Float32Array(width * height);
  for (let y = 0, o = 0; y < height; y++)
    for (let x = 0; x < width; x++, o++) {
      const k = 2 * y * across + 2 * x;
      out[o] = (data[k]! + data[k + 1]! + data[k + across]! + data[k + across + 1]!) / 4;
    }
  return { width, height, data: out, step: step * 2 };
}
