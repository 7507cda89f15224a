/** Creates a roll: from a folder of scans to the text of a recipe whose positives look right before anyone touches it. */
import type { PictureSample } from "../../engine/auto/balance.ts";
import { compareBase } from "../../engine/auto/roll/base-difference.ts";
import { EQUAL_WEIGHTS } from "../../engine/film/look-steps.ts";
import { densityRange } from "../../engine/film/paper.ts";
import type { Rgb } from "../../engine/types.ts";
import { CURRENT_VERSION } from "../../recipe/version.ts";
import type { Workspace } from "../files/workspace.ts";
import type { Pool } from "../pool/pool.ts";
import { frameNames, rollEdge } from "./edge/roll-edge.ts";
import { adviceFor, filmOf } from "./film/film-and-advice.ts";
import { type BalancedRoll, balanceSamples, type LookEvidence, rollLook, withoutFrames } from "./film/roll-look.ts";
import { publishedOf, type StockLook, stockLook } from "./film/stock-look.ts";
import { baseDifferenceText } from "./light/base-difference-text.ts";
import { rollGround } from "./light/roll-ground.ts";
import type { KnownRoll } from "./known-roll.ts";
import { type NewRollOptions, startContext, type StartHooks } from "./new-roll-options.ts";
import { shotKey } from "./pictures/join-shots.ts";
import { type RollFrames, rollFrames } from "./pictures/roll-frames.ts";
import { composeRoll, type RollSources } from "./recipe/compose-roll.ts";
import { rollWarnings } from "./roll-warnings.ts";
import { listScans, folderScans } from "./scans/folder-scans.ts";
import type { FirstPassScan } from "../../engine/auto/roll/first-pass.ts";
import type { StartedFrame, StartedRoll } from "./started-roll.ts";

export type { NewRollOptions } from "./new-roll-options.ts";

/**
 * Looks through the scans, measures what can be measured, and composes the recipe. Nothing is written.
 * @throws StartError where there are no scans, or the stock cannot be used
 */
export async function startRoll(
  options: NewRollOptions,
  workspace: Workspace,
  pool: Pool,
  hooks: StartHooks = {},
): Promise<StartedRoll> {
  const { started, sources } = await measureRoll(options, workspace, pool, hooks);
  return { text: composeRoll(started, sources, options, workspace), ...started };
}

export interface MeasuredRoll {
  readonly started: Omit<StartedRoll, "text">;
  readonly sources: RollSources;
}

/**
 * Everything that a roll's recipe is composed of.
 * @param known what a recipe states already, where its values are renewed
 */
export async function measureRoll(
  options: NewRollOptions,
  workspace: Workspace,
  pool: Pool,
  hooks: StartHooks,
  known?: KnownRoll,
): Promise<MeasuredRoll> {
  const { scans, duplicates } = await listScans(options, workspace, known);
  const published = publishedOf(options);
  const stated =
    known?.stock ??
    (await stockLook(options, workspace, published && `version: ${CURRENT_VERSION}\nfilm: ${published.kind}\n`));
  const context = startContext(options, workspace, pool, hooks, 2 * scans.length + 2);
  const sorted = await folderScans(scans, context, known);
  const { blank, leaders, black, pictures, unreadable } = sorted;
  const film = filmOf(options.film ?? stated.statedFilm, pictures, blank);
  const defaults = options.stock === undefined && !known ? await defaultLook(film.film, workspace) : stated;
  const ground = await rollGround(sorted, { film: film.film, stock: defaults, published, known }, context);
  const { stock, shutter, base, density, flare, assumed, filmStock } = ground;
  const hasBlank = blank !== undefined;
  const { ownCurve } = known ?? {};
  const evidence = { pictures, film: film.film, stock, filmStock, base: density, hasBlank, ownCurve };
  const { look, unmix } = rollLook(evidence);
  const found = await rollFrames(pictures, ground, ground.filmBase ?? look.base, context, known);
  const samples = found.frames.map((f) => f.seen.sample);
  const balanced = balanceSamples(samples, look, evidence);
  const { start, balance } = balanced;
  const { edge, second } = rollEdge(pictures, found.shown);
  const names = frameNames(found, edge, options.first);
  const difference = base && stock.base && blank ? differenceOf(stock.base, base.density) : undefined;
  const started = {
    ...(filmStock ? { filmStock: { ...filmStock, path: options.stock! } } : {}),
    ...(edge ? { edge } : {}),
    ...(second ? { second } : {}),
    ...(blank ? { blank: blank.name } : {}),
    leaders: [...leaders, ...black].map((l) => l.name),
    duplicates,
    unreadable,
    ...(base ? { base } : {}),
    ...(shutter ? { shutter } : {}),
    ...(difference ? { difference } : {}),
    ...(flare ? { flare, flareAssumed: assumed } : {}),
    film,
    ...(start ? { start: withoutFrames(start) } : {}),
    ...(film.film === "black-and-white-negative" ? { densityRanges: rangesOf(samples) } : {}),
    advice: start ? adviceFor(start, samples.length, hasBlank, density !== undefined) : [],
    ...(unmix ? { unmix: { camera: unmix.camera, from: unmix.from } } : {}),
    balance,
    frames: startedFrames(found, names, balanced),
    warnings: [
      ...found.warnings,
      ...scanWarnings(pictures, found),
      ...rollWarnings({
        film: film.film,
        hasBlank,
        base,
        hasBase: density !== undefined,
        isInferred: start !== undefined,
      }),
    ],
  };
  const mirror = options.mirror ?? edge?.mirrored ?? false;
  return { started, sources: { stock, unmix, mirror } };
}

const rangesOf = (samples: readonly PictureSample[]): number[] =>
  samples.flatMap((sample) => densityRange(sample, EQUAL_WEIGHTS) ?? []);

function differenceOf(reference: Rgb, read: Rgb): StartedRoll["difference"] {
  const difference = compareBase(reference, read);
  return { ...difference, words: baseDifferenceText(difference) };
}

/** The defaults of a kind of film, where a roll has no stock. */
async function defaultLook(film: LookEvidence["film"], workspace: Workspace): Promise<StockLook> {
  return { ...(await stockLook({}, workspace, `version: ${CURRENT_VERSION}\nfilm: ${film}\n`)), statedFilm: undefined };
}

function startedFrames(
  { frames, unused }: RollFrames,
  names: readonly string[],
  { start, balance }: BalancedRoll,
): StartedFrame[] {
  return frames.map(({ scans, merged, seen, join, part }, i) => ({
    id: names[i],
    scans,
    ...(merged ? { merged } : {}),
    unused: scans.flatMap((name) => unused.get(shotKey({ name, part })) ?? []),
    ...(join ? { join } : {}),
    ...(part ? { part } : {}),
    ...(seen.frame ? { found: seen.frame } : {}),
    exposure: balance.exposure[i],
    ...(start?.frameTones[i] ? { contrast: start.frameTones[i].contrast } : {}),
  }));
}

/** What the files themselves gave reason to say. */
const scanWarnings = (pictures: readonly FirstPassScan[], { seen }: RollFrames): string[] =>
  seen.flatMap(({ warnings }, i) => warnings.map((warning) => `${pictures[i].name}: ${warning}`));
