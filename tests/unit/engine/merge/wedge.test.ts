/**
 * A step wedge of 0.05 to 3.05 D on simulated film, photographed by the witness as a bracket: noise and truth of the
 * densest steps by one exposure and by three. The seeds were drawn once; no limit of the engine was set by them.
 */
import { describe, expect, it } from "vitest";
import { startMerge } from "../../../../extension/engine/merge/merge.ts";
import type { LinearScan } from "../../../../extension/engine/types.ts";
import { halfScan } from "../survey/rig.ts";
import { photographFilm } from "../../../witness/camera/camera.ts";
import { CAMERA_A, PANEL } from "../../../witness/camera/cameras.ts";
import { GOOD_PLACEMENT, GOOD_SETUP, metered } from "../../../witness/camera/setup.ts";
import { FORMAT_135 } from "../../../witness/film/format.ts";
import { stepWedge } from "../../../witness/scenes/targets.ts";

const [width, height] = [1200, 800];
const { film } = stepWedge(FORMAT_135, 25);
const setup = { ...GOOD_SETUP, flare: 0 };
const usual = metered(CAMERA_A, PANEL, setup, "bare light");

/** A scan this many times as long as the usual one, the film moved by some pixels. */
function photographed(times: number, nudge: number, seed: number) {
  const [seconds, of] = usual.shutter;
  const exposure = { ...usual, shutter: [seconds * times, of] as const };
  const [x, y] = GOOD_PLACEMENT.centre;
  const placement = {
    ...GOOD_PLACEMENT,
    centre: [x + (0.7 * nudge) / width, y - (0.4 * nudge) / height] as [number, number],
  };
  const request = { camera: CAMERA_A, light: PANEL, setup, film, exposure, placement, width, height };
  const scan = photographFilm(request, seed);
  return { scan: halfScan(scan).scan, truth: scan.truth };
}

describe("a step wedge in a bracket of 1, 4 and 16 times", () => {
  const shots = [1, 4, 16].map((times, i) => photographed(times, i, 901 + i));
  const [first] = shots as [(typeof shots)[0]];
  const merge = startMerge(first.scan);
  const readings = shots.slice(1).map(({ scan }) => merge.add(scan));
  const merged = merge.finish();

  it("takes all three", () => {
    expect(readings.map((reading) => typeof reading)).toEqual(["object", "object"]);
  });

  /** Green of a step's middle: mean, and standard deviation over it. */
  function step(k: number, scan: LinearScan): { mean: number; noise: number } {
    const values: number[] = [];
    for (let v = 0.3; v < 0.7; v += 0.004)
      for (let u = (k + 0.3) / 21; u < (k + 0.7) / 21; u += 0.0015) {
        const [x, y] = first.truth.placeOf(u, v).map((at) => Math.round(at / 2)) as [number, number];
        values.push((scan.data[(y * scan.width + x) * 3 + 1]! - scan.black) * scan.scale);
      }
    const mean = values.reduce((a, b) => a + b, 0) / values.length;
    return { mean, noise: Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / values.length) / mean };
  }

  it.each([16, 18, 20])(
    "has a fifth of the noise in step %i, and its light over the first's as the film has it",
    (k) => {
      const [alone, together, clear] = [step(k, first.scan), step(k, merged), step(2, merged)];
      const truth = 10 ** (-0.15 * (k - 2));
      if (process.env["FIGURES"])
        console.log(
          `D ${(0.05 + 0.15 * k).toFixed(2)}: noise ${alone.noise.toFixed(4)} -> ${together.noise.toFixed(4)}, light over truth, alone ${(alone.mean / step(2, first.scan).mean / truth).toFixed(4)}, merged ${(together.mean / clear.mean / truth).toFixed(4)}`,
        );
      expect(together.noise).toBeLessThan(alone.noise / 4);
      // Against each other, for the witness's lens spreads a little light over the steps.
      const longest = shots[2]!.scan;
      const ratio = step(k, longest).mean / step(20, longest).mean;
      expect(Math.abs(together.mean / step(20, merged).mean / ratio - 1)).toBeLessThan(0.01);
    },
  );
});
