/** The stock of a roll: what its recipe states, or the published film that one is written from. */
import { dirname, join } from "node:path";
import { publishedFilm, publishedFilms, searchFilms } from "../../../engine/film/library/index.ts";
import { filmStockJob } from "../jobs.ts";
import type { PublishedFilm } from "../../../engine/film/library/types.ts";
import type { Film, FrameLook, Rgb } from "../../../engine/types.ts";
import type { FilmFormat } from "../../../recipe/generated/types.ts";
import { toneIn } from "../../../engine/film/tone-versions.ts";
import { CURRENT_VERSION } from "../../../recipe/version.ts";
import { parseRecipe } from "../../../recipe/problems/document.ts";
import { nearest } from "../../../recipe/problems/nearest.ts";
import { type ResolvedRoll, resolveRoll } from "../../../recipe/resolve/resolve.ts";
import type { Workspace } from "../../files/workspace.ts";
import type { FrameLight } from "../../frame/develop.ts";
import { type NewRollOptions, type StartContext, StartError } from "../new-roll-options.ts";
import type { FirstPassScan } from "../../../engine/auto/roll/first-pass.ts";
import type { RollBase } from "../started-roll.ts";
import type { FilmStock, FilmStockRequest } from "./film-stock.ts";

export interface StockLook {
  readonly look: FrameLook;
  /** Kind of film where the stock states one. */
  readonly statedFilm?: Film;
  /** Whether the stock states a curve, gamma or unmix. */
  readonly statesNegative: boolean;
  readonly format?: FilmFormat;
  /** Base that the stock states. */
  readonly base?: Rgb;
  readonly statesUnmix: boolean;
}

/**
 * What the stock says, or the defaults where there is none; `given` is the text of one that is yet to be written.
 * @throws StartError where the stock is missing or has an error
 */
export async function stockLook(
  { stock }: Pick<NewRollOptions, "stock">,
  workspace: Workspace,
  given?: string,
): Promise<StockLook> {
  const file = stock === undefined ? "none.stock.yaml" : workspace.inside(stock);
  const text = given ?? (stock === undefined ? `version: ${CURRENT_VERSION}\n` : await workspace.read(file));
  if (text === undefined) throw new StartError(`There is no stock ${stock}. Check the path.`);
  const document = parseRecipe(text, { file, kind: "stock" });
  const error = document.problems.find((p) => p.severity === "error");
  if (error) throw new StartError(`The stock ${stock} has an error: ${error.message} Fix it first.`);
  const stated = statedLook(resolveRoll(document));
  // The roll that is created is of the current version, whatever its stock is of.
  return { ...stated, look: { ...stated.look, tone: toneIn(CURRENT_VERSION, stated.look.tone) } };
}

/** What a resolved recipe states of film and negative, itself or by its stock. */
export function statedLook(resolved: ResolvedRoll): StockLook {
  const states = (...at: string[]): boolean => {
    const origin = resolved.originOf(undefined, at);
    return origin !== undefined && origin.level !== "default";
  };
  return {
    look: resolved.shared.look,
    ...(states("film") || states("negative", "curve") || states("negative", "gamma")
      ? { statedFilm: resolved.film }
      : {}),
    statesNegative: states("negative", "curve") || states("negative", "gamma") || states("negative", "unmix"),
    format: resolved.format,
    ...(states("negative", "base", "density") ? { base: resolved.shared.look.base } : {}),
    statesUnmix: states("negative", "unmix"),
  };
}

/**
 * The film of the library that is asked for.
 * @throws StartError where the library has no such film, or no path for its recipe is named
 */
export function publishedOf({ filmData, stock }: NewRollOptions): PublishedFilm | undefined {
  if (filmData === undefined) return undefined;
  const film = publishedFilm(filmData);
  if (film && stock !== undefined) return film;
  if (film) throw new StartError(`The recipe of ${film.name} needs a path: name the stock that is to be written.`);
  const names = publishedFilms.map(({ name }) => name);
  const near = searchFilms(filmData).map(({ name }) => name);
  const suggestions = near.length > 0 ? near : [nearest(filmData, names) ?? []].flat();
  throw new StartError(
    `The film library has no "${filmData}".${suggestions.length > 0 ? ` Did you mean ${suggestions.slice(0, 4).join(" or ")}?` : ""}` +
      ' "rollbook films" lists what it has.',
  );
}

/** Path of the stock that is written from a film's name, beside the roll's recipe. */
export function stockPathOf(film: string, roll: string): string {
  const name = film
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-|-$/g, "");
  return join(dirname(roll), `${name}.stock.yaml`);
}

/** What the scans say of camera and light. */
export interface StockEvidence {
  readonly pictures: readonly FirstPassScan[];
  readonly light: FrameLight;
  readonly base?: RollBase;
  readonly blank?: FirstPassScan;
}

/** The stock's recipe of a published film for the camera and light of these scans. */
export async function publishedStock(
  film: PublishedFilm,
  { pictures, light, base, blank }: StockEvidence,
  { pool, signal }: StartContext,
): Promise<FilmStock> {
  const { info } = pictures.find((p) => p.info.model) ?? pictures[0];
  const request: FilmStockRequest = {
    film: film.name,
    model: info.model,
    colourMatrix: info.colourMatrix,
    display: pictures.every((p) => p.info.display === true),
    ...(blank && light.field ? { blank: light.field.mean } : {}),
    ...(base ? { base: base.density } : {}),
  };
  return pool.run(filmStockJob, request, { signal });
}
