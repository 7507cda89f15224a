/** Finished pictures to files' bytes: same picture and metadata, same bytes. */
import type { OutputSpace } from "../../engine/types.ts";
import { loadCodec, type Sharp } from "../codec.ts";
import { iccProfile } from "./icc.ts";
import { exifFields, exifForSharp } from "./exif.ts";
import type { PictureMetadata } from "./metadata.ts";
import { tiffPicture, type TiffRaster } from "../tiff/picture.ts";
import { xmpPacket } from "./xmp.ts";

export type { PictureMetadata } from "./metadata.ts";

export interface EncodeSpec {
  readonly type: "tiff" | "jpeg" | "png" | "webp" | "avif";
  /** 16 only for tiff and png. */
  readonly depth: 8 | 16;
  /** Space that the samples are in already: they are tagged with its profile, not converted. */
  readonly space: OutputSpace;
  /** 1 … 100 for jpeg, webp and avif (default 90). */
  readonly quality?: number;
  /** For tiff (default deflate). */
  readonly compression?: "none" | "deflate";
  /** Of a sheet to print. */
  readonly sheet?: {
    /** Pixels per inch. */
    readonly resolution: number;
    /** Profile that the samples are in already, in place of the space's. */
    readonly profile?: Uint8Array;
  };
}

/** File types that can say that a picture is grey. The others hold it as colour and need a colour profile. */
const GREY_TYPES: ReadonlySet<EncodeSpec["type"]> = new Set(["tiff", "jpeg", "png"]);
const DEFAULT_QUALITY = 90;
/** Pixels up to which a JPEG's codes are fitted to it: some percent smaller, but all of it is kept in memory twice. */
const MAX_OPTIMISED = 10_000_000;
const AVIF_EFFORT = 3;
const PNG_LEVEL = 6;

/**
 * Encodes a picture with its profile, EXIF and XMP. 16-bit samples are kept exactly, or rounded to 8 bits where the
 * spec asks for 8.
 * @throws RangeError for a depth or channels that the file type does not have, and for 8-bit samples that should fill 16
 */
export async function encodePicture(
  picture: TiffRaster,
  spec: EncodeSpec,
  metadata: PictureMetadata,
): Promise<Uint8Array> {
  if (spec.depth === 16 && spec.type !== "tiff" && spec.type !== "png")
    throw new RangeError(`A ${spec.type} file has 8 bits per channel; ask for tiff or png to keep 16.`);
  const raster = GREY_TYPES.has(spec.type) ? picture : inColour(picture);
  const profile = profileOf(raster, spec);
  const fields = exifFields(metadata, spec.sheet?.profile ? undefined : spec.space);
  const xmp = xmpPacket(metadata);
  const { type, depth, compression = "deflate", sheet } = spec;
  const resolution = sheet?.resolution;
  if (type === "tiff") return tiffPicture(raster, { compression, depth }, { profile, xmp, resolution, ...fields });

  // sharp converts what it tags by name; a profile that comes in with the picture it keeps as it is.
  const carrier = tiffPicture(raster, { compression: "none", depth }, { profile });
  const openPicture = await loadCodec();
  const input = openPicture(carrier);
  if (raster.channels === 4) input.pipelineColourspace("cmyk");
  const pipeline = input
    .toColourspace(workingSpace(raster.channels, depth))
    .keepIccProfile()
    .withExif(exifForSharp(fields))
    .withXmp(xmp);
  if (resolution !== undefined) pipeline.withDensity(resolution);
  const optimised = raster.width * raster.height <= MAX_OPTIMISED;
  return encoder(pipeline, spec, optimised).toBuffer();
}

/** @throws RangeError for four inks without their profile, or in a file type that has no inks */
function profileOf({ channels }: TiffRaster, { type, space, sheet }: EncodeSpec): Uint8Array {
  if (sheet?.profile && (channels !== 4 || type === "tiff" || type === "jpeg")) return sheet.profile;
  if (channels === 4) throw new RangeError("Four inks need their profile, and a tiff or jpeg file.");
  return iccProfile(space, channels);
}

function workingSpace(channels: 1 | 3 | 4, depth: 8 | 16): string {
  if (channels === 4) return "cmyk";
  if (channels === 1) return depth === 16 ? "grey16" : "b-w";
  return depth === 16 ? "rgb16" : "srgb";
}

function encoder(pipeline: Sharp, { type, quality = DEFAULT_QUALITY }: EncodeSpec, optimised: boolean): Sharp {
  switch (type) {
    case "jpeg":
      return pipeline.jpeg({
        quality,
        chromaSubsampling: quality >= 80 ? "4:4:4" : "4:2:0",
        optimiseCoding: optimised,
      });
    case "png":
      return pipeline.png({ compressionLevel: PNG_LEVEL });
    case "webp":
      return pipeline.webp({ quality });
    case "avif":
      return pipeline.avif({ quality, effort: AVIF_EFFORT, chromaSubsampling: "4:4:4" });
    case "tiff":
      return pipeline.tiff();
  }
}

function inColour(raster: TiffRaster): TiffRaster {
  const { width, height, channels, data } = raster;
  if (channels !== 1) return raster;
  const out = data instanceof Uint8Array ? new Uint8Array(3 * data.length) : new Uint16Array(3 * data.length);
  for (let i = 0; i < out.length; i++) out[i] = data[Math.floor(i / 3)];
  return { width, height, channels: 3, data: out };
}
