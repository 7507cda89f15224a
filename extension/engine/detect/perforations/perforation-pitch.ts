/** Fits the pitch of a row of perforations to the edges of its holes. */
import { median } from "../../math/statistics.ts";
import { solveLinear } from "../../math/least-squares.ts";

/** An edge of a hole as one line along the film shows it; pixels. */
export interface HoleEdge {
  /** Number of the hole in its row. */
  readonly hole: number;
  /** Whether it is the hole's end rather than its start. */
  readonly end: boolean;
  /** Place of the line across the film. */
  readonly depth: number;
  /** Place of the edge along the line. */
  readonly at: number;
}

export interface PitchFit {
  readonly pitch: number;
  /** Standard deviation of `pitch`. */
  readonly deviation: number;
  readonly holes: number;
}

/** Edges farther from the fit than this many robust deviations, and than this part of the pitch, are dirt or a torn hole. */
const [OUTLIER, MIN_OUTLIER] = [3, 0.005];
const ROUNDS = 3;
const MIN_HOLES = 3;
/** Holes from which on a lens's distortion is fitted too. */
const MIN_FOR_DISTORTION = 6;

/**
 * at = start + end · length + hole · spacing + depth · lean + hole³ · distortion, by least squares, holes counted from the
 * row's middle. Where the row is tilted a line crosses the holes obliquely, and the pitch is the spacing times the tilt's
 * cosine.
 *
 * @returns the mean pitch over all holes in view; undefined where fewer than three are left, or nothing agrees
 */
export function fitPitch(edges: readonly HoleEdge[]): PitchFit | undefined {
  const numbers = edges.map((e) => e.hole);
  const middle = (Math.min(...numbers) + Math.max(...numbers)) / 2;
  let kept = edges.map((e) => ({ ...e, hole: e.hole - middle }));
  for (let round = 0; ; round++) {
    const holes = new Set(kept.map((e) => e.hole)).size;
    if (holes < MIN_HOLES) return undefined;
    const terms = holes < MIN_FOR_DISTORTION ? 4 : 5;
    const fit = solve(kept, terms);
    const off = (e: HoleEdge): number => e.at - rowOf(e, terms).reduce((a, v, k) => a + v * fit[k], 0);
    if (round === ROUNDS) {
      const half = Math.max(...kept.map((e) => Math.abs(e.hole)));
      const cosine = Math.cos(Math.atan(fit[3]));
      const pitch = fit[2] + (fit[4] ?? 0) * half ** 2;
      return { pitch: pitch * cosine, deviation: deviationOf(kept, off, terms) * cosine, holes };
    }
    const limit = Math.max(MIN_OUTLIER * fit[2], OUTLIER * 1.4826 * median(kept.map((e) => Math.abs(off(e)))));
    kept = kept.filter((e) => Math.abs(off(e)) <= limit);
  }
}

const rowOf = ({ hole, end, depth }: HoleEdge, terms: number): number[] =>
  [1, Number(end), hole, depth, hole ** 3].slice(0, terms);

/** Adding this to the diagonal keeps the equations solvable where all lines lie at one depth. */
const RIDGE = 1e-9;

function solve(edges: readonly HoleEdge[], terms: number): number[] {
  const normal = Array.from({ length: terms }, (_, r) =>
    Array.from({ length: terms }, (__, c) => (r === c ? RIDGE : 0)),
  );
  const right = Array.from({ length: terms }, () => 0);
  for (const edge of edges) {
    const row = rowOf(edge, terms);
    for (let r = 0; r < terms; r++) {
      for (let c = 0; c < terms; c++) normal[r][c] += row[r] * row[c];
      right[r] += row[r] * edge.at;
    }
  }
  return solveLinear(normal, right);
}

/** Standard deviation of the spacing. Lines of one hole share its errors, so each edge of a hole counts once. */
function deviationOf(edges: readonly HoleEdge[], off: (e: HoleEdge) => number, terms: number): number {
  const keys = [...new Set(edges.map((e) => 2 * e.hole + Number(e.end)))];
  const means = keys.map((key) => {
    const group = edges.filter((e) => 2 * e.hole + Number(e.end) === key);
    return { hole: group[0].hole, off: group.reduce((a, e) => a + off(e), 0) / group.length };
  });
  const middle = means.reduce((a, m) => a + m.hole, 0) / means.length;
  const spread = means.reduce((a, m) => a + (m.hole - middle) ** 2, 0);
  const variance = means.reduce((a, m) => a + m.off ** 2, 0) / Math.max(1, means.length - terms + 1);
  return Math.sqrt(variance / Math.max(spread, 1e-9));
}
