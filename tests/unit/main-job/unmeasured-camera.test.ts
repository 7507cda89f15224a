/**
 * A camera that nobody measured, against the witness: its unmix is learnt from real cameras on real films, and judged on
 * invented ones, whose maker publishes a colour matrix. Densities: the witness's own densitometer and spectra.
 */
import { describe, expect, it } from "vitest";
import { judgeUnmix, type TrainingPatch } from "../../../extension/engine/calibrate/spectra.ts";
import { unmixOf } from "../../../extension/engine/calibrate/camera-unmix/index.ts";
import { type Camera, CAMERA_A, CAMERA_B, EVEN, type Light, PANEL } from "../../witness/camera/cameras.ts";
import { colourMatrixOf } from "../../witness/camera/colour-matrix.ts";
import { baseDensity, developed, emulsionOf, spectralDensity } from "../../witness/film/emulsion.ts";
import { photographedDensity, trainingColours } from "../../witness/film/fit.ts";
import { integral } from "../../witness/spectra/spectrum.ts";
import { statusDensity } from "../../witness/spectra/status.ts";
import { NORTHLIGHT_400 } from "../../witness/film/stocks.ts";

const surfaces = trainingColours();
const base = baseDensity(NORTHLIGHT_400);
const emulsion = emulsionOf(NORTHLIGHT_400);

/** Surfaces at four exposures: what the densitometer and what the camera read of the film above its base. */
function patchesSeen(camera: Camera, light: Light): TrainingPatch[] {
  return surfaces.flatMap(({ reflectance, weight }) =>
    [-1, 0, 1, 2].map((stops) => {
      const amounts = developed(
        emulsion,
        emulsion.responses.map((r) => 2 ** stops * integral(r, reflectance)),
      );
      const [r, g, b] = statusDensity(NORTHLIGHT_400.status, spectralDensity(NORTHLIGHT_400, amounts));
      return {
        status: [r - base[0], g - base[1], b - base[2]],
        camera: photographedDensity(NORTHLIGHT_400, camera, light, reflectance, stops),
        // Greys weigh more than colours there.
        grey: weight > 1,
      };
    }),
  );
}

describe("the unmix from the colour matrix of an invented camera", () => {
  it.each([
    [CAMERA_A, PANEL],
    [CAMERA_A, EVEN],
    [CAMERA_B, PANEL],
    [CAMERA_B, EVEN],
  ] as const)(
    "is nearer to Status M than the generic one by a quarter at least: $0.model, $1.name light",
    (camera, light) => {
      const patches = patchesSeen(camera, light);
      const { matrix, from } = unmixOf(camera.model, colourMatrixOf(camera));
      expect(from).toBe("colour matrix");
      const [own, generic] = [judgeUnmix(matrix, patches), judgeUnmix(unmixOf(camera.model).matrix, patches)];
      expect(own.rms / generic.rms).toBeLessThan(0.75);
      expect(own.grey / generic.grey).toBeLessThan(0.65);
    },
  );
});
