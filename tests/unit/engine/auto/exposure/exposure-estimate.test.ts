/** Brightness of rolls that no constant of the estimator was chosen on: other scenes, film, camera and light. */
import { describe, expect, it } from "vitest";
import { balanceRoll, sampleOf, tonesOf } from "../../../../../extension/engine/auto/balance.ts";
import { exposureError } from "../../../../../extension/engine/auto/exposure/exposure-estimate.ts";
import { evaluator } from "../../../../../extension/engine/film/reference-pixel.ts";
import { flareOf, withoutFlare } from "../../../../../extension/engine/detect/flare.ts";
import { downsample } from "../../../../../extension/engine/detect/downsampled-scan.ts";
import { CAMERA_B, WARM_PANEL } from "../../../../witness/camera/cameras.ts";
import { SKERRY_100 } from "../../../../witness/film/stocks.ts";
import { type FamilyName, variant } from "../../../../witness/scenes/varied.ts";
import { shoot, STAND } from "../../detect/scans.ts";
import { CARD, lookOf, sheetOf, stopsOff } from "../../../work/new-roll/rolls.ts";

const LOOK = lookOf(sheetOf(SKERRY_100, CAMERA_B, WARM_PANEL));
const stand = { ...STAND, camera: CAMERA_B, light: WARM_PANEL, size: { width: 360, height: 240 } };

/** How far the grey card of each frame is from 18 % after the roll's balance, stops. */
function outcome(frames: readonly (readonly [FamilyName, number])[], seed: number): number[] {
  const shots = frames.map(([family, stops], i) => {
    const scene = variant(family, seed + i, 240, 160, CARD);
    const film = { exposure: stops };
    const { scan, light, truth } = shoot(scene, { stand, stock: SKERRY_100, film, seed: seed + i });
    const raw = downsample(scan, light);
    const flare = flareOf(raw);
    const card = truth.transmittanceAt(...truth.placeOf(CARD.left + CARD.width / 2, CARD.top + CARD.height / 2));
    return { tones: tonesOf(sampleOf(flare ? withoutFlare(raw, flare) : raw, truth.area!), LOOK), card };
  });
  const { exposure } = balanceRoll(
    shots.map((s) => s.tones),
    LOOK,
  );
  return shots.map(({ card }, i) => stopsOff(evaluator({ ...LOOK, exposure: exposure[i] }, "srgb")(card)));
}

const rms = (errors: readonly number[]): number => Math.sqrt(errors.reduce((s, e) => s + e * e, 0) / errors.length);

describe("brightness of scenes never seen before", () => {
  const ordinary = (stops: readonly number[], seed: number): number[] =>
    outcome(
      (["town", "people", "landscape", "room", "shore"] as const).map((f, i) => [f, stops[i]] as const),
      seed,
    );

  it("is within 0.3 EV for most frames of ordinary rolls, as metered and given half a stop too much", () => {
    const errors = [
      ...ordinary([0, 0.1, -0.1, 0.2, 0], 601),
      ...ordinary([0.5, 0.3, 0.6, 0.4, 0.5], 611),
      ...ordinary([0, 0.2, 0.1, -0.1, 0.1], 621),
    ];
    expect(rms(errors)).toBeLessThan(0.25);
    const beyond = errors.filter((e) => Math.abs(e) > 0.3);
    expect(beyond.length).toBeLessThan(errors.length / 4);
    expect(Math.max(...errors.map(Math.abs))).toBeLessThan(0.4);
  });

  it("corrects what an ordinary roll was given a stop too much, and half of a stop too little", () => {
    const errors = ordinary([0.9, 1, 0.8, 1.1, 0.9], 701);
    expect(rms(errors)).toBeLessThan(0.3);
    // Too little is rare, and a dim day is not: less of it is corrected.
    const less = ordinary([-0.5, -0.4, -0.6, -0.5, -0.4], 711);
    expect(rms(less)).toBeLessThan(0.35);
  });

  it.each(["wood", "nightTown", "snowfield"] as const)("is within 0.3 EV over a roll of nothing but %s", (family) => {
    const stops = [0, 0.3, -0.2];
    const errors = outcome(
      stops.map((s) => [family, s]),
      631,
    );
    expect(Math.abs(errors.reduce((a, b) => a + b) / 3)).toBeLessThan(0.3);
    expect(Math.abs(errors[0])).toBeLessThan(0.3);
    // What one frame alone was given more or less cannot be told from what it shows.
    errors.forEach((e, i) => expect(Math.abs(e)).toBeLessThan(0.25 + Math.abs(stops[i])));
  });

  it.each([
    ["wood", 0.4],
    ["cellar", 0.4],
    ["haze", 0.3],
    ["snowfield", 0.3],
  ] as const)(
    "takes most of it back where a roll of nothing but %s was given 0.5 to 0.9 stops too much",
    (family, most) => {
      const errors = outcome(
        [0.7, 0.5, 0.9, 0.6].map((s) => [family, s]),
        721,
      );
      expect(Math.abs(errors.reduce((a, b) => a + b) / 4)).toBeLessThan(most);
    },
  );

  it("is within 0.4 EV where one wood, one field of snow and one night lie among ordinary pictures", () => {
    const roll = ["landscape", "wood", "people", "snowfield", "nightTown", "town"] as const;
    const errors = outcome(
      roll.map((f, i) => [f, 0.1 * (i % 3)] as const),
      641,
    );
    for (const e of errors) expect(Math.abs(e)).toBeLessThan(0.4);
    expect(rms(errors)).toBeLessThan(0.25);
  });
});

describe("light given", () => {
  it("is what all frames of a roll were given, where they are ordinary", () => {
    const frames = [0.12, 0.2, 0.05, 0.16].map((middle, i) => {
      const light = 0.5 + 0.05 * i;
      return { middle: middle + 0.3, light: light + 0.3, dark: middle - 0.6 + 0.3 };
    });
    for (const stops of exposureError(frames)) expect(Math.abs(stops - 0.3 / 0.30103)).toBeLessThan(0.35);
  });

  it("tells leaves given too much from a grey street given enough by their colour", () => {
    const tones = { middle: -0.1, light: 0.17, dark: -0.47 };
    const [leaves] = exposureError([{ ...tones, colour: [-0.1, -0.45] }]);
    const [street] = exposureError([{ ...tones, colour: [0, 0] }]);
    expect(leaves - street).toBeGreaterThan(0.4);
  });

  it("does not count what many frames that look alike say as often as there are frames", () => {
    const dark = { middle: -0.45, light: 0, dark: -1, colour: [0, 0] as const };
    const [one] = exposureError([dark]);
    const [many] = exposureError(Array.from({ length: 12 }, () => dark));
    expect(Math.abs(many - one)).toBeLessThan(0.2);
  });

  it("does not follow one odd frame, nor one that says nothing", () => {
    const usual = [0.12, 0.2, 0.05, 0.16].map((middle) => ({ middle, light: 0.5, dark: middle - 0.6 }));
    const alone = exposureError(usual);
    for (const odd of [
      { middle: -1.1, light: -0.4, dark: -1.5 },
      { middle: 2, light: 2.2, dark: 1 },
      { middle: NaN, light: NaN, dark: NaN },
    ])
      exposureError([...usual, odd])
        .slice(0, 4)
        .forEach((stops, i) => expect(Math.abs(stops - alone[i])).toBeLessThan(0.1));
    expect(exposureError([])).toEqual([]);
  });
});
