/** What brings the scans of a join to one exposure: ratios over every overlap, solved all at once. */
import { median } from "../../math/statistics.ts";
import type { Rgb } from "../../types.ts";
import { adjustDifferences, type Difference, type NetworkPair } from "./adjust.ts";
import type { RigidPlace } from "./match.ts";
import { fromFirst, onFirst } from "./place.ts";
import { type JoinPlane, TONE_STEP } from "./plane.ts";

/** Transmittances that count: not the holder, and not the bare light. */
const [MIN_TONE, MAX_TONE] = [0.004, 1.2];
/** Squares that both scans have to show. */
const MIN_SQUARES = 12;

/** EV per scan and channel that bring a scan to the first one's exposure; the first one's are 0. */
export function adjustExposures(
  planes: readonly JoinPlane[],
  places: readonly (RigidPlace | undefined)[],
  pairs: readonly NetworkPair[],
): Rgb[] {
  // A scan that shares no tones keeps its exposure, by a weight that gives way to anything measured.
  const loose = places.slice(1).map((_, i): Difference => ({ from: 0, to: i + 1, value: 0, weight: 1e-6 }));
  const channels = [0, 1, 2].map((channel) => {
    const measured = pairs.flatMap(({ a, b }) => ratioOf(planes, places, a, b, channel) ?? []);
    return adjustDifferences(planes.length, [...measured, ...loose], new Map([[0, 0]]));
  });
  return planes.map((_, i) => [channels[0][i], channels[1][i], channels[2][i]]);
}

/** Median over the brighter half of the squares of one scan that lie in the other: what its exposure needs over the other's. */
function ratioOf(
  planes: readonly JoinPlane[],
  places: readonly (RigidPlace | undefined)[],
  a: number,
  b: number,
  channel: number,
): Difference | undefined {
  const [first, second] = [places[a]!, places[b]!];
  const [one, other] = [planes[a].tones, planes[b].tones];
  const middle = (TONE_STEP - 1) / 2;
  const found: { readonly tone: number; readonly step: number }[] = [];
  for (let y = 0; y < other.height; y++)
    for (let x = 0; x < other.width; x++) {
      const [p, q] = onFirst(x * TONE_STEP + middle, y * TONE_STEP + middle, second.x, second.y, second.angle);
      const [u, v] = fromFirst(p, q, first.x, first.y, first.angle).map((w) => (w - middle) / TONE_STEP);
      const [i, j] = [Math.floor(u), Math.floor(v)];
      if (i < 0 || j < 0 || i > one.width - 2 || j > one.height - 2) continue;
      const [fx, fy] = [u - i, v - j];
      const at = (k: number): number => one.data[k * 3 + channel];
      const k = j * one.width + i;
      const there =
        (at(k) * (1 - fx) + at(k + 1) * fx) * (1 - fy) +
        (at(k + one.width) * (1 - fx) + at(k + one.width + 1) * fx) * fy;
      const here = other.data[(y * other.width + x) * 3 + channel];
      if (there > MIN_TONE && here > MIN_TONE && there < MAX_TONE && here < MAX_TONE)
        found.push({ tone: there * here, step: Math.log2(there / here) });
    }
  if (found.length < MIN_SQUARES) return undefined;
  // Flare that the recipe does not take off quite weighs least in the film's thin parts.
  const thin = found.toSorted((p, q) => q.tone - p.tone).slice(0, Math.ceil(found.length / 2));
  const steps = thin.map(({ step }) => step);
  return { from: a, to: b, value: median(steps), weight: steps.length };
}
