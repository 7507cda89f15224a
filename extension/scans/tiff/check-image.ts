/**
 * Refuses TIFF and DNG pictures whose directory does not fit their data. Decoders read such files without an error, into
 * a wrong picture: too narrow, sheared, grey noise, or the file's header in place of its upper rows.
 */
import { ScanError } from "../errors.ts";
import type { ByteSource } from "../files/source.ts";
import { isJpeg, jpegFrame } from "./jpeg-frame.ts";
import type { TiffDirectory } from "./read.ts";
import { COMPRESSION, TAG } from "./tags.ts";

/** TIFF 6.0, SampleFormat: unsigned numbers, and "undefined", which writers use for them. */
const UNSIGNED = [1, 4];
const SAMPLE_FORMATS: Readonly<Record<number, string>> = {
  2: "signed numbers, whose zero is no black",
  3: "floating-point numbers, which have no fixed white",
};
/** Bytes by which a strip or tile may be longer than its samples: writers fill up to a disk block. */
const PADDING = 512;
/** The header of a TIFF file. Nothing that is stored begins within it. */
const HEADER = 8;
/** A JPEG tile may hold this many times the samples of its place: tiles at the edge are stored whole. */
const MAX_JPEG_EXCESS = 1.5;
const DAMAGED = "Copy it from the camera's card again, or write it again with another program.";

/** The equal parts in which a picture is stored. */
interface Blocks {
  readonly kind: "strip" | "tile";
  readonly offsets: readonly number[];
  readonly lengths: readonly number[];
  /** How many there must be. */
  readonly count: number;
  /** Pixels of a block, and samples of a pixel that lie in it. */
  readonly width: number;
  readonly rowsOf: (index: number) => number;
  readonly samples: number;
  readonly bits: number;
}

/**
 * @param image the main picture's directory
 * @throws ScanError "corrupt" where sizes, counts, places or lengths contradict each other
 */
export function checkImage(file: string, image: TiffDirectory, source: ByteSource): void {
  const blocks = blocksOf(image);
  const { kind, offsets, lengths, count } = blocks;
  const size = `${image.number(TAG.width)} × ${image.number(TAG.height)} pixels`;
  const refuse = (why: string): never => {
    throw new ScanError("corrupt", file, why, DAMAGED);
  };
  if (offsets.length !== count)
    refuse(`is damaged: ${size} need ${counted(count, kind)}, but it names ${offsets.length}`);
  if (offsets.some((offset) => offset < HEADER)) refuse(`is damaged: it does not say where one of its ${kind}s begins`);
  if (lengths.length === 0 && !image.has(kind === "tile" ? TAG.tileLengths : TAG.stripLengths)) return;
  if (lengths.length !== count)
    refuse(`is damaged: it names ${counted(count, kind)}, but ${counted(lengths.length, "length")}`);
  const compression = image.number(TAG.compression) ?? COMPRESSION.none;
  const fits =
    compression === COMPRESSION.none ? fitsPlain : COMPRESSION.jpeg.includes(compression) ? fitsJpeg : undefined;
  const wrong = fits ? offsets.findIndex((_, index) => !fits(blocks, index, source)) : -1;
  if (wrong >= 0) refuse(`is damaged: its ${kind} ${wrong + 1} of ${count} does not fit a picture of ${size}`);
}

/** @throws ScanError "unsupported" for signed and floating-point samples */
export function checkSampleFormat(file: string, image: TiffDirectory): void {
  const other = image.numbers(TAG.sampleFormat).find((format) => !UNSIGNED.includes(format));
  if (other === undefined) return;
  const name = SAMPLE_FORMATS[other] ?? "numbers of an unknown kind";
  throw new ScanError("unsupported", file, `holds ${name}`, "Write it again with unsigned 16-bit numbers.");
}

function blocksOf(image: TiffDirectory): Blocks {
  const number = (tag: number, otherwise: number): number => image.number(tag) ?? otherwise;
  const [width, height] = [number(TAG.width, 0), number(TAG.height, 0)];
  const samples = number(TAG.samplesPerPixel, 1);
  const planes = number(TAG.planarConfiguration, 1) === 2 ? samples : 1;
  const shared = { samples: samples / planes, bits: number(TAG.bitsPerSample, 1) };
  if (image.has(TAG.tileOffsets)) {
    const [across, down] = [number(TAG.tileWidth, 0), number(TAG.tileHeight, 0)];
    return {
      ...shared,
      kind: "tile",
      offsets: image.numbers(TAG.tileOffsets),
      lengths: image.numbers(TAG.tileLengths),
      count: Math.ceil(width / across) * Math.ceil(height / down) * planes,
      width: across,
      rowsOf: () => down,
    };
  }
  const rows = Math.min(height, number(TAG.rowsPerStrip, height));
  const strips = Math.ceil(height / rows);
  return {
    ...shared,
    kind: "strip",
    offsets: image.numbers(TAG.stripOffsets),
    lengths: image.numbers(TAG.stripLengths),
    count: strips * planes,
    width,
    rowsOf: (index) => Math.min(rows, height - (index % strips) * rows),
  };
}

/** Uncompressed: rows of whole bytes, and at most a row or a disk block more. */
function fitsPlain({ width, samples, bits, lengths, rowsOf }: Blocks, index: number): boolean {
  const row = Math.ceil((width * samples * bits) / 8);
  const excess = lengths[index] - row * rowsOf(index);
  return excess >= 0 && excess <= Math.max(PADDING, row);
}

/** JPEG in any arrangement of its components, as DNG allows; the number of samples decides. */
function fitsJpeg({ width, samples, offsets, rowsOf }: Blocks, index: number, source: ByteSource): boolean {
  if (!isJpeg(source, offsets[index])) return false;
  const frame = jpegFrame(source, offsets[index]);
  if (!frame) return false;
  const ratio = (frame.width * frame.height * frame.components) / (width * rowsOf(index) * samples);
  return ratio >= 1 && ratio <= MAX_JPEG_EXCESS;
}

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? "" : "s"}`;
}
