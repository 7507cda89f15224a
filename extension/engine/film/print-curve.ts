/**
 * The print curve: how output-linear exposure becomes output-linear light on paper. Per channel.
 * Mid-grey stays where it is whatever the contrast, and the slope there is the contrast whatever toe and shoulder.
 */
import { lightnessOf, luminanceOf } from "../colour/lab.ts";
import { MID_GREY } from "../colour/density.ts";
import { monotoneCubic } from "../math/monotone-cubic.ts";
import type { ToneLook } from "../types.ts";
import { clamp } from "../math/clamp.ts";

/**
 * How sharply toe and shoulder bend: t / (1 + t^p)^(1/p). Above 1 the join at the knee is C2;
 * 1.5 is slower than the usual 2, so that the tones above a diffuse white still part from one another.
 */
const BEND = 1.5;

/** The least part of the way from mid-grey to a limit that the bend takes up: 0 would be a cut, with no slope beyond it. */
const MIN_BEND = 0.02;

/** Version 2: the softness of toe and shoulder at 0, which are version 1's defaults: there both versions are one curve. */
const SOFTNESS_AT_0 = { toe: 0.3, shoulder: 0.4 } as const;

/**
 * Version 2: contrast far from mid-grey is the curve's own times 2^±this at the ends of the range. Less for the shoulder,
 * whose third of the scale is a shorter way in log exposure.
 */
const STOPS = { toe: 1.6, shoulder: 1.1 } as const;

/** Version 2: where the contrast changes, as a part of the way from mid-grey to the limit. */
const REACH = 0.2;

/**
 * @returns Y of H, both linear with white 1. For H > 0 strictly rising, between the black's luminance and 1;
 *   H ≤ 0 gives the black. 0.18 gives 0.18 while no `points` move it.
 * @throws RangeError where the points do not ascend
 */
export function toneCurve(tone: ToneLook): (h: number) => number {
  const white = -Math.log10(MID_GREY);
  const black = Math.log10(MID_GREY / luminanceOf(Math.max(tone.black, 0.01)));
  const isFirst = tone.version === undefined;
  const up = isFirst ? bend(white, tone.shoulder) : flattened("shoulder", white, -tone.shoulder);
  const down = isFirst ? bend(black, tone.toe) : flattened("toe", black, tone.toe);
  const move = pointsCurve(tone.points);
  return (h) => {
    const u = h > 0 ? tone.contrast * Math.log10(h / MID_GREY) : -Infinity;
    const y = MID_GREY * 10 ** (u >= 0 ? up(u) : -down(-u));
    return move === undefined ? y : luminanceOf(move(lightnessOf(y)));
  };
}

/** Identity up to a knee, then bent towards `limit`: softness 0 puts the knee just before the limit, 1 at zero. */
function bend(limit: number, softness: number): (u: number) => number {
  const rounding = limit * (MIN_BEND + (1 - MIN_BEND) * softness);
  const knee = limit - rounding;
  return (u) => {
    if (u <= knee) return u;
    // Written with the inverse of t, so that an infinite u meets the limit.
    const inverse = rounding / (u - knee);
    return knee + rounding * (1 + inverse ** BEND) ** (-1 / BEND);
  };
}

/**
 * The bend of version 2: contrast beyond `REACH` is multiplied by 2^(−STOPS · amount), and above 0 the bend begins
 * earlier too. Slope 1 and curvature 0 at mid-grey; strictly rising.
 * @param amount −1 … 1: above 0 tones stay nearer to mid-grey, below 0 they move away from it
 */
function flattened(end: "toe" | "shoulder", limit: number, amount: number): (u: number) => number {
  const softness = SOFTNESS_AT_0[end];
  const bent = bend(limit, softness + (1 - softness) * Math.max(0, amount));
  if (amount === 0) return bent;
  const slope = 2 ** (-STOPS[end] * amount);
  const reach = REACH * limit;
  // u / √(1 + (u / reach)²), written so that an infinite u gives the reach.
  return (u) => bent(slope * u + (1 - slope) / Math.hypot(1 / u, 1 / reach));
}

/** L* in to L* out through the points, from black 0 to white 100 where they do not say otherwise. */
function pointsCurve(points: ToneLook["points"]): ((lightness: number) => number) | undefined {
  if (points.length === 0) return undefined;
  const all = [...points];
  if (all[0][0] > 0) all.unshift([0, Math.min(0, all[0][1])]);
  if (all[all.length - 1][0] < 100) all.push([100, Math.max(100, all[all.length - 1][1])]);
  const curve = monotoneCubic(
    all.map((p) => p[0]),
    all.map((p) => p[1]),
  );
  return (lightness) => clamp(curve.at(lightness), 0, 100);
}
