/**
 * The mosaics of DNG files whose samples are losslessly compressed, as most are: read here, which takes a third of
 * LibRaw's time and none of its memory. LibRaw still reads the headers, and everything that is not as usual.
 */
import type { TiffDirectory } from "../tiff/read.ts";
import { COMPRESSION, PHOTOMETRIC, TAG } from "../tiff/tags.ts";
import type { LibRawMetadata } from "./libraw.ts";
import { decodeLosslessJpeg } from "./lossless-jpeg.ts";
import type { Mosaic } from "./mosaic.ts";

/** DNG 1.1, from which on a difference of category 16 has no bits, as LibRaw writes versions. */
const DNG_1_1 = 0x1010000;
/**
 * Tags by which recorded numbers are not stored as they are or where they are, or black is not the stated level of each
 * site: LibRaw measures it where areas are masked.
 */
const UNUSUAL = [
  TAG.linearizationTable,
  TAG.blackLevelDeltaColumns,
  TAG.blackLevelDeltaRows,
  TAG.cfaPlaneColours,
  TAG.sampleFormat,
  TAG.maskedAreas,
  TAG.subTileSize,
  TAG.rowInterleave,
  TAG.columnInterleave,
] as const;

/**
 * @param bytes the whole file
 * @param image the directory of its main picture
 * @param metadata of LibRaw, for the same file
 * @param colours gives the filters of the block that LibRaw found in the header
 * @returns undefined where the file is of another kind, or not whole: LibRaw knows how to read it, or what is wrong
 */
export function readDngMosaic(
  bytes: Uint8Array,
  image: TiffDirectory,
  metadata: LibRawMetadata,
  colours: readonly number[],
): Mosaic | undefined {
  const black = usualBlack(image);
  if (!black || !isUsual(image, metadata) || colours.includes(-1)) return undefined;
  const { raw_width: stride, raw_height: rows } = metadata;
  const data = new Uint16Array(stride * rows);
  if (!decodeBlocks(bytes, image, { data, stride, rows })) return undefined;
  return {
    width: metadata.iwidth,
    height: metadata.iheight,
    stride,
    left: metadata.left_margin,
    top: metadata.top_margin,
    data,
    period: 2,
    colours,
    black,
    white: metadata.color_data.maximum,
    monochrome: false,
  };
}

function isUsual(image: TiffDirectory, metadata: LibRawMetadata): boolean {
  const number = (tag: number, otherwise: number): number => image.number(tag) ?? otherwise;
  const pattern = image.numbers(TAG.cfaPatternSize);
  return (
    metadata.dng_version >= DNG_1_1 &&
    metadata.raw_width === image.number(TAG.width) &&
    metadata.raw_height === image.number(TAG.height) &&
    image.number(TAG.compression) === COMPRESSION.jpeg[0] &&
    image.number(TAG.photometric) === PHOTOMETRIC.filterArray &&
    number(TAG.samplesPerPixel, 1) === 1 &&
    number(TAG.planarConfiguration, 1) === 1 &&
    number(TAG.cfaLayout, 1) === 1 &&
    pattern.length === 2 &&
    pattern.every((side) => side === 2) &&
    !UNUSUAL.some((tag) => image.has(tag))
  );
}

/** Black levels of the block's sites, where they are whole numbers for one site or four. */
function usualBlack(image: TiffDirectory): readonly number[] | undefined {
  const levels = image.numbers(TAG.blackLevel);
  const size = image.has(TAG.blackLevelSize) ? image.numbers(TAG.blackLevelSize) : [1, 1];
  if (levels.some((level) => !Number.isInteger(level) || level < 0)) return undefined;
  if (size.length !== 2 || size[0] !== size[1] || levels.length !== size[0] * size[1]) return undefined;
  if (levels.length === 1) return [levels[0], levels[0], levels[0], levels[0]];
  return levels.length === 4 ? levels : undefined;
}

interface Target {
  readonly data: Uint16Array;
  readonly stride: number;
  readonly rows: number;
}

/** All strips or tiles. @returns whether each was decoded whole */
function decodeBlocks(bytes: Uint8Array, image: TiffDirectory, { data, stride, rows }: Target): boolean {
  const tiled = image.has(TAG.tileOffsets);
  const [offsets, lengths] = tiled
    ? [image.numbers(TAG.tileOffsets), image.numbers(TAG.tileLengths)]
    : [image.numbers(TAG.stripOffsets), image.numbers(TAG.stripLengths)];
  const across = tiled ? (image.number(TAG.tileWidth) ?? 0) : stride;
  const down = tiled ? (image.number(TAG.tileHeight) ?? 0) : (image.number(TAG.rowsPerStrip) ?? rows);
  // LibRaw breaks rows of tiles that are wider than the picture at its edge.
  if (!(across > 0 && across <= stride && down > 0) || lengths.length !== offsets.length) return false;
  const columns = Math.ceil(stride / across);
  if (offsets.length !== columns * Math.ceil(rows / down)) return false;
  return offsets.every((offset, k) => {
    const [left, top] = [(k % columns) * across, Math.floor(k / columns) * down];
    const size = { width: across, height: tiled ? down : Math.min(down, rows - top) };
    return decodeLosslessJpeg(bytes.subarray(offset, offset + lengths[k]), size, {
      data,
      at: top * stride + left,
      stride,
      columns: Math.min(across, stride - left),
      rows: Math.min(down, rows - top),
    });
  });
}
