/** The falloff of light and lens, fitted on the base that the roll's scans show. */
import { solveLinear } from "../math/least-squares.ts";
import { median } from "../math/statistics.ts";
import type { Falloff } from "../types.ts";
import type { BaseCell } from "./base-cells.ts";

export interface FalloffFit extends Falloff {
  /** Brightest over darkest place of the scan by the model, EV. */
  readonly span: number;
  /** Largest standard error of the model over the scan, against its mean over the scan, EV. */
  readonly error: number;
  /** Whether clear film is seen along the upper or lower side and along the left or right one: else a bow stays hidden. */
  readonly covered: boolean;
  /** Cells that count, of how many scans. */
  readonly cells: number;
  readonly scans: number;
}

/** Terms of the model: a and b of a·r² + b·r⁴, c of c·(x² − y²), to the right, down. */
const TERMS = 5;
const basis = ({ x, y }: { readonly x: number; readonly y: number }): number[] => {
  const r2 = x * x + y * y;
  return [r2, r2 * r2, x * x - y * y, x, y];
};
/**
 * What is expected of the terms before anything is measured, standard deviations in EV: it counts where the base shows
 * too little, keeps the second radial term small there, and makes the error honest.
 */
const EXPECTED = [1, 0.25, 0.3, 0.3, 0.3] as const;
/** Fewer cells of a scan, or in all, tell nothing. */
const [MIN_SCAN_CELLS, MIN_CELLS] = [40, 160];
/** Tukey's bisquare, standard deviations; the least deviation of a cell, EV. */
const [TUKEY, MIN_DEVIATION] = [4.685, 0.004];
/** Cells overlap, and share the base's own unevenness: one in so many is independent. */
const DEPENDENT = 40;
/** What no such model describes, as a part of the span: set on the tuning roll. */
const MISFIT = 0.05;
const ROUNDS = 12;

/**
 * Lays the model through the clear film of all scans; each scan has a level of its own, so exposures and the film's
 * density along the roll make no difference. By robust least squares (Tukey's bisquare): fogged edges and letters on
 * the rebate are left out. The error joins that of the fit with how far the scans contradict one another (jackknife).
 * @param aspect width over height of the scans
 * @returns undefined where too little clear film is in view
 */
export function fitFalloff(scans: readonly (readonly BaseCell[])[], aspect: number): FalloffFit | undefined {
  const used = scans.filter((cells) => cells.length >= MIN_SCAN_CELLS);
  if (used.reduce((sum, cells) => sum + cells.length, 0) < MIN_CELLS) return undefined;
  const whole = fitOnce(used);
  const grid = placesOf(aspect);
  const others = used.length < 3 ? [] : used.map((_, left) => fitOnce(used.filter((__, i) => i !== left)).terms);
  const centred = (of: (place: number[]) => number): number[] => {
    const values = grid.map(of);
    const mean = values.reduce((a, b) => a + b, 0) / values.length;
    return values.map((v) => v - mean);
  };
  const jackknife = grid.map(() => 0);
  for (const terms of others) {
    const off = centred((place) => place.reduce((sum, v, k) => sum + v * (terms[k] - whole.terms[k]), 0));
    off.forEach((v, i) => (jackknife[i] += (v * v * (others.length - 1)) / others.length));
  }
  const middle = grid[0].map((_, k) => grid.reduce((sum, place) => sum + place[k], 0) / grid.length);
  const errors = grid.map((place, i) => {
    const off = place.map((v, k) => v - middle[k]);
    const variance = off.reduce((sum, v, p) => sum + off.reduce((s, w, q) => s + v * w * whole.covariance[p][q], 0), 0);
    return Math.sqrt(Math.max(0, variance) + jackknife[i]);
  });
  const [a, b, oval, right, down] = whole.terms;
  const model = grid.map((place) => place.reduce((sum, v, k) => sum + v * whole.terms[k], 0));
  const span = Math.max(...model) - Math.min(...model);
  return {
    radial: [a, b],
    oval,
    gradient: [right, down],
    span,
    error: Math.hypot(Math.max(...errors), MISFIT * span),
    covered: isCovered(used.flat(), aspect),
    cells: whole.cells,
    scans: used.length,
  };
}

/** Parts that a side is cut into, and how many of them must show clear film. */
const [PARTS, SEEN] = [8, 4];

function isCovered(cells: readonly BaseCell[], aspect: number): boolean {
  const unit = Math.hypot(aspect, 1) / 2;
  const [upright, level] = [new Set<number>(), new Set<number>()];
  for (const { x, y } of cells) {
    const [u, v] = [(x * unit) / aspect, y * unit];
    if (Math.abs(u) > Math.abs(v)) upright.add(Math.floor((v + 0.5) * PARTS));
    else level.add(Math.floor((u + 0.5) * PARTS));
  }
  return upright.size >= SEEN && level.size >= SEEN;
}

/** Bases of places all over a scan. */
function placesOf(aspect: number): number[][] {
  const unit = Math.hypot(aspect, 1) / 2;
  const steps = Array.from({ length: 13 }, (_, i) => i / 12 - 0.5);
  return steps.flatMap((v) => steps.map((u) => basis({ x: (u * aspect) / unit, y: v / unit })));
}

interface Once {
  readonly terms: number[];
  readonly covariance: number[][];
  readonly cells: number;
}

function fitOnce(scans: readonly (readonly BaseCell[])[]): Once {
  const rows = scans.map((cells) => cells.map((cell) => ({ at: basis(cell), light: cell.light })));
  let weights = rows.map((cells) => cells.map(() => 1));
  let deviation = 0.05;
  let terms: number[] = [];
  let normal: number[][] = [];
  for (let round = 0; round < ROUNDS; round++) {
    normal = Array.from({ length: TERMS }, () => Array.from({ length: TERMS }, () => 0));
    const right = Array.from({ length: TERMS }, () => 0);
    const levels = rows.map((cells, s) => weightedMeans(cells, weights[s]));
    const per = 1 / (deviation * deviation * DEPENDENT);
    rows.forEach((cells, s) =>
      cells.forEach(({ at, light }, i) => {
        const w = weights[s][i] * per;
        if (w === 0) return;
        const off = at.map((v, k) => v - levels[s].at[k]);
        for (let p = 0; p < TERMS; p++) {
          right[p] += w * off[p] * (light - levels[s].light);
          for (let q = 0; q < TERMS; q++) normal[p][q] += w * off[p] * off[q];
        }
      }),
    );
    for (let p = 0; p < TERMS; p++) normal[p][p] += 1 / EXPECTED[p] ** 2;
    terms = solveLinear(normal, right);
    const residuals = rows.map((cells) => {
      const own = cells.map(({ at, light }) => light - at.reduce((sum, v, k) => sum + v * terms[k], 0));
      const level = median(own);
      return own.map((v) => v - level);
    });
    deviation = Math.max(MIN_DEVIATION, 1.4826 * median(residuals.flat().map(Math.abs)));
    weights = residuals.map((own) => own.map((v) => Math.max(0, 1 - (v / (TUKEY * deviation)) ** 2) ** 2));
  }
  const unit = Array.from({ length: TERMS }, (_, k) => k);
  const columns = unit.map((k) =>
    solveLinear(
      normal,
      unit.map((p) => (p === k ? 1 : 0)),
    ),
  );
  return { terms, covariance: columns, cells: weights.flat().filter((w) => w > 0.1).length };
}

/** Weighted means of a scan's cells: its own level goes out with them. */
function weightedMeans(
  cells: readonly { readonly at: readonly number[]; readonly light: number }[],
  weights: readonly number[],
) {
  const sum = Math.max(
    1e-12,
    weights.reduce((a, b) => a + b, 0),
  );
  const at = Array.from({ length: TERMS }, (_, k) => cells.reduce((s, c, i) => s + weights[i] * c.at[k], 0) / sum);
  return { at, light: cells.reduce((s, c, i) => s + weights[i] * c.light, 0) / sum };
}

/** The fit as a recipe states it, to thousandths of an EV. */
export function falloffTerms({ radial: [a, b = 0], oval = 0, gradient: [right, down] }: Falloff): Required<Falloff> {
  const round = (v: number): number => Number(v.toFixed(3)) || 0;
  return { radial: [round(a), round(b)], oval: round(oval), gradient: [round(right), round(down)] };
}
