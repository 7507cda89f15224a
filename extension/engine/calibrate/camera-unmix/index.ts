/** Which unmix matrix suits scans by a camera, by what its files say of it. */
import type { Matrix3 } from "../../types.ts";
import { predictUnmix } from "./prediction.ts";
import { GENERIC, NARROW, PREDICTION, TABLE } from "./table.ts";

const plain = (name: string): string => name.toLowerCase().replaceAll("_", " ").replace(/\s+/g, " ").trim();

const models = new Map(Object.keys(TABLE).map((id) => [plain(id), id]));

/**
 * The id of a camera model in the published tables.
 * @param model as the camera writes it; makers write their name before it or not: the longest end that is known counts
 */
export function knownModel(model: string | undefined): string | undefined {
  const words = plain(model ?? "").split(" ");
  for (let i = 0; i < words.length; i++) {
    const id = models.get(words.slice(i).join(" "));
    if (id !== undefined) return id;
  }
  return undefined;
}

const rows = (n: readonly number[]): Matrix3 => [
  [n[0], n[1], n[2]],
  [n[3], n[4], n[5]],
  [n[6], n[7], n[8]],
];

/**
 * Where an unmix comes from: the model's published sensitivities, the camera's colour matrix, no knowledge of it, or the
 * narrow bands of three-colour light, under which the camera hardly counts.
 */
export type UnmixOrigin = "model" | "colour matrix" | "generic" | "narrow bands";

/**
 * The nearest that is known of the camera: the matrix of its model; else the one that its colour matrix points to; else
 * the generic one, also where the colour matrix cannot be a camera's.
 * @param model as the camera writes it, see `knownModel`
 * @param colourMatrix XYZ under daylight to camera red, green, blue, any scale (`ScanInfo.colourMatrix`)
 * @returns camera densities above base to Status M densities above base
 */
export function unmixOf(
  model: string | undefined,
  colourMatrix?: Matrix3,
): { readonly matrix: Matrix3; readonly from: UnmixOrigin } {
  const id = knownModel(model);
  if (id !== undefined) return { matrix: rows(TABLE[id]), from: "model" };
  const predicted = colourMatrix && predictUnmix(PREDICTION, colourMatrix);
  return predicted ? { matrix: predicted, from: "colour matrix" } : { matrix: rows(GENERIC), from: "generic" };
}

/** The unmix of scans in three-colour light: red, green and blue LEDs of usual wavelengths. */
export const narrowUnmix: Matrix3 = rows(NARROW);

/** Models that the table knows, as published. */
export const knownModels: readonly string[] = Object.keys(TABLE);
