/** A scan's transmittance as one array, and areas of it in pixels. */
import { enterArena, Allocator } from "../wasm/memory-pool.ts";
import { CONSTANTS, TRANSMITTANCE_STEP, transmittanceModule } from "./simd/transmittance-kernel.ts";
import { type LightSetup, readTransmittance, sampleGains } from "./transmittance.ts";
import type { LinearScan } from "../types.ts";
import { clamp } from "../math/clamp.ts";

/** A whole scan as transmittance, three channels interleaved. */
export interface FilmPlane {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
}

export function filmPlane(scan: LinearScan, light: LightSetup): FilmPlane {
  const { width, height, channels } = scan;
  const data = new Float32Array(width * height * 3);
  if (channels === 3) fillInColour(data, scan, light);
  else {
    const reader = readTransmittance(scan, light);
    for (let y = 0; y < height; y++) reader.row(y, data.subarray(y * width * 3, (y + 1) * width * 3));
  }
  return { width, height, data };
}

/** What `readTransmittance` reads, by vectors: to 32 bits the same. */
function fillInColour(out: Float32Array, scan: LinearScan, light: LightSetup): void {
  const { width, height, data, black } = scan;
  const { offset, gains } = sampleGains(scan, light);
  const count = width * 3;
  const places = new Allocator();
  const slack = 3 * TRANSMITTANCE_STEP;
  const constantsAt = places.take(4 * CONSTANTS.count);
  const samplesAt = places.take(2 * (count + slack));
  const [startAt, slopeAt, targetAt] = [0, 1, 2].map(() => places.take(4 * (count + slack)));
  const arena = enterArena(places.end);
  const { buffer } = arena.memory;
  const constants = new Float32Array(buffer, constantsAt, CONSTANTS.count);
  const samples = new Uint16Array(buffer, samplesAt, count);
  const [starts, slopes, target] = [startAt, slopeAt, targetAt].map((at) => new Float32Array(buffer, at, count));
  const pass = arena.kernel("transmittance", transmittanceModule);
  constants[CONSTANTS.black] = black;
  for (let k = 0; k < 12; k++) constants[CONSTANTS.offset + k] = offset[k % 3];
  let known = -1;
  for (let y = 0; y < height; y++) {
    const { start, slope, band, at } = gains(y);
    if (band !== known) {
      starts.set(start);
      slopes.set(slope);
      known = band;
    }
    constants[CONSTANTS.place] = at;
    samples.set(data.subarray(y * count, (y + 1) * count));
    pass(constantsAt, samplesAt, startAt, slopeAt, targetAt, targetAt + 4 * count);
    out.set(target, y * count);
  }
  arena.release();
}

/** A rectangle in whole pixels. */
export interface PixelBox {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** The pixels of a box in fractions, inside the picture. */
export function pixelBox(
  size: { width: number; height: number },
  left: number,
  top: number,
  right: number,
  bottom: number,
): PixelBox {
  const across = (v: number): number => clamp(Math.round(v * size.width), 0, size.width);
  const down = (v: number): number => clamp(Math.round(v * size.height), 0, size.height);
  return { x0: across(left), y0: down(top), x1: across(right), y1: down(bottom) };
}
