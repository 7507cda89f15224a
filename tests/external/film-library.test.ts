/**
 * The film library against what it was made from, and the recipes that it gives for cameras and lights: greys and a
 * 24-patch chart are exposed on a published film, seen by a published camera under a light that the library does not
 * have, and judged by the recipe's numbers. Rolls of scans: tests/unit/calibrate/film-data.test.ts.
 */
import { describe, expect, it } from "vitest";
import { fitChart } from "../../extension/engine/calibrate/chart-fit.ts";
import { unmixOf } from "../../extension/engine/calibrate/camera-unmix/index.ts";
import { neutralise } from "../../extension/engine/calibrate/grey.ts";
import { likelyCameras } from "../../extension/engine/calibrate/likely-cameras.ts";
import { publishedNumbers, type PublishedNumbers } from "../../extension/engine/calibrate/published-film.ts";
import {
  cameraDensity,
  dyesFor,
  type FilmData,
  resampled,
  type Spectrum,
} from "../../extension/engine/calibrate/spectra.ts";
import { deltaE2000 } from "../../extension/engine/colour/difference.ts";
import { labOf, type Lab } from "../../extension/engine/colour/lab.ts";
import { SPACES, toD50 } from "../../extension/engine/colour/spaces.ts";
import { publishedFilm, publishedFilms, searchFilms } from "../../extension/engine/film/library/index.ts";
import { CAMERAS, DYES, LIGHTS, SHAPES } from "../../extension/engine/film/library/spectra.ts";
import { type PublishedFilm, WAVELENGTHS } from "../../extension/engine/film/library/types.ts";
import { chainOf } from "../../extension/engine/film/look-steps.ts";
import { apply, IDENTITY } from "../../extension/engine/math/matrix.ts";
import type { FrameLook, Rgb } from "../../extension/engine/types.ts";
import { COPY_LIGHTS } from "./copy-lights.ts";
import { colourUnderD50, exposuresOf, filmOf, INDEX, layerResponse } from "./published-films.ts";
import { referenceTable, triple } from "./reference.ts";

describe("the film library", () => {
  it("is what the published tables give (spectral_film_lut, MIT)", () => {
    const made = INDEX.map(filmOf).filter((f) => typeof f !== "string");
    expect(publishedFilms).toEqual(made);
    expect([...COPY_LIGHTS.keys()]).toEqual(Object.keys(LIGHTS));
  });

  // Source: tests/reference/films/iso5800_dmin_gamma.csv, worked out from the same sheets by an independent program.
  it("has the least densities that an independent reading of the sheets has, within 0.01 D", () => {
    const rows = referenceTable("films/iso5800_dmin_gamma.csv");
    let compared = 0;
    for (const film of publishedFilms) {
      const row = rows.find((r) => r.film === film.name);
      if (!row || !film.colour) continue;
      compared++;
      triple(row, "dmin_R", "dmin_G", "dmin_B").forEach((d, c) =>
        expect(Math.abs(film.densities[c][0] - d), `${film.name} ${c}`).toBeLessThan(0.011),
      );
    }
    expect(compared).toBeGreaterThan(8);
  });

  it("is searched by name, speed and kind, and finds a name in any writing", () => {
    expect(publishedFilm("kodak  portra-400")?.name).toBe("Kodak Portra 400");
    expect(publishedFilm("Kodak Portra 4000")).toBeUndefined();
    expect(searchFilms("portra").map((f) => f.iso)).toEqual([160, 400, 800, 1600, 3200]);
    expect(searchFilms("100").every((f) => / 100\b/.test(`${f.name} ${f.iso}`))).toBe(true);
    expect(searchFilms("black-and-white 400").every((f) => f.kind === "black-and-white-negative")).toBe(true);
    expect(searchFilms("")).toHaveLength(publishedFilms.length);
    expect(searchFilms("no such film")).toEqual([]);
  });
});

const chart = referenceTable("charts/colorchecker24_babelcolor_avg_380_730_10nm.csv");
const nm = chart.map((row) => Number(row.nm));
// 24 measured patches: BabelColor's mean of 30 charts, © Danny Pascale, as carried by colour-science (BSD-3-Clause).
const PATCHES: readonly Spectrum[] = Object.keys(chart[0])
  .filter((name) => name !== "nm")
  .map((name) =>
    resampled(
      nm,
      chart.map((row) => Number(row[name])),
      WAVELENGTHS,
    ),
  );
const TO_D50 = toD50(SPACES.srgb);

/** A film with one set of dyes before a camera on a light, with truth. */
function scanned(film: PublishedFilm, dyes: string, camera: string, light: Spectrum) {
  const { colour, logH, densities } = film;
  const set = { sensitivity: CAMERAS[camera], light };
  const { base } = colour!;
  const own: FilmData = { grid: WAVELENGTHS, base, dyes: DYES[dyes], response: [[], [], []], above: () => 0 };
  const amounts = logH.map((_, i) => dyesFor(own, densities.map((d) => d[i] - d[0]) as unknown as Rgb));
  const amount = (layer: number, h: number): number =>
    resampled(
      logH,
      amounts.map((a) => a[layer]),
      [h],
    )[0];
  return {
    blank: set.sensitivity.map((s) => s.reduce((sum, v, i) => sum + v * light[i], 0)) as unknown as Rgb,
    base: cameraDensity(set, base),
    /** Densities of a surface whose layer exposures are given, 1 for white. */
    density: (exposures: Rgb): Rgb => {
      const a = exposures.map((e, k) => amount(k, Math.log10(Math.max(e, 1e-4) / 0.18)));
      return cameraDensity(
        set,
        base.map((b, i) => b + a.reduce((s, v, k) => s + v * DYES[dyes][k][i], 0)),
      );
    },
  };
}

const lookOf = ({ curve, unmix, colour }: PublishedNumbers, base: Rgb): FrameLook => ({
  film: "colour-negative",
  base,
  gamma: [0.55, 0.55, 0.55],
  curve,
  unmix,
  colour,
  exposure: 0,
  filtration: { cyan: 0, magenta: 0, yellow: 0 },
  tone: { contrast: 1, toe: 0, shoulder: 0, black: 0, points: [] },
  saturation: 1,
});

/** L*a*b* of densities as the look has them, before any print curve. */
function printer(look: FrameLook): (density: Rgb) => Lab {
  const { unmix, offset, exposureOf } = chainOf(look, "srgb");
  return (density) => {
    const mixed = apply(unmix, density);
    const light = mixed.map((d, c) => exposureOf[c](d + offset[c])) as unknown as Rgb;
    return labOf(apply(TO_D50, apply(look.colour, light)).map((v) => Math.max(v, 1e-6)) as unknown as Rgb);
  };
}

/** Mean ΔC*ab of fifteen greys from 0.9 to 0.018, and mean ΔE00 of the chart, once 18 % is neutral. */
function judged(
  filmName: string,
  dyes: string,
  camera: string,
  light: Spectrum,
  cameras: ReturnType<typeof likelyCameras>,
) {
  const film = publishedFilm(filmName)!;
  const { blank, base, density } = scanned(film, dyes, camera, light);
  const lights = Object.fromEntries(Object.entries(LIGHTS).filter(([, power]) => power !== light));
  const numbers = publishedNumbers(
    film,
    { cameras: cameras.cameras, blank, base },
    { dyes: DYES, lights, cameras: CAMERAS },
  );
  const look = lookOf(numbers, base);
  const t = density([0.18, 0.18, 0.18]).map((d) => 10 ** -d) as unknown as Rgb;
  const setting = neutralise(look, t);
  const print = printer({ ...look, ...setting });
  const chroma = Array.from({ length: 15 }, (_, i) => {
    const y = 0.9 * 0.02 ** (i / 14);
    const [, a, b] = print(density([y, y, y]));
    return Math.hypot(a, b);
  });
  const response = layerResponse(INDEX.find((row) => row.film === filmName)!)!;
  const colours = PATCHES.map((p) => deltaE2000(print(density(exposuresOf(response, p))), colourUnderD50(p)));
  const mean = (v: readonly number[]): number => v.reduce((a, b) => a + b, 0) / v.length;
  return { grey: mean(chroma), colour: mean(colours), stops: setting.exposure, numbers };
}

// Lights left out of those that the library chooses from; dyes that the film's own mid-scale neutral allows.
const CASES = [
  ["Kodak Portra 400", "Kodak Vision3 500T 5219", "ILCE-7RM4", "LED-B4"],
  ["Kodak Gold 200", "Kodak Vision3 200T 5213", "EOS_R5", "LED-V2"],
  ["Kodak Ektar 100", "Kodak Vision3 50D 5203", "Z_f", "Phosphor LED YAG"],
  ["Agfa Vista 100", "Kodak Vision3 250D 5207", "D850", "PHOS-4"],
  ["Kodak Ultramax 400", "Kodak Vision3 500T 5219", "DC-GX9", "PHOS-1"],
] as const;

describe("a recipe from the film library", () => {
  const known = CASES.map(([film, dyes, camera, light]) =>
    judged(film, dyes, camera, LIGHTS[light], likelyCameras(SHAPES, camera.replaceAll("_", " "))),
  );
  const mean = (v: readonly number[]): number => v.reduce((a, b) => a + b, 0) / v.length;

  it("leaves greys within ΔC*ab 2 on average for a known camera under an LED that it has not seen", () => {
    expect(mean(known.map((k) => k.grey))).toBeLessThan(2);
    for (const { grey, stops, numbers } of known) {
      expect(grey).toBeLessThan(3.5);
      expect(Math.abs(stops)).toBeLessThan(0.3);
      expect(numbers.spread).toBeLessThan(0.1);
    }
  });

  it("shows the 24 patches within ΔE00 5 on average: what a matrix makes of the film's own sensitivities", () => {
    expect(mean(known.map((k) => k.colour))).toBeLessThan(5);
  });

  it("leaves greys within ΔC*ab 4 on average for a camera of which nothing is known", () => {
    const others = CASES.map(([film, dyes, camera, light]) => {
      const shapes = Object.fromEntries(Object.entries(SHAPES).filter(([id]) => id !== camera));
      return judged(film, dyes, camera, LIGHTS[light], likelyCameras(shapes, "unknown"));
    });
    expect(mean(others.map((k) => k.grey))).toBeLessThan(4);
  });

  it("spells out the golden density of the base (table sim_golden_camera_densities.csv) within 0.02 D", () => {
    const rows = referenceTable("films/sim_golden_camera_densities.csv").filter(
      (r) => r.spectrum === "d_min_sd" && r.light === "D50" && r.camera in CAMERAS,
    );
    expect(rows.length).toBeGreaterThan(100);
    for (const row of rows.filter((_, i) => i % 9 === 0)) {
      const film = publishedFilm(row.film)!;
      const golden = triple(row, "D_R", "D_G", "D_B");
      const { blank } = scanned(film, film.colour!.dyes[0][0], row.camera, LIGHTS.D50);
      const table = { dyes: DYES, lights: LIGHTS, cameras: CAMERAS };
      const { base } = publishedNumbers(film, { cameras: [[row.camera, 1]], blank, base: golden }, table);
      golden.forEach((d, c) => expect(Math.abs(base[c] - d), `${row.film} ${row.camera}`).toBeLessThan(0.02));
    }
  });
});

describe("a chart on a published film, in one calibration", () => {
  const mean = (v: readonly number[]): number => v.reduce((a, b) => a + b, 0) / v.length;
  const ninth = (v: readonly number[]): number => v.toSorted((a, b) => a - b)[21];
  /** ΔE00 of the chart on another roll of the film, so many stops over, by what the first roll's chart gave. */
  function onAnotherRoll([film, dyes, camera, light]: (typeof CASES)[number], from: "library" | "gamma"): number[][] {
    const own = publishedFilm(film)!;
    const power = LIGHTS[light];
    const { blank, base, density } = scanned(own, dyes, camera, power);
    const lights = Object.fromEntries(Object.entries(LIGHTS).filter(([, other]) => other !== power));
    const table = { dyes: DYES, lights, cameras: CAMERAS };
    const numbers = publishedNumbers(own, { cameras: [[camera, 1]], blank, base }, table);
    const { curve: _, ...straight } = lookOf(numbers, base);
    const look =
      from === "library" ? lookOf(numbers, base) : { ...straight, unmix: unmixOf(undefined).matrix, colour: IDENTITY };
    const response = layerResponse(INDEX.find((row) => row.film === film)!)!;
    const shot = (stops: number): Rgb[] =>
      PATCHES.map((p) => density(exposuresOf(response, p).map((e) => e * 2 ** stops) as unknown as Rgb));
    const patches = shot(0.3).map((d, i) => ({
      name: String(i),
      transmittance: d.map((v) => 10 ** -v) as unknown as Rgb,
      lab: colourUnderD50(PATCHES[i]),
    }));
    const fit = fitChart(patches, look);
    const { cyan, yellow } = fit.filtration;
    const kept = {
      ...look,
      curve: fit.curve,
      unmix: fit.unmix,
      colour: fit.colour,
      filtration: { cyan, magenta: 0, yellow },
    };
    return [-0.5, 1.3].map((stops) => {
      const print = printer({ ...kept, exposure: fit.exposure + 0.3 - stops });
      return shot(stops).map((d, i) => deltaE2000(print(d), colourUnderD50(PATCHES[i])));
    });
  }

  it("serves other rolls where the film was named: mean ΔE00 ≤ 2, nine tenths ≤ 4", () => {
    const all = CASES.flatMap((one) => onAnotherRoll(one, "library"));
    expect(mean(all.map(mean))).toBeLessThan(2);
    for (const errors of all) {
      expect(mean(errors)).toBeLessThan(2.2);
      expect(ninth(errors)).toBeLessThan(4);
    }
  });

  it("serves them less well where a gamma was all that was known: mean ΔE00 ≤ 4", () => {
    expect(mean(CASES.flatMap((one) => onAnotherRoll(one, "gamma")).map(mean))).toBeLessThan(4);
  });
});
