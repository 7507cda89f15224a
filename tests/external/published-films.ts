/** Published films of tests/reference as the film library takes them; called by the library's make.mjs and its tests. */
import { labOf } from "../../extension/engine/colour/lab.ts";
import { resampled, type Spectrum } from "../../extension/engine/calibrate/spectra.ts";
import { type FilmCurve, filmCurve } from "../../extension/engine/film/characteristic-curve.ts";
import { colourMatrix, dyeWeights, farthestPoints } from "../../extension/engine/film/library/derive.ts";
import type { ColourData, DyeSet, PublishedFilm } from "../../extension/engine/film/library/types.ts";
import { WHITE_D50 } from "../../extension/engine/colour/spaces.ts";
import type { Rgb } from "../../extension/engine/types.ts";
import { referenceTable, type Row } from "./reference.ts";
import { GRID, lightSpectrum, OBSERVER, REFLECTANCES } from "./spectral-data.ts";

const points = new Map<string, [number, number][]>();
for (const file of [
  "films/film_curves.csv",
  "films/film_dyes.csv",
  "films/film_negatives.csv",
  "films/film_mid_scale_neutrals.csv",
])
  for (const row of referenceTable(file)) {
    const key = `${row.film}|${row.quantity}|${row.channel}`;
    if (!points.has(key)) points.set(key, []);
    points.get(key)!.push([Number(row.x), Number(row.y)]);
  }

function table(film: string, quantity: string, channel = ""): { x: number[]; y: number[] } | undefined {
  const own = points.get(`${film}|${quantity}|${channel}`);
  const sorted = [...new Map(own)].sort((a, b) => a[0] - b[0]);
  return own && { x: sorted.map((p) => p[0]), y: sorted.map((p) => p[1]) };
}

function spectrum(film: string, quantity: string, channel = ""): number[] | undefined {
  const own = table(film, quantity, channel);
  return own && resampled(own.x, own.y, GRID);
}

const three = <T>(of: (channel: string) => T): [T, T, T] => [of("0"), of("1"), of("2")];

/** Films as the index describes them; a film's name alone repeats one of its developments. */
export const INDEX: readonly Row[] = referenceTable("films/films.csv").filter(
  ({ film }) => !/^Kodak (5222|Tri-X 400)$/.test(film),
);

/** Published dye sets by film. */
export const DYES: ReadonlyMap<string, DyeSet> = new Map(
  INDEX.flatMap(({ film }) => {
    const dyes = three((k) => spectrum(film, "spectral_density", k));
    return dyes.every(Boolean) ? [[film, dyes as unknown as DyeSet] as const] : [];
  }),
);

/** Exposure axis of the library's curves, log10, as far as a film's sheet goes: fine in the toe. */
const STEPS = [
  ...Array.from({ length: 19 }, (_, i) => -2.2 + 0.1 * i),
  ...Array.from({ length: 18 }, (_, i) => -0.2 + 0.2 * i),
].map((v) => Number(v.toFixed(2)));
const MID_GREY_DENSITY = 0.7;
/** Surfaces that the library keeps of each film. */
const SURFACES = 40;
/** Beyond this a sheet's dyes of a light layer's tail are unreadable: 3 D under white. */
const DARKEST = 1e-3;

const short = (v: number, digits = 4): number => Number(v.toFixed(digits)) + 0;

/** Names as a person writes them: "Dev 6" are minutes of development, and one source name has a slip of the key. */
const nameOf = (film: string): string => film.replace("Trix-X", "Tri-X").replace(/ Dev (\d+)$/, ", $1 min");

/** Light that a film is balanced for, among the CIE's. */
const balanceOf = (kelvin: number): string => (kelvin < 4000 ? "A" : "D55");

/** The film of a row of the index, or why it is left out. */
export function filmOf(row: Row): PublishedFilm | string {
  if (/unreliable/i.test(row.comment)) return "its source calls the data unreliable";
  const mono = row.group === "bw_negative_film";
  const factor = Math.log10(Number(row.exposure_base));
  const sheets = (mono ? [""] : ["0", "1", "2"]).map((k) => table(row.film, "sensiometric_curve", k));
  if (sheets.some((s) => !s)) return "no characteristic curve";
  const curves = sheets.map((s) =>
    filmCurve(
      s!.x.map((x) => x * factor),
      s!.y,
    ),
  );
  const key = curves[mono ? 0 : 1];
  const mid = key.logHAt(key.dmin + MID_GREY_DENSITY);
  // Where one channel's sheet ends before the others', it goes on straight, as the engine's own curves do.
  const [first, last] = [Math.min(...curves.map((c) => c.first)) - mid, Math.max(...curves.map((c) => c.last)) - mid];
  const read = (c: FilmCurve, h: number): number =>
    h > c.last ? c.dmax + (h - c.last) * Math.max(0, c.slopeAt(c.last - 0.05)) : c.at(Math.max(h, c.first));
  const start = Math.max(first, STEPS[0]);
  const logH = [start, ...STEPS.filter((h) => h > start + 0.02 && h < last - 0.02), last].map((h) => short(h));
  const colour = mono ? undefined : colourOf(row);
  if (typeof colour === "string") return colour;
  const push = /@(\d+)/.exec(row.film);
  return {
    name: nameOf(row.film),
    kind: mono ? "black-and-white-negative" : "colour-negative",
    iso: Number(push?.[1] ?? row.iso),
    year: Number(row.year),
    medium: row.medium as PublishedFilm["medium"],
    logH,
    densities: curves.map((c) => logH.map((h) => short(read(c, h + mid)))),
    ...(colour ? { colour } : {}),
  };
}

function colourOf(row: Row): ColourData | string {
  const base = spectrum(row.film, "d_min_sd");
  if (!base) return "no spectrum of its base";
  const response = layerResponse(row);
  if (!response) return "no sensitivities";
  const sets = [...DYES];
  const own = DYES.has(row.film);
  const mid = spectrum(row.film, "d_ref_sd");
  const weights = own
    ? sets.map(([name]) => (name === row.film ? 1 : 0))
    : mid
      ? dyeWeights(
          mid.map((d, i) => d - base[i]),
          sets.map(([, dyes]) => dyes),
        )
      : sets.map(() => 1 / sets.length);
  const kept = sets.map(([name], i) => [name, weights[i]] as const).filter(([, w]) => w > 0.04);
  const total = kept.reduce((s, [, w]) => s + w, 0);
  const surfaces = REFLECTANCES.map((r) => ({ exposures: exposuresOf(response, r), lab: colourUnderD50(r) }));
  const shown = surfaces.map(({ exposures }) => exposures.map((e) => Math.log10(Math.max(e, DARKEST))));
  const chosen = farthestPoints(shown, SURFACES);
  return {
    base: base.map((v) => short(v)),
    dyes: kept.map(([name, w]) => [name, short(w / total, 3)] as const),
    surfaces: chosen.map((i) => shown[i].map((v) => short(v, 3)) as unknown as Rgb),
    matrix: colourMatrix(surfaces)
      .flat()
      .map((v) => short(v)),
  };
}

/** Sensitivities of the layers times the light that the film is balanced for; undefined where none are published. */
export function layerResponse(row: Row): readonly [Spectrum, Spectrum, Spectrum] | undefined {
  const power = lightSpectrum(balanceOf(Number(row.exposure_kelvin)));
  const layers = three((k) => {
    const own = table(row.film, "log_sensitivity", k);
    if (!own) return undefined;
    const { x, y } = own;
    // Beyond the sheet's ends a layer sees nothing.
    return GRID.map((nm, i) => (nm < x[0] || nm > x[x.length - 1] ? 0 : 10 ** resampled(x, y, [nm])[0] * power[i]));
  });
  return layers.every(Boolean) ? (layers as [Spectrum, Spectrum, Spectrum]) : undefined;
}

/** Exposures of the layers by a surface, 1 for white. */
export function exposuresOf(response: readonly [Spectrum, Spectrum, Spectrum], reflectance: Spectrum): Rgb {
  return response.map(
    (r) => r.reduce((s, v, i) => s + v * reflectance[i], 0) / r.reduce((a, b) => a + b, 0),
  ) as unknown as Rgb;
}

const daylight = lightSpectrum("D50");
/** L*a*b* of a surface under D50. */
export function colourUnderD50(reflectance: Spectrum): ReturnType<typeof labOf> {
  const xyz = OBSERVER.map((x) => x.reduce((s, v, i) => s + v * daylight[i] * reflectance[i], 0));
  const white = OBSERVER.map((x) => x.reduce((s, v, i) => s + v * daylight[i], 0));
  return labOf(xyz.map((v, i) => (v / white[i]) * WHITE_D50[i]) as unknown as Rgb);
}
