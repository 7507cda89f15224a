/** Reads LibRaw's output: a mosaic, or a picture that is linear already. */
import { forgetLibRaw, type LibRaw, type LibRawFile, type LibRawMetadata, type LibRawSettings } from "./libraw.ts";
import type { TiffDirectory } from "../tiff/read.ts";
import { readDngMosaic } from "./dng-mosaic.ts";
import type { Mosaic } from "./mosaic.ts";

/** Three linear colours (or one) at every pixel, as some raw files carry them. */
export interface LinearPicture {
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3;
  readonly data: Uint16Array;
  /** LibRaw's idea of saturation; a DNG's own tags know better. */
  readonly maximum: number;
}

export type RawPicture =
  | { readonly kind: "mosaic"; readonly mosaic: Mosaic; readonly metadata: LibRawMetadata }
  | { readonly kind: "linear"; readonly picture: LinearPicture; readonly metadata: LibRawMetadata };

/** Why LibRaw gave no picture. `lines` are its own words. */
export class RawFailure extends Error {
  /** "damaged": LibRaw gave a picture, but reported on the way that the data are broken. */
  readonly reason: "unrecognised" | "undecodable" | "damaged" | "too-large" | "filters";
  readonly lines: readonly string[];
  readonly metadata?: LibRawMetadata;

  constructor(reason: RawFailure["reason"], lines: readonly string[], metadata?: LibRawMetadata) {
    super(`raw file: ${reason}`);
    this.reason = reason;
    this.lines = [...lines];
    this.metadata = metadata;
  }
}

/**
 * Settings under which LibRaw changes no number: no balance, no gamma (six numbers, fewer are ignored), no
 * brightening, no rescaling by the brightest pixel, no rotation.
 */
const UNCHANGED: LibRawSettings = {
  outputBps: 16,
  outputColor: 0,
  gamm: [1, 1, 0, 0, 0, 0],
  noAutoBright: true,
  bright: 1,
  noAutoScale: true,
  useAutoWb: false,
  useCameraWb: false,
  useCameraMatrix: 0,
  highlight: 0,
  userFlip: 0,
  adjustMaximumThr: 0,
  fbddNoiserd: 0,
  medPasses: 0,
  threshold: 0,
  useFujiRotate: 0,
  noInterpolation: true,
};

/** LibRaw's code for a 6 × 6 arrangement. */
const SIX_BY_SIX = 9;
/** Side of the crop from which filters and black levels are learnt; whole blocks of 2 and of 6. */
const CROP = 96;
/** LibRaw's description of red, green, blue and the second green. */
const RED_GREEN_BLUE = "RGBG";

/**
 * Reads a raw file's recorded numbers without interpolating anything. After any failure the module is discarded: a file
 * that LibRaw refuses leaves its memory in a state in which it refuses, distorts or never finishes valid files.
 * @param lib from `loadLibRaw`, for this one file: load it again for the next
 * @param dng the directory of the main picture, where the file is a DNG: the usual ones take a quicker way
 * @throws RawFailure
 */
export function readRaw(lib: LibRaw, bytes: Uint8Array, maxPixels: number, dng?: TiffDirectory): RawPicture {
  try {
    lib.libRawMessages.length = 0;
    const picture = readPicture(lib, bytes, maxPixels, dng);
    if (lib.libRawMessages.length > 0) throw new RawFailure("damaged", lib.libRawMessages, picture.metadata);
    return picture;
  } catch (error) {
    forgetLibRaw();
    throw error;
  }
}

function readPicture(lib: LibRaw, bytes: Uint8Array, maxPixels: number, dng: TiffDirectory | undefined): RawPicture {
  const size = withRawFile(lib, (file) => openForSize(lib, file, bytes, maxPixels));
  if (dng && hasTwoByTwo(size)) {
    const colours = [-1, -1, -1, -1];
    fillFromMask(colours, size.filters);
    const mosaic = readDngMosaic(bytes, dng, size, colours);
    if (mosaic) return { kind: "mosaic", mosaic, metadata: size };
  }
  if (size.filters === 0 && size.colors !== 1) return withRawFile(lib, (file) => readLinear(lib, file, bytes));
  for (const fraction of CROP_PLACES) {
    const crop = [cropStart(size.iwidth, fraction), cropStart(size.iheight, fraction)] as const;
    const last = fraction === CROP_PLACES.at(-1);
    const read = withRawFile(lib, (file) => readMosaic(lib, file, bytes, crop, last));
    if (read === "no mosaic") return withRawFile(lib, (file) => readLinear(lib, file, bytes));
    if (read !== "too dark") return read;
  }
  throw new RawFailure("filters", lib.libRawMessages, size);
}

const hasTwoByTwo = ({ filters, colors, cdesc }: LibRawMetadata): boolean =>
  filters !== 0 && filters >>> 0 !== SIX_BY_SIX && colors === 3 && cdesc === RED_GREEN_BLUE;

/** Where the filters are learnt, as fractions of the free width and height: in the middle there is light. */
const CROP_PLACES = [0.5, 0.25, 0];

function cropStart(length: number, fraction: number): number {
  return Math.floor((Math.max(0, length - CROP) * fraction) / 12) * 12;
}

/** A file object of its own for every `open`: settings and results of an earlier one persist in it. */
function withRawFile<T>(lib: LibRaw, use: (file: LibRawFile) => T): T {
  const file = new lib.LibRaw();
  const result = use(file);
  file.delete(); // after a failure the whole module goes
  return result;
}

/** With `guess`, a 2 × 2 block that was too dark to learn from is filled in from what the header says. */
function readMosaic(
  lib: LibRaw,
  file: LibRawFile,
  bytes: Uint8Array,
  [cropLeft, cropTop]: readonly [number, number],
  guess: boolean,
): RawPicture | "no mosaic" | "too dark" {
  open(lib, file, bytes, { ...UNCHANGED, cropbox: [cropLeft, cropTop, CROP, CROP] });
  const metadata = file.metadata(true); // read now: unpacking changes the black level in it
  const crop = attempt(lib, metadata, () => file.imageData());
  const maximum = file.metadata(true).color_data.maximum; // by now LibRaw has taken the common black off
  const sensor = attempt(lib, metadata, () => file.rawImageData());
  if (!sensor) return "no mosaic";

  const monochrome = crop.colors === 1 || metadata.filters === 0;
  if (!monochrome && metadata.cdesc !== RED_GREEN_BLUE)
    throw new RawFailure("filters", [`filters ${metadata.cdesc}`], metadata);
  const period = metadata.filters >>> 0 === SIX_BY_SIX ? 6 : 2;
  const block = measureBlock({ crop, cropLeft, cropTop, sensor, metadata, period });
  if (monochrome) block.colours.fill(0);
  if (!guess && block.black.includes(-1)) return "too dark";
  if (!monochrome && period === 2) fillFromMask(block.colours, metadata.filters);
  if (block.colours.includes(-1)) return "too dark";

  const known = block.black.filter((level) => level >= 0);
  const common = known.length ? Math.min(...known) : metadata.color_data.black;
  const mosaic: Mosaic = {
    width: metadata.iwidth,
    height: metadata.iheight,
    stride: sensor.raw_width,
    left: metadata.left_margin,
    top: metadata.top_margin,
    data: sensor.data,
    period,
    colours: block.colours,
    black: block.black.map((level) => (level < 0 ? common : level)),
    white: maximum + common,
    monochrome,
  };
  return { kind: "mosaic", mosaic, metadata };
}

/** Headers only: nothing is unpacked before the size is known to be sane. */
function openForSize(lib: LibRaw, file: LibRawFile, bytes: Uint8Array, maxPixels: number): LibRawMetadata {
  open(lib, file, bytes, UNCHANGED);
  const metadata = file.metadata(true);
  if (metadata.raw_width * metadata.raw_height > maxPixels) throw new RawFailure("too-large", [], metadata);
  return metadata;
}

function open(lib: LibRaw, file: LibRawFile, bytes: Uint8Array, settings: LibRawSettings): void {
  try {
    file.open(bytes, settings);
  } catch {
    throw new RawFailure("unrecognised", lib.libRawMessages);
  }
}

/** LibRaw's exceptions arrive as bare pointers; what can be said is in its complaints and metadata. */
function attempt<T>(lib: LibRaw, metadata: LibRawMetadata, act: () => T): T {
  try {
    return act();
  } catch {
    throw new RawFailure("undecodable", lib.libRawMessages, metadata);
  }
}

interface BlockToMeasure {
  readonly crop: {
    readonly width: number;
    readonly height: number;
    readonly colors: number;
    readonly data: Uint16Array;
  };
  readonly cropLeft: number;
  readonly cropTop: number;
  readonly sensor: { readonly raw_width: number; readonly data: Uint16Array };
  readonly metadata: LibRawMetadata;
  readonly period: number;
}

/**
 * Which colour each site of the block has and what its black level is, learnt from an uninterpolated crop: there a
 * site holds its number less its black level in its own colour, and zero in the others. −1 where not seen.
 */
function measureBlock({ crop, cropLeft, cropTop, sensor, metadata, period }: BlockToMeasure): {
  colours: number[];
  black: number[];
} {
  const colours = Array.from({ length: period * period }, () => -1);
  const black = Array.from({ length: period * period }, () => -1);
  for (let y = 0; y < crop.height; y++)
    for (let x = 0; x < crop.width; x++)
      for (let colour = 0; colour < crop.colors; colour++) {
        const value = crop.data[(y * crop.width + x) * crop.colors + colour];
        if (value === 0) continue;
        const sensorX = x + cropLeft;
        const sensorY = y + cropTop;
        const site = (sensorY % period) * period + (sensorX % period);
        const recorded =
          sensor.data[(sensorY + metadata.top_margin) * sensor.raw_width + sensorX + metadata.left_margin];
        colours[site] = colour === 3 ? 1 : colour;
        black[site] = recorded - value;
      }
  return { colours, black };
}

/** LibRaw's mask holds two bits a site, for two columns and eight rows. */
function fillFromMask(colours: number[], mask: number): void {
  for (let site = 0; site < 4; site++) {
    if (colours[site] >= 0) continue;
    const shift = (((site >> 1) << 1) | (site & 1)) << 1;
    const colour = (mask >>> shift) & 3;
    colours[site] = colour === 3 ? 1 : colour;
  }
}

/** Files without a mosaic: the numbers as stored, black level not taken off. */
function readLinear(lib: LibRaw, file: LibRawFile, bytes: Uint8Array): RawPicture {
  open(lib, file, bytes, { ...UNCHANGED, userBlack: 0, userCblack: [0, 0, 0, 0] });
  const metadata = file.metadata(true);
  const { width, height, colors, data } = attempt(lib, metadata, () => file.imageData());
  if (colors !== 1 && colors !== 3) throw new RawFailure("filters", [`${colors} colours a pixel`], metadata);
  const { maximum } = file.metadata(true).color_data;
  return { kind: "linear", picture: { width, height, channels: colors, data, maximum }, metadata };
}
