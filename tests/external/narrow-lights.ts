/** Three-colour light from published spectra: red, green and blue bands, and what a camera's own photosites see by each. */
import { resampled, type ScanningSet, type Spectrum } from "../../extension/engine/calibrate/spectra.ts";
import { GRID, lightSpectrum, scanningSet } from "./spectral-data.ts";

/** Red, green and blue light on GRID. */
export type Bands = readonly [red: Spectrum, green: Spectrum, blue: Spectrum];

/** Wavelengths between which each peak of the CIE's LED-RGB1 lies: its minima. */
const BORDERS = [
  [570, 701],
  [475, 570],
  [0, 475],
] as const;
/** Below this part of a peak its light is that of its neighbours and of the illuminant's broad floor. */
const HALF = 0.5;

/** The three peaks of CIE illuminant LED-RGB1, each above half its height. */
export const LED_RGB1: Bands = BORDERS.map(([from, to]) => {
  const all = lightSpectrum("LED-RGB1");
  const own = GRID.map((nm, i) => (nm >= from && nm < to ? all[i] : 0));
  const top = Math.max(...own);
  return own.map((v) => (v >= HALF * top ? v : 0));
}) as unknown as Bands;

/** A camera under three lights: the photosites of each colour, each under the light of that colour alone. */
export function narrowSet(camera: string, bands: Bands): ScanningSet {
  const { sensitivity } = scanningSet(camera, "D50");
  const own = (c: number): number[] => sensitivity[c].map((s, i) => s * bands[c][i]);
  return { sensitivity: [own(0), own(1), own(2)], light: GRID.map(() => 1) };
}

/** A light of measured values on GRID. */
export const onGrid = (nm: readonly number[], power: readonly number[]): Spectrum => resampled(nm, power, GRID);
