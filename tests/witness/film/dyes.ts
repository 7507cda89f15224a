/**
 * Absorptions of the invented dyes, masks and bases: analytic curves with the unwanted absorptions of real ones.
 * Peak heights are 1, so an amount of 1 is a spectral density of 1 at the dye's peak.
 */
import { flat, lobe, scaled, sum, type Spectrum } from "../spectra/spectrum.ts";

/** Image dyes of a colour negative. */
export const NEGATIVE_DYES = {
  cyan: sum(lobe(687, 63, 55, 0.97), lobe(555, 40, 45, 0.19), lobe(470, 50, 50, 0.07), lobe(405, 40, 30, 0.2)),
  magenta: sum(lobe(541, 31, 27, 0.9), lobe(580, 25, 60, 0.14), lobe(440, 50, 60, 0.2)),
  yellow: sum(lobe(446, 34, 32, 0.97), lobe(490, 25, 34, 0.1)),
};

/** Image dyes of a slide: purer, closer to the eye's primaries. */
export const SLIDE_DYES = {
  cyan: sum(lobe(655, 62, 55), lobe(470, 60, 60, 0.06), lobe(405, 30, 30, 0.12)),
  magenta: sum(lobe(545, 33, 28, 0.95), lobe(440, 50, 60, 0.17), lobe(600, 25, 50, 0.06)),
  yellow: sum(lobe(446, 40, 34), lobe(510, 20, 30, 0.06)),
};

/** Coloured couplers: what is left of them is the orange mask. */
export const COUPLERS = {
  /** In the cyan layer: reddish, absorbs green and some blue. */
  red: sum(lobe(542, 48, 31, 1), lobe(430, 40, 40, 0.18)),
  /** In the magenta layer: yellow, absorbs blue. */
  yellow: lobe(442, 42, 38),
};

/** A grey support of even density, with a hint of blue absorption from age and resin. */
export function support(grey: number, blue: number): Spectrum {
  return sum(flat(grey), scaled(lobe(400, 40, 70), blue));
}

/** Silver: neutral, a shade denser in the blue. */
export const SILVER: Spectrum = sum(flat(0.995), lobe(400, 60, 80, 0.015));
