/**
 * Everything that the copy stand has to know of one scan, from one decoding: what it shows, its first positive, and the
 * survey's measurements. The positive is on disk before the survey begins.
 */
import { sampleOf, type PictureSample } from "../../engine/auto/balance.ts";
import type { FoundBase } from "../../engine/detect/base.ts";
import type { FoundFrame } from "../../engine/detect/frame.ts";
import { findOnScan } from "../../engine/detect/index.ts";
import { type DensityMap, densityMapOf } from "../../engine/detect/overlap.ts";
import { type GrainPrint, grainPrint } from "../../engine/detect/same-film.ts";
import { filmPlane } from "../../engine/flat-field/film-plane.ts";
import { makeLightField } from "../../engine/flat-field/light-field.ts";
import { measureBlank } from "../../engine/survey/measure-blank.ts";
import { measureScan } from "../../engine/survey/measure-scan.ts";
import { matchNumbers, type NumberMatch } from "../../engine/survey/lettering.ts";
import type { BlankReading, ScanReading, SensorNoise } from "../../engine/survey/types.ts";
import type { Area, FrameLook, LinearScan, Rgb, ScanInfo } from "../../engine/types.ts";
import { folderCache } from "../../scans/cache.ts";
import { decodeScan } from "../../scans/decode.ts";
import { encodePicture } from "../../scans/encode.ts";
import { drawPictures, type FrameLight, lightSetup } from "../frame/develop.ts";
import { firstPassOf, type FirstPass } from "../new-roll/scans/first-pass.ts";
import { type FirstPassScan, rolesOf } from "../new-roll/scans/sort-scans.ts";
import type { JobContext } from "../pool/job-context.ts";
import { grainCrops } from "./grain-crops.ts";
import { cropsKey, POSITIVE_WRITTEN } from "./kept-pictures.ts";
import { startValues } from "./start-values.ts";

/** What the roll's earlier scans say, as plain data that crosses to the workers. */
export interface KnownRoll {
  /** The look of the stock or the recipe. */
  readonly look: FrameLook;
  readonly statesUnmix: boolean;
  /** Longer over shorter side of the format's picture, where the format is known. */
  readonly ratio?: number;
  /** Scans that were looked at, the name of the blank that was given by hand, and every even scan's light. */
  readonly firstPasses: readonly FirstPassScan[];
  readonly blank?: string;
  readonly lights: Readonly<Record<string, { readonly light: FrameLight; readonly noise: SensorNoise }>>;
  readonly base?: Rgb;
  readonly flare?: Rgb;
  /** Where the roll's pictures lie, once enough of them agree. */
  readonly place?: Area;
  readonly samples: readonly PictureSample[];
  readonly turn: 0 | 90 | 180 | 270;
  readonly mirror: boolean;
}

export interface ArrivalToMeasure {
  readonly path: string;
  /** Name in the recipe. */
  readonly name: string;
  /** Frame that it is expected to be, and the numbers that the film's edge may show instead. */
  readonly frame: string;
  readonly numbers: readonly string[];
  readonly roll: KnownRoll;
  /** Where the positive goes, under which key, and its longer side in pixels. */
  readonly positive: {
    readonly folder: string;
    readonly maxBytes: number;
    readonly key: string;
    readonly long: number;
  };
}

export interface MeasuredPicture {
  readonly reading: ScanReading;
  readonly found?: FoundFrame;
  readonly base?: FoundBase;
  readonly flare?: Rgb;
  readonly sample: PictureSample;
  readonly map: DensityMap;
  readonly grain?: GrainPrint;
  readonly numbers: readonly NumberMatch[];
  /** EV of the first positive. */
  readonly exposure: number;
}

export interface MeasuredArrival {
  readonly info: ScanInfo;
  readonly firstPass: FirstPass;
  readonly kind: "blank" | "leader" | "picture";
  /** Of a scan that is even all over: it may be the blank, now or when others have come. */
  readonly light?: { readonly light: FrameLight; readonly noise: SensorNoise; readonly reading: BlankReading };
  /** Of a leader: its base. */
  readonly base?: FoundBase;
  readonly picture?: MeasuredPicture;
}

/** A scan as even as this may be the bare light. */
const EVEN = 0.85;
const WHOLE: Area = { left: 0, top: 0, width: 1, height: 1, tilt: 0 };

export async function measureArrival(request: ArrivalToMeasure, context: JobContext): Promise<MeasuredArrival> {
  const { name, path, roll } = request;
  const { scan, info } = await decodeScan(path, { half: true });
  context.checkpoint();
  const firstPass = firstPassOf(scan, info);
  const others = roll.firstPasses.filter((one) => one.name !== name);
  const roles = rolesOf([...others, { name, ...firstPass }], roll.blank);
  const light = firstPass.even > EVEN || roll.blank === name ? lightOf(scan, info, name) : undefined;
  const evenScan = { info, firstPass, ...(light ? { light } : {}) };
  if (roles.blank?.name === name) return { ...evenScan, kind: "blank" };
  const known = roles.blank && roll.lights[roles.blank.name];
  const { shutter, iso, aperture } = roll.firstPasses[0]?.info ?? info;
  const under: FrameLight = known?.light ?? { flare: roll.flare ?? [0, 0, 0], reference: { shutter, iso, aperture } };
  if (roles.leaders.some((leader) => leader.name === name)) {
    const { base } = findOnScan(scan, lightSetup(under, info), { flare: roll.flare });
    return { ...evenScan, kind: "leader", ...(base ? { base } : {}) };
  }
  return {
    ...evenScan,
    kind: "picture",
    picture: await measurePicture(request, scan, info, under, known?.noise, context),
  };
}

function lightOf(scan: LinearScan, info: ScanInfo, name: string): MeasuredArrival["light"] {
  const { shutter, iso, aperture } = info;
  try {
    const field = makeLightField(scan, { shutter, iso, aperture });
    const reading = measureBlank(scan, field, info, name);
    return { light: { field, flare: [0, 0, 0], reference: field.exposure }, noise: reading.noise, reading };
  } catch (error) {
    // A scan that is black all over is no light.
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

async function measurePicture(
  request: ArrivalToMeasure,
  scan: LinearScan,
  info: ScanInfo,
  under: FrameLight,
  noise: SensorNoise | undefined,
  context: JobContext,
): Promise<MeasuredPicture> {
  const { roll, name, frame, numbers } = request;
  const { look, ratio, place } = roll;
  const slide = look.film === "slide";
  const setup = lightSetup(under, info);
  const found = findOnScan(scan, setup, {
    ratio,
    film: look.film,
    place,
    ...(slide ? { base: [0, 0, 0] as const } : roll.base ? { base: roll.base } : {}),
  });
  const area = found.frame?.area ?? place ?? WHOLE;
  const sample = sampleOf(found.downsampled, area);
  const flare = roll.flare ?? found.flare ?? under.flare;
  const base = roll.base ?? found.base?.density;
  const start = startValues({ look, base, statesUnmix: roll.statesUnmix, info, samples: [...roll.samples, sample] });
  const exposure = start.exposures.at(-1) ?? 0;
  await writePositive(request, scan, info, { ...under, flare }, { ...start.look, exposure }, area, context);
  context.report(POSITIVE_WRITTEN);
  context.checkpoint();
  const light = { ...setup, flare };
  const plane = filmPlane(scan, light);
  const reading = measureScan(scan, {
    name,
    frame,
    info,
    area,
    film: look.film,
    mirror: roll.mirror,
    light,
    plane,
    ...(noise ? { noise } : {}),
  });
  const grain = grainPrint(plane, area);
  const { positive } = request;
  await folderCache(positive.folder, positive.maxBytes).write(cropsKey(positive.key), await grainCrops(plane, area));
  return {
    reading,
    ...(found.frame ? { found: found.frame } : {}),
    ...(found.base ? { base: found.base } : {}),
    ...(found.flare ? { flare: found.flare } : {}),
    sample,
    map: densityMapOf(found.downsampled),
    ...(grain ? { grain } : {}),
    numbers: matchNumbers(plane, area, numbers),
    exposure,
  };
}

async function writePositive(
  { positive, roll }: ArrivalToMeasure,
  scan: LinearScan,
  info: ScanInfo,
  light: FrameLight,
  look: FrameLook,
  area: Area,
  context: JobContext,
): Promise<void> {
  const setup = { look, light, spots: [], framing: { area, turn: roll.turn, mirror: roll.mirror } };
  const long = Math.min(positive.long, Math.max(scan.width * area.width, scan.height * area.height));
  const form = { space: "srgb", long: Math.floor(long), sharpen: 0.4 } as const;
  const [picture] = drawPictures(scan, info, setup, [form], () => context.checkpoint());
  const { width, height, channels, data } = picture;
  const bytes = new Uint8Array(data.length);
  for (let i = 0; i < data.length; i++) bytes[i] = (data[i] + 128) / 257;
  const encoded = await encodePicture(
    { width, height, channels, data: bytes },
    { type: "jpeg", depth: 8, space: "srgb", quality: 88 },
    {},
  );
  await folderCache(positive.folder, positive.maxBytes).write(positive.key, encoded);
}
