/** A step wedge on the light: how linear the camera is, how much flare it sees, and over which range it can be trusted. */
import type { DownsampledScan } from "../detect/downsampled-scan.ts";
import type { Area } from "../types.ts";

/** Steps in order along the wedge, the thinnest first. */
export interface WedgeSteps {
  /** Median transmittance of each step, mean of the channels, and how much it varies within the step. */
  readonly transmittance: readonly number[];
  readonly noise: readonly number[];
}

/** Part of a step that is read: its neighbours' edges and glare are left out. */
const CORE = 0.5;

/**
 * Reads the steps of a wedge that fills an area, side by side along its longer side. The pitch is found by itself: that
 * division of the area whose borders fall on the largest changes.
 * @param count steps on the wedge
 * @returns undefined where no regular steps are seen
 */
export function readWedge(scan: DownsampledScan, area: Area, count: number): WedgeSteps | undefined {
  const profile = profileOf(scan, area);
  const grid = gridOf(profile, count);
  if (!grid) return undefined;
  const { start, pitch } = grid;
  const transmittance: number[] = [];
  const noise: number[] = [];
  for (let k = 0; k < count; k++) {
    const from = Math.round(start + (k + 0.5 - CORE / 2) * pitch);
    const to = Math.round(start + (k + 0.5 + CORE / 2) * pitch);
    const values = Array.from(profile.subarray(Math.max(0, from), Math.min(profile.length, Math.max(to, from + 1))));
    if (values.length === 0) return undefined;
    const middle = values.toSorted((a, b) => a - b)[values.length >> 1];
    transmittance.push(middle);
    noise.push(Math.sqrt(values.reduce((s, v) => s + (v - middle) ** 2, 0) / values.length));
  }
  if (transmittance[0] < transmittance[count - 1]) {
    transmittance.reverse();
    noise.reverse();
  }
  return { transmittance, noise };
}

/** Mean transmittance across the wedge, along its longer side; the outer quarters are left out. */
function profileOf(o: DownsampledScan, area: Area): Float64Array {
  const angle = (area.tilt * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const [wide, high] = [area.width * o.width, area.height * o.height];
  const lying = wide >= high;
  const [long, short] = lying ? [wide, high] : [high, wide];
  const [cx, cy] = [(area.left + area.width / 2) * o.width, (area.top + area.height / 2) * o.height];
  const out = new Float64Array(Math.floor(long));
  for (let i = 0; i < out.length; i++) {
    let sum = 0;
    let n = 0;
    for (let k = -0.25 * short; k <= 0.25 * short; k++) {
      const [p, q] = lying ? [i + 0.5 - long / 2, k] : [k, i + 0.5 - long / 2];
      const x = Math.floor(cx + cos * p - sin * q);
      const y = Math.floor(cy + sin * p + cos * q);
      if (x < 0 || y < 0 || x >= o.width || y >= o.height) continue;
      const at = (y * o.width + x) * 3;
      sum += (o.t[at] + o.t[at + 1] + o.t[at + 2]) / 3;
      n++;
    }
    out[i] = sum / Math.max(1, n);
  }
  return out;
}

/** Start and pitch of the steps; the change of density at a border is compared with that between borders. */
function gridOf(profile: Float64Array, count: number): { start: number; pitch: number } | undefined {
  const n = profile.length;
  const density = profile.map((t) => -Math.log10(Math.max(t, 1e-5)));
  // With its sign: steps all go one way, and the film's end goes the other.
  const change = density.map((_, i) => {
    const slope = density[Math.min(n - 1, i + 2)] - density[Math.max(0, i - 2)];
    return Math.min(0.2, Math.max(-0.2, slope));
  });
  let best: { start: number; pitch: number } | undefined;
  let max = 0;
  const whole = n / count;
  for (let pitch = 0.75 * whole; pitch <= 1.02 * whole; pitch += whole / 400)
    for (let start = 0; start <= n - 0.97 * pitch * count; start += 0.5) {
      let border = 0;
      let between = 0;
      for (let k = 1; k < count; k++) {
        border += change[Math.min(n - 1, Math.round(start + k * pitch))];
        between += Math.abs(change[Math.min(n - 1, Math.round(start + (k + 0.5) * pitch))]);
      }
      if (Math.abs(border) - between > max) {
        max = Math.abs(border) - between;
        best = { start, pitch };
      }
    }
  return max > 0.02 * count ? best : undefined;
}

export interface WedgeReport {
  /** Flare as a fraction of the bare light, from the densest steps. */
  readonly flare: number;
  /** Measured minus known density after flare is taken off, for each step. */
  readonly error: readonly number[];
  /** Slope of measured over known density within the usable range: 1 for a linear camera. */
  readonly slope: number;
  /** Greatest error within the usable range, density. */
  readonly worst: number;
  /** Known densities between which the camera reads within the tolerance. */
  readonly usable: readonly [from: number, to: number];
  /** Without flare taken off: the density beyond which more than the tolerance is missing. */
  readonly flareLimit: number;
}

/** A wedge that was not measured by itself may be off by so much a step (makers allow ±0.02; common practice). */
export const TOLERANCE = 0.04;

/** Part of the steps that must agree with the table. */
const AGREE = 0.4;

/** Why a wedge cannot be judged. */
export class WedgeError extends Error {
  readonly code = "wedge";
}

/**
 * Flare is the constant that makes measured transmittance fit the known one best, each step weighed by its own size;
 * what is left is the camera.
 * @param known densities of the steps, the thinnest first
 */
export function judgeWedge({ transmittance }: WedgeSteps, known: readonly number[]): WedgeReport {
  if (known.length !== transmittance.length)
    throw new WedgeError(`The wedge has ${transmittance.length} steps, the table ${known.length} densities.`);
  const at = (flare: number, scale: number): number[] =>
    known.map((d, i) => -Math.log10(Math.max((transmittance[i] / scale - flare) / (1 - flare), 1e-6)) - d);
  // The wedge's base and the blank leave a common factor; the thin steps, where flare counts least, set it.
  const thin = known.map((_, i) => i).filter((i) => known[i] < known[0] + 1);
  let best = { flare: 0, scale: 1, size: Infinity };
  for (let flare = 0; flare <= 0.03; flare += 0.0001) {
    const offsets = at(flare, 1);
    const mean = thin.reduce((s, i) => s + offsets[i], 0) / thin.length;
    const size = offsets.reduce((s, e) => s + Math.min(0.3, Math.abs(e - mean)) ** 2, 0);
    if (size < best.size) best = { flare, scale: 10 ** -mean, size };
  }
  const error = at(best.flare, 1).map((e) => e + Math.log10(best.scale));
  const plain = at(0, 1).map((e) => e + Math.log10(best.scale));
  let last = known.length - 1;
  while (last > 0 && Math.abs(error[last]) > TOLERANCE) last--;
  let first = 0;
  while (first < last && Math.abs(error[first]) > TOLERANCE) first++;
  const within = known.slice(first, last + 1);
  if (within.length < Math.max(5, AGREE * known.length))
    throw new WedgeError(
      `Only ${within.length} steps agree with the table: check that it is this wedge, thinnest first, with a blank.`,
    );
  const mean = within.reduce((a, b) => a + b, 0) / within.length;
  const slope = within.reduce((s, d, i) => s + (d - mean) * (d + error[first + i]), 0);
  const run = within.reduce((s, d) => s + (d - mean) ** 2, 0);
  const missing = known.findIndex((_, i) => plain[i] < -TOLERANCE);
  return {
    flare: best.flare,
    error,
    slope: slope / run,
    worst: Math.max(...error.slice(first, last + 1).map(Math.abs)),
    usable: [known[first], known[last]],
    flareLimit: missing < 0 ? known[known.length - 1] : known[missing],
  };
}
