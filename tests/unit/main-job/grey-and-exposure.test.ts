/**
 * The main job against the witness: film developed by its model, photographed by its camera, decoded, divided by the
 * light and printed through a plan. The recipe's numbers come from the invented stock's data sheet; the base and the
 * balance are measured on the scans, as a person would.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { neutralise } from "../../../extension/engine/calibrate/grey.ts";
import { deltaE2000 } from "../../../extension/engine/colour/difference.ts";
import { labOf, type Lab } from "../../../extension/engine/colour/lab.ts";
import { SPACES, toD50 } from "../../../extension/engine/colour/spaces.ts";
import { apply } from "../../../extension/engine/math/matrix.ts";
import { readBase } from "../../../extension/engine/flat-field/densitometer.ts";
import { compilePlan } from "../../../extension/engine/plan/compile.ts";
import { runPlan } from "../../../extension/engine/plan/run.ts";
import { readTransmittance } from "../../../extension/engine/flat-field/transmittance.ts";
import type { FrameLook, Rgb } from "../../../extension/engine/types.ts";
import { CAMERA_A, CAMERA_B, PANEL, type Camera } from "../../witness/camera/cameras.ts";
import { dataSheet } from "../../witness/film/datasheet.ts";
import { readReflectances } from "../../witness/spectra/reflectances.ts";
import { GOOD_SETUP } from "../../witness/camera/setup.ts";
import { NORTHLIGHT_400 } from "../../witness/film/stocks.ts";
import { chart, greyScale, type Target } from "../../witness/scenes/targets.ts";
import { shoot, type Stand } from "../engine/detect/scans.ts";

const SIZE = { width: 900, height: 600 };
const standOf = (camera: Camera): Stand => ({ camera, light: PANEL, setup: GOOD_SETUP, size: SIZE });

/** The stock's data sheet with the base that was read on the leader of this roll. */
function lookOf(stand: Stand): FrameLook {
  const sheet = dataSheet(NORTHLIGHT_400, stand.camera, stand.light);
  const leader = shoot("leader", { stand });
  const { density } = readBase(leader.scan, [0.4, 0.4, 0.2, 0.2], { ...leader.light, flare: leader.truth.flare });
  return {
    film: "colour-negative",
    base: density,
    gamma: sheet.gamma,
    curve: sheet.curve,
    unmix: sheet.unmix,
    colour: sheet.colour,
    exposure: 0,
    filtration: { cyan: 0, magenta: 0, yellow: 0 },
    tone: { contrast: 1, toe: 0.3, shoulder: 0.4, black: 0.5, points: [] },
    saturation: 1,
  };
}

interface PhotographedPatch {
  readonly name: string;
  /** Transmittance of every pixel in the patch's inner half. */
  readonly pixels: Float32Array;
  readonly mean: Rgb;
}

function photograph(target: Target, stand: Stand, stops = 0): PhotographedPatch[] {
  const { scan, light, truth } = shoot(target.scene, { stand, film: { exposure: stops } });
  const reader = readTransmittance(scan, { ...light, flare: truth.flare });
  return target.patches.map(({ name, box }) => {
    const [x0, y0] = truth.placeOf(box.left + box.width / 4, box.top + box.height / 4).map(Math.ceil);
    const [x1, y1] = truth.placeOf(box.left + (3 * box.width) / 4, box.top + (3 * box.height) / 4).map(Math.floor);
    const wide = x1 - x0;
    const pixels = new Float32Array(3 * wide * (y1 - y0));
    const mean: [number, number, number] = [0, 0, 0];
    for (let y = y0; y < y1; y++) reader.row(y, pixels.subarray(3 * wide * (y - y0)), x0, x1);
    for (let i = 0; i < pixels.length; i++) mean[i % 3] += (3 * pixels[i]) / pixels.length;
    return { name, pixels, mean };
  });
}

/** L*a*b* (D50) of a patch as printed: the plan runs over its pixels, and their light is averaged as an eye would. */
function printed(look: FrameLook, { pixels }: PhotographedPatch): Lab {
  const n = pixels.length / 3;
  const out = new Uint16Array(3 * n);
  runPlan(compilePlan(look, "srgb"), pixels, out, n);
  const linear: [number, number, number] = [0, 0, 0];
  for (let i = 0; i < out.length; i++) linear[i % 3] += SPACES.srgb.decode(out[i] / 65535) / n;
  return labOf(apply(toD50(SPACES.srgb), linear));
}

describe.each([
  ["A", CAMERA_A],
  ["B", CAMERA_B],
] as const)("film photographed with camera %s", (_name, camera) => {
  const stand = standOf(camera);
  const look = lookOf(stand);

  it("gives a neutral scale: ΔC*ab at most 2 from L* 20 to 90, after base, curve and balance", () => {
    const steps = photograph(greyScale(480, 320), stand);
    const grey = steps[7]; // 0.9 · 10^−0.7 = 18 %
    const balanced: FrameLook = { ...look, ...neutralise(look, grey.mean) };
    const prints = steps.map((step) => printed(balanced, step)).filter(([l]) => l >= 20 && l <= 90);
    expect(prints.length).toBeGreaterThanOrEqual(12);
    for (const [, a, b] of prints) expect(Math.hypot(a, b)).toBeLessThanOrEqual(2);
    const [middle] = printed(balanced, grey);
    expect(Math.abs(middle - 49.5)).toBeLessThan(0.5);
  }, 120_000);

  it("gives the same subject at −1, +1 and +3 stops, mean ΔE00 at most 2, once the exposure is set", () => {
    const surfaces = readReflectances(
      readFileSync(
        new URL("../../reference/charts/colorchecker24_babelcolor_avg_380_730_10nm.csv", import.meta.url),
        "utf8",
      ),
    );
    const subject = chart(480, 320, surfaces);
    const normal = photograph(subject, stand).map((patch) => printed(look, patch));
    for (const stops of [-1, 1, 3]) {
      const other = photograph(subject, stand, stops).map((patch) => printed({ ...look, exposure: -stops }, patch));
      const differences = other.map((lab, i) => deltaE2000(lab, normal[i]));
      expect(differences).toHaveLength(24);
      const mean = differences.reduce((a, b) => a + b, 0) / differences.length;
      expect(mean, `${stops} stops`).toBeLessThanOrEqual(2);
    }
  }, 120_000);
});
