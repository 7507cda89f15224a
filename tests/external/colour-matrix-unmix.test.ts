/** The unmix that is predicted from a camera's colour matrix, for cameras that it was not learnt from. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { fitPrediction } from "../../extension/engine/calibrate/camera-unmix/fit-prediction.ts";
import { unmixOf } from "../../extension/engine/calibrate/camera-unmix/index.ts";
import { predictUnmix } from "../../extension/engine/calibrate/camera-unmix/prediction.ts";
import { PREDICTION } from "../../extension/engine/calibrate/camera-unmix/table.ts";
import type { Matrix3, Rgb } from "../../extension/engine/types.ts";
import { decodeScan } from "../../extension/scans/decode.ts";
import { fileOf, fittedMatrix, knownCameras } from "./colour-matrices.ts";
import { type Judged, judged, leftOut, PUBLISHED, spread } from "./left-out.ts";
import { referenceTable } from "./reference.ts";
import { CAMERAS, GRID } from "./spectral-data.ts";
import { resampled } from "../../extension/engine/calibrate/spectra.ts";

const predicted = (all: { predicted: Judged }[]): Judged[] => all.map((one) => one.predicted);
const median = (all: { median: Judged }[]): Judged[] => all.map((one) => one.median);

// Sources: sensitivities and reflectances (rawtoaces-data, Apache-2.0), dyes and curves from the makers' sheets
// (spectral_film_lut, MIT), colour matrices as published by Adobe and carried by LibRaw (LGPL-2.1 or CDDL-1.0).
describe("an unmix predicted from the published colour matrix, the camera left out", () => {
  it("is half as far off as the median of the other cameras, at the median and at nine tenths", () => {
    const all = leftOut("camera", PUBLISHED);
    for (const [of, most] of [
      ["colours", 0.017],
      ["greys", 0.032],
    ] as const) {
      const [middle, nine, worst] = spread(predicted(all), of);
      const without = spread(median(all), of);
      expect(middle).toBeLessThan(most);
      expect(middle / without[0]).toBeLessThan(0.55);
      expect(nine / without[1]).toBeLessThan(0.6);
      expect(worst / without[2]).toBeLessThan(0.75);
    }
  });

  it("is a third less far off where all cameras of the maker are left out", () => {
    const all = leftOut("maker", PUBLISHED);
    for (const of of ["colours", "greys"] as const) {
      const [middle, nine, worst] = spread(predicted(all), of);
      const without = spread(median(all), of);
      expect(middle / without[0]).toBeLessThan(0.75);
      expect(nine).toBeLessThan(without[1]);
      expect(worst).toBeLessThan(without[2]);
    }
  });
});

describe("colour matrices that others fit otherwise", () => {
  const table = referenceTable("charts/colorchecker24_babelcolor_avg_380_730_10nm.csv");
  const nm = table.map((row) => Number(row.nm));
  const chart = Object.keys(table[0])
    .filter((name) => name !== "nm")
    .map((name) =>
      resampled(
        nm,
        table.map((row) => Number(row[name])),
        GRID,
      ),
    );
  const uneven = (m: Matrix3, i: number): Matrix3 =>
    m.map((row, r) => row.map((v, c) => v * (1 + 0.03 * Math.sin(7 * i + 3 * r + c)))) as unknown as Matrix3;

  it.each([
    ["by least squares under D65", CAMERAS.map((camera) => fittedMatrix(camera))],
    ["from the 24-patch chart", CAMERAS.map((camera) => fittedMatrix(camera, "D65", chart))],
    ["under D50", CAMERAS.map((camera) => fittedMatrix(camera, "D50"))],
    ["under illuminant A", CAMERAS.map((camera) => fittedMatrix(camera, "A"))],
    ["as published, each number 3 % off", PUBLISHED.map(uneven)],
    ["as published, channels of other gains", PUBLISHED.map(([r, g, b]): Matrix3 => [scaled(r, 3), g, scaled(b, 0.2)])],
  ])("are less help at worst, and no harm: %s", (_, given) => {
    const all = leftOut("camera", given);
    for (const of of ["colours", "greys"] as const) {
      const got = spread(predicted(all), of);
      spread(median(all), of).forEach((without, i) => expect(got[i]).toBeLessThan(without));
    }
  });
});

const scaled = (v: Rgb, by: number): Rgb => [v[0] * by, v[1] * by, v[2] * by];

describe("a file that states no colour matrix itself", () => {
  const folder = mkdtempSync(join(tmpdir(), "colour-matrix-"));
  afterAll(() => rmSync(folder, { recursive: true }));

  // Source: the colour data of LibRaw 0.22, "from Adobe DNG Converter unless otherwise noted", in ten-thousandths.
  it.each([
    ["Nikon", "NIKON D850", [10405, -3755, -1270, -5461, 13787, 1793, -1040, 2015, 6785]],
    ["Canon", "Canon EOS R5", [9766, -2953, -1254, -4276, 12116, 2433, -437, 1336, 5131]],
    ["Sony", "ILCE-7RM4", [7662, -2686, -660, -5240, 12965, 2530, -796, 1508, 6167]],
    ["Fernhill", "Fernhill A24", undefined],
  ])("has the one that is published for its model, if any: %s %s", async (make, model, nine) => {
    const path = join(folder, "scan.dng");
    writeFileSync(path, fileOf(make, model));
    const { colourMatrix } = (await decodeScan(path)).info;
    expect(colourMatrix?.flat().map((v) => Math.round(v * 10_000))).toEqual(nine);
  });
});

describe("the prediction that is shipped", () => {
  it("is what its script makes of the table and the colour matrices", async () => {
    const made = fitPrediction(await knownCameras(CAMERAS.map((camera) => unmixOf(camera).matrix)));
    for (const key of ["lowest", "greatest", "middle", "unmix"] as const)
      made[key].forEach((v, i) => expect(PREDICTION[key][i]).toBeCloseTo(v, 4));
    made.slopes.flat().forEach((v, i) => expect(PREDICTION.slopes.flat()[i]).toBeCloseTo(v, 3));
  });

  it("comes near the matrix of every camera that it was learnt from", () => {
    for (const [i, camera] of CAMERAS.entries()) {
      const { colours, greys } = judged(camera, predictUnmix(PREDICTION, PUBLISHED[i])!);
      expect(colours, `colours of ${camera}`).toBeLessThan(0.03);
      expect(greys, `greys of ${camera}`).toBeLessThan(0.075);
    }
  });
});
