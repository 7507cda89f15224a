/** What a roll's pictures are measured against: bare light, flare, base, and the stock that belongs to them. */
import { type RollFlare, rollFlare } from "../../../engine/auto/roll/common-flare.ts";
import { aspectRatio } from "../../../engine/film/formats.ts";
import type { PublishedFilm } from "../../../engine/film/library/types.ts";
import { readShutterTimes, type ShutterReading } from "../../../engine/flat-field/shutter-times.ts";
import type { Area, Film, Rgb } from "../../../engine/types.ts";
import { placedFalloff } from "../../frame/frame-setup.ts";
import type { FrameLight } from "../../frame/develop.ts";
import type { FilmStock } from "../film/film-stock.ts";
import { publishedStock, type StockLook, stockLook } from "../film/stock-look.ts";
import type { KnownRoll } from "../known-roll.ts";
import type { StartContext } from "../new-roll-options.ts";
import type { FoundPicture } from "../pictures/found-picture.ts";
import { findAlone, type FindSetup } from "../pictures/find-pictures.ts";
import type { FolderScans } from "../scans/folder-scans.ts";
import type { FirstPassScan } from "../../../engine/auto/roll/first-pass.ts";
import type { RollBase } from "../started-roll.ts";
import { rollBase } from "./roll-base.ts";
import { lightOf } from "./roll-light.ts";

export interface RollGround extends RollFlare {
  readonly setup: FindSetup;
  /** With the roll's flare. */
  readonly light: FrameLight;
  /** What the shutter times are, where the base tells. */
  readonly shutter?: ShutterReading;
  readonly base?: RollBase;
  /** Density of the base: as read, or as the recipe keeps it. */
  readonly density?: Rgb;
  /** Base that pictures are looked for with: clear film on slides. */
  readonly filmBase?: Rgb;
  /** Rectangles that the recipe keeps, by the name of the scan. */
  readonly areas: ReadonlyMap<string, Area>;
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
  /** What the recipe states already. */
  readonly known?: KnownRoll;
}

/** Measures light, flare and base on all scans. */
export async function rollGround(
  { blank, leaders, pictures }: FolderScans,
  { film, stock: stated, published, known }: StatedFilm,
  context: StartContext,
): Promise<RollGround> {
  const { options, workspace, step } = context;
  const hasBlank = blank !== undefined;
  const bare = await lightOf(blank, leaders[0] ?? pictures[0], context, known?.lens);
  step(blank?.name ?? "light");
  const format = options.format ?? stated.format;
  const setup = { light: bare, ratio: format && aspectRatio(format), film };
  const shots = [...leaders, ...pictures];
  const areas = knownAreas(pictures, known);
  const first = await findAlone(shots, setup, context, areas);
  const shutter = known?.times ? undefined : shutterOf(shots, first, bare, stated.base);
  const times = known?.times ?? shutter?.times;
  const isNominal = times === "nominal";
  const timed = isNominal ? { ...setup, light: { ...bare, times } } : setup;
  const found = isNominal ? await findAlone(shots, timed, context, areas) : first;
  const alone = found.slice(leaders.length);
  const flare = known?.flare ? { flare: known.flare, assumed: false } : rollFlare(alone, film, hasBlank);
  const bareLight = { ...timed.light, flare: flare.flare ?? ([0, 0, 0] as const) };
  const hasBase = film === "slide" || known?.base !== undefined;
  const base = hasBase ? undefined : await rollBase({ shots, found, leaders: leaders.length }, bareLight, context);
  // Where the base was read the light counts as 1.
  const falloff = known?.falloff && !blank ? (base ? placedFalloff(known, { read: base }) : known) : {};
  const light = { ...bareLight, ...(falloff.falloff ? { falloff: falloff.falloff } : {}) };
  const density = known?.base ?? base?.density;
  const filmStock = published && (await publishedStock(published, { pictures, light, base, blank }, context));
  step("base");
  const filmBase = film === "slide" ? ([0, 0, 0] as const) : density;
  return {
    ...flare,
    setup: timed,
    light,
    alone,
    areas,
    stock: filmStock ? await stockLook(options, workspace, filmStock.text) : stated,
    ...(shutter ? { shutter } : {}),
    ...(base ? { base } : {}),
    ...(density ? { density } : {}),
    ...(filmBase ? { filmBase } : {}),
    ...(filmStock ? { filmStock } : {}),
  };
}

/** What the bases of the scans tell of their shutter times. */
function shutterOf(
  shots: readonly FirstPassScan[],
  found: readonly FoundPicture[],
  { reference }: FrameLight,
  stock: Rgb | undefined,
): ShutterReading | undefined {
  const bases = shots.flatMap(({ info }, i) => {
    const base = found[i].base;
    return base ? [{ shutter: info.shutter, density: base.density }] : [];
  });
  return readShutterTimes(bases, reference?.shutter, stock);
}

/** Kept rectangles of frames that have a scan for themselves. */
function knownAreas(pictures: readonly FirstPassScan[], known: KnownRoll | undefined): Map<string, Area> {
  const frames = known?.frames ?? [];
  return new Map(
    pictures.flatMap(({ name }) => {
      const own = frames.filter(({ scans }) => scans.length === 1 && scans[0] === name);
      return own.length === 1 && own[0].area ? [[name, own[0].area] as const] : [];
    }),
  );
}
