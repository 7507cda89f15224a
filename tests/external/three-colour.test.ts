/**
 * The unmix of three-colour light: fitted to the peaks of CIE illuminant LED-RGB1 (colour-science, BSD-3-Clause), judged
 * by measured LEDs that it was not fitted to (photobiologyLEDs, GPL-2 or later: kept beside the project and never in it,
 * so those tests run where that folder is).
 */
import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { knownModels, narrowUnmix, unmixOf } from "../../extension/engine/calibrate/camera-unmix/index.ts";
import { fitCameras, STOPS } from "../../extension/engine/calibrate/camera-unmix/fit-table.ts";
import { judgeUnmix, photograph, type ScanningSet, seenBy } from "../../extension/engine/calibrate/spectra.ts";
import { IDENTITY } from "../../extension/engine/math/matrix.ts";
import { type Bands, LED_RGB1, narrowSet, onGrid } from "./narrow-lights.ts";
import { DYE_FILMS, filmData, REFLECTANCES, scanningSet } from "./spectral-data.ts";

const MEASURED = new URL("../../../../shared/real/data/leds_90_360_830_1nm.csv", import.meta.url);

const films = DYE_FILMS.map(filmData);
const shot = films.map((film) => ({ film, patches: photograph(film, REFLECTANCES, STOPS) }));
const patchesOf = (set: ScanningSet) => shot.flatMap(({ film, patches }) => seenBy(set, film, patches));
/** The worst camera's error, and the worst noise. */
function worst(unmix: typeof narrowUnmix, setOf: (camera: string) => ScanningSet) {
  const all = knownModels.map((camera) => judgeUnmix(unmix, patchesOf(setOf(camera))));
  const most = (key: "rms" | "grey" | "noise"): number => Math.max(...all.map((one) => one[key]));
  return { rms: most("rms"), grey: most("grey"), noise: most("noise") };
}
const show = (name: string, figures: ReturnType<typeof worst>): void => {
  const text = Object.entries(figures).map(([key, value]) => `${key} ${value.toFixed(4)}`);
  if (process.env["FIGURES"]) console.log(`${name}: ${text.join(", ")}`);
};

describe("the unmix of three-colour light", () => {
  it("is what its script makes of the published spectra", () => {
    const [fit] = fitCameras(films, REFLECTANCES, [knownModels.map((camera) => narrowSet(camera, LED_RGB1))]);
    narrowUnmix.flat().forEach((v, i) => expect(v).toBeCloseTo(fit!.unmix.flat()[i]!, 4));
  });

  it("serves every camera: colours within 0.01 D rms, greys within 0.02 D, noise × 1.15", () => {
    const found = worst(narrowUnmix, (camera) => narrowSet(camera, LED_RGB1));
    show("LED-RGB1, worst of 43 cameras", found);
    expect(found.rms).toBeLessThan(0.01);
    expect(found.grey).toBeLessThan(0.02);
    expect(found.noise).toBeLessThan(1.15);
  });

  it("has less to undo than white light: half the crosstalk, and two thirds of the noise at most", () => {
    const narrow = worst(IDENTITY, (camera) => narrowSet(camera, LED_RGB1));
    const white = worst(IDENTITY, (camera) => scanningSet(camera, "D50"));
    show("three-colour light, not unmixed", narrow);
    show("white light, not unmixed", white);
    expect(narrow.rms).toBeLessThan(white.rms / 2);
    const noises = knownModels.map((camera) => Math.max(...unmixOf(camera).matrix.map((row) => Math.hypot(...row))));
    const noise = Math.max(...narrowUnmix.map((row) => Math.hypot(...row)));
    expect(noise).toBeLessThan((2 / 3) * noises.toSorted((a, b) => a - b)[noises.length >> 1]!);
  });
});

describe.skipIf(!existsSync(MEASURED))("measured LEDs that the unmix was not fitted to", () => {
  const lines = existsSync(MEASURED) ? readFileSync(MEASURED, "utf8").trim().split(/\r?\n/) : [];
  const names = lines[0]?.split(",") ?? [];
  const rows = lines.slice(1).map((line) => line.split(",").map((v) => Number(v) || 0));
  const led = (name: string) =>
    onGrid(
      rows.map(([nm]) => nm!),
      rows.map((row) => row[names.indexOf(name)]!),
    );
  // Peaks by the measurements themselves, nm.
  const LEDS = {
    448: "Bridgelux_3W_455nm",
    454: "LedEngin_LZ7_N4M100_ch_C_Blue",
    521: "Weili_3W.nominal.525nm",
    629: "LedEngin_LZ7_N4M100_ch_B_Red",
    643: "Norlux_NHXRGB090_R",
    663: "LedEngin_LZ4_40R208_660nm",
  } as const;
  const bands = (red: keyof typeof LEDS, blue: keyof typeof LEDS): Bands => [
    led(LEDS[red]),
    led(LEDS[521]),
    led(LEDS[blue]),
  ];

  // The first was in view when the part of each peak was chosen that the fit uses; the others were not.
  it("643, 521 and 448 nm: colours within 0.015 D rms, greys within 0.03 D, by every camera", () => {
    const found = worst(narrowUnmix, (camera) => narrowSet(camera, bands(643, 448)));
    show("643, 521, 448 nm, worst of 43 cameras", found);
    expect(found.rms).toBeLessThan(0.015);
    expect(found.grey).toBeLessThan(0.03);
  });

  // A red LED of another wavelength sees cyan dye stronger or weaker: a channel's contrast, which a roll's balance follows.
  it.each([
    [643, 448],
    [629, 454],
    [663, 454],
  ] as const)("%i, 521 and %i nm: colours within 0.015 D rms once each channel has its own contrast", (red, blue) => {
    const setOf = (camera: string): ScanningSet => narrowSet(camera, bands(red, blue));
    show(`${red}, 521, ${blue} nm, worst of 43 cameras`, worst(narrowUnmix, setOf));
    const all = knownModels.map((camera) => {
      const patches = patchesOf(setOf(camera));
      const greys = patches.filter(({ grey }) => grey);
      const scaled = narrowUnmix.map((row, c) => {
        const unmixed = greys.map(({ camera: d }) => row[0] * d[0] + row[1] * d[1] + row[2] * d[2]);
        const [own, truth] = [0, 0].map((_, k) =>
          unmixed.reduce((sum, u, i) => sum + u * (k === 0 ? u : greys[i]!.status[c]!), 0),
        ) as [number, number];
        return row.map((v) => (v * truth) / own);
      }) as unknown as typeof narrowUnmix;
      return judgeUnmix(scaled, patches).rms;
    });
    if (process.env["FIGURES"]) console.log(`  each channel by its own contrast: rms ${Math.max(...all).toFixed(4)}`);
    expect(Math.max(...all)).toBeLessThan(0.015);
  });
});
