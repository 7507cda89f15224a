/**
 * Colour matrices of the cameras of published sensitivities: as published, and as worked out from the sensitivities.
 * Published ones come from LibRaw, which raw files are read with: it knows them by the model that a file names ("from
 * Adobe DNG Converter unless otherwise noted", D65), so an empty file of each model makes it tell them.
 */
import { colourMatrixFrom, type KnownCamera } from "../../extension/engine/calibrate/camera-unmix/fit-prediction.ts";
import type { Spectrum } from "../../extension/engine/calibrate/spectra.ts";
import type { Matrix3 } from "../../extension/engine/types.ts";
import { colourMatrixOf } from "../../extension/scans/raw/colour-matrix.ts";
import { loadLibRaw } from "../../extension/scans/raw/libraw.ts";
import { writeDng } from "../witness/raw/dng.ts";
import { CAMERAS, lightSpectrum, OBSERVER, REFLECTANCES, scanningSet } from "./spectral-data.ts";

/** Makers of the published models, by how their models begin; the fourth is all others'. */
const MAKERS = [
  { make: "Canon", begins: /^(EOS|Digital)/ },
  { make: "Sony", begins: /^ILCE/ },
  { make: "Panasonic", begins: /^DC-/ },
  { make: "Nikon", begins: /^/ },
];
/** Models that LibRaw knows by another name than the one that the files of published sensitivities have. */
const OTHER_NAMES: Readonly<Record<string, string>> = {
  EOS_R5m2: "EOS R5 Mark II",
  EOS_R6m2: "EOS R6 Mark II",
  Digital_Rebel_XTi: "EOS 400D DIGITAL",
};
const SIDE = 64;
const COLOUR_MATRIX_1 = 50721;

export const makerOf = (camera: string): string => MAKERS.find(({ begins }) => begins.test(camera))!.make;

/** An empty DNG of a model that states no colour matrix itself. */
export function fileOf(make: string, model: string): Uint8Array {
  const tags = new Map([[COLOUR_MATRIX_1, undefined]]);
  return writeDng({ width: SIDE, height: SIDE, data: new Uint16Array(SIDE * SIDE).fill(900), make, model, tags });
}

/** What LibRaw knows of a camera. */
export async function publishedMatrix(camera: string): Promise<Matrix3> {
  const { LibRaw } = await loadLibRaw();
  const file = new LibRaw();
  try {
    file.open(fileOf(makerOf(camera), OTHER_NAMES[camera] ?? camera.replaceAll("_", " ")), {});
    const matrix = colourMatrixOf(undefined, file.metadata(true));
    if (!matrix) throw new Error(`LibRaw knows no colour matrix of ${camera}: look for its name there.`);
    return matrix;
  } finally {
    file.delete();
  }
}

/** What least squares gives, over the 190 training reflectances and D65 unless told otherwise. */
export function fittedMatrix(camera: string, light = "D65", surfaces: readonly Spectrum[] = REFLECTANCES): Matrix3 {
  return colourMatrixFrom({ ...scanningSet(camera, "D50"), light: lightSpectrum(light) }, OBSERVER, surfaces);
}

/** All cameras with both matrices, for given unmixes: what the prediction is learnt from. */
export async function knownCameras(unmixes: readonly Matrix3[]): Promise<KnownCamera[]> {
  const known: KnownCamera[] = [];
  for (const [i, camera] of CAMERAS.entries())
    known.push({ unmix: unmixes[i], colourMatrices: [await publishedMatrix(camera), fittedMatrix(camera)] });
  return known;
}
