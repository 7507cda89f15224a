/** Network adjustment against published and independent solutions, and with observations that are wrong. */
import { describe, expect, it } from "vitest";
import {
  adjustDifferences,
  adjustPlaces,
  type Difference,
  type NetworkPair,
} from "../../../../../extension/engine/image/join/adjust.ts";
import type { RigidPlace } from "../../../../../extension/engine/image/join/match.ts";
import { fromFirst, onFirst } from "../../../../../extension/engine/image/join/place.ts";
import { random } from "../../../../witness/random.ts";

describe("differences between points", () => {
  // Source: levelling network of G. Strang, K. Borre, Linear Algebra, Geodesy, and GPS (1997), heights in metres: A, B and C
  // are known, five differences are observed over lengths in kilometres, weights are their inverses. The sum of squares of
  // the residuals, each over its standard error of 6 mm · √km, is published as 4.636 (a survey program's listing of this
  // network); the heights of E and F are those that numpy 2.4.6's lstsq gives for the same weights.
  it("are adjusted as in a published levelling network", () => {
    const [A, B, C, E, F] = [0, 1, 2, 3, 4];
    const observed = [
      [A, E, 0.732, 0.97],
      [A, F, 1.978, 1.002],
      [B, E, 0.42, 1.07],
      [C, F, 0.988, 1.11],
      [E, F, 1.258, 0.89],
    ] as const;
    const differences = observed.map(([from, to, value, km]): Difference => ({ from, to, value, weight: 1 / km }));
    const heights = adjustDifferences(
      5,
      differences,
      new Map([
        [A, 10.021],
        [B, 10.321],
        [C, 11.002],
      ]),
    );
    expect(heights[E]).toBeCloseTo(10.7445026, 6);
    expect(heights[F]).toBeCloseTo(11.9976195, 6);
    const squares = observed.map(
      ([from, to, value, km]) => (heights[to]! - heights[from]! - value) ** 2 / (0.006 ** 2 * km),
    );
    expect(squares.reduce((p, v) => p + v, 0)).toBeCloseTo(4.636, 3);
  });

  it("fail where a point hangs on nothing", () => {
    expect(() => adjustDifferences(3, [{ from: 0, to: 1, value: 1, weight: 1 }], new Map([[0, 0]]))).toThrow(
      RangeError,
    );
  });
});

/** A grid of scans, and pairs of neighbours whose patches are off by `noise` px. */
function network(rows: number, columns: number, noise: number, seed: number) {
  const next = random(seed);
  const [wide, high, step] = [600, 400, 0.7];
  const truth = Array.from({ length: rows * columns }, (_, i): RigidPlace => {
    if (i === 0) return { x: 0, y: 0, angle: 0 };
    const [row, column] = [Math.floor(i / columns), i % columns];
    return {
      x: column * wide * step + next.between(-20, 20),
      y: row * high * step + next.between(-20, 20),
      angle: next.between(-0.01, 0.01),
    };
  });
  const pairs: NetworkPair[] = [];
  for (let a = 0; a < truth.length; a++)
    for (let b = a + 1; b < truth.length; b++) {
      const isBeside = b === a + 1 && b % columns !== 0;
      const isLeft = b === a + columns - 1 && a % columns !== 0;
      const isAcross = isLeft || (b === a + columns + 1 && b % columns !== 0);
      if (!isBeside && !isAcross && b !== a + columns) continue;
      const matches = Array.from({ length: isAcross ? 6 : 24 }, () => {
        const x = next.between(isLeft ? wide - 150 : 10, (isBeside || isAcross) && !isLeft ? 150 : wide - 20);
        const y = next.between(10, isBeside ? high - 20 : 100);
        const on = onFirst(x, y, truth[b]!.x, truth[b]!.y, truth[b]!.angle);
        const [p, q] = fromFirst(...on, truth[a]!.x, truth[a]!.y, truth[a]!.angle);
        const to = [p + noise * next.normal(), q + noise * next.normal()] as const;
        return { from: [x, y] as const, to, weight: 1 };
      });
      const [px, py] = fromFirst(truth[b]!.x, truth[b]!.y, truth[a]!.x, truth[a]!.y, truth[a]!.angle);
      pairs.push({ a, b, matches, place: { x: px, y: py, angle: truth[b]!.angle - truth[a]!.angle } });
    }
  return { truth, pairs };
}

/** Largest distance of a scan's corners from where they belong. */
function worst(places: readonly (RigidPlace | undefined)[], truth: readonly RigidPlace[]): number {
  const off = truth.flatMap((t, i) =>
    [
      [0, 0],
      [600, 0],
      [0, 400],
      [600, 400],
    ].map(([u, v]) => {
      const place = places[i]!;
      const [x, y] = onFirst(u!, v!, place.x, place.y, place.angle);
      const [p, q] = onFirst(u!, v!, t.x, t.y, t.angle);
      return Math.hypot(x - p, y - q);
    }),
  );
  return Math.max(...off);
}

describe("places of scans", () => {
  // Source: scipy 1.17.1, optimize.least_squares with its defaults (trust region, finite differences) on the same residuals.
  it("are those of an independent solver", () => {
    // Scans a and b, a patch's middle on b, and where it was found on a, 0.02 px off in some direction.
    // oxfmt-ignore
    const observed = [
    [0, 1, 168.05, 184.46, 588.6208, 178.9432],
    [0, 1, 42.98, 39.59, 464.145, 33.5566],
    [0, 1, 31.55, 322.99, 451.5669, 316.8952],
    [0, 1, 2.98, 132.02, 423.7718, 125.8436],
    [0, 2, 330.63, 53.62, 339.0387, 335.3209],
    [0, 2, 50.06, 57.91, 58.4959, 341.3177],
    [0, 2, 464.33, 70.09, 472.8434, 350.9873],
    [0, 2, 182.34, 15.96, 190.5381, 298.5852],
    [1, 3, 366.24, 111.9, 376.6006, 398.5575],
    [1, 3, 279.21, 67.88, 289.6903, 354.2202],
    [1, 3, 42.37, 6.71, 53.0713, 292.2169],
    [1, 3, 226.53, 102.83, 236.8864, 388.9917],
    [2, 3, 141.2, 192.67, 561.3892, 192.6071],
    [2, 3, 74.14, 83.03, 495.8443, 82.0803],
    [2, 3, 143.98, 148.52, 564.7804, 148.5103],
    [2, 3, 141.19, 338.02, 559.4401, 337.9527],
    [1, 2, 541.92, 71.3, 130.5854, 357.428],
    [1, 2, 460.65, 103.32, 49.609, 390.2366],
    [1, 2, 584.29, 64.99, 172.8814, 350.6773],
    [1, 2, 522.72, 81.32, 111.47, 367.6621],
    ] as const;
    const pairs = [
      [0, 1],
      [0, 2],
      [1, 3],
      [2, 3],
      [1, 2],
    ].map(([a, b]): NetworkPair => {
      const own = observed.filter((o) => o[0] === a && o[1] === b);
      const [first] = own;
      const place = { x: first![4] - first![2], y: first![5] - first![3], angle: 0 };
      const matches = own.map(([, , u, v, p, q]) => ({ from: [u, v] as const, to: [p, q] as const, weight: 1 }));
      return { a: a!, b: b!, place, matches };
    });
    const { places, wrong } = adjustPlaces(4, pairs);
    expect(wrong).toEqual([]);
    // oxfmt-ignore
    const solved = [421.3171982, -6.2024281, 0.0040283, 8.0994853, 283.7066469, -0.0060225, 430.8997941, 279.2121819, 0.0075022];
    places.slice(1).forEach((place, i) => {
      expect(place!.x).toBeCloseTo(solved[3 * i]!, 3);
      expect(place!.y).toBeCloseTo(solved[3 * i + 1]!, 3);
      expect(place!.angle).toBeCloseTo(solved[3 * i + 2]!, 6);
    });
  });

  it("are exact where the observations are", () => {
    const { truth, pairs } = network(3, 3, 0, 1);
    const { places, wrong } = adjustPlaces(9, pairs);
    expect(wrong).toEqual([]);
    expect(worst(places, truth)).toBeLessThan(1e-3);
  });

  it.each([2, 3])("do not drift around loops (seed %i)", (seed) => {
    const { truth, pairs } = network(4, 5, 0.05, seed);
    const { places } = adjustPlaces(20, pairs);
    expect(worst(places, truth)).toBeLessThan(0.3);
  });

  it.each([0, 3, 7, 11])("hold against a pair that is wrong (number %i)", (bad) => {
    const { truth, pairs } = network(3, 3, 0.03, 4);
    const moved = pairs.map((pair, k) => {
      if (k !== bad) return pair;
      const matches = pair.matches.map((m) => ({ ...m, to: [m.to[0] + 40, m.to[1] - 25] as const }));
      return { ...pair, matches, place: { ...pair.place, x: pair.place.x + 40, y: pair.place.y - 25 } };
    });
    const { places, wrong } = adjustPlaces(9, moved);
    expect(wrong.map(({ a, b }) => [a, b])).toEqual([[pairs[bad]!.a, pairs[bad]!.b]]);
    expect(worst(places, truth)).toBeLessThan(0.2);
  });

  it("are unknown where no pair leads", () => {
    const { pairs } = network(2, 2, 0, 5);
    const { places } = adjustPlaces(
      4,
      pairs.filter(({ b }) => b !== 3),
    );
    expect(places.map((place) => place !== undefined)).toEqual([true, true, true, false]);
  });
});
