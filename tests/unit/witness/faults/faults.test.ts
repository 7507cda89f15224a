import { describe, expect, it } from "vitest";
import { photographFilm, type ScanRequest } from "../../../witness/camera/camera.ts";
import { CAMERA_A, PANEL } from "../../../witness/camera/cameras.ts";
import { FAULTS, type FaultName } from "../../../witness/faults/faults.ts";
import { develop } from "../../../witness/film/film.ts";
import { FORMAT_135 } from "../../../witness/film/format.ts";
import { chart, greyScale, slantedEdge, stepWedge } from "../../../witness/scenes/targets.ts";
import { flat } from "../../../witness/spectra/spectrum.ts";
import { GOOD_PLACEMENT, GOOD_SETUP, metered } from "../../../witness/camera/setup.ts";
import { NORTHLIGHT_400 } from "../../../witness/film/stocks.ts";

const film = develop(greyScale(360, 240).scene, NORTHLIGHT_400, { format: FORMAT_135 }, 2);
const good: ScanRequest = {
  camera: CAMERA_A,
  light: PANEL,
  setup: GOOD_SETUP,
  film,
  exposure: metered(CAMERA_A, PANEL, GOOD_SETUP, NORTHLIGHT_400),
  placement: GOOD_PLACEMENT,
  noise: 0,
  width: 360,
  height: 240,
};

/** ISO shows in the noise alone. */
const noisy = (name: FaultName): ScanRequest => (name.endsWith("Iso") ? { ...good, noise: 1 } : good);

const distance = (a: Uint16Array, b: Uint16Array): number => a.reduce((s, v, i) => s + (v - b[i]) ** 2, 0);

describe("faults", () => {
  const { mosaic: clean, meta: cleanMeta } = photographFilm(good, 1);

  const shot = (name: FaultName, level: "light" | "strong") =>
    photographFilm(FAULTS[name](noisy(name), level, 1, 3), 1);
  const at = (name: FaultName, level: "light" | "strong"): Uint16Array => shot(name, level).mosaic;
  const names = Object.keys(FAULTS) as FaultName[];

  it.each(names)("%s changes the scan, and repeats exactly", (name) => {
    const { mosaic, meta } = shot(name, "light");
    // Another lens of the same kind shows in what the camera writes alone.
    const change = name === "otherLens" ? Number(meta.lens !== cleanMeta.lens) : distance(mosaic, clean);
    expect(change).toBeGreaterThan(0);
    expect(at(name, "light")).toEqual(mosaic);
  });

  it.each(names.filter((n) => n !== "mirrored"))("%s changes it more when strong", (name) => {
    expect(distance(at(name, "strong"), clean)).toBeGreaterThan(distance(at(name, "light"), clean));
  });

  it("dirt lies at the same place in every scan, dust does not", () => {
    const truths = [0, 1].map(
      (i) => photographFilm(FAULTS.dustySensor(FAULTS.dusty(good, "light", i, 3), "light", i, 3), 1).truth,
    );
    expect(truths[0].sensorDust).toEqual(truths[1].sensorDust);
    expect(truths[0].dust).not.toEqual(truths[1].dust);
  });

  it("mixed ISO keeps the exposure: shorter by as much as more sensitive", () => {
    const { exposure } = FAULTS.mixedIso(good, "strong", 1, 3);
    const value = (e: ScanRequest["exposure"]): number => (e.shutter[0] / e.shutter[1]) * (e.iso / e.aperture ** 2);
    expect(value(exposure) / value(good.exposure)).toBeCloseTo(1, 3);
  });
});

describe("targets", () => {
  it("a step wedge has its densities in the scan's truth", () => {
    const wedge = stepWedge(FORMAT_135, 10);
    const { truth } = photographFilm({ ...good, film: wedge.film }, 1);
    for (const { box, density } of wedge.steps) {
      const t = truth.transmittanceAt(...truth.placeOf(box.left + box.width / 2, 0.5));
      for (const v of t) expect(-Math.log10(v)).toBeCloseTo(density, 2);
    }
  });

  it("a slanted edge runs where its angle says", () => {
    const edge = slantedEdge(FORMAT_135, 10, 5);
    const { truth } = photographFilm({ ...good, film: edge }, 1);
    for (const v of [0.1, 0.5, 0.9]) {
      // x·cos + y·sin = 0 in millimetres from the middle.
      const u = 0.5 - ((v - 0.5) * 24 * Math.tan((5 * Math.PI) / 180)) / 36;
      expect(truth.transmittanceAt(...truth.placeOf(u - 0.02, v))[1]).toBeCloseTo(10 ** -1.2, 2);
      expect(truth.transmittanceAt(...truth.placeOf(u + 0.02, v))[1]).toBeCloseTo(10 ** -0.3, 2);
    }
  });

  it("a chart exposes the film by its spectra", () => {
    const surfaces = [0.1, 0.2, 0.4, 0.8].map((y) => ({ name: `${y}`, reflectance: flat(y) }));
    const target = chart(360, 240, surfaces);
    expect(target.patches.map((p) => p.rgb[1])).toEqual([0.1, 0.2, 0.4, 0.8].map((v) => expect.closeTo(v, 9)));
    const made = develop(target.scene, NORTHLIGHT_400, { format: FORMAT_135, grain: 0 }, 1);
    const amounts = target.patches.map(({ box }) => {
      const x = Math.round(made.picture.left + (box.left + box.width / 2) * made.picture.width);
      const y = Math.round(made.picture.top + (box.top + box.height / 2) * made.picture.height);
      return made.amounts[(y * made.width + x) * 3 + 1];
    });
    // Equal ratios of light, equal steps of density on the straight part.
    expect(amounts[2] - amounts[1]).toBeCloseTo(amounts[1] - amounts[0], 2);
    expect(amounts[3] - amounts[2]).toBeCloseTo(amounts[2] - amounts[1], 2);
  });
});
