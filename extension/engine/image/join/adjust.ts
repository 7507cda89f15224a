/**
 * Network adjustment: unknowns of many scans from measured differences between pairs of them, all at once, by least
 * squares (method of observation equations; E. M. Mikhail, F. Ackermann, Observations and Least Squares, 1976).
 */
import { solveLinear } from "../../math/least-squares.ts";
import { median } from "../../math/statistics.ts";
import type { Match, RigidPlace } from "./match.ts";
import { onFirst } from "./place.ts";

/** A measured difference: value of `to` less value of `from`. */
export interface Difference {
  readonly from: number;
  readonly to: number;
  readonly value: number;
  /** Inverse of its variance, in any unit. */
  readonly weight: number;
}

/**
 * Values of `count` points from differences between them; the fixed ones keep theirs.
 * @throws RangeError where a point is joined to no fixed one
 */
export function adjustDifferences(
  count: number,
  differences: readonly Difference[],
  fixed: ReadonlyMap<number, number>,
): number[] {
  const normal = Array.from({ length: count }, () => Array.from({ length: count }, () => 0));
  const right = Array.from({ length: count }, () => 0);
  for (const { from, to, value, weight } of differences) {
    normal[from][from] += weight;
    normal[to][to] += weight;
    normal[from][to] -= weight;
    normal[to][from] -= weight;
    right[from] -= weight * value;
    right[to] += weight * value;
  }
  for (const [point, value] of fixed) {
    for (let i = 0; i < count; i++) {
      if (i !== point) right[i] -= normal[i][point] * value;
      normal[i][point] = normal[point][i] = 0;
    }
    normal[point][point] = 1;
    right[point] = value;
  }
  return solveLinear(normal, right);
}

/** A pair of scans with patches that both show: `from` on scan `b`, `to` on scan `a`, each in its own pixels. */
export interface NetworkPair {
  readonly a: number;
  readonly b: number;
  readonly place: RigidPlace;
  readonly matches: readonly Match[];
}

export interface AdjustedNetwork<P extends NetworkPair> {
  /** Scan 0 lies at 0, 0, 0; undefined where a scan is joined to it by no pair. */
  readonly places: readonly (RigidPlace | undefined)[];
  /** Pairs that agree with the others. */
  readonly pairs: readonly (P & { readonly off: number })[];
  /** Pairs that the others contradict. */
  readonly wrong: readonly P[];
}

const ROUNDS = 30;
/** Pixels that a patch may be off, and shares of the patches' own spread, before it counts less (P. J. Huber 1964). */
const [MIN_HUBER, HUBER] = [0.05, 1.5];
/** A pair is wrong whose patches are off by more: pixels, and times the median of all pairs. */
const [WRONG_PIXELS, WRONG_TIMES] = [1.5, 8];

/**
 * Places of all scans at once, so that what every patch of every pair says agrees as well as it can: nothing adds up
 * around a loop. Pairs are weighed by the sum of their distances first, not of the squares, which a pair that is wrong
 * cannot pull; pairs that stay far off are left out, and the rest is solved by least squares.
 */
export function adjustPlaces<P extends NetworkPair>(count: number, given: readonly P[]): AdjustedNetwork<P> {
  let trial = byDistances(count, given);
  const wrong: P[] = [];
  for (;;) {
    const { used, off } = trial;
    const limit = Math.max(WRONG_PIXELS, WRONG_TIMES * (off.length ? median(off) : 0));
    // One that is wrong pulls its neighbours along: of those that stand out, the one without which the rest agree best.
    const suspects = used
      .filter((_, k) => off[k]! > limit)
      .toSorted((p, q) => off[used.indexOf(q)]! - off[used.indexOf(p)]!);
    const without = suspects.slice(0, MAX_SUSPECTS).map((pair) => ({
      pair,
      ...byDistances(
        count,
        used.filter((other) => other !== pair),
      ),
    }));
    // In a loop of which any one may be wrong, it is the one that fewest patches speak for.
    const isSettled = ({ off: rest }: (typeof without)[number]): number => Number(Math.max(0, ...rest) <= limit);
    const [best] = without.toSorted(
      (p, q) =>
        p.left - q.left ||
        isSettled(q) - isSettled(p) ||
        (isSettled(p) ? strengthOf(p.pair) - strengthOf(q.pair) : p.total - q.total),
    );
    if (!best) break;
    wrong.push(best.pair);
    trial = best;
  }
  const places = iterate(trial.places, trial.used, "squares");
  return { places, pairs: trial.used.map((pair) => ({ ...pair, off: offOf(pair, places) })), wrong };
}

const strengthOf = ({ matches }: NetworkPair): number => matches.reduce((sum, { weight }) => sum + weight, 0);

/** Pairs that are left out for a trial. */
const MAX_SUSPECTS = 8;

/** Places by the sum of distances; `left` scans have none then. */
function byDistances<P extends NetworkPair>(count: number, pairs: readonly P[]) {
  const start = spanned(count, pairs);
  const used = pairs.filter(({ a }) => start[a] !== undefined);
  const places = iterate(start, used, "distances");
  const off = used.map((pair) => offOf(pair, places));
  const left = places.filter((place) => place === undefined).length;
  return { used, places, off, left, total: off.reduce((p, v) => p + v, 0) };
}

/** Root mean square of what a pair's patches are off by. */
function offOf({ a, b, matches }: NetworkPair, places: readonly (RigidPlace | undefined)[]): number {
  const sum = matches.reduce((p, m) => p + distanceOf(m, places[a]!, places[b]!) ** 2, 0);
  return Math.sqrt(sum / matches.length);
}

function distanceOf({ from, to }: Match, first: RigidPlace, second: RigidPlace): number {
  const [p, q] = onFirst(...to, first.x, first.y, first.angle);
  const [u, v] = onFirst(...from, second.x, second.y, second.angle);
  return Math.hypot(p - u, q - v);
}

/** Places by way of the pairs with most patches, from the first scan on. */
function spanned(count: number, pairs: readonly NetworkPair[]): (RigidPlace | undefined)[] {
  const places: (RigidPlace | undefined)[] = Array.from({ length: count }, () => undefined);
  places[0] = { x: 0, y: 0, angle: 0 };
  const sorted = pairs.toSorted((p, q) => q.matches.length - p.matches.length);
  for (;;) {
    const next = sorted.find(({ a, b }) => (places[a] === undefined) !== (places[b] === undefined));
    if (!next) return places;
    const { a, b, place } = next;
    const known = places[a];
    if (known) places[b] = chained(known, place);
    else {
      const [x, y] = onFirst(-place.x, -place.y, 0, 0, -place.angle);
      places[a] = chained(places[b]!, { x, y, angle: -place.angle });
    }
  }
}

function chained(first: RigidPlace, { x, y, angle }: RigidPlace): RigidPlace {
  const [p, q] = onFirst(x, y, first.x, first.y, first.angle);
  return { x: p, y: q, angle: first.angle + angle };
}

/** Gauss–Newton steps; weights anew before each. */
function iterate(
  start: readonly (RigidPlace | undefined)[],
  pairs: readonly NetworkPair[],
  by: "distances" | "squares",
): (RigidPlace | undefined)[] {
  let places = [...start];
  const solved = places.flatMap((place, i) => (i > 0 && place ? [i] : []));
  if (solved.length === 0) return places;
  const column = new Map(solved.map((scan, k) => [scan, 3 * k]));
  for (let round = 0; round < ROUNDS; round++) {
    const step = solveStep(places, pairs, column, by);
    let moved = 0;
    places = places.map((place, i) => {
      const k = column.get(i);
      if (!place || k === undefined) return place;
      moved = Math.max(moved, Math.hypot(step[k], step[k + 1]));
      return { x: place.x + step[k], y: place.y + step[k + 1], angle: place.angle + step[k + 2] / UNIT };
    });
    if (moved < 1e-4) break;
  }
  return places;
}

/** Rotations are solved for as shifts at this distance, in pixels, so that all unknowns are of one size. */
const UNIT = 1000;

function solveStep(
  places: readonly (RigidPlace | undefined)[],
  pairs: readonly NetworkPair[],
  column: ReadonlyMap<number, number>,
  by: "distances" | "squares",
): number[] {
  const n = 3 * column.size;
  const normal = Array.from({ length: n }, () => Array.from({ length: n }, () => 0));
  const right = Array.from({ length: n }, () => 0);
  const all =
    by === "squares" ? pairs.flatMap((p) => p.matches.map((m) => distanceOf(m, places[p.a]!, places[p.b]!))) : [];
  const limit = Math.max(MIN_HUBER, HUBER * (all.length ? median(all) : 0));
  for (const pair of pairs) {
    const [first, second] = [places[pair.a]!, places[pair.b]!];
    const share = by === "distances" ? 1 / (Math.max(0.3, offOf(pair, places)) * pair.matches.length) : 1;
    const [i, j] = [column.get(pair.a), column.get(pair.b)];
    for (const match of pair.matches) {
      const [p, q] = onFirst(...match.to, 0, 0, first.angle);
      const [u, v] = onFirst(...match.from, 0, 0, second.angle);
      const rest = [second.x + u - first.x - p, second.y + v - first.y - q];
      const far = Math.hypot(rest[0], rest[1]);
      const weight = share * match.weight * (by === "squares" && far > limit ? limit / far : 1);
      // Slopes of the rest in x and in y: by the second scan's unknowns, and less those of the first.
      const slopes: [number | undefined, readonly number[]][] = [
        [j, [1, 0, -v / UNIT, 0, 1, u / UNIT]],
        [i, [-1, 0, q / UNIT, 0, -1, -p / UNIT]],
      ];
      for (const [k, s] of slopes) {
        if (k === undefined) continue;
        for (let e = 0; e < 3; e++) {
          right[k + e] -= weight * (s[e] * rest[0] + s[e + 3] * rest[1]);
          for (const [l, t] of slopes) {
            if (l === undefined) continue;
            for (let f = 0; f < 3; f++) normal[k + e][l + f] += weight * (s[e] * t[f] + s[e + 3] * t[f + 3]);
          }
        }
      }
    }
  }
  return solveLinear(normal, right);
}
