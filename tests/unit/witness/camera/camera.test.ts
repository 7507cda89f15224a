import { describe, expect, it } from "vitest";
import { photographFilm, type ScanRequest } from "../../../witness/camera/camera.ts";
import { CAMERA_A, CAMERA_B, PANEL, WARM_PANEL } from "../../../witness/camera/cameras.ts";
import { develop } from "../../../witness/film/film.ts";
import { FORMAT_135 } from "../../../witness/film/format.ts";
import { cameraDensity, densityTable, lookUp } from "../../../witness/camera/negative.ts";
import { random } from "../../../witness/random.ts";
import { evenScene, paint } from "../../../witness/scenes/scene.ts";
import { cfaChannels } from "../../../witness/camera/sensor.ts";
import { GOOD_PLACEMENT, GOOD_SETUP, metered } from "../../../witness/camera/setup.ts";
import { COALFISH_125, LANTERN_64, NORTHLIGHT_400, STOCKS } from "../../../witness/film/stocks.ts";

const scene = evenScene(360, 240, [0.18, 0.18, 0.18]);
paint(scene, { left: 0.25, top: 0.25, width: 0.5, height: 0.5 }, [0.5, 0.2, 0.1]);
const film = develop(scene, NORTHLIGHT_400, { format: FORMAT_135, frame: "7" }, 2);
const request: ScanRequest = {
  camera: CAMERA_A,
  light: PANEL,
  setup: GOOD_SETUP,
  film,
  exposure: metered(CAMERA_A, PANEL, GOOD_SETUP, NORTHLIGHT_400),
  placement: { ...GOOD_PLACEMENT, tilt: 1.5, centre: [0.51, 0.495] },
  width: 480,
  height: 320,
};
/** Nothing between film and number but the film. */
const ideal: ScanRequest = {
  ...request,
  noise: 0,
  setup: {
    ...GOOD_SETUP,
    falloff: { ...GOOD_SETUP.falloff, corners: 0, slope: [0, 0], tint: [0, 0, 0] },
    veil: [0, 0, 0],
    stray: [0, 0, 0],
    opening: undefined,
  },
};

/** Fraction of saturation at a pixel. */
const signal = (scan: ReturnType<typeof photographFilm>, x: number, y: number): number => {
  const black = scan.black[((y & 1) << 1) | (x & 1)];
  return (scan.mosaic[y * scan.width + x] - black) / (scan.white - black);
};

describe("the table from dyes to camera densities", () => {
  it("is within 0.0005 D of the spectra over the whole range of every stock", () => {
    for (const stock of STOCKS)
      for (const [camera, light] of [
        [CAMERA_A, PANEL],
        [CAMERA_B, WARM_PANEL],
      ] as const) {
        const table = densityTable(camera, light, stock);
        const r = random(11);
        const out = new Float32Array(3);
        for (let i = 0; i < 400; i++) {
          const amounts = stock.layers.map((_, k) =>
            r.between(-0.05, table.low + (table.nodes - 1) * table.step[k] - 0.6),
          );
          lookUp(table, Float32Array.from(amounts), 0, out, 0);
          for (const [c, d] of cameraDensity(camera, light, stock, amounts).entries())
            expect(Math.abs(out[c] - d), `${stock.name} ${amounts.join(" ")}`).toBeLessThan(0.0005);
        }
      }
  });
});

describe("photographing film", () => {
  it("gives the same bytes for the same seed, and other noise for another", () => {
    expect(photographFilm(request, 5).mosaic).toEqual(photographFilm(request, 5).mosaic);
    expect(photographFilm(request, 5).mosaic).not.toEqual(photographFilm(request, 6).mosaic);
  });

  it("an ideal scan over the bare light is the film's transmittance, where its truth says", () => {
    const scan = photographFilm(ideal, 1);
    for (const [u, v] of [
      [0.1, 0.1],
      [0.5, 0.5],
      [0.9, 0.12],
      [0.3, 0.85],
    ]) {
      const [px, py] = scan.truth.placeOf(u, v);
      const seen = [0, 0, 0];
      const ofTruth = [0, 0, 0];
      const count = [0, 0, 0];
      for (let y = Math.floor(py) - 5; y < py + 5; y++)
        for (let x = Math.floor(px) - 5; x < px + 5; x++) {
          const c = cfaChannels(CAMERA_A)[((y & 1) << 1) | (x & 1)];
          seen[c] += signal(scan, x, y) / scan.truth.bare[c];
          ofTruth[c] += scan.truth.transmittanceAt(x + 0.5, y + 0.5)[c];
          count[c]++;
        }
      for (let c = 0; c < 3; c++) expect(seen[c] / count[c] / (ofTruth[c] / count[c])).toBeCloseTo(1, 2);
    }
  });

  it("reads the base in the rebate within 0.002 D of its truth", () => {
    const scan = photographFilm(
      { ...ideal, film: develop("leader", NORTHLIGHT_400, { format: FORMAT_135, pixelsPerMm: 10, grain: 0 }, 1) },
      1,
    );
    const sums = [0, 0, 0];
    const count = [0, 0, 0];
    for (let y = 100; y < 200; y++)
      for (let x = 100; x < 300; x++) {
        const c = cfaChannels(CAMERA_A)[((y & 1) << 1) | (x & 1)];
        sums[c] += signal(scan, x, y) / scan.truth.bare[c];
        count[c]++;
      }
    for (let c = 0; c < 3; c++) expect(-Math.log10(sums[c] / count[c])).toBeCloseTo(scan.truth.base![c], 2.5);
  });

  it("area, tilt and mirroring lie where the truth says: the inner rectangle's corners map through", () => {
    for (const mirrored of [false, true]) {
      const scan = photographFilm({ ...ideal, placement: { ...ideal.placement!, mirrored } }, 1);
      const { area } = scan.truth;
      expect(area!.tilt).toBe(1.5);
      // The middle of the area is the middle of the picture; a clockwise tilt lowers the picture's right end.
      const [mx, my] = scan.truth.placeOf(0.5, 0.5);
      expect(mx / scan.width).toBeCloseTo(area!.left + area!.width / 2, 9);
      expect(my / scan.height).toBeCloseTo(area!.top + area!.height / 2, 9);
      const [lx, ly] = scan.truth.placeOf(0, 0.5);
      const [rx, ry] = scan.truth.placeOf(1, 0.5);
      expect(Math.sign(rx - lx)).toBe(mirrored ? -1 : 1);
      const [west, east] = mirrored ? [ry, ly] : [ly, ry];
      expect(east - west).toBeCloseTo(area!.width * scan.width * Math.sin((1.5 * Math.PI) / 180), 6);
      // The red rectangle is denser (less green and blue light) than the grey around it.
      const inside = scan.truth.placeOf(0.27, 0.5);
      const outside = scan.truth.placeOf(0.23, 0.5);
      expect(scan.truth.transmittanceAt(...inside)[0]).toBeLessThan(0.8 * scan.truth.transmittanceAt(...outside)[0]);
    }
  });

  it("twice the time, or the ISO, gives twice the signal; a stop of aperture halves it", () => {
    const [n, of] = ideal.exposure.shutter;
    const at = (change: Partial<ScanRequest["exposure"]>): number =>
      signal(photographFilm({ ...ideal, exposure: { ...ideal.exposure, ...change } }, 1), 240, 160);
    const one = at({ shutter: [n, 2 * of] });
    expect(at({}) / one).toBeCloseTo(2, 2);
    expect(at({ shutter: [n, 2 * of], iso: 200 }) / one).toBeCloseTo(2, 2);
    expect(at({ aperture: 8 * Math.SQRT2 }) / one).toBeCloseTo(1, 2);
  });

  it("the blank's noise is that of photons and reading", () => {
    const blank = {
      ...ideal,
      film: "blank",
      noise: 1,
      exposure: metered(CAMERA_A, PANEL, GOOD_SETUP, "bare light"),
    } as const;
    const scan = photographFilm(blank, 3);
    for (const [dx, dy] of [
      [0, 0],
      [1, 0],
      [1, 1],
    ]) {
      const c = cfaChannels(CAMERA_A)[(dy << 1) | dx];
      const values: number[] = [];
      for (let y = dy; y < scan.height; y += 2)
        for (let x = dx; x < scan.width; x += 2) values.push(signal(scan, x, y));
      const mean = values.reduce((a, b) => a + b) / values.length;
      const variance = values.reduce((a, b) => a + (b - mean) ** 2, 0) / values.length;
      const electrons = scan.truth.bare[c] * CAMERA_A.fullWell;
      const theory = (electrons + CAMERA_A.readNoise ** 2) / CAMERA_A.fullWell ** 2;
      expect(mean).toBeCloseTo(scan.truth.bare[c], 3);
      expect(variance / theory).toBeGreaterThan(0.97);
      expect(variance / theory).toBeLessThan(1.03);
    }
  });

  it("dust takes the same part of the light in every channel, at its place", () => {
    const speck = { kind: "speck", x: 4, y: -3, radius: 0.5, length: 0, opacity: 0.7, shape: 4 } as const;
    const dusty = photographFilm({ ...ideal, dust: [speck] }, 1);
    const clean = photographFilm(ideal, 1);
    const { x, y } = dusty.truth.dust[0];
    const left = Math.floor(x / 2) * 2;
    const top = Math.floor(y / 2) * 2;
    for (const [dx, dy] of [
      [0, 0],
      [1, 0],
      [1, 1],
    ])
      expect(signal(dusty, left + dx, top + dy) / signal(clean, left + dx, top + dy)).toBeCloseTo(0.3, 2);
  });

  it("flare adds the stated fraction of the bare light", () => {
    const scan = photographFilm(
      { ...ideal, setup: { ...ideal.setup, veil: [0.01, 0.01, 0.02], stray: [0.004, 0.004, 0.005] } },
      1,
    );
    const clean = photographFilm(ideal, 1);
    for (const [x, y] of [
      [100, 100],
      [301, 200],
      [333, 111],
    ]) {
      const c = cfaChannels(CAMERA_A)[((y & 1) << 1) | (x & 1)];
      expect((signal(scan, x, y) - signal(clean, x, y)) / scan.truth.bare[c]).toBeCloseTo(scan.truth.flare[c], 3);
    }
  });

  it("black-and-white film looks nearly neutral, slides and both cameras work", () => {
    for (const stock of [COALFISH_125, LANTERN_64]) {
      const other = develop(scene, stock, { format: FORMAT_135 }, 2);
      const scan = photographFilm(
        { ...request, camera: CAMERA_B, film: other, exposure: metered(CAMERA_B, PANEL, GOOD_SETUP, stock) },
        1,
      );
      const t = scan.truth.transmittanceAt(...scan.truth.placeOf(0.1, 0.5));
      expect(Math.max(...t) / Math.min(...t)).toBeLessThan(stock === COALFISH_125 ? 1.1 : 2);
      expect(scan.mosaic.every((v) => v <= CAMERA_B.white)).toBe(true);
    }
  });

  it("refuses odd sizes", () => {
    expect(() => photographFilm({ ...request, width: 481 }, 1)).toThrow(/481 × 320.*even/);
  });
});
