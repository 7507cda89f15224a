/** Whether two scans show one picture: the same piece of film, photographed twice. */
import { type FilmAgreement, filmAgreement } from "../detect/same-film.ts";
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
const MIN_SIMILARITY_ALONE = 0.95;
/**
 * Agreement of grain and its certainty: another piece of film reaches 0.1 and 6 (tests/unit/engine/detect/same-film.test.ts).
 * Fine grain, small scans and blur leave less agreement; over much even film that is as certain.
 */
const SAME_FILM: readonly Pick<FilmAgreement, "agreement" | "certainty" | "even">[] = [
  { agreement: 0.13, certainty: 7, even: 0.02 },
  { agreement: 0.05, certainty: 8.5, even: 0.14 },
];
/** Grain that agrees with less certainty than this, where there is enough even film, is another piece of film's. */
const OTHER_FILM = { certainty: 7, even: 0.02 };
/** Width of a scan at half size, in pixels, below which a pixel is larger than the grain of 135 film. */
const MIN_WIDTH = 480;

export function samePicture(a: PictureFeatures, b: PictureFeatures): SamePicture {
  const alike = similarity(a.map, b.map);
  if (alike < MIN_SIMILARITY) return "other";
  const film = a.grain && b.grain && filmAgreement(a.grain, b.grain);
  if (film && SAME_FILM.some((least) => isAtLeast(film, least))) return "same";
  const showsGrain = film && film.even >= OTHER_FILM.even && a.grain.width >= MIN_WIDTH;
  if (showsGrain && film.certainty < OTHER_FILM.certainty) return "other";
  return alike >= MIN_SIMILARITY_ALONE ? "alike" : "other";
}

const isAtLeast = (film: FilmAgreement, least: (typeof SAME_FILM)[number]): boolean =>
  film.agreement >= least.agreement && film.certainty >= least.certainty && film.even >= least.even;
