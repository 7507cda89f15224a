/**
 * Everything that the copy stand has to know of one scan, from one decoding: what it shows, its first positive, and the
 * survey's measurements. The positive is on disk before the survey begins.
 */
import { sampleOf, type PictureSample } from "../../../engine/auto/balance.ts";
import type { FoundBase } from "../../../engine/detect/base.ts";
import type { FoundFrame } from "../../../engine/detect/frame.ts";
import { findOnScan } from "../../../engine/detect/index.ts";
import { type DensityMap, densityMapOf } from "../../../engine/detect/overlap.ts";
import type { RollPlace } from "../../../engine/detect/roll-place.ts";
import { type GrainPrint, grainPrint } from "../../../engine/detect/same-film.ts";
import { filmPlane } from "../../../engine/flat-field/film-plane.ts";
import { makeLightField } from "../../../engine/flat-field/light-field.ts";
import { measureBlank } from "../../../engine/survey/measure-blank.ts";
import { measureScan } from "../../../engine/survey/measure-scan.ts";
import { matchNumbers, type NumberMatch } from "../../../engine/survey/lettering.ts";
import type { BlankReading, ScanReading, SensorNoise } from "../../../engine/survey/types.ts";
import type { Area, Film, FrameLook, LinearScan, Rgb, ScanInfo } from "../../../engine/types.ts";
import { folderCache } from "../../../scans/files/cache.ts";
import { decodeScan } from "../../../scans/decode.ts";
import type { EdgeCode } from "../../../scans/edge-codes/read-edge-codes.ts";
import { encodePicture } from "../../../scans/output/encode.ts";
import { drawPictures, type FrameLight, lightSetup } from "../../frame/develop.ts";
import { filmOf } from "../../new-roll/film/film-and-advice.ts";
import { samplesWithoutFlare, USUAL_FLARE } from "../../../engine/auto/roll/common-flare.ts";
import { edgeCodesOn } from "../../new-roll/pictures/find-frame.ts";
import { firstPassOf, type FirstPass, type FirstPassScan } from "../../../engine/auto/roll/first-pass.ts";
import { type Roles, rolesOf } from "../../../engine/auto/roll/scan-roles.ts";
import type { JobContext } from "../../pool/job-context.ts";
import { grainCrops } from "./grain-crops.ts";
import { cropsKey, POSITIVE_WRITTEN } from "./kept-pictures.ts";
import { type RollStart, type StatedLook, startValues } from "./start-values.ts";

/** What the roll's earlier scans say, as plain data that crosses to the workers. */
export interface KnownRoll {
  readonly stated: StatedLook;
  /** Longer over shorter side of the format's picture, where the format is known. */
  readonly ratio?: number;
  /** Scans that were looked at, the name of the blank that was given by hand, and every even scan's light. */
  readonly firstPasses: readonly FirstPassScan[];
  readonly blank?: string;
  readonly lights: Readonly<Record<string, { readonly light: FrameLight; readonly noise: SensorNoise }>>;
  readonly base?: Rgb;
  readonly flare?: Rgb;
  /** Where the roll's pictures lie, once enough of them agree. */
  readonly place?: RollPlace;
  /** Pictures that say how the roll's conversion begins, by scan, in the order in which they were taken. */
  readonly samples: readonly { readonly name: string; readonly sample: PictureSample }[];
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
  /** Codes on the film's edge, in fractions of the scan (find-frame.ts). */
  readonly codes: readonly EdgeCode[];
  /** Kind of film, as stated or as the scans so far show it, and how sure. */
  readonly film: { readonly film: Film; readonly certainty: number; readonly from: "stated" | "inferred" };
  /** What the positive was drawn with: the roll's start from this picture and those before. */
  readonly start: RollStart;
  /** The scans that the start's frames belong to; this one is the last. */
  readonly startedFrom: readonly string[];
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
    picture: await measurePicture(request, { scan, info, under, noise: known?.noise, roles }, context),
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

interface OpenedPicture {
  readonly scan: LinearScan;
  readonly info: ScanInfo;
  /** The light that it is measured by, and the blank's noise. */
  readonly under: FrameLight;
  readonly noise: SensorNoise | undefined;
  readonly roles: Roles;
}

async function measurePicture(
  request: ArrivalToMeasure,
  { scan, info, under, noise, roles }: OpenedPicture,
  context: JobContext,
): Promise<MeasuredPicture> {
  const { roll, name, frame, numbers } = request;
  const { ratio, place } = roll;
  const kind = filmOf(roll.stated.film, roles.pictures, roles.blank);
  const { film } = kind;
  const slide = film === "slide";
  const setup = lightSetup(under, info);
  const found = findOnScan(scan, setup, {
    ratio,
    film,
    place,
    ...(slide ? { base: [0, 0, 0] as const } : roll.base ? { base: roll.base } : {}),
  });
  const area = found.frame?.area ?? place ?? WHOLE;
  const flare = roll.flare ?? found.flare ?? under.flare;
  const veil = roll.flare ?? found.flare ?? (under.field && !slide ? USUAL_FLARE : under.flare);
  const [{ sample }] = samplesWithoutFlare([{ flare: found.flare, sample: sampleOf(found.downsampled, area) }], veil);
  const base = slide ? undefined : (roll.base ?? found.base?.density);
  const samples = [...roll.samples.filter((one) => one.name !== name), { name, sample }];
  const start = startValues({
    stated: roll.stated,
    film,
    base,
    blank: under.field !== undefined,
    info,
    samples: samples.map((one) => one.sample),
  });
  await writePositive(request, scan, info, { ...under, flare: veil }, lookOfNewest(start), area, context);
  context.report(POSITIVE_WRITTEN);
  context.checkpoint();
  const light = { ...setup, flare };
  const plane = filmPlane(scan, light);
  const reading = measureScan(scan, {
    name,
    frame,
    info,
    area,
    film,
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
    codes: await edgeCodesOn(found.downsampled, found.frame?.area, base),
    film: kind,
    start,
    startedFrom: samples.map((one) => one.name),
  };
}

function lookOfNewest({ look, frames }: RollStart): FrameLook {
  const { exposure = 0, contrast = look.tone.contrast } = frames.at(-1) ?? {};
  return { ...look, exposure, tone: { ...look.tone, contrast } };
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
