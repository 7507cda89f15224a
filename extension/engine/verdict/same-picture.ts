/** Whether two scans show one picture: the same piece of film, photographed twice. */
import { filmAgreement } from "../detect/same-film.ts";
import { type DensityMap, similarity } from "../detect/overlap.ts";
import type { GrainPrint } from "../detect/same-film.ts";

export interface PictureFeatures {
  readonly map: DensityMap;
  readonly grain?: GrainPrint;
}

/**
 * `same`: the grain agrees. `alike`: they look alike and the grain cannot be compared. `other`: another picture, even if
 * it looks alike.
 */
export type SamePicture = "same" | "alike" | "other";

/** Likeness of two pictures as a whole, from which their grain is worth a comparison; two of one subject reach 0.95. */
const MIN_SIMILARITY = 0.8;
const MIN_SIMILARITY_ALONE = 0.97;
/** Agreement of grain and its certainty: another piece of film reaches 0.1 and 6 (tests/unit/detect/same-film.test.ts). */
const [MIN_AGREEMENT, MIN_CERTAINTY] = [0.13, 7];
/** Part of the patches that has to be even film for the grain to decide. */
const MIN_EVEN = 0.02;

export function samePicture(a: PictureFeatures, b: PictureFeatures): SamePicture {
  const alike = similarity(a.map, b.map);
  if (alike < MIN_SIMILARITY) return "other";
  const film = a.grain && b.grain && filmAgreement(a.grain, b.grain);
  if (film && film.even >= MIN_EVEN)
    return film.agreement >= MIN_AGREEMENT && film.certainty >= MIN_CERTAINTY ? "same" : "other";
  return alike >= MIN_SIMILARITY_ALONE ? "alike" : "other";
}
