/** What the library holds of a film, of the lights that film is copied on, and of cameras. Types only. */
import type { Film } from "../../types.ts";

/** Wavelengths of every spectrum in the library: 400–700 nm in steps of 5. */
export const WAVELENGTHS: readonly number[] = Array.from({ length: 61 }, (_, i) => 400 + 5 * i);

/** One value a wavelength. */
export type Spectrum = readonly number[];

/** A film as its data sheet describes it. */
export interface PublishedFilm {
  /** The film's own name, with its development where the sheet has several. */
  readonly name: string;
  readonly kind: Film;
  /** Box speed (exposure index of a push, where the name states one). */
  readonly iso: number;
  /** Year of the data sheet or of the film, as the source states it. */
  readonly year: number;
  readonly medium: "photo" | "cine";
  /** log10 exposure, 0 at mid-grey: where green (or the one density) lies 0.70 D above its minimum. Ascending. */
  readonly logH: readonly number[];
  /** Densities at `logH`, base included: Status M red, green and blue, or one diffuse visual density. */
  readonly densities: readonly (readonly number[])[];
  /** Colour film only. */
  readonly colour?: ColourData;
}

/** What only a colour film has. */
export interface ColourData {
  /** Spectral density of the unexposed, developed film. */
  readonly base: Spectrum;
  /** Image dyes: names in the library's table of dyes with weights that sum to 1. Its own, or those that explain it best. */
  readonly dyes: readonly (readonly [name: string, weight: number])[];
  /** log10 exposures of the red, green and blue layer by real surfaces, 0 for white. */
  readonly surfaces: readonly (readonly [number, number, number])[];
  /** Layer exposures to linear light with sRGB's primaries, row by row; rows sum to 1. */
  readonly matrix: readonly number[];
}

/** Cyan, magenta and yellow dye, each at an amount of 1. */
export type DyeSet = readonly [Spectrum, Spectrum, Spectrum];
