/** Works out the unmix matrices of table.ts from spectra; called by make.mjs and by the test that holds the table to it. */
import {
  type FilmData,
  fitUnmix,
  photograph,
  type ScanningSet,
  seenBy,
  type Spectrum,
  type UnmixFit,
} from "../spectra.ts";

/**
 * Noise in the camera's densities that fidelity is weighed against: grain and photon noise of an ordinary scan seen at
 * about two megapixels. Half of it changes the matrices by less than 0.1, twice of it doubles their error
 * (docs/calibration.md has the table).
 */
export const SIGMA = 0.01;
/** Exposures of the training surfaces, stops. */
export const STOPS = [-1, 0, 1, 2, 3] as const;

/** One matrix for each set of camera and lights, over all films together. */
export function fitCameras(
  films: readonly FilmData[],
  reflectances: readonly Spectrum[],
  cameras: readonly (readonly ScanningSet[])[],
): UnmixFit[] {
  const shot = films.map((film) => ({ film, patches: photograph(film, reflectances, STOPS) }));
  return cameras.map((sets) =>
    fitUnmix(
      sets.flatMap((set) => shot.flatMap(({ film, patches }) => seenBy(set, film, patches))),
      SIGMA,
    ),
  );
}
