/** Resolves a roll with its stock to the values of every frame, each with its source. */
import type { Spot } from "../../engine/image/spot.ts";
import type { Area, Falloff, Film, FrameLook, LensFaults, OutputSpace, RadialTerms, Rgb } from "../../engine/types.ts";
import { defaultOf } from "../schema/defaults.ts";
import {
  find,
  type Found,
  frameIds,
  frameLevels,
  type Level,
  merged,
  type Origin,
  originOf,
  rollLevels,
} from "./cascade.ts";
import type { RecipeDocument } from "../problems/document.ts";
import type {
  BaseReading,
  Exposed,
  FilmFormat,
  Fingerprint,
  Frame,
  Iptc,
  Light,
  Negative,
  Output,
  Positive,
  RollRecipe,
  StockRecipe,
} from "../generated/types.ts";
import { byChannel } from "./channels.ts";
import { lookOf } from "./look.ts";
import { type ResolvedPrint, resolvePrint } from "./print.ts";
import { folderOf, joinPath } from "../paths.ts";
import type { JoinPlace } from "../../engine/image/join/place.ts";
import type { RecipePath } from "../path.ts";
import { type RecipeVersion, versionOf } from "../version.ts";
import type { Value } from "../yaml/values.ts";

/** A scan's name as the recipe has it, and the path that leads to it, of the same form as the roll's own. */
export interface ScanPlace {
  readonly name: string;
  readonly path: string;
}

export interface ResolvedLight {
  /** Of three blanks by channel, green's. */
  readonly blank?: ScanPlace;
  /** Three blanks in the order of CHANNEL_ORDER, for frames in three-colour light. */
  readonly blanks?: readonly ScanPlace[];
  /** Veiling light per channel, as a fraction of the bare light. */
  readonly flare: Rgb;
  /** What the files' shutter times are; absent where the recipe leaves them as written. */
  readonly times?: "written" | "nominal";
  readonly spots: readonly Spot[];
  /** Faults of the lens; absent where nothing is to be corrected. */
  readonly lens?: LensFaults;
  /** Falloff of the light; absent where none is stated, or a blank takes it out. */
  readonly falloff?: Falloff;
}

/** Where the base was read. */
export interface ResolvedReading {
  readonly scan: ScanPlace;
  readonly area?: BaseReading["area"];
  readonly scatter?: BaseReading["scatter"];
}

export type Choice = NonNullable<Frame["choice"]>;

export interface ResolvedFrame {
  readonly id: string;
  readonly title?: string;
  readonly note?: string;
  /** Listed, but no picture of it is written. */
  readonly skip: boolean;
  /** What a person chose; neither it nor the rank changes the picture. */
  readonly choice?: Choice;
  /** 1 … 5, 5 highest. */
  readonly rank?: Frame["rank"];
  /** One scan, or several to be joined or merged. Empty for a frame that is skipped and has none. */
  readonly scans: readonly ScanPlace[];
  /** True where the scans are of one picture and are merged, and no parts that are joined. */
  readonly merged?: true;
  /** True where each of the merged scans gives one channel: green, red, blue, in this order. */
  readonly channels?: true;
  /** Where each scan lies on the first, and its exposure. Absent where there is one scan, or before measuring. */
  readonly join?: readonly JoinPlace[];
  readonly area: Area;
  /** Degrees clockwise, after cropping and mirroring. */
  readonly turn: 0 | 90 | 180 | 270;
  readonly mirror: boolean;
  /** Specks on the film. */
  readonly spots: readonly Spot[];
  readonly light: ResolvedLight;
  readonly look: FrameLook;
  readonly base: { readonly read?: ResolvedReading };
  /** How this frame was exposed, and what its metadata state of it: its own words before the roll's. */
  readonly exposed: Exposed;
  readonly iptc: Iptc;
}

export interface ResolvedOutput {
  readonly name: string;
  readonly type: Output["type"];
  /** Pattern of the files' names; absent for the usual one. See picture-name.ts. */
  readonly file?: string;
  readonly depth: 8 | 16;
  readonly space: OutputSpace;
  /** 1 … 100, for lossy files alone. */
  readonly quality?: number;
  /** Longest side in pixels; absent for the picture's own size. */
  readonly long?: number;
  readonly sharpen: number;
  /** For tiff alone. */
  readonly compression?: "none" | "deflate";
  /** Present where the file is a sheet to print. */
  readonly print?: ResolvedPrint;
}

export interface ResolvedRoll {
  readonly file: string;
  /** Version of the roll's recipe, which its toe and shoulder are of, also where the stock states them. */
  readonly version: RecipeVersion;
  readonly title?: string;
  readonly note?: string;
  readonly film: Film;
  readonly format?: FilmFormat;
  readonly exposed: Exposed;
  readonly stock?: { readonly file: string; readonly title?: string; readonly iso?: number; readonly process?: string };
  /** Folder of the scans, of the same form as `file`; "" for the workspace root. */
  readonly scans: string;
  readonly outputs: readonly ResolvedOutput[];
  /** In the order of the text. Frames with an error in them are there, without what is wrong. */
  readonly frames: readonly ResolvedFrame[];
  readonly fingerprints: Readonly<Record<string, Fingerprint>>;
  /** What applies to a frame that states nothing of its own. */
  readonly shared: Pick<ResolvedFrame, "light" | "look" | "base">;
  /** The value that applies: of a frame, or of the roll for `undefined`. Mappings come merged; undefined where nothing applies. */
  valueAt(frame: string | undefined, path: RecipePath): Value | undefined;
  /** Where that value is stated; undefined where nothing applies. For a mapping, where its nearest part is. */
  originOf(frame: string | undefined, path: RecipePath): Origin | undefined;
}

/**
 * The cascade default → stock → roll → frame, the nearest stated value winning per key. Values that an error is about
 * count as not stated. A stock can be resolved by itself: pass it as `roll`.
 */
export function resolveRoll(roll: RecipeDocument, stock?: RecipeDocument): ResolvedRoll {
  const levels = rollLevels(roll, stock);
  const own = levels[0]!.value as unknown as RollRecipe;
  const from = levels[1]?.value as unknown as StockRecipe | undefined;
  const version = versionOf(levels[0]!.value);
  const film = (merged(levels, ["film"]) ?? "colour-negative") as Film;
  const folder = joinPath(folderOf(roll.file), own.scans ?? ".") ?? "";
  const place = (name: string): ScanPlace => ({ name, path: joinPath(folder, name) ?? name });

  const share = (at: readonly Level[]) => {
    const negative = (merged(at, ["negative"]) ?? {}) as Negative;
    const positive = (merged(at, ["positive"]) ?? {}) as Positive;
    const light = (merged(at, ["light"]) ?? {}) as Light;
    const read = negative.base?.read;
    return {
      light: resolveLight(light, place),
      look: lookOf(film, negative, positive, version),
      base: read ? { read: { scan: place(read.scan), area: read.area, scatter: read.scatter } } : {},
    };
  };
  const shared = share(levels);
  const recordOf = (at: readonly Level[]) => ({
    exposed: (merged(at, ["exposed"]) ?? {}) as Exposed,
    iptc: (merged(at, ["iptc"]) ?? {}) as Iptc,
  });
  const sharedRecord = recordOf(levels);
  const levelsOf = (id: string | undefined): readonly Level[] => (id === undefined ? levels : frameLevels(levels, id));

  const frames = frameIds(roll, levels[0]!.value).map((id): ResolvedFrame => {
    const frame = own.frames?.[id] ?? {};
    const record = frame.exposed || frame.iptc ? recordOf(levelsOf(id)) : sharedRecord;
    const overrides = frame.light !== undefined || frame.negative !== undefined || frame.positive !== undefined;
    return { id, ...resolveFrame(frame, place), ...record, ...(overrides ? share(levelsOf(id)) : shared) };
  });

  const lookUp = (id: string | undefined, path: RecipePath): Found | undefined => find(levelsOf(id), path);
  return {
    file: roll.file,
    version,
    title: own.title,
    note: own.note,
    film,
    format: merged(levels, ["format"]) as FilmFormat | undefined,
    exposed: sharedRecord.exposed,
    stock: stock && { file: stock.file, title: from?.title, iso: from?.iso, process: from?.process },
    scans: folder,
    outputs: ((merged(levels, ["output"]) ?? defaultOf(film, ["output"])) as readonly Output[]).map((output) =>
      resolveOutput(output, find(levels, ["output"])?.level.document.file ?? roll.file),
    ),
    frames,
    fingerprints: own.fingerprints ?? {},
    shared,
    valueAt(id, path) {
      return (
        merged(levelsOf(id), path) ??
        (isHidden(levelsOf(id), path)
          ? undefined
          : (defaultOf(film, path, { isFrame: id !== undefined, version }) as Value | undefined))
      );
    },
    originOf(id, path) {
      const found = lookUp(id, path);
      if (found) return originOf(found);
      return !isHidden(levelsOf(id), path) && defaultOf(film, path, { isFrame: id !== undefined }) !== undefined
        ? { level: "default", path }
        : undefined;
    },
  };
}

/** A gamma's default does not apply where a curve is stated. */
const isHidden = (levels: readonly Level[], path: RecipePath): boolean =>
  path[0] === "negative" && path[1] === "gamma" && find(levels, ["negative", "curve"]) !== undefined;

function resolveLight(light: Light, place: (name: string) => ScanPlace): ResolvedLight {
  const flare = light.flare ?? 0;
  return {
    ...blanksIn(light.blank, place),
    flare: typeof flare === "number" ? [flare, flare, flare] : flare,
    ...(light.times === undefined ? {} : { times: light.times }),
    spots: (light.spots ?? []) as readonly Spot[],
    ...lensOf(light.lens),
    ...(light.blank === undefined ? falloffOf(light.lens) : {}),
  };
}

/** One blank, or three by channel. */
function blanksIn(blank: Light["blank"], place: (name: string) => ScanPlace): Pick<ResolvedLight, "blank" | "blanks"> {
  if (typeof blank === "string") return { blank: place(blank) };
  const blanks = byChannel(blank)?.map(place);
  return blanks ? { blank: blanks[0], blanks } : {};
}

/** What is to be corrected; terms of 0 are no fault, and cost nothing. */
function lensOf(lens: Light["lens"]): Pick<ResolvedLight, "lens"> {
  const termsOf = (terms: readonly number[] = [0]): RadialTerms => [terms[0]!, terms[1] ?? 0];
  const lateral = { red: termsOf(lens?.lateral?.red), blue: termsOf(lens?.lateral?.blue) };
  const distortion = termsOf(lens?.distortion);
  const isStated = (terms: RadialTerms): boolean => terms.some((term) => term !== 0);
  const faults: LensFaults = {
    ...(isStated(lateral.red) || isStated(lateral.blue) ? { lateral } : {}),
    ...(isStated(distortion) ? { distortion } : {}),
  };
  return Object.keys(faults).length === 0 ? {} : { lens: faults };
}

/** No falloff, stated as zeros, costs nothing either. */
function falloffOf(lens: Light["lens"]): Pick<ResolvedLight, "falloff"> {
  const [a = 0, b = 0] = lens?.falloff?.radial ?? [];
  const [right = 0, down = 0] = lens?.falloff?.gradient ?? [];
  const oval = lens?.falloff?.oval ?? 0;
  return [a, b, oval, right, down].some((term) => term !== 0)
    ? { falloff: { radial: [a, b], oval, gradient: [right, down] } }
    : {};
}

type FrameOnlyValues = Omit<ResolvedFrame, "id" | "light" | "look" | "base" | "exposed" | "iptc">;

function resolveFrame(frame: Frame, place: (name: string) => ScanPlace): FrameOnlyValues {
  const { left = 0, top = 0, width = 1, height = 1, tilt = 0 } = frame.area ?? {};
  const several = frame.scans ?? frame.exposures;
  const channels = frame.scan === undefined && several === undefined ? byChannel(frame.channels) : undefined;
  const names = frame.scan === undefined ? (several ?? channels ?? []) : [frame.scan];
  const isMerged = frame.scan === undefined && frame.scans === undefined && names.length > 1;
  return {
    ...(frame.title === undefined ? {} : { title: frame.title }),
    ...(frame.note === undefined ? {} : { note: frame.note }),
    skip: frame.skip ?? false,
    ...(frame.choice === undefined ? {} : { choice: frame.choice }),
    ...(frame.rank === undefined ? {} : { rank: frame.rank }),
    scans: names.map(place),
    ...(isMerged ? { merged: true } : {}),
    ...(channels ? { channels: true } : {}),
    ...(frame.join === undefined || names.length < 2 || isMerged ? {} : { join: frame.join }),
    area: { left, top, width, height, tilt },
    turn: frame.turn ?? 0,
    mirror: frame.mirror ?? false,
    spots: (frame.spots ?? []) as readonly Spot[],
  };
}

/** @param file the recipe that states the output */
function resolveOutput(output: Output, file: string): ResolvedOutput {
  const { name, type } = output;
  const print = output.print && resolvePrint(output.print, file);
  const isLossy = type === "jpeg" || type === "webp" || type === "avif";
  return {
    name,
    type,
    ...(output.file === undefined ? {} : { file: output.file }),
    depth: output.depth ?? (type === "tiff" ? 16 : 8),
    // A printer's colours are reached from a space that holds them all.
    space: print?.profile ? "romm" : (output.space ?? "srgb"),
    ...(isLossy ? { quality: output.quality ?? 90 } : {}),
    ...(output.long === undefined ? {} : { long: output.long }),
    sharpen: output.sharpen ?? 0,
    ...(type === "tiff" ? { compression: output.compression ?? "deflate" } : {}),
    ...(print ? { print } : {}),
  };
}
