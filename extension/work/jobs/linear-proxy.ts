/**
 * Makes what the preview panel shows: a scan as transmittance (light applied, specks healed), made small and log-coded.
 * The reduced scan is cached by content; the light and the specks are applied anew, so that changing them decodes nothing.
 */
import { heal, type Spot } from "../../engine/heal.ts";
import { channelWeights } from "../../engine/light.ts";
import { codeOf } from "../../engine/log-code.ts";
import { readTransmittance } from "../../engine/transmittance.ts";
import type { LinearScan, Rgb } from "../../engine/types.ts";
import { folderCache } from "../../scans/cache.ts";
import { type DecodedScan, decodeScan } from "../../scans/decode.ts";
import { readProxy } from "../../scans/proxy.ts";
import { type FrameLight, lightSetup } from "../develop.ts";
import { stampOf } from "../identity.ts";
import { unknownExposure } from "../warnings.ts";
import type { JobContext } from "./context.ts";

/** A rectangle in fractions of the scan's sides. */
export interface ScanPart {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export interface LinearProxy {
  /** Absolute path of the scan. */
  readonly path: string;
  readonly light: FrameLight;
  readonly spots: readonly Spot[];
  /** Where reduced scans are kept, and how much of them. */
  readonly cache: { readonly folder: string; readonly maxBytes: number };
  /** The whole scan at about two megapixels, very small, or a part of it at full size. */
  readonly want: "picture" | "thumbnail" | ScanPart;
}

export interface LinearProxyValue {
  readonly scanWidth: number;
  readonly scanHeight: number;
  readonly part: ScanPart;
  readonly width: number;
  readonly height: number;
  /** Three little-endian 16-bit codes a pixel (engine/log-code.ts). */
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
const FEWEST_PIXELS = 600_000;
const MOST_PIXELS = 4_000_000;
/** Longest side of a thumbnail. */
const THUMBNAIL = 220;
/** Pixels of a part at full size; a larger one is made smaller. */
const MOST_PART_PIXELS = 4_500_000;

export async function linearProxy(order: LinearProxy, context: JobContext): Promise<LinearProxyValue> {
  const { want } = order;
  const { scan, info, warnings } = typeof want === "object" ? await wholeScan(order) : await reducedScan(order);
  context.checkpoint();
  const part = typeof want === "object" ? want : { left: 0, top: 0, width: 1, height: 1 };
  const setup = lightSetup(order.light, info);
  const box = boxOf(scan, part);
  const pixels = box.width * box.height;
  const long = Math.max(box.width, box.height);
  const shrink =
    want === "thumbnail"
      ? Math.max(1, Math.ceil(long / THUMBNAIL))
      : Math.ceil(Math.sqrt(pixels / (want === "picture" ? MOST_PIXELS : MOST_PART_PIXELS)));
  const { field } = setup;
  return {
    scanWidth: info.width,
    scanHeight: info.height,
    ...codedBoxes(scan, box, Math.max(1, shrink), readTransmittance(scan, setup), context),
    weights: field ? channelWeights(field) : [1 / 3, 1 / 3, 1 / 3],
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
    warnings: [...warnings.map((w) => w.message), ...unknownExposure(setup.unknown)],
  };
}

async function reducedScan({ path, spots, cache }: LinearProxy): Promise<DecodedScan> {
  const kept = folderCache(cache.folder, cache.maxBytes);
  const quarter = await readProxy(path, 4, kept);
  const { width, height } = quarter.scan;
  const decoded = width * height >= FEWEST_PIXELS ? quarter : await readProxy(path, 2, kept);
  heal(decoded.scan, spots);
  return decoded;
}

/** The last scan that was looked at closely: panning over it must not decode it again. */
let last: { readonly key: string; readonly decoded: Promise<DecodedScan>; readonly forget: NodeJS.Timeout } | undefined;
const KEPT_FOR = 60_000;

function wholeScan({ path, spots }: LinearProxy): Promise<DecodedScan> {
  const key = JSON.stringify([path, stampOf(path), spots]);
  clearTimeout(last?.forget);
  const decoded = last?.key === key ? last.decoded : decodeScan(path).then((d) => (heal(d.scan, spots), d));
  const forget = setTimeout(() => (last = undefined), KEPT_FOR);
  forget.unref();
  last = { key, decoded, forget };
  decoded.catch(() => (last = undefined));
  return decoded;
}

interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** The part in pixels, held to the scan. */
function boxOf({ width, height }: LinearScan, part: ScanPart): Box {
  const side = (from: number, length: number, all: number): [number, number] => {
    const first = Math.min(all - 1, Math.max(0, Math.floor(from * all)));
    return [first, Math.min(all, Math.max(first + 1, Math.ceil((from + length) * all))) - first];
  };
  const [left, wide] = side(part.left, part.width, width);
  const [top, high] = side(part.top, part.height, height);
  return { left, top, width: wide, height: high };
}

/** Means of `step` × `step` transmittances; pixels beyond the last whole box are left out. */
function codedBoxes(
  scan: LinearScan,
  box: Box,
  step: number,
  reader: ReturnType<typeof readTransmittance>,
  context: JobContext,
): Pick<LinearProxyValue, "part" | "width" | "height" | "codes"> {
  const width = Math.max(1, Math.floor(box.width / step));
  const height = Math.max(1, Math.floor(box.height / step));
  const codes = new Uint16Array(width * height * 3);
  const row = new Float32Array(box.width * 3);
  const sum = new Float32Array(width * 3);
  const rows = Math.min(step, box.height);
  const columns = Math.min(step, box.width);
  for (let y = 0, k = 0; y < height; y++) {
    if (y % 64 === 0) context.checkpoint();
    sum.fill(0);
    for (let j = 0; j < rows; j++) {
      reader.row(box.top + y * step + j, row, box.left, box.left + box.width);
      for (let x = 0, i = 0; x < width; x++)
        for (let q = 0; q < columns; q++, i += 3) {
          sum[3 * x] += row[i];
          sum[3 * x + 1] += row[i + 1];
          sum[3 * x + 2] += row[i + 2];
        }
    }
    const scale = 1 / (rows * columns);
    for (let x = 0; x < sum.length; x++) codes[k++] = codeOf(sum[x] * scale);
  }
  const part = {
    left: box.left / scan.width,
    top: box.top / scan.height,
    width: (width * columns) / scan.width,
    height: (height * rows) / scan.height,
  };
  return { part, width, height, codes: new Uint8Array(codes.buffer) };
}
