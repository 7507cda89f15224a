/** Finds how the scans of one large frame lie to one another: in a row or a grid, in any order. */
import type { Rgb } from "../../types.ts";
import { adjustExposures } from "./exposures.ts";
import { adjustPlaces, type NetworkPair } from "./adjust.ts";
import { candidates, searchPlane } from "./find-pairs.ts";
import { matchPair, type PairMatch, type RigidPlace } from "./match.ts";
import { fromFirst, type JoinPlace, onFirst } from "./place.ts";
import type { JoinPlane } from "./plane.ts";

export interface JoinReading {
  /** By scan: its place on the first that is placed, in pixels of the planes; undefined where it belongs to no other. */
  readonly places: readonly (JoinPlace | undefined)[];
  /** Scans that overlap none of the others, by their number. */
  readonly apart: readonly number[];
  /** Overlaps that hold the scans together. */
  readonly overlaps: readonly JoinOverlap[];
  /** The worst overlap's, in pixels of the planes. */
  readonly residual: number;
}

/** Two scans that show the same. */
export interface JoinOverlap {
  readonly scans: readonly [number, number];
  /** Patches that agree, and their share of those that were compared, 0 … 1. */
  readonly patches: number;
  readonly agreeing: number;
  /** Root mean square of what the patches are off by once all scans have their places, in pixels of the planes. */
  readonly residual: number;
}

/** Sides of the square in which overlaps are looked for; the larger one for scans that the smaller one leaves apart. */
const SEARCH_SIDES = [512, 1024] as const;
/** Candidates of a pair that are tried. */
const TRIED = 3;

type Pair = NetworkPair & PairMatch;

/**
 * Measures where all scans lie and how they were exposed: pairs by correlation, made small; then patches all over every
 * overlap, each to a hundredth of a pixel; then all places and exposures at once by least squares over every overlap.
 *
 * @param checkpoint called between parts of the work, with what is done of it, 0 … 1
 */
export function measureJoin(planes: readonly JoinPlane[], checkpoint: (done: number) => void = () => {}): JoinReading {
  const pairs = new Map<string, Pair>();
  const attempt = (a: number, b: number, start: RigidPlace): boolean => {
    const match = matchPair(planes[a], planes[b], start);
    if (match) pairs.set(`${a} ${b}`, { ...match, a, b, place: match });
    return match !== undefined;
  };
  for (const [round, side] of SEARCH_SIDES.entries()) {
    const search = (isOpen: (a: number, b: number) => boolean): void =>
      findPairs(
        planes,
        side,
        (a, b) => !pairs.has(`${a} ${b}`) && isOpen(a, b),
        attempt,
        (done) => checkpoint(round === 0 ? 0.6 * done : 0.6),
      );
    const groups = groupsOf(planes.length, [...pairs.values()]);
    if (round === 0) search(() => true);
    else if (new Set(groups).size > 1) search((a, b) => groups[a] !== groups[b]);
  }
  const groups = groupsOf(planes.length, [...pairs.values()]);
  const members = largest(groups);
  checkpoint(0.7);

  // Pixels are counted from the first scan of the group; the network's own numbers are those of its members.
  const numberOf = new Map(members.map((scan, k) => [scan, k]));
  const network = () =>
    adjustPlaces(
      members.length,
      [...pairs.values()].flatMap((pair) => {
        const [a, b] = [numberOf.get(pair.a), numberOf.get(pair.b)];
        return a === undefined || b === undefined ? [] : [{ ...pair, a, b }];
      }),
    );
  let adjusted = network();
  // Overlaps that show too little to be found are found where the others say that they are, and all once more from there.
  for (const [i, a] of members.entries())
    for (const [j, b] of members.entries()) {
      const [first, second] = [adjusted.places[i], adjusted.places[j]];
      if (a >= b || !first || !second) continue;
      const start = between(first, second);
      const known = pairs.get(`${a} ${b}`);
      if (known && Math.hypot(known.x - start.x, known.y - start.y) < 1.5) continue;
      pairs.delete(`${a} ${b}`);
      if (isShared(planes[a], planes[b], start)) attempt(a, b, start);
      checkpoint(0.7 + (0.3 * i) / members.length);
    }
  adjusted = network();
  return reading(planes, members, adjusted);
}

function reading(
  planes: readonly JoinPlane[],
  members: readonly number[],
  { places, pairs }: ReturnType<typeof adjustPlaces<Pair>>,
): JoinReading {
  const exposures = adjustExposures(
    members.map((scan) => planes[scan]),
    places,
    pairs,
  );
  const placeOf = (scan: number): JoinPlace | undefined => {
    const k = members.indexOf(scan);
    const place = places[k];
    if (!place) return undefined;
    const ev: Rgb = exposures[k];
    return [place.x, place.y, (place.angle * 180) / Math.PI, ev];
  };
  const all = planes.map((_, scan) => placeOf(scan));
  return {
    places: all,
    apart: all.flatMap((place, scan) => (place ? [] : [scan])),
    overlaps: pairs.map(({ a, b, matches, agreeing, off }) => ({
      scans: [members[a], members[b]],
      patches: matches.length,
      agreeing,
      residual: off,
    })),
    residual: Math.max(0, ...pairs.map(({ off }) => off)),
  };
}

function findPairs(
  planes: readonly JoinPlane[],
  side: number,
  isOpen: (a: number, b: number) => boolean,
  attempt: (a: number, b: number, start: RigidPlace) => boolean,
  progress: (done: number) => void,
): void {
  const small = planes.map((plane) => searchPlane(plane, side));
  for (let a = 0; a < planes.length; a++) {
    for (let b = a + 1; b < planes.length; b++) {
      if (!isOpen(a, b)) continue;
      const found = candidates(small[a], small[b]).slice(0, TRIED);
      found.some(({ x, y }) => attempt(a, b, { x, y, angle: 0 }));
    }
    progress((a + 1) / planes.length);
  }
}

/** For each scan, the lowest number of those that pairs join it to. */
function groupsOf(count: number, pairs: readonly NetworkPair[]): number[] {
  const group = Array.from({ length: count }, (_, i) => i);
  for (const { a, b } of pairs) {
    const [low, high] = [Math.min(group[a], group[b]), Math.max(group[a], group[b])];
    for (let i = 0; i < count; i++) if (group[i] === high) group[i] = low;
  }
  return group;
}

/** Members of the largest group; of equal ones the one with the first scan. */
function largest(groups: readonly number[]): number[] {
  const sizes = groups.map((group) => groups.filter((other) => other === group).length);
  const wanted = groups[sizes.indexOf(Math.max(...sizes))];
  return groups.flatMap((group, scan) => (group === wanted ? [scan] : []));
}

/** The second scan's place on the first, from both places on a third. */
function between(first: RigidPlace, second: RigidPlace): RigidPlace {
  const [x, y] = fromFirst(second.x, second.y, first.x, first.y, first.angle);
  return { x, y, angle: second.angle - first.angle };
}

/** Least part of a side, in pixels, for which an overlap is worth comparing. */
const MIN_SHARED = 70;

/** Whether two scans at these places share enough for patches. */
function isShared(a: JoinPlane, b: JoinPlane, { x, y, angle }: RigidPlace): boolean {
  const corners = [
    [0, 0],
    [b.width, 0],
    [0, b.height],
    [b.width, b.height],
  ].map(([u, v]) => onFirst(u, v, x, y, angle));
  const [xs, ys] = [corners.map((c) => c[0]), corners.map((c) => c[1])];
  const wide = Math.min(a.width, Math.max(...xs)) - Math.max(0, Math.min(...xs));
  const high = Math.min(a.height, Math.max(...ys)) - Math.max(0, Math.min(...ys));
  return wide >= MIN_SHARED && high >= MIN_SHARED;
}
