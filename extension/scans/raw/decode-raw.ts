/** Unpacks raw files with LibRaw, and words what it refuses. */
import { ScanError, type ScanWarning, tooLarge } from "../errors.ts";
import { mainDirectory } from "../recognise.ts";
import type { ByteSource } from "../files/source.ts";
import { checkImage, checkSampleFormat } from "../tiff/check-image.ts";
import type { TiffDirectory, TiffFile } from "../tiff/read.ts";
import { COMPRESSION, TAG } from "../tiff/tags.ts";
import { checkLinear, checkMosaic, checkStatedLevels } from "./check-levels.ts";
import { type LibRawMetadata, loadLibRaw } from "./libraw.ts";
import { RawFailure, type RawPicture, readRaw } from "./read-raw.ts";
import { isUsable } from "./xtrans-layout.ts";
import { MIN_SIDE, scanOfLinear, type Unpacked } from "./to-scan.ts";

export interface UnpackedRaw {
  readonly unpacked: Unpacked;
  readonly metadata: LibRawMetadata;
  readonly width: number;
  readonly height: number;
  readonly mosaic?: "bayer" | "xtrans";
  readonly warnings: readonly ScanWarning[];
}

/** Value of `TAG.cfaLayout`: filters lie in straight rows and columns. */
const RECTANGULAR = 1;
const HIGH_EFFICIENCY = [13, 14];
const REMEDY =
  "Convert it to an uncompressed or losslessly compressed DNG with the camera maker's own converter, and set the camera to lossless compression for the next scans.";

/**
 * @param readWhole gives the file's bytes, which are let go before the mosaic becomes a picture three times as large
 * @param tiff the file's directories, where it is TIFF-like
 * @param options.source the file, for its headers
 * @throws ScanError
 */
export async function unpackRaw(
  file: string,
  readWhole: () => Uint8Array,
  tiff: TiffFile | undefined,
  options: { readonly maxPixels: number; readonly source: ByteSource },
): Promise<UnpackedRaw> {
  const main = tiff && mainDirectory(tiff);
  if (main) {
    checkSampleFormat(file, main);
    refuseUnsupported(file, main);
  }
  // Raw files of a camera's own format have their sizes and lengths elsewhere; a DNG's must fit one another.
  const dng = tiff?.directories.some((directory) => directory.has(TAG.dngVersion)) ? main : undefined;
  if (dng) {
    checkImage(file, dng, options.source);
    checkStatedLevels(file, dng);
  }
  const lib = await loadLibRaw();
  let raw: RawPicture;
  try {
    raw = readRaw(lib, readWhole(), options.maxPixels, dng);
  } catch (error) {
    throw error instanceof RawFailure ? explain(file, error) : error;
  }
  const warnings = warningsFor(raw, main);
  const { metadata } = raw;
  const { width, height } = raw.kind === "mosaic" ? raw.mosaic : raw.picture;
  if (Math.min(width, height) < MIN_SIDE)
    throw new ScanError("corrupt", file, `is only ${width} × ${height} pixels`, "Make the scan again.");
  if (raw.kind === "mosaic") {
    const { mosaic } = raw;
    if (mosaic.period === 6 && !mosaic.monochrome && !isUsable(mosaic.colours))
      throw new ScanError("unsupported", file, "has a colour filter arrangement that is not known here", REMEDY);
    warnings.push(...checkMosaic(file, mosaic));
    const filters = mosaic.monochrome ? undefined : mosaic.period === 6 ? "xtrans" : "bayer";
    return {
      unpacked: { kind: "mosaic", mosaic },
      metadata,
      width,
      height,
      mosaic: filters,
      warnings,
    };
  }
  const { black, white } = linearLevels(raw, main);
  warnings.push(...checkLinear(file, raw.picture, { black, white }));
  const scan = scanOfLinear(raw.picture, black, white);
  return { unpacked: { kind: "picture", scan }, metadata, width, height, warnings };
}

/** A DNG's own tags know black and white better than LibRaw tells for files without a mosaic. */
function linearLevels(
  { picture, metadata }: Extract<RawPicture, { kind: "linear" }>,
  main: TiffDirectory | undefined,
): { black: readonly number[]; white: number } {
  const isDng = metadata.dng_version > 0;
  const stated = isDng ? (main?.numbers(TAG.blackLevel) ?? []) : [metadata.color_data.black];
  const black = stated.length === picture.channels || stated.length === 1 ? stated : [Math.max(0, ...stated)];
  const white = (isDng && main?.number(TAG.whiteLevel)) || picture.maximum;
  return { black, white };
}

/** Compressions that no decoder here can undo, told from the header before anything is unpacked. */
function refuseUnsupported(file: string, main: TiffDirectory): void {
  const compression = main.number(TAG.compression) ?? 1;
  const refuse = (why: string) => {
    throw new ScanError("unsupported", file, why, REMEDY);
  };
  if ((main.number(TAG.cfaLayout) ?? RECTANGULAR) !== RECTANGULAR)
    refuse("has colour filters in staggered rows or columns, which cannot be decoded here");
  if (compression === COMPRESSION.jpegXl) refuse("is compressed with JPEG XL, which cannot be decoded here");
  if (compression === COMPRESSION.wavelet) refuse("is compressed with VC-5 wavelets, which cannot be decoded here");
  if (COMPRESSION.deflate.includes(compression))
    refuse("is compressed with deflate, which Rollbook decodes for floating-point samples only");
}

function explain(file: string, failure: RawFailure): ScanError {
  const libRawMessage = failure.lines.map((line) => line.replace(/^.*?: /, "")).join("; ");
  const detail = libRawMessage ? ` (${libRawMessage})` : "";
  switch (failure.reason) {
    case "too-large": {
      const { raw_width: width, raw_height: height } = failure.metadata!;
      return tooLarge(file, width, height);
    }
    case "unrecognised":
      return new ScanError("corrupt", file, `begins like a raw file but cannot be opened as one${detail}`, REMEDY);
    case "filters":
      return new ScanError(
        "unsupported",
        file,
        `has a colour filter arrangement that is not known here${detail}`,
        REMEDY,
      );
    case "damaged":
    case "undecodable": {
      if (/unexpected end/i.test(libRawMessage))
        return new ScanError("truncated", file, "ends too early", "Copy it from the camera's card again.");
      if (failure.reason === "damaged")
        return new ScanError("corrupt", file, `is damaged${detail}`, "Copy it from the camera's card again.");
      const highEfficiency = HIGH_EFFICIENCY.includes(failure.metadata?.nikon?.NEFCompression ?? 0);
      const kind = highEfficiency ? "a high-efficiency compression" : "a compression";
      return new ScanError(
        "unsupported",
        file,
        `uses ${kind} that cannot be decoded here, or is damaged${detail}`,
        REMEDY,
      );
    }
  }
}

function warningsFor(raw: RawPicture, main: TiffDirectory | undefined): ScanWarning[] {
  const warnings: ScanWarning[] = [];
  if (main?.number(TAG.compression) === COMPRESSION.lossyJpeg)
    warnings.push({
      code: "lossy",
      message: "This DNG is lossily compressed; fine tones of the negative are lost. Use lossless compression.",
    });
  if (raw.kind === "linear" && raw.metadata.dng_version === 0)
    warnings.push({
      code: "processed",
      message:
        "The camera has already combined or balanced the colours of this raw file; use its full-size lossless raw setting.",
    });
  return warnings;
}
