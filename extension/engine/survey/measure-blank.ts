/** What a blank tells: evenness and colour of the light, bands, sensor dust, and the sensor's noise. */
import type { LightField } from "../flat-field/light-field.ts";
import type { LinearScan, ScanInfo } from "../types.ts";
import { readExposure } from "./exposure-reading.ts";
import { BLOCK, blockAt, type GrainPlane } from "./sharpness/grain-spectrum.ts";
import { darkening, darkBlobs, spotsOf } from "../dust/specks.ts";
import { deviation, mean, median } from "../math/statistics.ts";
import type { BlankReading, Box, SensorNoise, Speck } from "./types.ts";

/** Border that is left out: a holder's opening may show there. */
const BORDER = 0.03;

/** Measures a blank, decoded at half size, whose light has been measured. */
export function measureBlank(scan: LinearScan, field: LightField, info: ScanInfo, name: string): BlankReading {
  const { width, height } = scan;
  const [edgeX, edgeY] = [Math.round(width * BORDER), Math.round(height * BORDER)];
  // A holder that was left in place is neither falloff nor a band nor sensor dust.
  const { left, top, ...open } = field.opening ?? { left: 0, top: 0, width: 1, height: 1 };
  const box = {
    x0: Math.max(edgeX, Math.ceil(left * width)),
    y0: Math.max(edgeY, Math.ceil(top * height)),
    x1: Math.min(width - edgeX, Math.floor((left + open.width) * width)),
    y1: Math.min(height - edgeY, Math.floor((top + open.height) * height)),
  };
  return {
    name,
    info,
    ...lightOf(field),
    ...bandsOf(scan, box),
    clipped: readExposure(scan, box).clipped,
    sensorDust: sensorDustOf(scan, box),
    noise: noiseOf(scan, info),
  };
}

/** Part of the field on every side where the light is not judged. */
const HOLDER = 0.06;

/** Evenness and colour from the smoothed light, the border left aside. */
function lightOf(field: LightField): Pick<BlankReading, "unevenness" | "darkestAt" | "colourSpan" | "colourAt"> {
  const { columns, rows, channels, level } = field;
  const cell = (q: number, r: number): Box => [q / columns, r / rows, 1 / columns, 1 / rows];
  let [low, high] = [Infinity, 0];
  let darkestAt: Box = [0, 0, 1, 1];
  const ratios = [-Infinity, -Infinity];
  const lows = [Infinity, Infinity];
  let colourAt: Box = [0, 0, 1, 1];
  let maxColourSpan = 0;
  const middle = Math.floor(rows / 2) * columns + Math.floor(columns / 2);
  const ratioAt = (i: number, k: number): number =>
    channels === 3 ? Math.log(level[i * 3 + 2 * k] / level[i * 3 + 1]) : 0;
  // A holder left in place darkens the border.
  const [aside, below] = [columns, rows].map((n) => Math.max(1, Math.round(HOLDER * n)));
  for (let r = below; r < rows - below; r++)
    for (let q = aside; q < columns - aside; q++) {
      const i = r * columns + q;
      const light = level[i * channels + (channels === 3 ? 1 : 0)];
      high = Math.max(high, light);
      if (light < low) [low, darkestAt] = [light, cell(q, r)];
      for (const k of [0, 1]) {
        const ratio = ratioAt(i, k);
        ratios[k] = Math.max(ratios[k], ratio);
        lows[k] = Math.min(lows[k], ratio);
        const away = Math.abs(ratio - ratioAt(middle, k));
        if (away > maxColourSpan) [maxColourSpan, colourAt] = [away, cell(q, r)];
      }
    }
  const span = Math.max(...ratios.map((v, k) => v - lows[k]));
  return { unevenness: 100 * (1 - low / high), darkestAt, colourSpan: 100 * Math.expm1(span), colourAt };
}

/** Bands: what is left of the means of rows (and of columns) when a smooth course is taken off. */
function bandsOf(
  scan: LinearScan,
  box: { x0: number; y0: number; x1: number; y1: number },
): Pick<BlankReading, "banding" | "bandingAlong"> {
  const { width, channels, data, black } = scan;
  const c = channels === 3 ? 1 : 0;
  const rows = new Float64Array(box.y1 - box.y0);
  const columns = new Float64Array(box.x1 - box.x0);
  for (let y = box.y0; y < box.y1; y++)
    for (let x = box.x0; x < box.x1; x++) {
      const v = data[(y * width + x) * channels + c] - black;
      rows[y - box.y0] += v;
      columns[x - box.x0] += v;
    }
  const [across, down] = [amplitude(rows), amplitude(columns)];
  return across >= down
    ? { banding: 100 * across, bandingAlong: "rows" }
    : { banding: 100 * down, bandingAlong: "columns" };
}

/** Amplitude of what a running quadratic over a sixth of the course leaves, as a part of the level. */
function amplitude(course: Float64Array): number {
  const n = course.length;
  const reach = Math.max(6, Math.round(n / 12));
  const left: number[] = [];
  for (let i = reach; i < n - reach; i++) {
    // Least squares with 1, x, x²: on a symmetric window the middle's value needs two sums.
    let [s0, s2, s4, y0, y2] = [0, 0, 0, 0, 0];
    for (let d = -reach; d <= reach; d++) {
      const q = d * d;
      s0 += 1;
      s2 += q;
      s4 += q * q;
      y0 += course[i + d];
      y2 += q * course[i + d];
    }
    const smooth = (s4 * y0 - s2 * y2) / (s0 * s4 - s2 * s2);
    left.push(course[i] / smooth - 1);
  }
  return Math.SQRT2 * Math.sqrt(mean(left.map((v) => v * v)));
}

/** Sensor dust darkens by more than this, as ln, and stands out of the noise by so many deviations. */
const SENSOR_DUST_LIMITS = { minDarkening: 0.025, noiseMultiple: 7 };
/** A pixel or two of that are noise or a dead pixel. */
const MIN_PIXELS = 4;

function sensorDustOf(scan: LinearScan, box: Parameters<typeof darkening>[4]): Speck[] {
  const { width, height, channels, black } = scan;
  const plane = new Uint16Array(width * height);
  const c = channels === 3 ? 1 : 0;
  // A 3 × 3 mean: sensor dust is soft, and fainter than a pixel's noise.
  const sums = new Uint32Array(width);
  const row = width * channels;
  for (let y = 1; y < height - 1; y++) {
    for (let x = 0, k = y * row + c; x < width; x++, k += channels)
      sums[x] = scan.data[k - row] + scan.data[k] + scan.data[k + row];
    for (let x = 1, i = y * width + 1; x < width - 1; x++, i++)
      plane[i] = (sums[x - 1] + sums[x] + sums[x + 1]) / 9 + 0.5;
  }
  const inner = { x0: Math.max(2, box.x0), y0: Math.max(2, box.y0), x1: box.x1, y1: box.y1 };
  return darkBlobs(darkening(plane, black, width, height, inner), width, height, SENSOR_DUST_LIMITS)
    .filter((blob) => blob.component.pixels.length >= MIN_PIXELS)
    .map((blob) => ({
      x: blob.x / width,
      y: blob.y / width,
      radius: (blob.radius + 0.5) / width,
      elongation: blob.elongation,
      opacity: 1 - Math.exp(-blob.component.peak),
      logOdds: 1,
      spots: spotsOf(blob, width),
    }));
}

/** Blocks in which the noise is measured, on a grid. */
const NOISE_GRID = 9;

/** A block's signal, as if it were film without a blank. */
function signalAt({ width, channels, data, black, scale }: LinearScan, x0: number, y0: number): GrainPlane {
  const out = new Float32Array(BLOCK * BLOCK * 3);
  for (let y = 0, i = 0; y < BLOCK; y++)
    for (let x = 0; x < BLOCK; x++)
      for (let c = 0; c < 3; c++, i++)
        out[i] = (data[((y0 + y) * width + x0 + x) * channels + (c % channels)] - black) * scale;
  return { width: BLOCK, height: BLOCK, data: out, channel: 1, flare: 0 };
}

/** Photon noise: its variance relative to the signal is one over the signal, at a size that the blank tells. */
function noiseOf(scan: LinearScan, info: ScanInfo): SensorNoise {
  const { width, height } = scan;
  const shape = new Float32Array(BLOCK * BLOCK);
  const sizes: number[] = [];
  const powers: Float32Array[] = [];
  for (let r = 1; r < NOISE_GRID; r++)
    for (let q = 1; q < NOISE_GRID; q++) {
      const x = Math.floor((q * (width - BLOCK)) / NOISE_GRID);
      const y = Math.floor((r * (height - BLOCK)) / NOISE_GRID);
      const block = x >= 0 && y >= 0 ? blockAt(signalAt(scan, x, y), 0, 0) : undefined;
      if (!block) continue;
      sizes.push(mean(block.power) * block.signal);
      powers.push(block.power.map((p) => p * block.signal));
    }
  if (sizes.length === 0) return { variance: 0, iso: info.iso, shape: shape.fill(1) };
  const typical = median(sizes);
  const reach = 3 * Math.max(deviation(sizes), 0.02 * typical);
  // A block with sensor dust in it is not noise.
  const valid = powers.filter((_, k) => Math.abs(sizes[k] - typical) <= reach);
  for (const power of valid) for (let i = 0; i < shape.length; i++) shape[i] += power[i] / valid.length;
  const level = mean(shape);
  // The lowest frequencies hold what falloff a plane leaves over.
  return { variance: level, iso: info.iso, shape: shape.map((v) => v / level) };
}
