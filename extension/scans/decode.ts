/** The one door through which scans come in. Run it in a worker: decoding a raw file blocks its thread. */
import type { LinearScan, ScanInfo } from "../engine/types.ts";
import { ScanError, type ScanWarning, tooLarge } from "./errors.ts";
import { infoFromExif, infoFromLibRaw, mergeInfo } from "./info.ts";
import { readJpegExif } from "./jpeg-exif.ts";
import { maxPlausiblePixels, MAX_PIXELS } from "./limits.ts";
import { checkTiff, decodePicture } from "./picture/decode-picture.ts";
import { colourMatrixOf } from "./raw/colour-matrix.ts";
import { unpackRaw } from "./raw/decode-raw.ts";
import { type FullSize, scanOf, type Unpacked } from "./raw/to-scan.ts";
import { type Recognised, recognise } from "./recognise.ts";
import { type ByteSource, withFile } from "./files/source.ts";
import { TAG } from "./tiff/tags.ts";

export interface DecodeOptions extends FullSize {
  /** Half the width and height, several times faster; for previews and proxies. */
  readonly half?: boolean;
  /** Files that claim more pixels are refused before memory is asked for (default 200 million). */
  readonly maxPixels?: number;
}

export interface DecodedScan {
  readonly scan: LinearScan;
  readonly info: ScanInfo;
  readonly warnings: readonly ScanWarning[];
}

/**
 * Decodes a camera raw file, DNG, TIFF or JPEG, told apart by content, to linear camera RGB without white balance,
 * gamma or rotation. Monochrome sensors and grey TIFF files give one channel.
 * @throws ScanError for every file that cannot be used, with why and what to do
 */
export async function decodeScan(path: string, options: DecodeOptions = {}): Promise<DecodedScan> {
  return scanOfUnpacked(await unpackScan(path, options), options);
}

/** A file's samples as they were recorded, which the scan or parts of it are made of. */
export interface UnpackedScan {
  readonly unpacked: Unpacked;
  readonly info: ScanInfo;
  readonly warnings: readonly ScanWarning[];
}

/**
 * The scan, or a part of it, of a file that was unpacked.
 * @param keep whether more is to be made of what was unpacked, which is left as it is then
 */
export function scanOfUnpacked(
  { unpacked, info, warnings }: UnpackedScan,
  { half = false, ...wanted }: DecodeOptions = {},
  keep = false,
): DecodedScan {
  return { scan: scanOf(unpacked, { ...wanted, half, keep }), info, warnings };
}

/**
 * Reads and unpacks a file: the larger part of decoding it at half size. Of a mosaic two bytes a pixel are held.
 * @throws ScanError as `decodeScan`
 */
export async function unpackScan(path: string, options: Pick<DecodeOptions, "maxPixels"> = {}): Promise<UnpackedScan> {
  return withFile(path, async (source) => {
    const maxPixels = Math.min(options.maxPixels ?? MAX_PIXELS, maxPlausiblePixels(source.size));
    const found = recognise(path, source);
    refuseHuge(path, found, maxPixels);
    if (found.kind === "tiff") checkTiff(path, found.tiff!, source);
    const exif = found.tiff ?? (found.exifJpegAt === undefined ? undefined : readJpegExif(source, found.exifJpegAt));
    const camera = infoFromExif(exif);
    const readWhole = () => wholeFile(path, source);

    if (found.kind === "raw") {
      const raw = await unpackRaw(path, readWhole, found.tiff, { maxPixels, source });
      const { unpacked, metadata, width, height, mosaic, warnings } = raw;
      const bits = metadata.color_data.raw_bps;
      const colourMatrix = colourMatrixOf(found.tiff, metadata);
      const info = {
        source: "raw",
        ...mergeInfo(camera, infoFromLibRaw(metadata)),
        width,
        height,
        bits,
        mosaic,
        ...(colourMatrix ? { colourMatrix } : {}),
      } as const;
      return { unpacked, info, warnings };
    }
    const { scan, bits, display, warnings } = await decodePicture(path, readWhole(), found, maxPixels);
    const { width, height } = scan;
    const kind = { source: found.kind, ...(display ? { display } : {}) } as const;
    const info = { ...kind, ...mergeInfo(camera, {}), width, height, bits } as const;
    return { unpacked: { kind: "picture", scan }, info, warnings };
  });
}

/** By what the directories claim; files whose headers only their decoder reads are checked there. */
function refuseHuge(path: string, { tiff }: Recognised, maxPixels: number): void {
  for (const directory of tiff?.directories ?? [])
    for (const [across, down] of [
      [TAG.width, TAG.height],
      [TAG.tileWidth, TAG.tileHeight],
    ]) {
      const width = directory.number(across) ?? 0;
      const height = directory.number(down) ?? 0;
      if (width * height > maxPixels) throw tooLarge(path, width, height);
    }
}

/** Larger than any raw file of the pixels allowed; such a file is not a scan. */
const MAX_BYTES = 2 ** 31 - 1;

function wholeFile(path: string, source: ByteSource): Uint8Array {
  if (source.size > MAX_BYTES)
    throw new ScanError(
      "too-large",
      path,
      `has ${source.size} bytes`,
      "Scans have less than 2 GB; check what this is.",
    );
  const bytes = source.read(0, source.size);
  if (bytes.length < source.size)
    throw new ScanError("unreadable", path, "could not be read to its end", "Check the disk, and copy the file again.");
  return bytes;
}
