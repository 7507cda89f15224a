/**
 * Makes what the preview panel shows: a scan as transmittance (light applied, specks healed), made small and log-coded.
 * The reduced scan is cached by content; the light and the specks are applied again, so that changing them decodes nothing.
 */
import { heal } from "../../engine/image/heal.ts";
import { healForNow } from "../../engine/image/heal-undo.ts";
import type { Spot } from "../../engine/image/spot.ts";
import { channelWeights } from "../../engine/flat-field/light-field.ts";
import { boxOf, codedMeans, type ScanPart } from "../../engine/plan/coded-means.ts";
import { readTransmittance } from "../../engine/flat-field/transmittance.ts";
import type { Rgb } from "../../engine/types.ts";
import { type ByteCache, folderCache } from "../../scans/files/cache.ts";
import type { DecodedScan } from "../../scans/decode.ts";
import { rememberedFingerprint } from "../../scans/files/remembered-fingerprint.ts";
import { parseProxy, proxyBytes, readProxy } from "../../scans/proxy.ts";
import { type FrameLight, lightSetup } from "./develop.ts";
import type { FrameJoin } from "./join/frame-join.ts";
import { hashOf, stampOf } from "../files/content-hash.ts";
import type { FrameMerge } from "./merge/frame-merge.ts";
import { openMerged } from "./merge/open-merged.ts";
import { openJoin } from "./open-frame.ts";
import { corrected, openScan } from "./open-scan.ts";
import { exposureWarnings } from "./warnings.ts";
import type { JobContext } from "../pool/job-context.ts";

export interface LinearProxy {
  /** Absolute path of the scan; of the first where the frame is joined from several. */
  readonly path: string;
  /** The scans that the frame is joined from; `spots` are those of the joined picture then. */
  readonly join?: FrameJoin;
  /** The scans that the frame is merged from. */
  readonly merge?: FrameMerge;
  readonly light: FrameLight;
  readonly spots: readonly Spot[];
  /** Where reduced scans are kept, and how much of them. */
  readonly cache: { readonly folder: string; readonly maxBytes: number };
  /** The whole scan at about two megapixels, small, very small, or a part of it at full size. */
  readonly want: "picture" | "tile" | "thumbnail" | ScanPart;
}

export interface LinearProxyValue {
  readonly scanWidth: number;
  readonly scanHeight: number;
  readonly part: ScanPart;
  readonly width: number;
  readonly height: number;
  /** Three little-endian 16-bit codes a pixel (engine/plan/log-code.ts). */
  readonly codes: Uint8Array;
  readonly weights: Rgb;
  /** The bare light: grid of levels, and the scan's exposure over the blank's. Absent without a blank. */
  readonly field?: {
    readonly columns: number;
    readonly rows: number;
    readonly channels: 1 | 3;
    readonly level: readonly number[];
    readonly flare: Rgb;
    readonly ratio: number;
  };
  readonly warnings: readonly string[];
}

/** A proxy smaller than this shows too little; one larger takes too long to send. */
const MIN_PIXELS = 600_000;
const MAX_PIXELS = 4_000_000;
/** Longest side of a thumbnail, and of a tile of the roll sheet. */
const LONG_SIDES = { thumbnail: 220, tile: 640 } as const;
/** Pixels of a part at full size; a larger one is made smaller. */
const MAX_PART_PIXELS = 4_500_000;

export async function linearProxy(request: LinearProxy, context: JobContext): Promise<LinearProxyValue> {
  const { want } = request;
  const opened = typeof want === "object" ? await wholeScan(request, context) : await reducedScan(request, context);
  context.checkpoint();
  const { scan, light, warnings, full, part: lies } = opened;
  const setup = lightSetup(light, opened.info);
  const box = boxOf(scan, typeof want === "object" ? want : WHOLE);
  const pixels = box.width * box.height;
  const long = Math.max(box.width, box.height);
  const shrink =
    want === "thumbnail" || want === "tile"
      ? Math.max(1, Math.ceil(long / LONG_SIDES[want]))
      : Math.ceil(Math.sqrt(pixels / (want === "picture" ? MAX_PIXELS : MAX_PART_PIXELS)));
  const reader = readTransmittance(scan, setup);
  const { codes, part, ...size } = codedMeans(reader, scan, box, Math.max(1, shrink), () => context.checkpoint());
  const { field } = setup;
  return {
    scanWidth: full.width,
    scanHeight: full.height,
    ...size,
    codes: new Uint8Array(codes.buffer),
    part: {
      left: lies.left + part.left * lies.width,
      top: lies.top + part.top * lies.height,
      width: part.width * lies.width,
      height: part.height * lies.height,
    },
    weights: light.weights ?? (field ? channelWeights(field) : [1 / 3, 1 / 3, 1 / 3]),
    ...(field
      ? {
          field: {
            columns: field.columns,
            rows: field.rows,
            channels: field.channels,
            level: [...field.level],
            flare: setup.flare ?? [0, 0, 0],
            ratio: setup.ratio,
          },
        }
      : {}),
    warnings: [...warnings.map((w) => w.message), ...exposureWarnings(setup)],
  };
}

/** A frame's scan, or its scans laid together, ready to be read. */
interface Opened extends DecodedScan {
  readonly light: FrameLight;
  /** Pixels at full size. */
  readonly full: { readonly width: number; readonly height: number };
  /** Where the scan's pixels lie in that, in fractions of it. */
  readonly part: ScanPart;
}

const WHOLE: ScanPart = { left: 0, top: 0, width: 1, height: 1 };

/**
 * Decodes a scan into the cache of reduced ones, ahead of the picture: it needs no light, so the blank can be measured
 * meanwhile by another worker. Fails like the picture itself, which reports it.
 */
export async function reduceScan({ path, cache }: Pick<LinearProxy, "path" | "cache">): Promise<null> {
  const kept = folderCache(cache.folder, cache.maxBytes);
  const { scan } = await readProxy(path, 4, kept);
  if (scan.width * scan.height < MIN_PIXELS) await readProxy(path, 2, kept);
  return null;
}

async function reducedScan(request: LinearProxy, context: JobContext): Promise<Opened> {
  const { path, light, spots, cache } = request;
  const kept = folderCache(cache.folder, cache.maxBytes);
  const isSmall = ({ scan }: DecodedScan): boolean => scan.width * scan.height < MIN_PIXELS;
  if (request.merge) {
    const merged = await reducedMerge(request.merge, request, 4, kept, context);
    return isSmall(merged) ? await reducedMerge(request.merge, request, 2, kept, context) : merged;
  }
  const quarter = await readProxy(path, 4, kept);
  const small = isSmall(quarter);
  if (request.join) return await reducedJoin(request.join, request, small ? 2 : 4, kept, context);
  const decoded = small ? await readProxy(path, 2, kept) : quarter;
  return healed({ ...corrected(decoded, light.lens), light, full: decoded.info, part: WHOLE }, spots);
}

/** Merged from reduced scans, and kept: laying them on each other takes longer than reading them. */
async function reducedMerge(
  merge: FrameMerge,
  { light, spots }: LinearProxy,
  times: 2 | 4,
  kept: ByteCache,
  context: JobContext,
): Promise<Opened> {
  const prints = await Promise.all(
    merge.scans.map(({ path }) =>
      rememberedFingerprint(path).then(
        ({ sha256 }) => sha256,
        () => "",
      ),
    ),
  );
  const names = merge.scans.map(({ name }) => name);
  const key = `merge-${hashOf([prints, names, merge.channels, light.lens, light.references, light.times, times, MERGE_VERSION]).slice(0, 40)}`;
  const known = await kept.read(key).then((bytes) => bytes && parseProxy(bytes));
  if (known) return healed({ ...known, light, full: known.info, part: WHOLE }, spots);
  const read = async (path: string): Promise<DecodedScan> => corrected(await readProxy(path, times, kept), light.lens);
  const merged = await openMerged(merge, light, { read, checkpoint: () => context.checkpoint() });
  // One that could not be read may be there the next time.
  if (merged.parts.length === merge.scans.length) await kept.write(key, proxyBytes(merged));
  return healed({ ...merged, light, full: merged.info, part: WHOLE }, spots);
}

/** Laying scans together takes longer than reading them, so what came of it is kept as well. */
async function reducedJoin(
  join: FrameJoin,
  { light, spots }: LinearProxy,
  times: 2 | 4,
  kept: ByteCache,
  context: JobContext,
): Promise<Opened> {
  const read = async (path: string): Promise<DecodedScan> => await readProxy(path, times, kept);
  const prints = await Promise.all(join.scans.map(async ({ path }) => (await rememberedFingerprint(path)).sha256));
  const places = join.scans.map(({ place }) => place);
  const key = `join-${hashOf([prints, places, join.sensorDust, light, times, JOIN_VERSION]).slice(0, 40)}`;
  const known = await kept.read(key).then((bytes) => bytes && parseProxy(bytes));
  if (known) return healed({ ...known, ...(known.about as About) }, spots);
  const joined = await openJoin(join, light, { reduced: { times, read }, checkpoint: () => context.checkpoint() });
  const about: About = { light: joined.light, full: joined.full, part: joined.part };
  await kept.write(key, proxyBytes(joined, about));
  return healed(joined, spots);
}

type About = Pick<Opened, "light" | "full" | "part">;

function healed(opened: Opened, spots: readonly Spot[]): Opened {
  heal(opened.scan, spots);
  return opened;
}

/** Raise them when scans are laid together, or merged, differently. */
const JOIN_VERSION = 1;
const MERGE_VERSION = 2;

/**
 * The last scan that was looked at closely: panning over it, stepping to another frame on it or healing other spots must
 * not decode it again. Workers run one job at a time, so that its spots are those of the frame at hand.
 */
let last:
  | { readonly key: string; readonly opened: Promise<Opened>; readonly forget: NodeJS.Timeout; heals: Healed }
  | undefined;
const KEPT_FOR = 60_000;

interface Healed {
  readonly spots: string;
  readonly restore: () => void;
}

async function wholeScan(request: LinearProxy, context: JobContext): Promise<Opened> {
  const { path, join, merge, spots, light } = request;
  const stamps = (join ?? merge)?.scans.map((scan) => stampOf(scan.path)) ?? [stampOf(path)];
  const key = JSON.stringify([path, stamps, join && [join, hashOf(light)], merge, light.lens, light.references]);
  clearTimeout(last?.forget);
  const known = last?.key === key ? last : undefined;
  const forget = setTimeout(() => (last = undefined), KEPT_FOR);
  forget.unref();
  const none: Healed = { spots: "[]", restore: () => {} };
  const now = { key, opened: known?.opened ?? openWhole(request, context), forget, heals: known?.heals ?? none };
  last = now;
  const opened = await now.opened.catch((error: unknown) => {
    if (last?.key === key) last = undefined;
    throw error;
  });
  const wanted = JSON.stringify(spots);
  if (now.heals.spots !== wanted) {
    now.heals.restore();
    now.heals = { spots: wanted, restore: healForNow(opened.scan, spots) };
  }
  return join ? opened : { ...opened, light };
}

async function openWhole({ path, join, merge, light }: LinearProxy, context: JobContext): Promise<Opened> {
  const checkpoint = (): void => context.checkpoint();
  if (join) return await openJoin(join, light, { checkpoint });
  const decoded = merge ? await openMerged(merge, light, { checkpoint }) : await openScan(path, light.lens);
  return { ...decoded, light, full: decoded.info, part: WHOLE };
}
