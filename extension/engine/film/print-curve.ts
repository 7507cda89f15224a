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

/**
 * @returns Y of H, both linear with white 1. For H > 0 strictly rising, between the black's luminance and 1;
 *   H ≤ 0 gives the black. 0.18 gives 0.18 while no `points` move it.
 * @throws RangeError where the points do not ascend
 */
export function toneCurve(tone: ToneLook): (h: number) => number {
  const white = -Math.log10(MID_GREY);
  const black = Math.log10(MID_GREY / luminanceOf(Math.max(tone.black, 0.01)));
  const up = bend(white, tone.shoulder);
  const down = bend(black, tone.toe);
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
