/** Rolls of the witness through lenses with known faults. */
import { relativeExposure } from "../../../../extension/engine/flat-field/exposure.ts";
import { filmPlane, type FilmPlane } from "../../../../extension/engine/flat-field/film-plane.ts";
import { makeLightField } from "../../../../extension/engine/flat-field/light-field.ts";
import type { LensFaults } from "../../../../extension/engine/types.ts";
import { correctLens } from "../../../../extension/engine/lens/correct.ts";
import { photographFilm, type Scan } from "../../../witness/camera/camera.ts";
import type { LensDrawing, Setup } from "../../../witness/camera/setup.ts";
import { filmOf, halfScan, request, RIG, GOOD_FLARE, type Rig } from "../survey/rig.ts";
import type { SubjectName } from "../survey/subjects/subjects.ts";

export interface LensRoll {
  readonly subjects: readonly SubjectName[];
  readonly lens: LensDrawing;
  readonly seed: number;
  readonly rig?: Rig;
  readonly setup?: Partial<Setup>;
}

/** Half of the diagonal of a full scan, in pixels. */
export const halfDiagonal = ({ width, height }: Pick<Scan, "width" | "height">): number =>
  Math.hypot(width, height) / 2;

/** Photographs the subjects through the lens. */
export function photographed({ subjects, lens, seed, rig = RIG, setup = {} }: LensRoll): readonly Scan[] {
  return subjects.map((subject, i) => {
    const plain = request(rig, filmOf(subject, rig.stock));
    return photographFilm({ ...plain, setup: { ...plain.setup, ...setup, lens } }, seed + i);
  });
}

/** What decoding at half size and the light of the blank make of the scans, their lens corrected where faults are given. */
export function planesOf(scans: readonly Scan[], rig: Rig = RIG, faults?: LensFaults): FilmPlane[] {
  const blank = halfScan(photographFilm(request(rig, "blank"), 90));
  const field = makeLightField(blank.scan, blank.info);
  return scans.map((taken) => {
    const { scan, info } = halfScan(taken);
    if (faults) correctLens(scan, faults);
    return filmPlane(scan, { field, flare: GOOD_FLARE, ratio: relativeExposure(info, blank.info).ratio });
  });
}
