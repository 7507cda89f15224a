import { describe, expect, it } from "vitest";
import { relativeExposure } from "../../../../extension/engine/flat-field/exposure.ts";
import {
  channelWeights,
  type LightField,
  makeLightField,
} from "../../../../extension/engine/flat-field/light-field.ts";
import { measureBlank } from "../../../../extension/engine/survey/measure-blank.ts";
import { type LightSetup, readTransmittance } from "../../../../extension/engine/flat-field/transmittance.ts";
import type { LinearScan } from "../../../../extension/engine/types.ts";
import { random, scanOf, unevenLight } from "../simulated.ts";

/** T of every pixel. */
function transmittance(scan: LinearScan, setup: LightSetup): Float32Array {
  const reader = readTransmittance(scan, setup);
  const out = new Float32Array(scan.width * scan.height * 3);
  for (let y = 0; y < scan.height; y++) reader.row(y, out.subarray(y * scan.width * 3));
  return out;
}

/** Largest deviation from `truth` after averaging blocks of 12 × 12 pixels: what is left of the light, without noise. */
function residue(t: Float32Array, width: number, height: number, truth: number): number {
  let worst = 0;
  for (let y = 0; y + 12 <= height; y += 12)
    for (let x = 0; x + 12 <= width; x += 12)
      for (let c = 0; c < 3; c++) {
        let sum = 0;
        for (let k = 0; k < 144; k++) sum += t[((y + Math.floor(k / 12)) * width + x + (k % 12)) * 3 + c];
        worst = Math.max(worst, Math.abs(sum / 144 / truth - 1));
      }
  return worst;
}

describe("flat field", () => {
  const [width, height] = [720, 480];

  it("leaves less than 0.5 % of an uneven light, corners included", () => {
    const blank = scanOf(width, height, unevenLight, { photons: 20_000, seed: 3 });
    const film = scanOf(width, height, (x, y, c) => 0.25 * unevenLight(x, y, c));
    const t = transmittance(film, { field: makeLightField(blank), ratio: 1 });
    expect(residue(t, width, height, 0.25)).toBeLessThan(0.005);
  });

  it("lets neither the blank's noise nor its dust print through", () => {
    const specks = Array.from({ length: 60 }, () => 0).map(
      ((r) => () => [r.uniform(), r.uniform(), 0.002 + 0.006 * r.uniform()])(random(5)),
    );
    const dusty = (x: number, y: number, c: number): number =>
      unevenLight(x, y, c) * (specks.some(([sx, sy, r]) => Math.hypot(x - sx, (y - sy) / 1.5) < r) ? 0.55 : 1);
    // A hair from side to side.
    const dirty = (x: number, y: number, c: number): number =>
      dusty(x, y, c) * (Math.abs(y - 0.3 - 0.2 * x) < 0.006 ? 0.6 : 1);
    const blank = scanOf(width, height, dirty, { photons: 4000, seed: 8 });
    const film = scanOf(width, height, (x, y, c) => 0.4 * unevenLight(x, y, c));
    const t = transmittance(film, { field: makeLightField(blank), ratio: 1 });
    expect(residue(t, width, height, 0.4)).toBeLessThan(0.005);
    // From pixel to pixel T follows the film scan alone, to far below the blank's noise of 1.6 %.
    let rough = 0;
    for (let i = 0; i < t.length - 3; i++)
      if ((i / 3) % width < width - 1) rough = Math.max(rough, Math.abs(t[i + 3] - t[i]));
    expect(rough).toBeLessThan(0.4 * 0.0015);
  });

  it("serves scans of full size from a blank of half size", () => {
    const blank = scanOf(width / 2, height / 2, unevenLight, { photons: 40_000 });
    const film = scanOf(width, height, (x, y, c) => 0.1 * unevenLight(x, y, c));
    const t = transmittance(film, { field: makeLightField(blank), ratio: 1 });
    expect(residue(t, width, height, 0.1)).toBeLessThan(0.005);
  });

  it("reads parts of rows, in any order, like whole rows", () => {
    const blank = scanOf(300, 200, unevenLight);
    const film = scanOf(300, 200, (x, y, c) => 0.2 * unevenLight(x, y, c));
    const setup = { field: makeLightField(blank), flare: [0.004, 0.004, 0.005], ratio: 1.3 } as const;
    const whole = transmittance(film, setup);
    const reader = readTransmittance(film, setup);
    const part = new Float32Array(3 * 50);
    for (const y of [199, 0, 57, 58, 16, 15]) {
      reader.row(y, part, 100, 150);
      expect(part).toEqual(whole.slice((y * 300 + 100) * 3, (y * 300 + 150) * 3));
    }
  });

  it.each([
    ["its border", { left: 0.04, top: 0.05, width: 0.93, height: 0.9 }],
    ["a third of its sides", { left: 0.17, top: 0.15, width: 0.62, height: 0.68 }],
  ])("is true inside the opening where a holder hides %s of the blank", (_, opening) => {
    // The holder lies out of focus: its border is soft over 12 pixels of 1600, and its metal shines a little.
    const soft = (d: number): number => 1 / (1 + Math.exp((-d * width) / 1.2));
    const through = (x: number, y: number): number =>
      soft(x - opening.left) *
      soft(opening.left + opening.width - x) *
      soft(((y - opening.top) * height) / width) *
      soft(((opening.top + opening.height - y) * height) / width);
    const masked = (x: number, y: number, c: number): number => unevenLight(x, y, c) * (0.004 + 0.996 * through(x, y));
    // A cell of a real blank gives 1500 samples, one of this small scan 225: the same noise of a cell.
    const blank = scanOf(width, height, masked, { photons: 130_000, seed: 3 });
    const field = makeLightField(blank);
    expect(field.opening).toBeDefined();
    const film = scanOf(width, height, (x, y, c) => 0.25 * unevenLight(x, y, c));
    const t = transmittance(film, { field, ratio: 1 });
    let worst = 0;
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) {
        const [u, v] = [(x + 0.5) / width - opening.left, (y + 0.5) / height - opening.top];
        if (u < 0 || v < 0 || u > opening.width || v > opening.height) continue;
        for (let c = 0; c < 3; c++) worst = Math.max(worst, Math.abs(t[(y * width + x) * 3 + c] / 0.25 - 1));
      }
    expect(worst).toBeLessThan(0.005);
    // The survey takes the holder neither for falloff nor for bands.
    const [with_, without] = [blank, scanOf(width, height, unevenLight, { photons: 130_000, seed: 3 })].map((scan) =>
      measureBlank(scan, makeLightField(scan), { channels: 3, raw: true, bits: 14 } as never, "LIGHT.dng"),
    );
    expect(with_.unevenness).toBeLessThan(without.unevenness + 0.5);
    expect(with_.colourSpan).toBeLessThan(without.colourSpan + 0.5);
    expect(with_.banding).toBeLessThan(without.banding + 0.5);
    expect(with_.sensorDust).toEqual([]);
  });

  it("knows no opening where nothing hides the light", () => {
    expect(makeLightField(scanOf(width, height, unevenLight, { photons: 20_000 })).opening).toBeUndefined();
  });

  it("refuses a blank without light", () => {
    expect(() => makeLightField(scanOf(64, 64, () => 0))).toThrow("black");
  });

  it("works on the smallest pictures", () => {
    const field = makeLightField(scanOf(9, 5, () => 0.5));
    const t = transmittance(
      scanOf(9, 5, () => 0.25),
      { field, ratio: 1 },
    );
    expect(Math.max(...t)).toBeCloseTo(0.5, 3);
    expect(Math.min(...t)).toBeCloseTo(0.5, 3);
  });
});

describe("transmittance", () => {
  const even = (level: number): LinearScan => scanOf(64, 48, () => level);

  it("follows its definition, T = (s − f·b)/(b − f·b)", () => {
    const field = makeLightField(even(0.8));
    const flare = [0.01, 0.02, 0.03] as const;
    const t = transmittance(even(0.2), { field, flare, ratio: 1 });
    for (let c = 0; c < 3; c++) {
      const expected = (0.2 - flare[c] * 0.8) / (0.8 - flare[c] * 0.8);
      expect(t[c]).toBeCloseTo(expected, 4);
    }
  });

  it("removes the flare that a camera adds", () => {
    const veil = 0.006;
    // The camera sees film and veiling light: s = (1 − f)·b·T + f·b; the blank is seen as b.
    const film = scanOf(64, 48, () => 0.8 * ((1 - veil) * 0.01 + veil));
    const t = transmittance(film, { field: makeLightField(even(0.8)), flare: [veil, veil, veil], ratio: 1 });
    expect(t[0]).toBeCloseTo(0.01, 4);
  });

  it("is the signal itself where there is no blank", () => {
    const t = transmittance(even(0.31), { ratio: 1 });
    expect(t[0]).toBeCloseTo(0.31, 4);
  });

  it("spreads a monochrome scan over three channels", () => {
    const blank = scanOf(64, 48, () => 0.9, { channels: 1 });
    const film = scanOf(64, 48, () => 0.3, { channels: 1 });
    const t = transmittance(film, { field: makeLightField(blank), flare: [0.01, 0.01, 0.01], ratio: 1 });
    const expected = (0.3 - 0.009) / (0.9 - 0.009);
    for (let c = 0; c < 3; c++) expect(t[c]).toBeCloseTo(expected, 4);
  });

  it("keeps noise around black unbiased: values below the black level count as negative", () => {
    const film = scanOf(64, 48, () => 0, {});
    film.data.fill(590, 0, film.data.length / 2);
    film.data.fill(610, film.data.length / 2);
    const t = transmittance(film, { field: makeLightField(even(0.8)), ratio: 1 });
    expect(Math.abs(t.reduce((a, b) => a + b, 0) / t.length)).toBeLessThan(1e-6);
  });
});

describe("exposure", () => {
  it("is shutter × ISO ÷ f-number², scan over blank (exposure relation of ISO 2720)", () => {
    const blank = { shutter: 1 / 60, iso: 100, aperture: 8 };
    expect(relativeExposure({ shutter: 1 / 15, iso: 100, aperture: 8 }, blank).ratio).toBeCloseTo(4, 12);
    expect(relativeExposure({ shutter: 1 / 60, iso: 200, aperture: 8 }, blank).ratio).toBeCloseTo(2, 12);
    // One stop from f/8 to f/11.3 (8·√2).
    expect(relativeExposure({ shutter: 1 / 60, iso: 100, aperture: 8 * Math.SQRT2 }, blank).ratio).toBeCloseTo(0.5, 12);
  });

  it("takes what one side does not state as equal, and says so", () => {
    const seen = relativeExposure({ shutter: 1 / 30, iso: 100 }, { shutter: 1 / 60, iso: 100, aperture: 8 });
    expect(seen).toEqual({ ratio: 2, unknown: ["aperture"] });
    expect(relativeExposure({}, {}).unknown).toEqual(["aperture", "shutter", "iso"]);
    expect(relativeExposure({ shutter: 0, iso: NaN, aperture: -1 }, { shutter: 1, iso: 1, aperture: 1 }).ratio).toBe(1);
  });

  it("gives the same film the same T at two shutter times", () => {
    const blank = scanOf(300, 200, unevenLight);
    const field = makeLightField(blank);
    const film = (times: number): LinearScan => scanOf(300, 200, (x, y, c) => 0.2 * times * unevenLight(x, y, c));
    const reference = { shutter: 1 / 60, iso: 100, aperture: 8 };
    const short = transmittance(film(1), { field, ...relativeExposure({ ...reference, shutter: 1 / 60 }, reference) });
    const long = transmittance(film(4), { field, ...relativeExposure({ ...reference, shutter: 1 / 15 }, reference) });
    let worst = 0;
    for (let i = 0; i < short.length; i++) worst = Math.max(worst, Math.abs(long[i] / short[i] - 1));
    // A quarter of a step of 1/59400 on the darkest sample.
    expect(worst).toBeLessThan(1e-3);
  });
});

describe("weights of one-channel film", () => {
  it("are the shares of the bare light, which give the least photon noise", () => {
    const level = [0.3, 0.9, 0.6];
    const photons = 3000;
    const blank = scanOf(128, 96, (_x, _y, c) => level[c]);
    const field: LightField = makeLightField(blank);
    const weights = channelWeights(field);
    expect(weights[0] + weights[1] + weights[2]).toBeCloseTo(1, 12);
    const film = scanOf(128, 96, (_x, _y, c) => 0.2 * level[c], { photons, seed: 11 });
    const t = transmittance(film, { field, ratio: 1 });
    const noise = (w: readonly number[]): number => {
      let sum = 0;
      for (let i = 0; i < t.length; i += 3) sum += (w[0] * t[i] + w[1] * t[i + 1] + w[2] * t[i + 2] - 0.2) ** 2;
      return Math.sqrt(sum / (t.length / 3));
    };
    const best = noise(weights);
    for (const other of [
      [1 / 3, 1 / 3, 1 / 3],
      [0, 1, 0],
      [0.05, 0.6, 0.35],
      [0.3, 0.4, 0.3],
    ])
      expect(noise(other)).toBeGreaterThan(best);
  });
});
