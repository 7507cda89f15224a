/** A downsampled scan as transmittance, on which all automatic detection works. */
import { type LightSetup, readTransmittance } from "../flat-field/transmittance.ts";
import { clamp } from "../math/clamp.ts";
import type { Area, LinearScan } from "../types.ts";

/** A scan reduced by whole-pixel boxes. */
export interface DownsampledScan {
  readonly width: number;
  readonly height: number;
  /** Scan pixels per overview pixel. */
  readonly shrink: number;
  /** Pixels of the scan. */
  readonly scanWidth: number;
  readonly scanHeight: number;
  /** Transmittance, red, green, blue interleaved; noise may bring it below 0. */
  readonly t: Float32Array;
  /** 1 where a channel of the scan was at the sensor's limit. */
  readonly clipped: Uint8Array;
  /** Whether T is measured against a blank, so that 1 is bare light. */
  readonly absolute: boolean;
}

/** Wide enough that an edge is placed to a fraction of a pixel at 1500, small enough to be looked over in no time. */
const WIDTH = 1600;

/** Reduces a scan until it is at most `most` pixels wide or high. */
export function downsample(scan: LinearScan, light: LightSetup, maxWidth: number = WIDTH): DownsampledScan {
  const { channels, data } = scan;
  const shrink = Math.max(1, Math.ceil(Math.max(scan.width, scan.height) / maxWidth));
  const width = Math.floor(scan.width / shrink);
  const height = Math.floor(scan.height / shrink);
  const t = new Float32Array(width * height * 3);
  const clipped = new Uint8Array(width * height);
  const reader = readTransmittance(scan, light);
  const row = new Float32Array(scan.width * 3);
  const limit = scan.black + 0.99 / scan.scale;
  const samples = shrink * channels;
  for (let y = 0; y < height * shrink; y++) {
    reader.row(y, row);
    const out = Math.floor(y / shrink) * width;
    addRow(t, out * 3, row, shrink, width);
    const first = y * scan.width * channels;
    const end = first + width * samples;
    for (let i = first; i < end; i++) if (data[i] >= limit) clipped[out + Math.floor((i - first) / samples)] = 1;
  }
  return {
    width,
    height,
    shrink,
    scanWidth: scan.width,
    scanHeight: scan.height,
    t,
    clipped,
    absolute: light.field !== undefined,
  };
}

/** The part of a downsampled scan around a rectangle, whose tilt is left aside. */
export function partOf(scan: DownsampledScan, { left, top, width, height }: Area): DownsampledScan {
  const clamped = (v: number, size: number): number => clamp(Math.round(v * size), 0, size);
  const [x0, x1] = [clamped(left, scan.width), clamped(left + width, scan.width)];
  const [y0, y1] = [clamped(top, scan.height), clamped(top + height, scan.height)];
  const [w, h] = [Math.max(1, x1 - x0), Math.max(1, y1 - y0)];
  const t = new Float32Array(w * h * 3);
  const clipped = new Uint8Array(w * h);
  for (let y = 0; y < h; y++) {
    const from = (y0 + y) * scan.width + x0;
    t.set(scan.t.subarray(from * 3, (from + w) * 3), y * w * 3);
    clipped.set(scan.clipped.subarray(from, from + w), y * w);
  }
  return { ...scan, width: w, height: h, scanWidth: w * scan.shrink, scanHeight: h * scan.shrink, t, clipped };
}

/** Adds a scan's row, `shrink` pixels at a time, to the means of a row of the overview. */
function addRow(means: Float32Array, at: number, row: Float32Array, shrink: number, width: number): void {
  const each = 1 / (shrink * shrink);
  for (let x = 0, i = 0, o = at; x < width; x++, o += 3) {
    let red = means[o];
    let green = means[o + 1];
    let blue = means[o + 2];
    for (let k = 0; k < shrink; k++, i += 3) {
      red = Math.fround(red + each * row[i]);
      green = Math.fround(green + each * row[i + 1]);
      blue = Math.fround(blue + each * row[i + 2]);
    }
    means[o] = red;
    means[o + 1] = green;
    means[o + 2] = blue;
  }
}
