/** TIFF and JPEG scans through sharp, made linear. */
import { SPACES } from "../../engine/colour/spaces.ts";
import type { LinearScan } from "../../engine/types.ts";
import { checkVariation } from "./check-samples.ts";
import { loadCodec, type PictureOptions } from "../codec.ts";
import { ScanError, type ScanWarning, tooLarge } from "../errors.ts";
import { mainDirectory, type Recognised } from "../recognise.ts";
import type { ByteSource } from "../files/source.ts";
import { checkImage, checkSampleFormat } from "../tiff/check-image.ts";
import type { TiffFile } from "../tiff/read.ts";
import { TAG } from "../tiff/tags.ts";
import { linearTransfer, profileTransfer, type Transfer } from "./transfer.ts";
import { clamp } from "../../engine/math/clamp.ts";

export interface DecodedPicture {
  readonly scan: LinearScan;
  readonly bits: number;
  /** Whether the numbers were encoded, or stand in the space of a profile. */
  readonly display: boolean;
  readonly warnings: readonly ScanWarning[];
}

const MAX = 65535;
const REMEDY = "Save it again as a 16-bit RGB or grey TIFF.";

/** @throws ScanError for TIFF files whose numbers are not 8- or 16-bit grey or RGB, or whose directory is not right */
export function checkTiff(file: string, tiff: TiffFile, source: ByteSource): void {
  const main = mainDirectory(tiff);
  if (!main?.number(TAG.width)) throw new ScanError("corrupt", file, "holds no picture", "Make the scan again.");
  checkSampleFormat(file, main);
  const bits = main.number(TAG.bitsPerSample) ?? 1;
  if (bits !== 8 && bits !== 16) throw new ScanError("unsupported", file, `holds ${bits}-bit numbers`, REMEDY);
  if ((main.number(TAG.photometric) ?? 2) > 2)
    throw new ScanError("unsupported", file, "is neither grey nor RGB (it may be CMYK, Lab or have a palette)", REMEDY);
  checkImage(file, main, source);
}

/**
 * Linear numbers of a TIFF or JPEG file: white is 65535, black 0. A 16-bit TIFF without a profile is taken as linear;
 * anything else is decoded through its profile's curve, or sRGB's.
 */
export async function decodePicture(
  file: string,
  bytes: Uint8Array,
  { kind, tiff }: Recognised,
  maxPixels: number,
): Promise<DecodedPicture> {
  const openPicture = await loadCodec();
  const place = placeOf(file, tiff);
  try {
    const meta = await openPicture(bytes, place).metadata();
    if (meta.width * meta.height > maxPixels) throw tooLarge(file, meta.width, meta.height);
    if (meta.space === "cmyk") throw new ScanError("unsupported", file, "is neither grey nor RGB but CMYK", REMEDY);
    const deep = meta.depth === "ushort";
    const grey = meta.channels < 3;
    const profile = meta.icc ? profileTransfer(meta.icc) : undefined;
    const transfer = profile ?? repeat(deep ? linearTransfer : SPACES.srgb.decode);
    // Numbers as stored: no profile is applied and no orientation.
    const raw = await openPicture(bytes, { ...place, ignoreIcc: true })
      .toColourspace(grey ? (deep ? "grey16" : "b-w") : deep ? "rgb16" : "srgb")
      .removeAlpha()
      .raw({ depth: deep ? "ushort" : "uchar" })
      .toBuffer({ resolveWithObject: true });
    const channels = raw.info.channels === 1 ? 1 : 3;
    const stored = deep ? new Uint16Array(raw.data.buffer, raw.data.byteOffset, raw.data.length / 2) : raw.data;
    const row = raw.info.width * channels;
    const flat = checkVariation(file, {
      width: row,
      height: raw.info.height,
      stride: row,
      start: 0,
      data: stored,
      period: [channels, 1],
    });
    const data = linearise(stored, channels, deep ? MAX : 255, transfer);
    const scan = { width: raw.info.width, height: raw.info.height, channels, data, black: 0, scale: 1 / MAX } as const;
    const display = !isLinear(transfer) || (meta.icc !== undefined && !grey);
    return { scan, bits: deep ? 16 : 8, display, warnings: [...warningsFor(kind, deep, transfer), ...flat] };
  } catch (error) {
    if (error instanceof ScanError) throw error;
    const reason = error instanceof Error ? error.message.split("\n")[0] : String(error);
    throw new ScanError("corrupt", file, `cannot be decoded (${reason})`, "Copy it again, or make the scan again.");
  }
}

/** Which of a file's pictures is decoded: the one whose metadata are read. */
function placeOf(file: string, tiff: TiffFile | undefined): PictureOptions {
  const main = tiff && mainDirectory(tiff);
  if (!main) return {};
  const { place } = main;
  if (!place)
    throw new ScanError(
      "unsupported",
      file,
      "stores its largest picture in a part of the file that cannot be read here",
      REMEDY,
    );
  return { page: place.page, ...(place.sub === undefined ? {} : { tiff: { subifd: place.sub } }) };
}

function repeat(transfer: Transfer): readonly [Transfer, Transfer, Transfer] {
  return [transfer, transfer, transfer];
}

/** In place where numbers are 16-bit already. */
function linearise(
  stored: Uint8Array | Uint16Array,
  channels: 1 | 3,
  white: number,
  transfer: readonly [Transfer, Transfer, Transfer],
): Uint16Array {
  if (stored instanceof Uint16Array && isLinear(transfer)) return stored;
  const data = stored instanceof Uint16Array ? stored : new Uint16Array(stored.length);
  for (let channel = 0; channel < channels; channel++) {
    const table = Uint16Array.from({ length: white + 1 }, (_, v) =>
      Math.round(MAX * clamp(transfer[channel](v / white), 0, 1)),
    );
    for (let i = channel; i < stored.length; i += channels) data[i] = table[stored[i]];
  }
  return data;
}

function isLinear(transfer: readonly Transfer[]): boolean {
  return transfer.every((decode) => [0.25, 0.5, 0.75].every((v) => Math.abs(decode(v) - v) < 1e-4));
}

function warningsFor(kind: Recognised["kind"], deep: boolean, transfer: readonly Transfer[]): ScanWarning[] {
  if (kind === "jpeg") {
    const message =
      "A JPEG has lost the light's true proportions and most of the shades; colours will be rough. Scan as raw or 16-bit TIFF.";
    return [{ code: "jpeg", message }];
  }
  const warnings: ScanWarning[] = [];
  if (!deep)
    warnings.push({
      code: "eight-bit",
      message: "An 8-bit TIFF has too few shades for a negative; expect banding. Save it with 16 bits.",
    });
  if (deep && !isLinear(transfer))
    warnings.push({
      code: "encoded",
      message:
        "This TIFF is encoded for display; it was made linear through its profile's curve. Save scans linear where you can.",
    });
  return warnings;
}
