/** How much a lens, a movement or a tilt has blurred the grain. */
import { FREQUENCY, FREQUENCY_X, FREQUENCY_Y, type GrainSpectrum } from "./grain-spectrum.ts";
import type { BlurReading } from "../types.ts";

/** Frequencies that are fitted, cycles per pixel of the half-size scan, and the rings and directions they fall into. */
const [MIN_FREQUENCY, MAX_FREQUENCY, RINGS, DIRECTIONS] = [0.06, 0.46, 8, 8];
/**
 * Rings from which the fit may begin, and how far the ring before may exceed what the fit expects there: more of it is the
 * picture itself, which is strongest at low frequencies. A late beginning leaves less to see that by.
 */
const STARTS = [
  { ring: 1, picture: 1.6 },
  { ring: 2, picture: 1.6 },
  { ring: 3, picture: 1.4 },
] as const;
/** A ring where grain is below this part of the sensor's noise is the last that is fitted, and nothing is below the floor. */
const MIN_OVER_NOISE = 0.5;
const FLOOR = 0.15;
const MIN_FIELDS = 2 * DIRECTIONS;

/** The field (ring and direction) of each bin, −1 outside; a frequency and its opposite are one. */
const FIELD = Int8Array.from(FREQUENCY, (f, i) => {
  if (f < MIN_FREQUENCY || f >= MAX_FREQUENCY) return -1;
  const ring = Math.floor((RINGS * (f - MIN_FREQUENCY)) / (MAX_FREQUENCY - MIN_FREQUENCY));
  const turn = Math.atan2(FREQUENCY_Y[i], FREQUENCY_X[i]) / Math.PI;
  return ring * DIRECTIONS + (Math.floor((turn + 1) * DIRECTIONS + 0.5) % DIRECTIONS);
});

/**
 * Grain is white until the lens sees it, so its spectrum is the square of the system's response: for a blur of
 * covariance C it falls as exp(−4π² fᵀ C f). The fit of its logarithm gives C, whatever the grain's size and the
 * film's density.
 *
 * @param kernel variance of what demosaicing and halving add by themselves, in pixels² of the half-size scan.
 * @returns variances in pixels² of the full scan (never below 0 along the axes) and the grain's power at frequency 0;
 * undefined where grain does not show.
 */
export function grainBlur(spectrum: GrainSpectrum, kernel: number): { blur: BlurReading; level: number } | undefined {
  const rings = ringsOf(spectrum);
  for (const { ring, picture } of STARTS) {
    const used = rings.slice(ring).flat();
    if (used.length < MIN_FIELDS) return undefined;
    const { fit, deviation } = fitLogarithm(used);
    const before = rings[ring - 1];
    const expected = before.reduce(
      (a, f) => a + f.count * Math.exp(fit[0] + fit[1] * f.uu + 2 * fit[2] * f.uv + fit[3] * f.vv),
      0,
    );
    if (before.reduce((a, f) => a + f.count * f.power, 0) > picture * expected) continue;
    const [, xx, xy, yy] = fit.map((v) => v / SLOPE);
    const blur = {
      xx: 4 * Math.max(0, xx - kernel),
      xy: 4 * xy,
      yy: 4 * Math.max(0, yy - kernel),
      deviation: 4 * Math.abs(deviation / SLOPE),
    };
    return { blur, level: Math.exp(fit[0]) };
  }
  return undefined;
}

/** Slope of the logarithm over frequency² per variance. */
const SLOPE = -4 * Math.PI * Math.PI;

/** ln(power) = level + xx·u² + 2·xy·u·v + yy·v², and the standard deviation of (xx + yy) / 2. */
function fitLogarithm(fields: readonly Field[]): { fit: number[]; deviation: number } {
  const rows = fields.map((f) => [1, f.uu, 2 * f.uv, f.vv]);
  const weights = fields.map((f) => (f.count * f.power) / (f.power + f.noise));
  // Beside the right-hand side stands a unit matrix, which becomes the inverse.
  const normal = Array.from({ length: 4 }, (_, r) =>
    Float64Array.from({ length: 9 }, (__, c) => (c === 5 + r ? 1 : 0)),
  );
  fields.forEach(({ power }, k) => {
    for (let r = 0; r < 4; r++) {
      for (let c = 0; c < 4; c++) normal[r][c] += weights[k] * rows[k][r] * rows[k][c];
      normal[r][4] += weights[k] * rows[k][r] * Math.log(power);
    }
  });
  eliminate(normal);
  const fit = normal.map((row) => row[4]);
  const squares = fields.reduce((a, { power }, k) => {
    const off = Math.log(power) - rows[k].reduce((sum, v, i) => sum + v * fit[i], 0);
    return a + weights[k] * off * off;
  }, 0);
  const spread = (normal[1][6] + normal[3][8] + 2 * normal[1][8]) / 4;
  return { fit, deviation: Math.sqrt(Math.max(0, (spread * squares) / Math.max(1, fields.length - 4))) };
}

interface Field {
  count: number;
  power: number;
  noise: number;
  uu: number;
  uv: number;
  vv: number;
}

/** Means over the fields, ring by ring, up to the first where grain has sunk into noise: beyond, lucky fields would look sharp. */
function ringsOf({ power, noise }: GrainSpectrum): Field[][] {
  const fields = Array.from({ length: RINGS * DIRECTIONS }, (): Field => ({
    count: 0,
    power: 0,
    noise: 0,
    uu: 0,
    uv: 0,
    vv: 0,
  }));
  for (let i = 0; i < power.length; i++) {
    if (FIELD[i] < 0) continue;
    const f = fields[FIELD[i]];
    f.count++;
    f.power += power[i];
    f.noise += noise[i];
    f.uu += FREQUENCY_X[i] ** 2;
    f.uv += FREQUENCY_X[i] * FREQUENCY_Y[i];
    f.vv += FREQUENCY_Y[i] ** 2;
  }
  for (const f of fields)
    for (const key of ["power", "noise", "uu", "uv", "vv"] as const) f[key] /= Math.max(1, f.count);
  const rings = Array.from({ length: RINGS }, (_, r) =>
    fields.slice(r * DIRECTIONS, (r + 1) * DIRECTIONS).filter((f) => f.count > 0),
  );
  for (const [k, ring] of rings.entries()) {
    if (k === 0) continue;
    const sum = (key: "power" | "noise"): number => ring.reduce((a, f) => a + f[key] * f.count, 0);
    for (const f of ring) f.power = Math.max(f.power, FLOOR * f.noise, 1e-9);
    if (sum("power") < MIN_OVER_NOISE * sum("noise")) return rings.slice(0, k + 1);
  }
  return rings;
}

/** Gauss–Jordan on an augmented matrix, in place: its left square becomes the unit matrix. */
function eliminate(a: Float64Array[]): void {
  const n = a.length;
  for (let p = 0; p < n; p++) {
    let pivot = p;
    for (let r = p + 1; r < n; r++) if (Math.abs(a[r][p]) > Math.abs(a[pivot][p])) pivot = r;
    [a[p], a[pivot]] = [a[pivot], a[p]];
    const by = a[p][p];
    for (let c = 0; c < a[p].length; c++) a[p][c] /= by;
    for (let r = 0; r < n; r++) {
      if (r === p) continue;
      const f = a[r][p];
      for (let c = p; c < a[r].length; c++) a[r][c] -= f * a[p][c];
    }
  }
}

/** Standard deviation of a blur in pixels, the mean of all directions. */
export const sigmaOf = (b: BlurReading): number => Math.sqrt((b.xx + b.yy) / 2);

/** Direction in degrees (clockwise from the x axis, 0 … 180) of the strongest blur, and the two variances. */
export function principal(b: BlurReading): { major: number; minor: number; angle: number } {
  const half = (b.xx - b.yy) / 2;
  const size = Math.hypot(half, b.xy);
  const middle = (b.xx + b.yy) / 2;
  const angle = ((Math.atan2(b.xy, half) / 2) * 180) / Math.PI;
  return { major: middle + size, minor: Math.max(0, middle - size), angle: (angle + 180) % 180 };
}
