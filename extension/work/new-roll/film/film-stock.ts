/** Writes a stock's recipe from a published film, for the camera and light of a roll's scans. */
import { likelyCameras, type LikelyCameras } from "../../../engine/calibrate/likely-cameras.ts";
import { plainCurve, publishedNumbers, type PublishedNumbers } from "../../../engine/calibrate/published-film.ts";
import { FILM_SOURCE, publishedFilm } from "../../../engine/film/library/index.ts";
import { CAMERAS, DISPLAY, DYES, LIGHTS, SHAPES } from "../../../engine/film/library/spectra.ts";
import type { PublishedFilm } from "../../../engine/film/library/types.ts";
import type { Matrix3, Rgb } from "../../../engine/types.ts";
import { composeRecipe, type CommentInsert } from "../../../recipe/edit/compose.ts";
import type { ValueEdit } from "../../../recipe/edit/edit.ts";

export interface FilmStockRequest {
  /** The film's own name; case and punctuation do not count. */
  readonly film: string;
  /** Camera of the scans, as their files name it. */
  readonly model?: string;
  readonly colourMatrix?: Matrix3;
  /** Whether the scans were developed for display, so that the camera's own matrix has been applied. */
  readonly display?: boolean;
  /** Mean raw signal of the bare light; any scale. */
  readonly blank?: Rgb;
  /** Density of the base, against the blank or, without one, of the raw signal. */
  readonly base?: Rgb;
}

export interface FilmStock {
  /** The recipe's text. */
  readonly text: string;
  readonly name: string;
  /** Where the camera's sensitivities come from; absent on film without dyes. */
  readonly cameraFrom?: LikelyCameras["from"] | "display";
  readonly numbers?: PublishedNumbers;
}

/** @throws RangeError where no film has this name */
export async function filmStock(request: FilmStockRequest): Promise<FilmStock> {
  const film = publishedFilm(request.film);
  if (!film) throw new RangeError(`No published film is called "${request.film}".`);
  if (!film.colour) return { text: silverText(film), name: film.name };
  const { model, colourMatrix, blank, base, display } = request;
  const likely = display
    ? ({ cameras: [[DISPLAY, 1]], from: "display" } as const)
    : likelyCameras(SHAPES, model, colourMatrix);
  // White balance and rendering of a developed file hide the light's colour.
  const evidence = display ? { cameras: likely.cameras } : { cameras: likely.cameras, blank, base };
  const numbers = publishedNumbers(film, evidence, { dyes: DYES, lights: LIGHTS, cameras: CAMERAS });
  return { text: colourText(film, numbers, likely.from, model), name: film.name, cameraFrom: likely.from, numbers };
}

const noteOf = (film: PublishedFilm): string =>
  `Published data of ${film.year}: ${FILM_SOURCE.source}; ${FILM_SOURCE.licence} licence, © ${FILM_SOURCE.author}.`;

function silverText(film: PublishedFilm): string {
  return composed(
    film,
    [{ path: ["negative", "curve"], value: plainCurve(film) }],
    [
      {
        path: ["negative", "curve"],
        text:
          "Diffuse visual density as published, mid-grey at 0. A camera sees silver a little denser (Callier effect): " +
          "lower the contrast if prints are hard.",
      },
    ],
  );
}

const FROM: Readonly<Record<NonNullable<FilmStock["cameraFrom"]>, (model: string) => string>> = {
  model: (model) => `by ${model}, whose sensitivities are published`,
  "colour matrix": (model) => `by ${model}: averaged over published cameras with colour matrices like its own`,
  generic: (model) => `by ${model}: averaged over all published cameras, for nothing is known of it`,
  display: () => "that were developed for display",
};

function colourText(
  film: PublishedFilm,
  numbers: PublishedNumbers,
  from: NonNullable<FilmStock["cameraFrom"]>,
  model = "an unnamed camera",
): string {
  const { base, curve, unmix, colour, lights, spread } = numbers;
  const [light] = lights;
  const share = Math.round(100 * light.share);
  return composed(
    film,
    [
      { path: ["negative", "base", "density"], value: base },
      { path: ["negative", "curve"], value: curve },
      { path: ["negative", "unmix"], value: unmix },
      { path: ["negative", "colour"], value: colour },
    ],
    [
      {
        path: ["negative", "base"],
        text: "Expected; a roll's own base is read from its scans and compared with it.",
      },
      {
        path: ["negative", "curve"],
        text:
          `Neutrals as scans ${FROM[from](model)} show them: the published Status M curves, seen through the film's dyes. ` +
          `Most of the weight (${share} %) is on this kind of light: ${light.name}. Mid-grey at 0; its colour is known to ` +
          `${spread.toFixed(3)} D.`,
      },
      {
        path: ["negative", "unmix"],
        text: "Takes out what camera and dyes mix; fitted to surfaces on this film at five exposures.",
      },
      {
        path: ["negative", "colour"],
        text: "Layer exposures to sRGB's primaries: least ΔE00 over 190 measured surfaces, from the film's sensitivities.",
      },
    ],
  );
}

function composed(film: PublishedFilm, values: readonly ValueEdit[], comments: readonly CommentInsert[]): string {
  return composeRecipe({
    kind: "stock",
    head: `Written from the film library for one camera and one light; create it again for others.`,
    values: [
      { path: ["title"], value: film.name },
      { path: ["film"], value: film.kind },
      { path: ["iso"], value: film.iso },
      ...values,
      { path: ["note"], value: noteOf(film) },
    ],
    comments,
  });
}
