/** What cameras see of film, and the matrices that undo it, against published spectra. */
import { describe, expect, it } from "vitest";
import {
  cameraDensity,
  curveSeen,
  fitUnmix,
  judgeUnmix,
  photograph,
  seenBy,
  statusM,
} from "../../extension/engine/calibrate/spectra.ts";
import { fitCameras, SIGMA, STOPS } from "../../extension/engine/calibrate/camera-unmix/fit-table.ts";
import { knownModels, unmixOf } from "../../extension/engine/calibrate/camera-unmix/index.ts";
import { referenceTable, triple } from "./reference.ts";
import { CAMERAS, DYE_FILMS, filmData, filmSpectrum, GRID, REFLECTANCES, scanningSet } from "./spectral-data.ts";

// Sources: spectral densities from the makers' sheets (spectral_film_lut, MIT), sensitivities (rawtoaces-data,
// Apache-2.0), CIE lights (colour-science, BSD-3-Clause); results worked out by an independent program.
describe("densities of real film as real cameras see them", () => {
  const rows = referenceTable("films/sim_golden_camera_densities.csv").filter(
    (row) => CAMERAS.includes(row.camera) && row.light !== "GepePanel",
  );

  it("are the golden table's, within 0.002 D, for every camera, light, film and density", () => {
    expect(rows.length).toBeGreaterThan(1000);
    let worst = 0;
    for (const row of rows) {
      const density = cameraDensity(scanningSet(row.camera, row.light), filmSpectrum(row.film, row.spectrum));
      triple(row, "D_R", "D_G", "D_B").forEach((d, c) => (worst = Math.max(worst, Math.abs(density[c] - d))));
    }
    expect(worst).toBeLessThan(0.002);
  });

  it("are the golden table's in Status M too", () => {
    for (const row of rows.filter((r) => r.camera === "D850" && r.light === "D50")) {
      const density = statusM(GRID, filmSpectrum(row.film, row.spectrum));
      triple(row, "StatusM_R", "StatusM_G", "StatusM_B").forEach((d, c) => expect(density[c]).toBeCloseTo(d, 2));
    }
  });
});

const shot = DYE_FILMS.map((about) => {
  const film = filmData(about);
  return { name: about.name, film, patches: photograph(film, REFLECTANCES, STOPS) };
});

describe("unmix matrices from spectra", () => {
  // 190 measured reflectances on four films at five exposures (rawtoaces-data, Apache-2.0).
  it.each(["ILCE-7RM4", "EOS_R5", "D850"])(
    "bring what a %s sees to Status M within 0.02 D rms, greys within 0.02 D at every exposure",
    (camera) => {
      for (const { film, patches } of shot) {
        const seen = seenBy(scanningSet(camera, "D50"), film, patches);
        const without = judgeUnmix(
          [
            [1, 0, 0],
            [0, 1, 0],
            [0, 0, 1],
          ],
          seen,
        );
        const fit = fitUnmix(seen, SIGMA);
        expect(fit.rms).toBeLessThan(0.02);
        expect(fit.grey).toBeLessThan(0.02);
        // The same without a matrix: six times as far off.
        expect(without.rms).toBeGreaterThan(0.06);
        expect(fit.noise).toBeLessThan(2.4);
      }
    },
  );

  it("weigh noise: what is asked to be quieter is quieter and less true", () => {
    const seen = seenBy(scanningSet("EOS_R5", "D50"), shot[0].film, shot[0].patches);
    const fits = [0, 0.01, 0.03].map((sigma) => fitUnmix(seen, sigma));
    expect(fits[0].noise).toBeGreaterThan(fits[1].noise);
    expect(fits[1].noise).toBeGreaterThan(fits[2].noise);
    expect(fits[0].rms).toBeLessThan(fits[2].rms);
  });

  it("leave greys exact at every exposure once the curve is the one that the camera sees", () => {
    const { film } = shot[1];
    const set = scanningSet("ILCE-7RM4", "D50");
    const { unmix } = fitUnmix(seenBy(set, film, shot[1].patches), SIGMA);
    const logH = Array.from({ length: 27 }, (_, i) => -1.2 + 0.12 * i);
    const curve = curveSeen(set, film, unmix, logH);
    // Greys between the table's points, photographed and seen, fall on straight lines between them.
    const greys = seenBy(set, film, photograph(film, [], [0, 0.5, 2])).filter((p) => p.grey);
    const at = [0, 0.5, 2].flatMap((s) =>
      [0.02, 0.04, 0.09, 0.18, 0.36, 0.6, 0.9].map((y) => Math.log10(y / 0.18) + s * Math.log10(2)),
    );
    greys.forEach((p, i) => {
      const k = Math.min(25, Math.max(0, Math.floor((at[i] + 1.2) / 0.12)));
      unmix.forEach((row, c) => {
        const density = row[0] * p.camera[0] + row[1] * p.camera[1] + row[2] * p.camera[2];
        const part = (at[i] + 1.2) / 0.12 - k;
        expect(Math.abs(curve[k][c] + part * (curve[k + 1][c] - curve[k][c]) - density)).toBeLessThan(0.003);
      });
    });
  });
});

describe("the table of cameras", () => {
  it("brings every camera's view of every film to Status M: colours within 0.02 D rms, greys at EVERY exposure", () => {
    expect(knownModels.length).toBe(43);
    for (const camera of knownModels)
      for (const { name, film, patches } of shot) {
        const { rms, grey } = judgeUnmix(unmixOf(camera).matrix, seenBy(scanningSet(camera, "D50"), film, patches));
        expect(grey, `greys of ${name} on ${camera}`).toBeLessThan(0.02);
        expect(rms, `colours of ${name} on ${camera}`).toBeLessThan(0.02);
      }
  });

  it("is what its script makes of the published spectra", () => {
    for (const camera of ["D200", "EOS_R5"]) {
      const [fit] = fitCameras(
        shot.map((s) => s.film),
        REFLECTANCES,
        [[scanningSet(camera, "D50")]],
      );
      unmixOf(camera)
        .matrix.flat()
        .forEach((v, i) => expect(v).toBeCloseTo(fit.unmix.flat()[i], 4));
      expect(fit.rms).toBeLessThan(0.02);
    }
  });

  it("knows models as cameras write them, and has one matrix for all others", () => {
    expect(knownModels.length).toBe(CAMERAS.length);
    expect(unmixOf("ILCE-7RM4").from).toBe("model");
    // Makers put their name before the model, with blanks where the published file has underscores.
    expect(unmixOf("Maker EOS R5").matrix).toEqual(unmixOf("EOS_R5").matrix);
    expect(unmixOf("MAKER D850").from).toBe("model");
    for (const other of [undefined, "", "D8500", "Box 1"]) expect(unmixOf(other).from).toBe("generic");
    for (const row of unmixOf("Box 1").matrix) expect(row[0] + row[1] + row[2]).toBeGreaterThan(0.9);
  });

  it("keeps neutrals nearly neutral: what the generic matrix makes of greys on four films differs little from Status M", () => {
    const { matrix } = unmixOf("Box 1");
    for (const { film, patches } of shot)
      for (const camera of ["ILCE-7RM4", "D850", "EOS_R6"]) {
        const judged = judgeUnmix(matrix, seenBy(scanningSet(camera, "D50"), film, patches));
        expect(judged.rms).toBeLessThan(0.045);
      }
  });
});
