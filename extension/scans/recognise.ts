/** Tells what a scan is by its content; its name only serves in messages. */
import { ScanError } from "./errors.ts";
import { MAX_POINTER, pointerIn } from "../recipe/resolve/pointer.ts";
import { notFetched } from "./files/pointer.ts";
import type { ByteSource } from "./files/source.ts";
import { readTiff, type TiffDirectory, type TiffFile } from "./tiff/read.ts";
import { PHOTOMETRIC, TAG } from "./tiff/tags.ts";
import { boxesEnd, rafDataEnd, tiffDataEnd } from "./truncation.ts";

export interface Recognised {
  readonly kind: "raw" | "tiff" | "jpeg";
  /** Directories of TIFF-like files, plain or raw. */
  readonly tiff?: TiffFile;
  /** RAF containers keep their EXIF in a JPEG that begins here; a JPEG's own begins at 0. */
  readonly exifJpegAt?: number;
  /** Where the file's data should end. */
  readonly dataEnd: number;
}

const FORMATS = "Scans are camera raw files, DNG, TIFF or JPEG.";
/** Pictures of other kinds, and what is often mistaken for one: first bytes, and a name for people. */
const OTHERS: readonly (readonly [signature: string, name: string])[] = [
  ["\x89PNG", "a PNG picture"],
  ["GIF8", "a GIF picture"],
  ["RIFF", "a WebP picture or a sound"],
  ["BM", "a BMP picture"],
  ["%PDF", "a PDF document"],
  ["PK\x03\x04", "a zip archive"],
  ["\xff\x0a", "a JPEG XL picture"],
  ["\0\0\0\x0cJXL ", "a JPEG XL picture"],
  ["\0\0\0\x0cjP  ", "a JPEG 2000 picture"],
];
/** Raw compressions of TIFF-like files that are neither DNG nor marked by a filter array. */
const RAW_COMPRESSIONS = new Set([32767, 32769, 32770, 34713, 65000, 65535]);

/**
 * @param file named in messages
 * @throws ScanError where the content is not a scan's, or its end is missing
 */
export function recognise(file: string, source: ByteSource): Recognised {
  const found = identify(file, source);
  if (found.dataEnd > source.size) throw truncated(file, found.dataEnd, source.size);
  return found;
}

function truncated(file: string, end: number, size: number): ScanError {
  const detail = Number.isFinite(end)
    ? `its data goes on to byte ${end}, but the file has ${size}`
    : "its index is cut off";
  return new ScanError("truncated", file, `ends too early: ${detail}`, "Copy it from the camera's card again.");
}

function identify(file: string, source: ByteSource): Recognised {
  const head = source.read(0, 32);
  const text = String.fromCharCode(...head);
  if (text.startsWith("\xff\xd8\xff")) return { kind: "jpeg", exifJpegAt: 0, dataEnd: jpegEnd(source) };
  if (text.startsWith("FUJIFILM")) return { kind: "raw", exifJpegAt: rafJpegAt(source), dataEnd: rafDataEnd(source) };
  if (text.startsWith("ftypcrx ", 4)) return { kind: "raw", dataEnd: boxesEnd(source) };
  if (text.startsWith("HEAPCCDR", 6) || text.startsWith("\0MRM") || text.startsWith("FOVb"))
    return { kind: "raw", dataEnd: 0 };
  const tiff = readTiff(source);
  if (tiff) return { kind: isRaw(tiff, text) ? "raw" : "tiff", tiff, dataEnd: tiffDataEnd(tiff) };
  const pointer = pointerIn(source.read(0, MAX_POINTER), source.size);
  if (pointer) throw notFetched(file, pointer);
  throw new ScanError("unrecognised", file, `is ${nameOf(head, text)}, not a scan`, FORMATS);
}

function nameOf(head: Uint8Array, text: string): string {
  if (text.startsWith("ftyp", 4)) return "an HEIF or AVIF picture or a film";
  const other = OTHERS.find(([signature]) => text.startsWith(signature));
  if (other) return other[1];
  return head.every((byte) => (byte >= 32 && byte < 127) || byte === 9 || byte === 10 || byte === 13)
    ? "a text"
    : "of an unknown kind";
}

/** A JPEG that lacks its end marker has lost its lower part. Some cameras pad the file behind it. */
function jpegEnd(source: ByteSource): number {
  const tail = source.read(Math.max(0, source.size - 65536), 65536);
  for (let i = tail.length - 2; i >= 0; i--) if (tail[i] === 0xff && tail[i + 1] === 0xd9) return source.size;
  return Infinity;
}

function rafJpegAt(source: ByteSource): number | undefined {
  const entry = source.read(84, 4);
  return entry.length === 4 ? new DataView(entry.buffer, entry.byteOffset).getUint32(0) : undefined;
}

function isRaw(tiff: TiffFile, text: string): boolean {
  const version = text.charCodeAt(2) | (text.charCodeAt(3) << 8);
  const standard = [42, 42 << 8, 43, 43 << 8].includes(version);
  if (!standard || text.startsWith("CR", 8)) return true;
  return tiff.directories.some((directory) => {
    const photometric = directory.number(TAG.photometric);
    return (
      directory.has(TAG.dngVersion) ||
      photometric === PHOTOMETRIC.filterArray ||
      photometric === PHOTOMETRIC.linearRaw ||
      RAW_COMPRESSIONS.has(directory.number(TAG.compression) ?? 1)
    );
  });
}

/** The directory of the main picture: the raw one of a raw file, else the largest that is no reduced copy or mask. */
export function mainDirectory(tiff: TiffFile): TiffDirectory | undefined {
  const area = (d: TiffDirectory) => (d.number(TAG.width) ?? 0) * (d.number(TAG.height) ?? 0);
  const photometric = (d: TiffDirectory) => d.number(TAG.photometric) ?? -1;
  const raw = tiff.directories.filter((d) => photometric(d) >= PHOTOMETRIC.filterArray);
  const among = raw.length ? raw : tiff.directories;
  const full = among.filter((d) => !isSecondary(d));
  return [...(full.length ? full : among)].sort((a, b) => area(b) - area(a))[0];
}

/** TIFF 6.0: NewSubfileType has a bit for a reduced copy and one for a mask; the older SubfileType is 2 for a copy. */
const SECONDARY_BITS = 1 | 4;
const REDUCED = 2;

function isSecondary(directory: TiffDirectory): boolean {
  const isOld = directory.number(TAG.oldSubfileType) === REDUCED;
  return isOld || ((directory.number(TAG.subfileType) ?? 0) & SECONDARY_BITS) !== 0;
}
