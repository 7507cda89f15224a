/** Finds how two scans of one large frame lie to one another. */
import { findShift, type RegisterPlane } from "../register.ts";
import type { LightSetup } from "../../flat-field/transmittance.ts";
import { readTransmittance } from "../../flat-field/transmittance.ts";
import type { LinearScan } from "../../types.ts";
import { clamp } from "../../math/clamp.ts";

/** Where a scan lies on the first: pixels of the full scan, and degrees clockwise about its own top left corner. */
export type JoinPlace = readonly [x: number, y: number, angle: number];

export interface JoinReading {
  readonly place: JoinPlace;
  /** Root mean square of what the patches leave over, in pixels. */
  readonly residual: number;
  /** Patches that agree. */
  readonly patches: number;
}

/** Two scans that show nothing in common; the message says what to do. */
export class JoinError extends Error {
  readonly code = "join";
  readonly remedy =
    "Let neighbouring scans overlap by a quarter of the frame, and list them in the order in which they lie.";
}

/** Green density of a scan, the plane that grain and picture show best in. */
interface Density {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
}

const DARKEST = 1e-3;

function densityOfScan(scan: LinearScan, light: LightSetup): Density {
  const { width, height } = scan;
  const data = new Float32Array(width * height);
  const row = new Float32Array(width * 3);
  const reader = readTransmittance(scan, light);
  for (let y = 0; y < height; y++) {
    reader.row(y, row);
    for (let x = 0; x < width; x++) data[y * width + x] = -Math.log10(Math.max(DARKEST, row[x * 3 + 1]));
  }
  return { width, height, data };
}

/** Side of the square in which the overlap is looked for, and of a patch; powers of two. */
const [COARSE, PATCH] = [512, 128];
/** Patches that are compared, at most, and the least height of a correlation that counts. */
const [MAX_PATCHES, MIN_PEAK] = [24, 0.06];
const MIN_PATCHES = 4;

/**
 * Measures where a scan lies on another: coarsely by the phase correlation of both, reduced; then by patches all over
 * the overlap at full size, each to a hundredth of a pixel, and a rotation and shift through them.
 *
 * @throws JoinError when the two have nothing in common.
 */
export function measureJoin(
  first: { readonly scan: LinearScan; readonly light: LightSetup },
  second: { readonly scan: LinearScan; readonly light: LightSetup },
): JoinReading {
  const a = densityOfScan(first.scan, first.light);
  const b = densityOfScan(second.scan, second.light);
  let [x, y] = coarse(a, b);
  let angle = 0;
  let found: Match[] = [];
  for (let round = 0; round < 4; round++) {
    found = matches(a, b, x, y, angle);
    const fit = rigid(found);
    if (!fit)
      throw new JoinError(
        "The two scans show nothing in common, so they cannot be joined: photograph them again so that they overlap by a quarter.",
      );
    [x, y, angle] = [fit.x, fit.y, fit.angle];
    found = fit.kept;
  }
  const residual = Math.sqrt(found.reduce((s, m) => s + residualOf(m, x, y, angle) ** 2, 0) / found.length);
  return { place: [x, y, (angle * 180) / Math.PI], residual, patches: found.length };
}

/** Shift of b on a to a pixel of the reduced pictures. */
function coarse(a: Density, b: Density): [number, number] {
  const long = Math.max(a.width, a.height, b.width, b.height);
  const step = Math.max(1, Math.ceil((2 * long) / COARSE));
  const { x, y } = findShift(reduced(a, step), reduced(b, step), { parts: 1, whitening: 1 });
  return [x * step, y * step];
}

/** Box means, in the corner of an empty square, so that a shift does not wrap around; borders fade to the mean. */
function reduced({ width, height, data }: Density, step: number): RegisterPlane {
  const [w, h] = [Math.floor(width / step), Math.floor(height / step)];
  const small = new Float64Array(w * h);
  for (let y = 0; y < h * step; y++)
    for (let x = 0; x < w * step; x++) small[Math.floor(y / step) * w + Math.floor(x / step)] += data[y * width + x];
  const mean = small.reduce((p, v) => p + v, 0) / small.length;
  const out = new Float64Array(COARSE * COARSE);
  const fade = (i: number, n: number): number => Math.min(1, (Math.min(i, n - 1 - i) + 0.5) / (0.06 * n));
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) out[y * COARSE + x] = (small[y * w + x] - mean) * fade(x, w) * fade(y, h);
  return { width: COARSE, height: COARSE, data: out };
}

/** A patch of the second scan and where its middle lies on the first. */
interface Match {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly weight: number;
}

function matches(a: Density, b: Density, x: number, y: number, angle: number): Match[] {
  const found: Match[] = [];
  const places: [number, number][] = [];
  const half = PATCH / 2;
  // Where b lies inside a, as b sees it.
  const fits = (u: number, v: number): boolean => {
    const [p, q] = onFirst(u, v, x, y, angle);
    return p >= half + 4 && q >= half + 4 && p < a.width - half - 4 && q < a.height - half - 4;
  };
  for (let v = half + 2; v < b.height - half - 2; v += half)
    for (let u = half + 2; u < b.width - half - 2; u += half) if (fits(u, v)) places.push([u, v]);
  const step = Math.max(1, Math.ceil(places.length / MAX_PATCHES));
  for (let k = 0; k < places.length; k += step) {
    const [u, v] = places[k];
    const [p, q] = onFirst(u, v, x, y, angle);
    const [px, py] = [Math.round(p), Math.round(q)];
    // The second patch is turned upright with the first, about its middle.
    const shift = findShift(cut(a, px, py, 0), cut(b, u, v, angle), { fade: true, whitening: 0.7 });
    if (shift.peak < MIN_PEAK || Math.hypot(shift.x, shift.y) > half) continue;
    found.push({ from: [u, v], to: [px + shift.x, py + shift.y], weight: shift.peak });
  }
  return found;
}

/** Place on the first scan of a place of the second. */
export function onFirst(u: number, v: number, x: number, y: number, angle: number): [number, number] {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [x + c * u - s * v, y + s * u + c * v];
}

/** A patch about a middle, turned by an angle; bilinear where it is turned at all. */
function cut({ width, height, data }: Density, cx: number, cy: number, angle: number): RegisterPlane {
  const out = new Float64Array(PATCH * PATCH);
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const at = (x: number, y: number): number => data[clamp(y, 0, height - 1) * width + clamp(x, 0, width - 1)];
  for (let v = 0; v < PATCH; v++)
    for (let u = 0; u < PATCH; u++) {
      const [du, dv] = [u - PATCH / 2, v - PATCH / 2];
      // Seen from the first scan the second is turned by the angle, so its samples are looked up turned back.
      const [x, y] = [cx + c * du + s * dv, cy - s * du + c * dv];
      const [i, j] = [Math.floor(x), Math.floor(y)];
      const [fx, fy] = [x - i, y - j];
      out[v * PATCH + u] =
        angle === 0
          ? at(Math.round(x), Math.round(y))
          : (at(i, j) * (1 - fx) + at(i + 1, j) * fx) * (1 - fy) +
            (at(i, j + 1) * (1 - fx) + at(i + 1, j + 1) * fx) * fy;
    }
  return { width: PATCH, height: PATCH, data: out };
}

const residualOf = (m: Match, x: number, y: number, angle: number): number => {
  const [p, q] = onFirst(m.from[0], m.from[1], x, y, angle);
  return Math.hypot(p - m.to[0], q - m.to[1]);
};

/** Rotation and shift by least squares; patches far off are left out and the fit repeated. */
function rigid(all: readonly Match[]): { x: number; y: number; angle: number; kept: Match[] } | undefined {
  let kept = [...all];
  for (let round = 0; round < 5; round++) {
    if (kept.length < MIN_PATCHES) return undefined;
    const total = kept.reduce((p, m) => p + m.weight, 0);
    const mean = (of: (m: Match) => number): number => kept.reduce((p, m) => p + m.weight * of(m), 0) / total;
    const [ux, uy, px, py] = [
      mean((m) => m.from[0]),
      mean((m) => m.from[1]),
      mean((m) => m.to[0]),
      mean((m) => m.to[1]),
    ];
    let [dot, cross] = [0, 0];
    for (const m of kept) {
      const [a, b, p, q] = [m.from[0] - ux, m.from[1] - uy, m.to[0] - px, m.to[1] - py];
      dot += m.weight * (a * p + b * q);
      cross += m.weight * (a * q - b * p);
    }
    const angle = Math.atan2(cross, dot);
    const [ox, oy] = onFirst(ux, uy, 0, 0, angle);
    const [x, y] = [px - ox, py - oy];
    const off = kept.map((m) => residualOf(m, x, y, angle));
    const middle = off.toSorted((a, b) => a - b)[off.length >> 1];
    const reach = Math.max(0.15, 3 * middle);
    if (off.every((d) => d <= reach)) return { x, y, angle, kept };
    kept = kept.filter((_, i) => off[i] <= reach);
  }
  return undefined;
}
