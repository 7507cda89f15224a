/**
 * A DNG writer (DNG Specification 1.4) for test scans: any colour filter array, 8 … 16 bits, packed, losslessly
 * compressed or deflated, with active area, per-site black level and an EXIF directory.
 */
import { deflateSync } from "node:zlib";
import { encodeLosslessJpeg } from "./ljpeg.ts";
import { buildTiff, type Field, type FieldNumber } from "./tiff.ts";

/** Filter colours of a repeating block, row by row: 0 red, 1 green, 2 blue. */
export interface FilterPattern {
  readonly rows: number;
  readonly columns: number;
  readonly colours: readonly number[];
}

export const RGGB: FilterPattern = { rows: 2, columns: 2, colours: [0, 1, 1, 2] };
export const GRBG: FilterPattern = { rows: 2, columns: 2, colours: [1, 0, 2, 1] };
export const GBRG: FilterPattern = { rows: 2, columns: 2, colours: [1, 2, 0, 1] };
export const BGGR: FilterPattern = { rows: 2, columns: 2, colours: [2, 1, 1, 0] };
/** The 6 × 6 arrangement of X-Trans sensors. */
export const XTRANS: FilterPattern = {
  rows: 6,
  columns: 6,
  // oxfmt-ignore
  colours: [
    1, 1, 0, 1, 1, 2,
    1, 1, 2, 1, 1, 0,
    2, 0, 1, 0, 2, 1,
    1, 1, 2, 1, 1, 0,
    1, 1, 0, 1, 1, 2,
    0, 2, 1, 2, 0, 1,
  ],
};

/** What the camera notes beside the picture. A value left out is left out of the file. */
interface DngExif {
  /** APEX value of the shutter time. */
  readonly shutterSpeed?: FieldNumber;
  /** Seconds; `[1, 125]` is written as that fraction. */
  readonly shutter?: FieldNumber;
  /** f-number. */
  readonly aperture?: FieldNumber;
  readonly iso?: number;
  /** Wall-clock time, "YYYY:MM:DD HH:MM:SS". */
  readonly time?: string;
  readonly lens?: string;
  /** Millimetres. */
  readonly focal?: FieldNumber;
}

export interface DngOptions {
  readonly width: number;
  readonly height: number;
  /** `width * height` samples of a mosaic or of monochrome; three times that, interleaved, for linear colour. */
  readonly data: Uint16Array;
  /** "mosaic" (default) needs `pattern`; "linear" is three colours at every pixel; "monochrome" has no filters. */
  readonly kind?: "mosaic" | "linear" | "monochrome";
  /** Default RGGB. */
  readonly pattern?: FilterPattern;
  /** Bits of a stored sample, 8 … 16 (default 16). */
  readonly bits?: number;
  /** Default "none"; "jpeg" is lossless JPEG in tiles, "deflate" is zlib in tiles. */
  readonly compression?: "none" | "jpeg" | "deflate";
  /** One level, or one for each site of a 2 × 2 block (mosaic), or one a channel (linear). */
  readonly black?: number | readonly number[];
  /** Saturation; default `2^bits − 1`. */
  readonly white?: number;
  /** Rows and columns [top, left, bottom, right] of the picture inside the stored samples. */
  readonly activeArea?: readonly [number, number, number, number];
  /** EXIF orientation 1 … 8 (default 1). */
  readonly orientation?: number;
  readonly make?: string;
  readonly model?: string;
  readonly exif?: DngExif;
  /** Camera neutral (default 0.5, 1, 0.65). */
  readonly neutral?: readonly [number, number, number];
  /** XYZ under D65 to camera, nine numbers row by row (default those of an invented sensor). */
  readonly colourMatrix?: readonly number[];
  /** Tags set after all others; `undefined` leaves a tag out. For files that are wrong on purpose. */
  readonly tags?: ReadonlyMap<number, Field | undefined>;
}

const TILE = 256;
const LINEAR_RAW = 34892;
const COLOUR_FILTER_ARRAY = 32803;
const COMPRESSION = { none: 1, jpeg: 7, deflate: 8 } as const;
/** XYZ to camera, of an invented sensor. */
const COLOUR_MATRIX = [0.9376, -0.4139, -0.0394, -0.4687, 1.2495, 0.2454, -0.0699, 0.1378, 0.7486];

/** The whole file. Throws when the samples do not fit the size. */
export function writeDng(options: DngOptions): Uint8Array {
  const channels = options.kind === "linear" ? 3 : 1;
  const { width, height, data } = options;
  if (data.length !== width * height * channels)
    throw new Error(`A ${width} × ${height} DNG needs ${width * height * channels} samples, not ${data.length}.`);

  const compression = options.compression ?? "none";
  const fields = imageFields(options, channels);
  for (const [tag, field] of options.tags ?? []) {
    if (field) fields.set(tag, field);
    else fields.delete(tag);
  }
  return buildTiff({
    fields,
    exif: { fields: exifFields(options.exif ?? {}) },
    image: compression === "none" ? [packRows(options, channels)] : tiles(options, channels),
    tiled: compression !== "none",
  });
}

function imageFields(options: DngOptions, channels: number): Map<number, Field> {
  const { width, height, bits = 16, compression = "none", kind = "mosaic" } = options;
  const fields = new Map<number, Field>([
    [254, ["long", 0]], // NewSubfileType: the main picture
    [256, ["long", width]],
    [257, ["long", height]],
    [258, ["short", Array.from({ length: channels }, () => bits)]],
    [259, ["short", COMPRESSION[compression]]],
    [262, ["short", kind === "mosaic" ? COLOUR_FILTER_ARRAY : LINEAR_RAW]],
    [271, ["ascii", options.make ?? "Synthetic"]],
    [272, ["ascii", options.model ?? "Test Camera"]],
    [274, ["short", options.orientation ?? 1]],
    [277, ["short", channels]],
    [284, ["short", 1]],
    [50706, ["byte", [1, 4, 0, 0]]], // DNGVersion
    [50707, ["byte", [1, 1, 0, 0]]], // DNGBackwardVersion
    [50708, ["ascii", `${options.make ?? "Synthetic"} ${options.model ?? "Test Camera"}`]],
    [50717, ["long", Array.from({ length: channels }, () => options.white ?? 2 ** bits - 1)]],
    [50721, ["srational", options.colourMatrix ?? COLOUR_MATRIX]],
    [50728, ["rational", [...(options.neutral ?? [0.5, 1, 0.65])]]],
    [50778, ["short", 21]], // CalibrationIlluminant1: D65
  ]);
  if (compression === "none") fields.set(278, ["long", height]);
  else for (const tag of [322, 323]) fields.set(tag, ["long", TILE]);
  if (kind === "mosaic") {
    const { rows, columns, colours } = options.pattern ?? RGGB;
    fields.set(33421, ["short", [rows, columns]]);
    fields.set(33422, ["byte", colours]);
  }
  setBlackLevel(fields, options.black, kind);
  if (options.activeArea) fields.set(50829, ["long", options.activeArea]);
  return fields;
}

function setBlackLevel(fields: Map<number, Field>, black: DngOptions["black"], kind: string): void {
  if (black === undefined) return;
  const levels = typeof black === "number" ? [black] : black;
  if (levels.length > 1) fields.set(50713, ["short", kind === "linear" ? [1, 1] : [2, 2]]);
  fields.set(50714, ["rational", levels.map((level) => [level, 1] as const)]);
}

function exifFields(exif: DngExif): Map<number, Field> {
  const fields = new Map<number, Field>();
  if (exif.shutter !== undefined) fields.set(33434, ["rational", exif.shutter]);
  if (exif.shutterSpeed !== undefined) fields.set(37377, ["srational", exif.shutterSpeed]);
  if (exif.aperture !== undefined) fields.set(33437, ["rational", exif.aperture]);
  if (exif.iso !== undefined) fields.set(34855, ["short", exif.iso]);
  if (exif.time !== undefined) fields.set(36867, ["ascii", exif.time]);
  if (exif.focal !== undefined) fields.set(37386, ["rational", exif.focal]);
  if (exif.lens !== undefined) fields.set(42036, ["ascii", exif.lens]);
  return fields;
}

/** Samples packed most significant bit first, every row starting at a whole byte; 16 bits are little-endian. */
export function packRows(
  { data, width, height, bits = 16 }: Pick<DngOptions, "data" | "width" | "height" | "bits">,
  channels: number,
): Uint8Array {
  if (bits === 16) return new Uint8Array(data.buffer, data.byteOffset, data.byteLength);
  const samples = width * channels;
  const rowBytes = Math.ceil((samples * bits) / 8);
  const packed = new Uint8Array(rowBytes * height);
  for (let y = 0; y < height; y++) {
    let pending = 0;
    let count = 0;
    let at = y * rowBytes;
    for (let x = 0; x < samples; x++) {
      pending = (pending << bits) | data[y * samples + x];
      count += bits;
      while (count >= 8) {
        count -= 8;
        packed[at++] = (pending >> count) & 255;
      }
      pending &= (1 << count) - 1;
    }
    if (count) packed[at] = (pending << (8 - count)) & 255;
  }
  return packed;
}

function tiles(options: DngOptions, channels: number): Uint8Array[] {
  const { width, height, bits = 16, compression } = options;
  const blocks: Uint8Array[] = [];
  for (let top = 0; top < height; top += TILE)
    for (let left = 0; left < width; left += TILE) {
      const samples = cutTile(options, channels, left, top);
      if (compression === "deflate") blocks.push(deflateSync(new Uint8Array(samples.buffer)));
      else {
        // A mosaic's neighbours of one colour lie two samples apart: two components predict better than one.
        const components = channels === 1 ? 2 : channels;
        const row = (TILE * channels) / components;
        blocks.push(encodeLosslessJpeg({ samples, width: row, height: TILE, components, bits }));
      }
    }
  return blocks;
}

/** A tile, its part outside the picture filled with the last row and column. */
function cutTile({ data, width, height }: DngOptions, channels: number, left: number, top: number): Uint16Array {
  const samples = new Uint16Array(TILE * TILE * channels);
  const row = width * channels;
  for (let y = 0; y < TILE; y++) {
    const from = Math.min(top + y, height - 1) * row;
    for (let x = 0; x < TILE * channels; x++)
      samples[y * TILE * channels + x] = data[from + Math.min(left * channels + x, row - 1)];
  }
  return samples;
}
