/** The ways to look at a scan, each as a plan, so that every executor shows all of them. */
import { SPACES } from "../../extension/engine/colour/spaces.ts";
import { transmittanceOf } from "../../extension/engine/colour/density.ts";
import { FILM_SAMPLES, filmAxis, PRINT_SAMPLES, printAxis } from "../../extension/engine/plan/table-axes.ts";
import { compilePlan, type Plan } from "../../extension/engine/plan/compile.ts";
import type { PicturePlace } from "../../extension/engine/local/grid.ts";
import type { FrameLook, OutputSpace, Rgb } from "../../extension/engine/types.ts";

/** The positive; the negative as scanned; density above base, denser is lighter. */
export type View = "print" | "negative" | "density";

/** Density above base that the density view shows as white. */
export const DENSITY_WHITE = 2;

const IDENTITY = Float64Array.from([1, 0, 0, 0, 1, 0, 0, 0, 1]);

/**
 * @param at where the picture lies, for a print with areas of local exposure
 * @throws RangeError where the look cannot be compiled
 */
export function planFor(view: View, look: FrameLook, space: OutputSpace, weights?: Rgb, at?: PicturePlace): Plan {
  if (view === "print") return compilePlan(look, space, weights, at);
  const negative = view === "negative";
  const base = look.film === "slide" ? ([0, 0, 0] as const) : look.base;
  const film = Float32Array.from({ length: 3 * FILM_SAMPLES }, (_, k) => {
    const density = filmAxis(k % FILM_SAMPLES);
    return negative ? transmittanceOf(density) : density / DENSITY_WHITE;
  });
  const { encode } = SPACES[space];
  const print = Float32Array.from({ length: PRINT_SAMPLES }, (_, k) => {
    const h = Math.min(1, printAxis(k));
    return negative ? encode(h) : h;
  });
  return {
    channels: 3,
    mono: false,
    space,
    weights: weights ?? [1 / 3, 1 / 3, 1 / 3],
    unmix: IDENTITY,
    offset: negative ? [0, 0, 0] : [-base[0], -base[1], -base[2]],
    film,
    colour: IDENTITY,
    print,
  };
}
