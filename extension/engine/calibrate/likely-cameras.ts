/** Which cameras of published sensitivities stand for the one that took the scans. */
import type { Matrix3 } from "../types.ts";
import { knownModel } from "./camera-unmix/index.ts";
import { shapeOf } from "./camera-unmix/prediction.ts";

/** Cameras with weights, and where they come from. */
export interface LikelyCameras {
  readonly cameras: readonly (readonly [name: string, weight: number])[];
  readonly from: "model" | "colour matrix" | "generic";
}

/** Cameras that are taken for one that nobody has measured. */
const COUNT = 8;
/** Difference of shape, in standard deviations of the known cameras, over which a camera counts less. */
const SIMILARITY_SCALE = 0.7;

/**
 * The camera itself where its model is known; else those whose colour matrices are most like its own; else all.
 * @param shapes `shapeOf` of the known cameras' colour matrices, by model id
 * @param model as the camera writes it
 * @param colourMatrix XYZ under daylight to camera red, green, blue, any scale
 */
export function likelyCameras(
  shapes: Readonly<Record<string, readonly number[]>>,
  model: string | undefined,
  colourMatrix?: Matrix3,
): LikelyCameras {
  const id = knownModel(model);
  if (id !== undefined && id in shapes) return { cameras: [[id, 1]], from: "model" };
  const all = Object.entries(shapes);
  const own = colourMatrix && shapeOf(colourMatrix);
  if (!own) return { cameras: all.map(([name]) => [name, 1 / all.length]), from: "generic" };
  const deviation = own.map((_, k) => {
    const middle = all.reduce((s, [, v]) => s + v[k], 0) / all.length;
    return Math.sqrt(all.reduce((s, [, v]) => s + (v[k] - middle) ** 2, 0) / all.length);
  });
  const far = all
    .map(([name, v]) => ({
      name,
      squares: v.reduce((s, x, k) => s + ((x - own[k]) / deviation[k]) ** 2, 0) / v.length,
    }))
    .toSorted((a, b) => a.squares - b.squares)
    .slice(0, COUNT);
  const weights = far.map(({ squares }) => Math.exp(-(squares - far[0].squares) / (2 * SIMILARITY_SCALE ** 2)));
  const total = weights.reduce((a, b) => a + b, 0);
  return { cameras: far.map(({ name }, i) => [name, weights[i] / total]), from: "colour matrix" };
}
