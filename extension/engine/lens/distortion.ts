/** Distortion of the lens, measured on edges that were straight. */
import { median } from "../math/statistics.ts";
import type { Side } from "../types.ts";
import { magnificationOf } from "./radial.ts";
import type { EdgePlaces } from "./straight-edges.ts";

export interface Distortion {
  /** Terms of k1·r² + k2·r⁴ (radial.ts). */
  readonly k1: number;
  readonly k2: number;
  /** Distortion in the corner (r = 1) and its standard error, parts of the radius. */
  readonly corner: number;
  readonly error: number;
  /** Places that count, on how many edges. */
  readonly places: number;
  readonly edges: number;
}

/** Fewer places make no edge; edges on fewer sides tell nothing sure; an edge must be this long, halves of the diagonal. */
const [MIN_PLACES, MIN_EDGES, MIN_LENGTH] = [24, 2, 0.5];
/** Places farther from their edge's middle course than this are the picture's own lines, halves of the diagonal. */
const FARTHEST = 0.02;
/** Tukey's bisquare, standard deviations. */
const TUKEY = 4.685;
/** A second term is fitted where it is so many times its standard error. */
const SECOND_TERM = 5;

/**
 * Fits the distortion by which all edges of all scans become straight: one lens has drawn them, and each edge lies
 * where it likes. The scale at the middle is free, as everywhere: distortion is counted against it.
 * @returns undefined where too little of the edges is seen
 */
export function fitDistortion(scans: readonly (readonly EdgePlaces[])[]): Distortion | undefined {
  const edges = scans.flat().flatMap(usableEdge);
  if (edges.length < MIN_EDGES || new Set(edges.map(({ side }) => side)).size < MIN_EDGES) return undefined;
  const one = fitTerms(edges, 1);
  const two = fitTerms(edges, 2);
  return two && Math.abs(two.k2) > SECOND_TERM * two.error2 && two.error < 2 * SMALL ? two : one;
}

/** A standard error in the corner that counts as small. */
const SMALL = 0.0002;

/** An edge as a course: its places across as a function of along. */
interface Edge {
  readonly side: Side;
  readonly upright: boolean;
  readonly x: readonly number[];
  readonly y: readonly number[];
}

function usableEdge({ side, x, y }: EdgePlaces): Edge[] {
  const upright = side === "left" || side === "right";
  const [along, across] = upright ? [y, x] : [x, y];
  if (along.length < MIN_PLACES) return [];
  const [slope, intercept] = resistantLine(along, across);
  const near = along.flatMap((t, i) => (Math.abs(across[i] - intercept - slope * t) < FARTHEST ? [i] : []));
  const reach = near.map((i) => along[i]);
  if (near.length < MIN_PLACES || Math.max(...reach) - Math.min(...reach) < MIN_LENGTH) return [];
  return [{ side, upright, x: near.map((i) => x[i]), y: near.map((i) => y[i]) }];
}

/** A line through the medians of an edge's first and last third. */
function resistantLine(along: readonly number[], across: readonly number[]): [slope: number, intercept: number] {
  const third = Math.max(1, Math.floor(along.length / 3));
  const middle = (values: readonly number[], from: number): number => median(values.slice(from, from + third));
  const [t0, t1] = [middle(along, 0), middle(along, along.length - third)];
  const [a0, a1] = [middle(across, 0), middle(across, along.length - third)];
  const slope = (a1 - a0) / (t1 - t0);
  return [slope, median(across.map((a, i) => a - slope * along[i]))];
}

interface Terms extends Distortion {
  readonly error2: number;
}

function fitTerms(edges: readonly Edge[], count: 1 | 2): Terms {
  let k = [0, 0];
  let weights = edges.map(({ x }) => x.map(() => 1));
  let result: Terms | undefined;
  for (let round = 0; round < 15; round++) {
    const straightened = edges.map((edge) => straighten(edge, k));
    const systems = straightened.map((edge, e) => reduced(edge, weights[e]));
    const normal = [
      [0, 0],
      [0, 0],
    ];
    const right = [0, 0];
    systems.forEach(({ residual, slopes }, e) =>
      residual.forEach((r, i) => {
        for (let p = 0; p < count; p++) {
          right[p] += weights[e][i] * slopes[p][i] * r;
          for (let q = 0; q < count; q++) normal[p][q] += weights[e][i] * slopes[p][i] * slopes[q][i];
        }
      }),
    );
    const inverse = invertSmall(normal, count);
    const step = [0, 1].map((p) => inverse[p][0] * right[0] + inverse[p][1] * right[1]);
    k = [k[0] + step[0], k[1] + step[1]];
    const away = systems.map(({ residual, slopes }) =>
      residual.map((r, i) => Math.abs(r - step[0] * slopes[0][i] - step[1] * slopes[1][i])),
    );
    const scale = Math.max(1e-9, 1.4826 * median(away.flat()));
    weights = away.map((list) => list.map((d) => Math.max(0, 1 - (d / (TUKEY * scale)) ** 2) ** 2));
    // Places beside one another are read off the same grain and gate: a tenth of them is taken to be independent.
    const spread = scale * Math.sqrt(DEPENDENT);
    const variance = inverse[0][0] + 2 * inverse[0][1] + inverse[1][1];
    result = {
      k1: k[0],
      k2: k[1],
      corner: k[0] + k[1],
      error: spread * Math.sqrt(Math.max(0, variance)),
      error2: spread * Math.sqrt(Math.max(0, inverse[1][1])),
      places: weights.flat().filter((w) => w > 0.1).length,
      edges: edges.length,
    };
  }
  return result!;
}

/** Places that say the same thing once more, out of each that says something new. */
const DEPENDENT = 10;

/** Places of an edge with a distortion taken out: along, across, and how across changes with k1 and k2. */
interface Straightened {
  readonly along: readonly number[];
  readonly across: readonly number[];
  readonly slopes: readonly [readonly number[], readonly number[]];
}

function straighten({ upright, x, y }: Edge, [k1, k2]: readonly number[]): Straightened {
  const magnification = magnificationOf({ distortion: [k1, k2] }, 1);
  const [along, across] = [[] as number[], [] as number[]];
  const slopes: [number[], number[]] = [[], []];
  for (let i = 0; i < x.length; i++) {
    const drawn2 = x[i] * x[i] + y[i] * y[i];
    // The radius on the true picture that was drawn at this one.
    let r2 = drawn2;
    for (let n = 0; n < 6; n++) r2 = drawn2 / magnification(r2) ** 2;
    const by = 1 / magnification(r2);
    const [u, v] = [x[i] * by, y[i] * by];
    along.push(upright ? v : u);
    across.push(upright ? u : v);
    const at = upright ? u : v;
    slopes[0].push(at * r2);
    slopes[1].push(at * r2 * r2);
  }
  return { along, across, slopes };
}

/** Takes each edge's own straight line out of its course and of the slopes, by weighted least squares. */
function reduced({ along, across, slopes }: Straightened, weights: readonly number[]) {
  const project = (values: readonly number[]): number[] => {
    let [n, st, sv, stt, stv] = [0, 0, 0, 0, 0];
    values.forEach((v, i) => {
      const [w, t] = [weights[i], along[i]];
      n += w;
      st += w * t;
      sv += w * v;
      stt += w * t * t;
      stv += w * t * v;
    });
    const slope = (n * stv - st * sv) / Math.max(1e-12, n * stt - st * st);
    const intercept = (sv - slope * st) / Math.max(1e-12, n);
    return values.map((v, i) => v - intercept - slope * along[i]);
  };
  return { residual: project(across), slopes: [project(slopes[0]), project(slopes[1])] as const };
}

function invertSmall(m: readonly (readonly number[])[], count: 1 | 2): number[][] {
  if (count === 1)
    return [
      [m[0][0] > 0 ? 1 / m[0][0] : 0, 0],
      [0, 0],
    ];
  const determinant = m[0][0] * m[1][1] - m[0][1] * m[1][0];
  const by = determinant > 0 ? 1 / determinant : 0;
  return [
    [m[1][1] * by, -m[0][1] * by],
    [-m[1][0] * by, m[0][0] * by],
  ];
}

/** The fit as a recipe states it, to a tenth of a part in ten thousand. */
export const distortionTerms = ({ k1, k2 }: Distortion): readonly [number, number] => [
  Number(k1.toFixed(5)),
  Number(k2.toFixed(5)),
];
