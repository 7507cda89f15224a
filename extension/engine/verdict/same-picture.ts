/** Whether two scans show one picture: the same piece of film, photographed twice. */
import { filmAgreement } from "../detect/same-film.ts";
import { type DensityMap, likeness } from "../detect/overlap.ts";
import type { GrainPrint } from "../detect/same-film.ts";

export interface Recognisable {
  readonly map: DensityMap;
  readonly grain?: GrainPrint;
}

/**
 * `same`: the grain agrees. `alike`: they look alike and the grain cannot be compared. `other`: another picture, even if
 * it looks alike.
 */
export type SamePicture = "same" | "alike" | "other";

/** Likeness of two pictures as a whole, from which their grain is worth a comparison; two of one subject reach 0.95. */
const MIN_LIKENESS = 0.8;
const VERY_ALIKE = 0.97;
/** Agreement of grain and its certainty: another piece of film reaches 0.1 and 6 (tests/unit/detect/same-film.test.ts). */
const [MIN_AGREEMENT, MIN_CERTAINTY] = [0.13, 7];
/** Part of the patches that has to be even film for the grain to decide. */
const MIN_EVEN = 0.02;

export function samePicture(a: Recognisable, b: Recognisable): SamePicture {
  const alike = likeness(a.map, b.map);
  if (alike < MIN_LIKENESS) return "other";
  const film = a.grain && b.grain && filmAgreement(a.grain, b.grain);
  if (film && film.even >= MIN_EVEN)
    return film.agreement >= MIN_AGREEMENT && film.certainty >= MIN_CERTAINTY ? "same" : "other";
  return alike >= VERY_ALIKE ? "alike" : "other";
}
