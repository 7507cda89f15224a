/** How far off an unmix is for cameras that it was not learnt from: the prediction from a colour matrix, and the median. */
import { judgeUnmix, photograph, seenBy, type TrainingPatch } from "../../extension/engine/calibrate/spectra.ts";
import { fitPrediction } from "../../extension/engine/calibrate/camera-unmix/fit-prediction.ts";
import { STOPS } from "../../extension/engine/calibrate/camera-unmix/fit-table.ts";
import { unmixOf } from "../../extension/engine/calibrate/camera-unmix/index.ts";
import { predictUnmix } from "../../extension/engine/calibrate/camera-unmix/prediction.ts";
import type { Matrix3, Rgb } from "../../extension/engine/types.ts";
import { knownCameras, makerOf } from "./colour-matrices.ts";
import { CAMERAS, DYE_FILMS, filmData, REFLECTANCES, scanningSet } from "./spectral-data.ts";

/** Errors in density: colours root mean square, greys the worst of all exposures; over all four films. */
export interface Judged {
  readonly camera: string;
  readonly colours: number;
  readonly greys: number;
}

const shot = DYE_FILMS.map((about) => {
  const film = filmData(about);
  return { film, patches: photograph(film, REFLECTANCES, STOPS) };
});
const seen = new Map<string, TrainingPatch[]>();

export function judged(camera: string, unmix: Matrix3): Judged {
  let patches = seen.get(camera);
  if (!patches) {
    patches = shot.flatMap(({ film, patches: p }) => seenBy(scanningSet(camera, "D50"), film, p));
    seen.set(camera, patches);
  }
  const { rms, grey } = judgeUnmix(unmix, patches);
  return { camera, colours: rms, greys: grey };
}

const cameras = await knownCameras(CAMERAS.map((camera) => unmixOf(camera).matrix));
/** The published matrix of each camera. */
export const PUBLISHED: readonly Matrix3[] = cameras.map((c) => c.colourMatrices[0]);

/**
 * Which cameras are left out together. One colour matrix is published for several models: these are one sensor, or nobody
 * measured the second, and either way the one must not be learnt from the other.
 */
export const GROUPS = {
  camera: (i: number): string => PUBLISHED[i].flat().join(),
  maker: (i: number): string => makerOf(CAMERAS[i]),
} as const;

/** Every camera by what is learnt from the cameras of other groups. @param given the colour matrix that its file states */
export function leftOut(
  groups: keyof typeof GROUPS,
  given: readonly Matrix3[],
): { predicted: Judged; median: Judged }[] {
  const groupOf = GROUPS[groups];
  return CAMERAS.map((camera, i) => {
    const others = cameras.filter((_, j) => groupOf(j) !== groupOf(i));
    const predicted = predictUnmix(fitPrediction(others), given[i]);
    if (!predicted) throw new Error(`The colour matrix of ${camera} was taken for nonsense.`);
    return { predicted: judged(camera, predicted), median: judged(camera, medianOf(others.map((c) => c.unmix))) };
  });
}

function medianOf(unmixes: readonly Matrix3[]): Matrix3 {
  const row = (r: number): Rgb => {
    const at = (c: number): number => unmixes.map((u) => u[r][c]).sort((a, b) => a - b)[unmixes.length >> 1];
    return [at(0), at(1), at(2)];
  };
  return [row(0), row(1), row(2)];
}

/** Median, nine tenths, worst. */
export function spread(all: readonly Judged[], of: "colours" | "greys"): [number, number, number] {
  const sorted = all.map((j) => j[of]).sort((a, b) => a - b);
  return [sorted[sorted.length >> 1], sorted[Math.ceil(0.9 * sorted.length) - 1], sorted[sorted.length - 1]];
}
