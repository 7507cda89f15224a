import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { CHART_24 } from "../../../../extension/engine/calibrate/chart-24.ts";
import { findChart, gridBetween, type Point } from "../../../../extension/engine/calibrate/chart-find.ts";
import {
  ChartError,
  type ChartPatch,
  fitChart,
  mean,
  ninetieth,
} from "../../../../extension/engine/calibrate/chart-fit.ts";
import { readChart, type ReferencePatch } from "../../../../extension/engine/calibrate/chart-read.ts";
import { GreyError, neutralise } from "../../../../extension/engine/calibrate/grey.ts";
import { judgeWedge, readWedge, TOLERANCE, WedgeError } from "../../../../extension/engine/calibrate/wedge.ts";
import { unmixOf } from "../../../../extension/engine/calibrate/camera-unmix/index.ts";
import { deltaE2000 } from "../../../../extension/engine/colour/difference.ts";
import { evaluator } from "../../../../extension/engine/film/reference-pixel.ts";
import { findOnScan } from "../../../../extension/engine/detect/index.ts";
import { downsample } from "../../../../extension/engine/detect/downsampled-scan.ts";
import { IDENTITY } from "../../../../extension/engine/math/matrix.ts";
import type { FrameLook, Rgb } from "../../../../extension/engine/types.ts";
import { referenceTable, triple } from "../../../external/reference.ts";
import { photographFilm } from "../../../witness/camera/camera.ts";
import { CAMERA_A, CAMERA_B, PANEL } from "../../../witness/camera/cameras.ts";
import { FORMAT_135 } from "../../../witness/film/format.ts";
import { readReflectances } from "../../../witness/spectra/reflectances.ts";
import { GOOD_SETUP, metered } from "../../../witness/camera/setup.ts";
import { NORTHLIGHT_400 } from "../../../witness/film/stocks.ts";
import { chart, stepWedge } from "../../../witness/scenes/targets.ts";
import { lightOf, linearOf, shoot, STAND, type Stand } from "../detect/scans.ts";
import { sheetOf } from "../../work/new-roll/rolls.ts";

// 24 measured patches: BabelColor's mean of 30 charts, © Danny Pascale, as carried by colour-science (BSD-3-Clause).
const surfaces = readReflectances(
  readFileSync(
    new URL("../../../reference/charts/colorchecker24_babelcolor_avg_380_730_10nm.csv", import.meta.url),
    "utf8",
  ),
);
const reference: ReferencePatch[] = referenceTable("charts/cc24_babelcolor_xyY_XYZ_LabD50.csv").map((row) => ({
  name: row.patch,
  lab: triple(row, "L", "a", "b"),
}));
const target = chart(600, 400, surfaces);

/** A stock as its sheet says, but with matrices of a camera that nobody measured: what a first chart has to fix. */
function lookOf(stand: Stand, base: Rgb): FrameLook {
  const sheet = sheetOf(NORTHLIGHT_400, stand.camera, PANEL);
  return {
    film: "colour-negative",
    base,
    gamma: sheet.gamma,
    curve: sheet.curve!,
    unmix: unmixOf(undefined).matrix,
    colour: IDENTITY,
    exposure: 0,
    filtration: { cyan: 0, magenta: 0, yellow: 0 },
    saturation: 1,
    tone: { contrast: 1, toe: 0, shoulder: 0, black: 0, points: [] },
  };
}

const standOf = (camera: Stand["camera"]): Stand => ({ ...STAND, camera, size: { width: 1000, height: 666 } });
const stands = [standOf(CAMERA_A), standOf(CAMERA_B)];

/** A chart on film, photographed, found and read. */
function photographed(stand: Stand, stops: number, placement = {}) {
  const { scan, light } = shoot(target.scene, {
    stand,
    film: { exposure: stops },
    placement: { tilt: 0.6, ...placement },
  });
  const { downsampled, frame, base } = findOnScan(scan, light, { ratio: 1.5 });
  const look = lookOf(stand, base!.density);
  const grid = findChart(downsampled, frame!.area)!;
  return { overview: downsampled, look, grid, reading: readChart(downsampled, grid, reference, look) };
}

describe("a 24-patch chart on film", () => {
  const shots = stands.map((stand) => photographed(stand, 0.3));

  it("is found by itself, all patches of it", () => {
    for (const { grid, reading } of shots) {
      expect(grid.seen).toBeGreaterThan(20);
      expect(reading).toMatchObject({ turned: 0, mirrored: false, clipped: [] });
    }
  });

  it("gives matrices: mean ΔE00 ≤ 2, nine tenths ≤ 4, on patches not used for the fit ≤ 3", () => {
    for (const { look, reading } of shots) {
      const fit = fitChart(reading.patches, look);
      expect(mean(fit.errors)).toBeLessThan(2);
      expect(ninetieth(fit.errors)).toBeLessThan(4);
      expect(mean(fit.heldOut)).toBeLessThan(3);
      // Before, the matrices of no camera in particular were worse.
      const before = evaluator({ ...look, exposure: fit.exposure }, "srgb");
      expect(mean(reading.patches.map((p) => deltaE2000(before(p.transmittance).lab, p.lab)))).toBeGreaterThan(
        2 * mean(fit.errors),
      );
      for (const row of fit.colour) expect(row[0] + row[1] + row[2]).toBeCloseTo(1, 9);
    }
  });

  it("serves other exposures of the same film: the same patches two stops over within mean ΔE00 2", () => {
    const fit = fitChart(shots[0].reading.patches, shots[0].look);
    const over = photographed(stands[0], 2.3);
    const look = { ...over.look, unmix: fit.unmix, colour: fit.colour, exposure: fit.exposure - 2 };
    const { cyan, yellow } = fit.filtration;
    const read = evaluator({ ...look, filtration: { cyan, magenta: 0, yellow } }, "srgb");
    expect(mean(over.reading.patches.map((p) => deltaE2000(read(p.transmittance).lab, p.lab)))).toBeLessThan(2);
  });

  it("is read mirrored too, and between four corners given by hand", () => {
    const { reading, overview: downsampled, look } = photographed(stands[0], 0, { mirrored: true });
    expect(reading.mirrored).toBe(true);
    const [first] = shots;
    const { centres } = first.grid;
    const half = (a: Point, b: Point, k: number): number => (a[k] + (a[k] - b[k]) / 2) / 1;
    // From the centres of the outer patches half a patch outwards along both sides.
    const corner = (at: number, along: number, down: number): Point => {
      const [x, y] = [half(centres[at], centres[along], 0), half(centres[at], centres[along], 1)];
      return [
        (x + (centres[at][0] - centres[down][0]) / 2) / first.overview.width,
        (y + (centres[at][1] - centres[down][1]) / 2) / first.overview.height,
      ];
    };
    const corners = [corner(0, 1, 6), corner(5, 4, 11), corner(23, 22, 17), corner(18, 19, 12)] as const;
    const byHand = gridBetween(first.overview, corners);
    byHand.centres.forEach(([x, y], i) => {
      expect(Math.hypot(x - centres[i][0], y - centres[i][1])).toBeLessThan(4);
    });
    expect(
      mean(fitChart(readChart(downsampled, gridBetween(downsampled, corners), reference, look).patches, look).errors),
    ).toBeLessThan(2.5);
  });

  it("is refused with the reason where it does not fit", () => {
    const [{ look, reading }] = shots;
    const mixed: ChartPatch[] = reading.patches.map((p, i) => ({
      ...p,
      transmittance: reading.patches[(i * 7) % 24].transmittance,
    }));
    expect(() => fitChart(mixed, look)).toThrow(ChartError);
    expect(() => fitChart(mixed, look)).toThrow(/mean ΔE00 \d+\.\d.*Check/);
    expect(() => fitChart(reading.patches.slice(0, 12), look)).toThrow(/too few/);
  });

  it("is not found where there is none", () => {
    const { scan, light } = shoot("leader", { stand: stands[0] });
    const { downsampled } = findOnScan(scan, light);
    expect(findChart(downsampled, { left: 0.05, top: 0.05, width: 0.9, height: 0.9, tilt: 0 })).toBeUndefined();
  });

  it("has its usual colours near those of thirty measured charts", () => {
    // ISO 17321-1 against BabelColor's mean: charts differ from one another by so much.
    const apart = CHART_24.map((p, i) => deltaE2000(p.lab, reference[i].lab));
    expect(mean(apart)).toBeLessThan(1.5);
    expect(CHART_24.map((p) => p.name)[18]).toBe("white");
  });
});

describe("a step wedge", () => {
  const { film, steps } = stepWedge(FORMAT_135, 25);
  const known = steps.map((s) => s.density);
  const stand = { ...STAND, size: { width: 1000, height: 666 } };

  const measured = (stray: number) => {
    const setup = {
      ...GOOD_SETUP,
      opening: undefined,
      stray: [stray, stray, stray] as const,
      veil: [0, 0, 0] as const,
    };
    const exposure = metered(CAMERA_A, PANEL, GOOD_SETUP, "bare light");
    const request = { ...stand, ...stand.size, setup, film, exposure };
    const made = photographFilm(
      { ...request, placement: { centre: [0.5, 0.5], width: 0.91, tilt: 0.2, mirrored: false } },
      3,
    );
    const downsampled = downsample(linearOf(made), lightOf(stand, exposure));
    return {
      steps: readWedge(downsampled, { left: 0.02, top: 0.1, width: 0.96, height: 0.8, tilt: 0.2 }, 21)!,
      truth: made.truth,
    };
  };

  it("is found along the scan, and tells flare, slope and the range that can be trusted", () => {
    for (const stray of [0.001, 0.008]) {
      const { steps: read, truth } = measured(stray);
      const report = judgeWedge(read, known);
      expect(Math.abs(report.flare - truth.flare[1])).toBeLessThan(0.0006 + 0.1 * stray);
      expect(report.slope).toBeGreaterThan(0.97);
      expect(report.slope).toBeLessThan(1.03);
      expect(report.worst).toBeLessThanOrEqual(TOLERANCE);
      expect(report.usable[0]).toBeLessThan(0.1);
      expect(report.usable[1]).toBeGreaterThan(stray > 0.005 ? 1.9 : 2.4);
    }
  });

  it("shows what flare would spoil unseen: the more there is, the sooner", () => {
    const [little, much] = [0.001, 0.008].map((s) => judgeWedge(measured(s).steps, known));
    expect(much.flareLimit).toBeLessThan(little.flareLimit);
    expect(much.flareLimit).toBeLessThan(1.7);
  });

  it("is refused where its steps are not those of the table", () => {
    const { steps: read } = measured(0.001);
    expect(() => judgeWedge(read, known.slice(1))).toThrow(WedgeError);
    expect(() =>
      judgeWedge(
        read,
        known.map((d) => 1.3 * d),
      ),
    ).toThrow(/steps agree with the table/);
  });
});

describe("a grey card", () => {
  const look = lookOf(stands[0], [0.27, 0.59, 0.74]);

  it("comes out grey and at 18 %, whatever cast it had", () => {
    for (const density of [
      [1.0, 1.4, 1.6],
      [0.8, 1.5, 1.9],
      [1.3, 1.3, 1.4],
    ]) {
      const t = density.map((d) => 10 ** -d) as unknown as Rgb;
      const { filtration, exposure } = neutralise(look, t);
      const { lab, exposure: h } = evaluator({ ...look, filtration, exposure }, "srgb")(t);
      expect(Math.hypot(lab[1], lab[2])).toBeLessThan(0.05);
      expect(h[1]).toBeCloseTo(0.18, 4);
    }
  });

  it("is refused where the place is no grey at all, and on black-and-white film", () => {
    expect(() => neutralise(look, [0.5, 0.001, 0.001])).toThrow(GreyError);
    expect(() => neutralise({ ...look, film: "black-and-white-negative" }, [0.1, 0.1, 0.1])).toThrow(/no colour/);
  });
});
