/** What a roll's pictures are measured against: bare light, flare, base, and the stock that belongs to them. */
import { type RollFlare, rollFlare } from "../../../engine/auto/roll/common-flare.ts";
import { aspectRatio } from "../../../engine/film/formats.ts";
import type { PublishedFilm } from "../../../engine/film/library/types.ts";
import type { Film, Rgb } from "../../../engine/types.ts";
import type { FrameLight } from "../../frame/develop.ts";
import type { FilmStock } from "../film/film-stock.ts";
import { publishedStock, type StockLook, stockLook } from "../film/stock-look.ts";
import type { StartContext } from "../new-roll-options.ts";
import type { FoundPicture } from "../pictures/find-frame.ts";
import { findAlone, type FindSetup } from "../pictures/find-pictures.ts";
import type { FolderScans } from "../scans/folder-scans.ts";
import type { RollBase } from "../started-roll.ts";
import { rollBase } from "./roll-base.ts";
import { lightOf } from "./roll-light.ts";

export interface RollGround extends RollFlare {
  readonly setup: FindSetup;
  /** With the roll's flare. */
  readonly light: FrameLight;
  readonly base?: RollBase;
  /** Base that pictures are looked for with: clear film on slides. */
  readonly filmBase?: Rgb;
  /** What each picture's scan shows by itself. */
  readonly alone: readonly FoundPicture[];
  readonly stock: StockLook;
  /** The stock's recipe where it is written from a published film. */
  readonly filmStock?: FilmStock;
}

/** What a person or a stock stated before the scans were measured. */
export interface StatedFilm {
  readonly film: Film;
  readonly stock: StockLook;
  readonly published?: PublishedFilm;
}

/** Measures light, flare and base on all scans. */
export async function rollGround(
  { blank, leaders, pictures }: FolderScans,
  { film, stock: stated, published }: StatedFilm,
  context: StartContext,
): Promise<RollGround> {
  const { options, workspace, step } = context;
  const hasBlank = blank !== undefined;
  const bare = await lightOf(blank, leaders[0] ?? pictures[0], context);
  step(blank?.name ?? "light");
  const format = options.format ?? stated.format;
  const setup = { light: bare, ratio: format && aspectRatio(format), film };
  const shots = [...leaders, ...pictures];
  const found = await findAlone(shots, setup, context);
  const alone = found.slice(leaders.length);
  const flare = rollFlare(alone, film, hasBlank);
  const light = { ...bare, flare: flare.flare ?? ([0, 0, 0] as const) };
  const base = film === "slide" ? undefined : await rollBase({ shots, found, leaders: leaders.length }, light, context);
  const filmStock = published && (await publishedStock(published, { pictures, light, base, blank }, context));
  step("base");
  const filmBase = film === "slide" ? ([0, 0, 0] as const) : base?.density;
  return {
    ...flare,
    setup,
    light,
    alone,
    stock: filmStock ? await stockLook(options, workspace, filmStock.text) : stated,
    ...(base ? { base } : {}),
    ...(filmBase ? { filmBase } : {}),
    ...(filmStock ? { filmStock } : {}),
  };
}
