/** Published spectra of tests/reference as the engine's spectral calibration takes them. */
import { type FilmData, resampled, type ScanningSet, type Spectrum } from "../../extension/engine/calibrate/spectra.ts";
import { filmCurve } from "../../extension/engine/film/characteristic-curve.ts";
import { referenceTable, type Row } from "./reference.ts";

export const GRID = Array.from({ length: 61 }, (_, i) => 400 + 5 * i);

const column = (rows: readonly Row[], name: string): number[] => rows.map((row) => Number(row[name]));

const cameras = referenceTable("cameras/camera_sensitivities_400_700_5nm.csv");
export const CAMERAS = Object.keys(cameras[0])
  .filter((k) => k.endsWith(":R"))
  .map((k) => k.slice(0, -2));

const lights = referenceTable("lights/illuminants_scan_lights_5nm.csv");
const daylights = referenceTable("lights/illuminants_daylight_5nm.csv");
/** A CIE light on GRID. */
export const lightSpectrum = (name: string): Spectrum =>
  name in lights[0] ? column(lights, name) : resampled(column(daylights, "nm"), column(daylights, name), GRID);

const observer = referenceTable("colour/cie1931_2deg_cmf_1nm.csv");
const ofObserver = (name: string): Spectrum => resampled(column(observer, "nm"), column(observer, name), GRID);
/** The CIE 1931 2° observer on GRID. */
export const OBSERVER: readonly [Spectrum, Spectrum, Spectrum] = [ofObserver("x"), ofObserver("y"), ofObserver("z")];

export function scanningSet(camera: string, light: string): ScanningSet {
  const of = (c: string): number[] => column(cameras, `${camera}:${c}`);
  return { sensitivity: [of("R"), of("G"), of("B")], light: lightSpectrum(light) };
}

const films = [...referenceTable("films/film_curves.csv"), ...referenceTable("films/film_dyes.csv")];

/** Points of a film's table, ascending. */
export function filmTable(film: string, quantity: string, channel = ""): { x: number[]; y: number[] } {
  const points = films
    .filter((r) => r.film === film && r.quantity === quantity && (r.channel ?? "") === channel)
    .map((r) => [Number(r.x), Number(r.y)] as const);
  const sorted = [...new Map(points)].sort((a, b) => a[0] - b[0]);
  return { x: sorted.map((p) => p[0]), y: sorted.map((p) => p[1]) };
}

export function filmSpectrum(film: string, quantity: string, channel = ""): number[] {
  const { x, y } = filmTable(film, quantity, channel);
  return resampled(x, y, GRID);
}

const reflectances = referenceTable("charts/training_reflectances_190_400_700_10nm.csv");
/** The 190 training reflectances on GRID. */
export const REFLECTANCES: readonly Spectrum[] = Object.keys(reflectances[0])
  .filter((k) => k !== "nm")
  .map((k) => resampled(column(reflectances, "nm"), column(reflectances, k), GRID));

/** Films with published dyes, and the light that each is balanced for. */
export const DYE_FILMS: readonly DyeFilm[] = [
  { name: "Kodak Vision3 50D 5203", light: "D55" },
  // This sheet's axis counts stops (camera stops, base 2), not decades.
  { name: "Kodak Vision3 250D 5207", light: "D55", base: 2 },
  { name: "Kodak Vision3 200T 5213", light: "A" },
  { name: "Kodak Vision3 500T 5219", light: "A" },
];

export interface DyeFilm {
  readonly name: string;
  readonly light: string;
  readonly base?: number;
}

export function filmData({ name, light, base = 10 }: DyeFilm): FilmData {
  const power = lightSpectrum(light);
  const three = <T>(of: (channel: string) => T): [T, T, T] => [of("0"), of("1"), of("2")];
  const curves = three((k) => {
    const { x, y } = filmTable(name, "sensiometric_curve", k);
    return filmCurve(
      x.map((v) => v * Math.log10(base)),
      y,
    );
  });
  const mid = curves[1].logHAt(curves[1].dmin + 0.7);
  return {
    grid: GRID,
    base: filmSpectrum(name, "d_min_sd"),
    dyes: three((k) => filmSpectrum(name, "spectral_density", k)),
    response: three((k) => {
      const { x, y } = filmTable(name, "log_sensitivity", k);
      // Beyond the sheet's ends a layer sees nothing.
      return GRID.map((nm, i) => (nm < x[0] || nm > x[x.length - 1] ? 0 : 10 ** resampled(x, y, [nm])[0] * power[i]));
    }),
    above: (c, h) => {
      const at = Math.min(curves[c].last, Math.max(curves[c].first, mid + h));
      return curves[c].at(at) - curves[c].dmin;
    },
  };
}
