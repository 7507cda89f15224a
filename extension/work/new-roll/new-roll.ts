/** Creates a roll: from a folder of scans to the text of a recipe whose positives look right before anyone touches it. */
import { errorText } from "../../scans/system-errors.ts";
import { basename, dirname, relative, resolve, sep } from "node:path";
import { balanceRoll, type RollBalance, tonesOf } from "../../engine/auto/balance.ts";
import { compareBase } from "../../engine/auto/base-difference.ts";
import { type StartValues, startValues } from "../../engine/auto/start-values.ts";
import { isWhole } from "../../engine/detect/frame.ts";
import { commonPlace } from "../../engine/detect/roll-place.ts";
import { type UnmixOrigin, unmixOf } from "../../engine/calibrate/camera-unmix/index.ts";
import { aspectRatio } from "../../engine/film/formats.ts";
import { publishedFilm, publishedFilms, searchFilms } from "../../engine/film/library/index.ts";
import type { PublishedFilm } from "../../engine/film/library/types.ts";
import { median } from "../../engine/math/statistics.ts";
import type { Film, FrameLook, Matrix3, Rgb } from "../../engine/types.ts";
import { parseRecipe } from "../../recipe/problems/document.ts";
import { nearest } from "../../recipe/problems/near.ts";
import type { FilmFormat } from "../../recipe/generated/types.ts";
import { resolveRoll } from "../../recipe/resolve/resolve.ts";
import type { FrameLight } from "../frame/develop.ts";
import { eachLimited } from "../pool/each-limited.ts";
import { frameShots } from "./join-shots.ts";
import type { FindFrame, FoundPicture } from "./find-frame.ts";
import type { Pool } from "../pool/pool.ts";
import { readEdges } from "./edge-codes.ts";
import { secondRoll } from "./two-rolls.ts";
import type { FilmStock, FilmStockRequest } from "./film-stock.ts";
import { adviceFor, filmOf } from "./film-and-advice.ts";
import { withoutRepeats } from "./repeats.ts";
import { rollText } from "./roll-text.ts";
import type { RollBase, StartedFrame, StartedRoll } from "./started-roll.ts";
import { inOrder, type LookedAt, type Roles, rolesOf, scanFiles } from "./sort-scans.ts";
import { unwritableName } from "./unwritable-name.ts";
import type { Workspace } from "../files/workspace.ts";
import { readBaseJob, readLightJob } from "../frame/jobs.ts";
import { filmStockJob, findFrameJob, firstPassJob } from "./jobs.ts";

export interface NewRollOptions {
  /** Absolute folder of the scans. */
  readonly folder: string;
  /** Absolute path of the recipe to be. */
  readonly roll: string;
  /** Absolute path of the stock's recipe; with `filmData`, of the one to be written. */
  readonly stock?: string;
  /** Name of a published film: the stock's recipe is written from its data, for the camera and light of these scans. */
  readonly filmData?: string;
  /** Kind of film, where a person states it. */
  readonly film?: Film;
  readonly title?: string;
  readonly format?: FilmFormat;
  /** Name of the scan of the bare light, where it cannot be told by itself. */
  readonly blank?: string;
  /** First and last scan of the roll, where the folder holds pictures of others too. */
  readonly from?: string;
  readonly to?: string;
  /** Number of the first frame; where absent, numbers on the film's edge count first. */
  readonly first?: number;
  /** Nothing tells these from the scans: they hold for all frames. */
  readonly mirror?: boolean;
  readonly turn?: 0 | 90 | 180 | 270;
}

/** Why a roll cannot be created. */
export class StartError extends Error {
  readonly code = "start";
}

export interface StartHooks {
  readonly signal?: AbortSignal;
  readonly onProgress?: (done: number, total: number, label: string) => void;
}

const CLEAR: Rgb = [0, 0, 0];
/** Confidence in a rectangle below which it is not used. */
const DOUBTFUL = 0.5;
/**
 * Where no holder is in view flare cannot be read, but there always is some, and without it dense tones lose most in blue:
 * a cast in the highlights. Half of a hundredth of the field's light comes back from a good lens, a third of which passes
 * the film: 0.2 % of the bare light (common practice, no source).
 */
const USUAL_FLARE: Rgb = [0.002, 0.002, 0.002];

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
  const { signal } = hooks;
  const names = await workspace.list(workspace.inside(options.folder));
  const { scans, duplicates } = scanFiles(names ?? []);
  if (scans.length === 0)
    throw new StartError(`There are no scans in ${options.folder}: raw files, TIFF or JPEG are looked for.`);
  for (const name of scans) {
    const reason = unwritableName(name);
    if (reason !== undefined) throw new StartError(reason);
  }
  const published = publishedOf(options);
  let stock = await stockLook(options, workspace, published && `version: 1\nfilm: ${published.kind}\n`);
  const total = 2 * scans.length + 2;
  let done = 0;
  const step = (label: string): void => hooks.onProgress?.(++done, total, label);
  const path = (name: string): string => workspace.absolute(workspace.inside(resolve(options.folder, name)));

  const unreadable: { name: string; reason: string }[] = [];
  const looked: LookedAt[] = [];
  await eachLimited(scans, pool.workers + 1, async (name) => {
    try {
      looked.push({ name, ...(await pool.run(firstPassJob, { path: path(name) }, { signal })) });
    } catch (error) {
      if (signal?.aborted) throw error;
      unreadable.push({ name, reason: errorText(error) });
    }
    step(name);
  });
  const roles = rolesOf(inOrder(looked), options.blank);
  const { blank, leaders } = roles;
  const pictures = between(roles.pictures, options);
  if (options.blank && !blank)
    throw new StartError(`There is no scan ${options.blank} in ${options.folder} that can be read.`);
  if (pictures.length === 0) throw new StartError(`No scan in ${options.folder} shows a picture.`);
  const warnings: string[] = [];

  const film = filmOf(options.film ?? stock.statedFilm, pictures, blank);
  // Defaults go by the kind of film.
  if (options.stock === undefined)
    stock = { ...(await stockLook(options, workspace, `version: 1\nfilm: ${film.film}\n`)), statedFilm: undefined };
  const light = await lightOf(blank, leaders[0] ?? pictures[0], path, pool, signal);
  step(blank?.name ?? "light");
  const format = options.format ?? stock.format;
  const ratio = format && aspectRatio(format);
  const find = (name: string, known?: FindFrame["known"]): Promise<FoundPicture> =>
    pool.run(findFrameJob, { path: path(name), light, ratio, known, film: film.film }, { signal });
  const shots = [...leaders, ...pictures];
  const found = await eachLimited(shots, pool.workers + 1, async ({ name }) => {
    // A slide's margin is black: to its edges it is what a holder is to a negative's.
    const one = await find(name, film.film === "slide" ? { base: CLEAR } : undefined);
    step(name);
    return one;
  });
  const seenFlare = film.film === "slide" ? undefined : commonFlare(found.slice(leaders.length));
  const assumed = film.film !== "slide" && !seenFlare && blank !== undefined;
  const flare = assumed ? USUAL_FLARE : seenFlare;
  const readLight: FrameLight = { ...light, flare: flare ?? [0, 0, 0] };
  const base =
    film.film === "slide" ? undefined : await rollBase(shots, found, leaders.length, readLight, path, pool, signal);
  const filmStock = published && (await stockOf(published, { pictures, light, base, blank }, pool, signal));
  if (filmStock) stock = await stockLook(options, workspace, filmStock.text);
  step("base");
  const seen = found.slice(leaders.length);
  const place = commonPlace(seen.map((one) => one.frame));
  const filmBase = film.film === "slide" ? CLEAR : base?.density;
  // What does not show all its sides is looked at again, with what the roll tells in hand.
  await eachLimited(pictures, pool.workers + 1, async ({ name }, i) => {
    const { frame, flare: own } = seen[i];
    if (frame ? !place || isWhole(frame) : !(base ?? place)) return;
    const again = await find(name, { base: filmBase, flare: own ?? flare, place });
    // A picture of another size than the roll's others is what the first look saw.
    if (!frame || (again.frame && again.frame.confidence >= frame.confidence)) seen[i] = again;
  });
  // A rectangle that is more likely wrong than right would cut the picture: the whole scan is taken.
  await eachLimited(pictures, pool.workers + 1, async ({ name }, i) => {
    const { frame, flare: own } = seen[i];
    if (!frame || frame.confidence >= DOUBTFUL || Object.values(frame.sides).includes("roll")) return;
    const whole = { path: path(name), light, ratio, known: { flare: own ?? flare }, film: film.film, whole: true };
    seen[i] = { ...(await pool.run(findFrameJob, whole, { signal })), ...(seen[i].base ? { base: seen[i].base } : {}) };
    warnings.push(`${name}: the picture's edges were not seen clearly enough to crop it.`);
  });

  if (flare) for (const [i, one] of seen.entries()) seen[i] = { ...one, sample: lessFlare(one, flare) };
  const display = pictures.every(({ info }) => info.display);
  // Files that were developed for display have been unmixed by the camera's own matrix.
  const unmix =
    stock.statesUnmix || !stock.statesNegative || film.film !== "colour-negative" || display
      ? undefined
      : unmixFor(pictures);
  const look: FrameLook = {
    ...stock.look,
    film: film.film,
    ...(base ? { base: base.density } : {}),
    ...(unmix ? { unmix: unmix.matrix } : {}),
  };
  const shown = pictures.map(({ name }, i) => ({ name, path: path(name), seen: seen[i] }));
  const joinBase = filmBase ?? look.base;
  const repeats = withoutRepeats(shown);
  // Where the roll's pictures lie whole in their scans, the format is no larger than a scan and nothing is a part.
  const fits = place !== undefined;
  const shotFrames = await frameShots(repeats.shots, { light: readLight, ratio, base: joinBase, fits, signal }, pool);
  warnings.push(...repeats.warnings, ...shotFrames.warnings);
  const samples = shotFrames.frames.map((f) => f.seen.sample);
  const named = filmStock?.numbers;
  const start =
    stock.statesNegative && !named
      ? undefined
      : startValues({
          frames: samples,
          source: display ? "display" : "raw",
          blank: blank !== undefined,
          film: film.film,
          ...(base ? { base: base.density } : {}),
          camera: (pictures.find((p) => p.info.model) ?? pictures[0]).info,
          ...(named ? { published: { ...named, from: filmStock.cameraFrom === "model" ? "model" : "mean" } } : {}),
          look,
        });
  const balance = start
    ? { ...UNFILTERED, exposure: start.exposure }
    : balanceRoll(
        samples.map((sample) => tonesOf(sample, look)),
        look,
      );
  const edge = readEdges(
    pictures.map(({ info }, i) => ({
      codes: seen[i].codes,
      area: seen[i].frame?.area,
      width: 1,
      height: info.height / info.width,
    })),
  );
  const second = secondRoll(
    pictures.map(({ name }, i) => ({ name, codes: seen[i].codes, base: seen[i].base?.density })),
  );
  const ids = frameIds(
    shotFrames.frames.map((f) => edge?.frames[pictures.findIndex((p) => p.name === f.scans[0])]),
    options.first,
  );
  const mirror = options.mirror ?? edge?.mirrored ?? false;
  const frames = shotFrames.frames.map(({ scans: own, seen: { frame }, join }, i): StartedFrame => {
    const id = ids[i];
    return {
      id,
      scans: own,
      unused: own.flatMap((name) => repeats.unused.get(name) ?? []),
      ...(join ? { join } : {}),
      ...(frame ? { found: frame } : {}),
      exposure: balance.exposure[i],
      ...(start?.frameTones[i] ? { contrast: start.frameTones[i].contrast } : {}),
    };
  });
  for (const [i, { warnings: own }] of seen.entries())
    for (const warning of own) warnings.push(`${pictures[i].name}: ${warning}`);
  if (!blank) warnings.push("No scan shows the bare light: uneven light stays, and densities hold the light's colour.");
  if (film.film !== "slide" && !base)
    warnings.push(
      start
        ? "No unexposed film was found on any scan: the base is inferred from the thinnest parts of the pictures."
        : "No unexposed film was found on any scan: the stock's base is used. Read the base by hand.",
    );
  if (base && base.spread > 0.03)
    warnings.push(`The base differs by ${base.spread.toFixed(3)} D between scans: the light changed, or flare did.`);
  const difference = base && stock.base && blank ? compareBase(stock.base, base.density) : undefined;
  const started = {
    ...(filmStock ? { filmStock: { ...filmStock, path: options.stock! } } : {}),
    ...(edge ? { edge } : {}),
    ...(second ? { second } : {}),
    ...(blank ? { blank: blank.name } : {}),
    leaders: leaders.map((l) => l.name),
    duplicates,
    unreadable,
    ...(base ? { base } : {}),
    ...(difference ? { difference } : {}),
    ...(flare ? { flare, flareAssumed: assumed } : {}),
    film,
    ...(start ? { start: withoutFrames(start) } : {}),
    advice: start ? adviceFor(start, samples.length, blank !== undefined, base !== undefined) : [],
    ...(unmix ? { unmix: { camera: unmix.camera, from: unmix.from } } : {}),
    balance,
    frames,
    warnings,
  };
  const posix = (to: string): string => relative(dirname(options.roll), to).split(sep).join("/") || ".";
  const text = rollText(
    {
      title: options.title ?? basename(options.roll).replace(/\.roll\.ya?ml$/i, ""),
      stock: options.stock && posix(options.stock),
      format: stock.format ? undefined : options.format,
      scans: posix(options.folder),
      turn: options.turn ?? 0,
      mirror,
      filtration: stock.look.filtration,
      unmix: unmix?.matrix,
      statedFilm: stock.statedFilm,
    },
    started,
  );
  // Whatever stands in names and titles: a recipe that has errors from the beginning helps nobody.
  const wrong = parseRecipe(text, { file: workspace.inside(options.roll), kind: "roll" }).problems.find(
    ({ severity }) => severity === "error",
  );
  if (wrong) throw new StartError(`The roll's recipe would not be valid, so it was not written: ${wrong.message}`);
  return { text, ...started };
}

/** Numbers of the frames as on the film where every frame has one of its own; else counted from the first. */
function frameIds(onFilm: readonly (string | undefined)[], first: number | undefined): string[] {
  const known = onFilm.filter((id) => id !== undefined);
  if (first === undefined && known.length === onFilm.length && new Set(known).size === known.length) return known;
  return onFilm.map((_, i) => String((first ?? 1) + i).padStart(2, "0"));
}

/** The pictures from one scan to another, where a folder holds more than the roll. */
function between(pictures: Roles["pictures"], { from, to }: NewRollOptions): Roles["pictures"] {
  const at = (name: string | undefined, end: number): number => {
    if (name === undefined) return end;
    const index = pictures.findIndex((p) => p.name === name);
    if (index < 0) throw new StartError(`No picture of the folder is called ${name}.`);
    return index;
  };
  return pictures.slice(at(from, 0), at(to, pictures.length - 1) + 1);
}

/** Where the roll's own curve balances it. */
const UNFILTERED: Omit<RollBalance, "exposure"> = {
  filtration: { cyan: 0, magenta: 0, yellow: 0 },
  asked: { cyan: 0, yellow: 0 },
  followed: 0,
};

const withoutFrames = ({
  film: _film,
  exposure: _exposure,
  frameTones: _tones,
  ...rest
}: StartValues): NonNullable<StartedRoll["start"]> => rest;

interface StockLook {
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

/** The film of the library that is wished for. */
function publishedOf({ filmData, stock }: NewRollOptions): PublishedFilm | undefined {
  if (filmData === undefined) return undefined;
  const film = publishedFilm(filmData);
  if (film && stock !== undefined) return film;
  if (film) throw new StartError(`The recipe of ${film.name} needs a path: name the stock that is to be written.`);
  const names = publishedFilms.map(({ name }) => name);
  const near = searchFilms(filmData).map(({ name }) => name);
  const meant = near.length > 0 ? near : [nearest(filmData, names) ?? []].flat();
  throw new StartError(
    `The film library has no "${filmData}".${meant.length > 0 ? ` Did you mean ${meant.slice(0, 4).join(" or ")}?` : ""}` +
      ' "rollbook films" lists what it has.',
  );
}

/** The stock's recipe of a published film for the camera and light of these scans. */
async function stockOf(
  film: PublishedFilm,
  on: {
    readonly pictures: Roles["pictures"];
    readonly light: FrameLight;
    readonly base?: RollBase;
    readonly blank?: LookedAt;
  },
  pool: Pool,
  signal: AbortSignal | undefined,
): Promise<FilmStock> {
  const { info } = on.pictures.find((p) => p.info.model) ?? on.pictures[0];
  const request: FilmStockRequest = {
    film: film.name,
    model: info.model,
    colourMatrix: info.colourMatrix,
    display: on.pictures.every((p) => p.info.display === true),
    ...(on.blank && on.light.field ? { blank: on.light.field.mean } : {}),
    ...(on.base ? { base: on.base.density } : {}),
  };
  return pool.run(filmStockJob, request, { signal });
}

/** What the stock says, or the defaults where there is none; `given` is the text of one that is yet to be written. */
async function stockLook({ stock }: NewRollOptions, workspace: Workspace, given?: string): Promise<StockLook> {
  const file = stock === undefined ? "none.stock.yaml" : workspace.inside(stock);
  const text = given ?? (stock === undefined ? "version: 1\n" : await workspace.read(file));
  if (text === undefined) throw new StartError(`There is no stock ${stock}. Check the path.`);
  const document = parseRecipe(text, { file, kind: "stock" });
  const error = document.problems.find((p) => p.severity === "error");
  if (error) throw new StartError(`The stock ${stock} has an error: ${error.message} Fix it first.`);
  const resolved = resolveRoll(document);
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

async function lightOf(
  blank: LookedAt | undefined,
  reference: LookedAt,
  path: (name: string) => string,
  pool: Pool,
  signal: AbortSignal | undefined,
): Promise<FrameLight> {
  const { shutter, iso, aperture } = reference.info;
  if (!blank) return { flare: [0, 0, 0], reference: { shutter, iso, aperture } };
  const { field, exposure } = await pool.run(readLightJob, { path: path(blank.name), field: true }, { signal });
  return { field, flare: [0, 0, 0], reference: exposure };
}

const perChannel = (of: (c: number) => number): Rgb => [of(0), of(1), of(2)];

/**
 * The roll's flare: the least that its pictures show, where half of them show any. What is taken off too much spoils
 * dense tones; what is left flattens them a little.
 */
function commonFlare(found: readonly FoundPicture[]): Rgb | undefined {
  const known = found.flatMap(({ flare }) => (flare ? [flare] : []));
  if (known.length === 0 || known.length * 2 < found.length) return undefined;
  return perChannel((c) => Number(Math.min(...known.map((f) => f[c])).toFixed(4)));
}

/** A picture's squares with the roll's flare taken off, where its own was not seen. */
function lessFlare({ flare, sample }: FoundPicture, common: Rgb): Float32Array {
  return flare ? sample : sample.map((t, i) => (t - common[i % 3]) / (1 - common[i % 3]));
}

/**
 * The roll's base: of the scans that show one, the one nearest the middle of them all, a leader before a rebate; read
 * again at full size.
 */
async function rollBase(
  shots: readonly LookedAt[],
  found: readonly FoundPicture[],
  leaders: number,
  light: FrameLight,
  path: (name: string) => string,
  pool: Pool,
  signal: AbortSignal | undefined,
): Promise<RollBase | undefined> {
  const known = found.flatMap(({ base }, i) => (base ? [{ base, i }] : []));
  if (known.length === 0) return undefined;
  const middle = perChannel((c) => median(known.map(({ base }) => base.density[c])));
  const off = (d: Rgb): number => Math.max(...d.map((v, c) => Math.abs(v - middle[c])));
  const rank = ({ base, i }: (typeof known)[number]): number =>
    off(base.density) + (i < leaders ? 0 : 0.02) + 0.02 * (1 - base.confidence);
  const best = known.toSorted((a, b) => rank(a) - rank(b));
  for (const { base, i } of best.slice(0, 3))
    try {
      const area = base.area;
      const reading = await pool.run(readBaseJob, { path: path(shots[i].name), area, light }, { signal });
      const { density, scatter } = reading;
      return {
        density: perChannel((c) => Number(density[c].toFixed(4))),
        scan: shots[i].name,
        area,
        scatter: perChannel((c) => Number(scatter[c].toFixed(3))),
        spread: Math.max(...known.map((k) => off(k.base.density))),
      };
    } catch (error) {
      if (signal?.aborted) throw error;
      // An area that cannot be read at full size (dust, a clipped corner): the next scan's is tried.
    }
  return undefined;
}

/** One unmix for the roll, of the camera that the first picture names: of its model, its colour matrix, or no camera. */
function unmixFor(pictures: Roles["pictures"]): { matrix: Matrix3; camera: string; from: UnmixOrigin } {
  const { model, colourMatrix } = (pictures.find((p) => p.info.model) ?? pictures[0]).info;
  return { ...unmixOf(model, colourMatrix), camera: model ?? "an unnamed camera" };
}
