/** Lays one scan on another from a place that is roughly right: by patches all over what both show. */
import { clamp } from "../../math/clamp.ts";
import { median } from "../../math/statistics.ts";
import { findShift, type RegisterPlane } from "../register.ts";
import type { JoinPlane } from "./plane.ts";
import { onFirst } from "./place.ts";

/** A patch of the second scan and where its middle lies on the first, in pixels of the planes. */
export interface Match {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  /** Height of the correlation, 0 … 1. */
  readonly weight: number;
}

/** Shift in pixels and rotation in radians of the second scan on the first. */
export interface RigidPlace {
  readonly x: number;
  readonly y: number;
  readonly angle: number;
}

export interface PairMatch extends RigidPlace {
  readonly matches: readonly Match[];
  /** Share of the patches that agree, 0 … 1. */
  readonly agreeing: number;
  /** Root mean square of what they leave over, in pixels. */
  readonly residual: number;
}

/** Sides of a patch, powers of two: the smaller where the overlap is too narrow for the larger. */
const PATCH_SIDES = [128, 64] as const;
/** Patches that are compared at most: to see whether the place is right, and to measure it, by the side of a patch. */
const [FEW_PATCHES, MAX_PATCHES] = [20, { 128: 40, 64: 120 } as const];
/** The least height of a correlation that counts, and the highest second peak in parts of it: an edge fits all along itself. */
const [MIN_PEAK, MAX_SECOND_PEAK] = [0.05, 0.75];
/** Patches that have to agree, of those that show a place at all, and what they may leave over, in pixels. */
const [MIN_PATCHES, MIN_SHARE, MAX_RESIDUAL] = [4, 0.5, 2];
/** Rounds, and parts of a pixel that patches are compared to: roughly first. */
const ROUNDS = 4;
const [ROUGH, FINE] = [2, 100];
/** Largest rotation in radians that patches are compared at before it is known: they show one of 2° still. */
const MAX_ROTATION = 0.035;

/**
 * Measures where a scan lies on another: each patch to a hundredth of a pixel, and a rotation and shift through them.
 * @param start within half a patch of the truth in the overlap
 * @returns undefined where the patches do not agree on one place
 */
export function matchPair(a: JoinPlane, b: JoinPlane, start: RigidPlace): PairMatch | undefined {
  const { side, places } = patchPlaces(a, b, start);
  let place = start;
  let found: PairMatch | undefined;
  for (let round = 0; round < ROUNDS; round++) {
    const isFirst = round === 0;
    const chosen = evenly(places, isFirst ? FEW_PATCHES : MAX_PATCHES[side]);
    const all = chosen.flatMap((from) => matchPatch(a, b, from, place, { side, parts: isFirst ? ROUGH : FINE }) ?? []);
    const kept = rigid(isFirst ? consensus(all) : all);
    if (!kept || kept.matches.length < MIN_SHARE * all.length) return undefined;
    const off = kept.matches.map((m) => distance(m, kept) ** 2);
    const residual = Math.sqrt(off.reduce((p, v) => p + v, 0) / off.length);
    if (residual > MAX_RESIDUAL) return undefined;
    const moved = Math.hypot(kept.x - place.x, kept.y - place.y);
    place = kept;
    found = { ...kept, agreeing: kept.matches.length / chosen.length, residual };
    if (!isFirst && moved < 0.05) break;
  }
  return found;
}

const evenly = <T>(list: readonly T[], most: number): readonly T[] =>
  list.length <= most ? list : Array.from({ length: most }, (_, k) => list[Math.floor((k * list.length) / most)]);

/** Middles of patches of the second scan that lie in the first, evenly over what both show. */
function patchPlaces(a: JoinPlane, b: JoinPlane, { x, y, angle }: RigidPlace) {
  const placesOf = (side: number, step: number): [number, number][] => {
    const half = side / 2;
    const places: [number, number][] = [];
    for (let v = half + 2; v <= b.height - half - 2; v += step)
      for (let u = half + 2; u <= b.width - half - 2; u += step) {
        const [p, q] = onFirst(u, v, x, y, angle);
        if (p >= half + 3 && q >= half + 3 && p < a.width - half - 3 && q < a.height - half - 3) places.push([u, v]);
      }
    return places;
  };
  const [large, small] = PATCH_SIDES;
  const wide = placesOf(large, large / 4);
  const [side, places] = wide.length >= 16 ? [large, wide] : [small, placesOf(small, small / 4)];
  return { side, places };
}

function matchPatch(
  a: JoinPlane,
  b: JoinPlane,
  from: readonly [number, number],
  { x, y, angle }: RigidPlace,
  { side, parts }: { readonly side: number; readonly parts: number },
): Match | undefined {
  const [p, q] = onFirst(...from, x, y, angle);
  const [px, py] = [Math.round(p), Math.round(q)];
  // The second patch is turned upright with the first, about its middle, and moved by the rest of a pixel.
  const [rx, ry] = onFirst(px - p, py - q, 0, 0, -angle);
  const moved = cut(b, from[0] + rx, from[1] + ry, angle, side);
  const shift = findShift(cut(a, px, py, 0, side), moved, {
    fade: true,
    whitening: 0.7,
    parts,
  });
  if (shift.peak < MIN_PEAK || shift.secondPeak > MAX_SECOND_PEAK || Math.hypot(shift.x, shift.y) > side / 2)
    return undefined;
  return { from, to: [p + shift.x, q + shift.y], weight: shift.peak };
}

/** A square about a middle, turned by an angle; by Catmull–Rom weights where it does not fall on pixels. */
function cut(
  { width, height, density }: JoinPlane,
  cx: number,
  cy: number,
  angle: number,
  side: number,
): RegisterPlane {
  const data = new Float32Array(side * side);
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const row = (y: number): number => clamp(y, 0, height - 1) * width;
  for (let v = 0; v < side; v++)
    for (let u = 0; u < side; u++) {
      const [du, dv] = [u - side / 2, v - side / 2];
      // Seen from the first scan the second is turned by the angle, so its samples are looked up turned back.
      const [x, y] = [cx + c * du + s * dv, cy - s * du + c * dv];
      const [i, j] = [Math.floor(x), Math.floor(y)];
      const [fx, fy] = [x - i, y - j];
      if (fx === 0 && fy === 0) {
        data[v * side + u] = density[row(j) + clamp(i, 0, width - 1)];
        continue;
      }
      const [wx, wy] = [catmullRom(fx), catmullRom(fy)];
      let sum = 0;
      for (let n = 0; n < 4; n++) {
        const from = row(j - 1 + n);
        let along = 0;
        for (let m = 0; m < 4; m++) along += wx[m] * density[from + clamp(i - 1 + m, 0, width - 1)];
        sum += wy[n] * along;
      }
      data[v * side + u] = sum;
    }
  return { width: side, height: side, data };
}

/** Weights of four neighbours (E. Catmull, R. Rom 1974), `t` past the second. */
export const catmullRom = (t: number): [number, number, number, number] => [
  ((2 - t) * t - 1) * t * 0.5,
  ((3 * t - 5) * t * t + 2) * 0.5,
  ((4 - 3 * t) * t + 1) * t * 0.5,
  (t - 1) * t * t * 0.5,
];

/** The largest set of matches whose shifts are what one shift and a small rotation allow. */
function consensus(all: readonly Match[]): Match[] {
  let best: Match[] = [];
  for (const one of all) {
    const near = all.filter((m) => {
      const far = Math.hypot(m.from[0] - one.from[0], m.from[1] - one.from[1]);
      const [dx, dy] = [0, 1].map((k) => m.to[k] - m.from[k] - one.to[k] + one.from[k]);
      return Math.hypot(dx, dy) < 1.5 + MAX_ROTATION * far;
    });
    if (near.length > best.length) best = near;
  }
  return best;
}

export const distance = ({ from, to }: Match, { x, y, angle }: RigidPlace): number => {
  const [p, q] = onFirst(...from, x, y, angle);
  return Math.hypot(p - to[0], q - to[1]);
};

/** Rotation and shift by least squares; patches far off are left out and the fit repeated. */
function rigid(all: readonly Match[]): (RigidPlace & { readonly matches: readonly Match[] }) | undefined {
  let kept = [...all];
  for (let round = 0; round < 8; round++) {
    if (kept.length < MIN_PATCHES) return undefined;
    const total = kept.reduce((p, m) => p + m.weight, 0);
    const mean = (of: (m: Match) => number): number => kept.reduce((p, m) => p + m.weight * of(m), 0) / total;
    const [ux, uy] = [mean((m) => m.from[0]), mean((m) => m.from[1])];
    const [px, py] = [mean((m) => m.to[0]), mean((m) => m.to[1])];
    let [dot, cross] = [0, 0];
    for (const m of kept) {
      const [a, b, p, q] = [m.from[0] - ux, m.from[1] - uy, m.to[0] - px, m.to[1] - py];
      dot += m.weight * (a * p + b * q);
      cross += m.weight * (a * q - b * p);
    }
    const angle = Math.atan2(cross, dot);
    const [ox, oy] = onFirst(ux, uy, 0, 0, angle);
    const fit = { x: px - ox, y: py - oy, angle };
    const off = kept.map((m) => distance(m, fit));
    const reach = Math.max(0.15, 3 * median(off));
    if (off.every((d) => d <= reach)) return { ...fit, matches: kept };
    kept = kept.filter((_, i) => off[i] <= reach);
  }
  return undefined;
}
