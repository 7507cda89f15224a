/**
 * A writer of the RAF container with uncompressed X-Trans samples. The layout was found by reading files byte by
 * byte; only what a decoder needs is written.
 */
import { XTRANS } from "./dng.ts";
import { buildTiff, type Field } from "./tiff.ts";

export interface RafOptions {
  readonly width: number;
  readonly height: number;
  /** `width * height` samples, filtered as `XTRANS`. */
  readonly data: Uint16Array;
  /** Black level of every site. */
  readonly black: number;
  /** Bits of a sample (default 14). */
  readonly bits?: number;
  readonly model?: string;
  /** Camera JPEG that carries the EXIF; default a bare JPEG header with an EXIF block. */
  readonly exif?: { readonly shutter?: readonly [number, number]; readonly aperture?: number; readonly iso?: number };
}

const HEADER_LENGTH = 160;
/** Offsets, in the header, of the (offset, length) pairs of its three parts. */
const PART = { jpeg: 84, meta: 92, raw: 100 };

export function writeRaf(options: RafOptions): Uint8Array {
  const model = options.model ?? "X-TEST";
  const jpeg = cameraJpeg(model, options.exif ?? {});
  const meta = metaBlock(options.width, options.height);
  const raw = rawBlock(options);

  const jpegAt = HEADER_LENGTH;
  const metaAt = align16(jpegAt + jpeg.length);
  const rawAt = align16(metaAt + meta.length);
  const file = new Uint8Array(rawAt + raw.length);
  putText(file, 0, "FUJIFILMCCD-RAW 0201FF129502");
  putText(file, 28, model);
  putText(file, 60, "0110");
  const view = new DataView(file.buffer);
  const parts: [number, number, Uint8Array][] = [
    [PART.jpeg, jpegAt, jpeg],
    [PART.meta, metaAt, meta],
    [PART.raw, rawAt, raw],
  ];
  for (const [entry, at, bytes] of parts) {
    view.setUint32(entry, at);
    view.setUint32(entry + 4, bytes.length);
    file.set(bytes, at);
  }
  return file;
}

/** Big-endian list of the sensor's size, margins and filter arrangement (written last colour first). */
function metaBlock(width: number, height: number): Uint8Array {
  const size = shorts(height, width);
  const entries: [number, Uint8Array][] = [
    [0x100, size],
    [0x111, shorts(0, 0)],
    [0x121, size],
    [0x131, Uint8Array.from([...XTRANS.colours].reverse())],
  ];
  const length = entries.reduce((sum, [, bytes]) => sum + 4 + bytes.length, 4);
  const block = new Uint8Array(length);
  const view = new DataView(block.buffer);
  view.setUint32(0, entries.length);
  let at = 4;
  for (const [tag, bytes] of entries) {
    view.setUint16(at, tag);
    view.setUint16(at + 2, bytes.length);
    block.set(bytes, at + 4);
    at += 4 + bytes.length;
  }
  return block;
}

/** A TIFF whose root points at one directory (tag 0xF000) that describes the samples behind it. */
function rawBlock({ width, height, data, black, bits = 14 }: RafOptions): Uint8Array {
  const samples = new Uint8Array(data.buffer, data.byteOffset, data.byteLength);
  const fields: [tag: number, values: number[]][] = [
    [0xf001, [width]],
    [0xf002, [height]],
    [0xf003, [bits]],
    [0xf007, [0]], // offset of the samples, filled in below
    [0xf008, [samples.length]],
    [0xf00a, XTRANS.colours.map(() => black)],
    [0xf00e, [302, 500, 700]], // white balance: green, red, blue
  ];
  const tableAt = 26;
  const outsideAt = tableAt + 2 + 12 * fields.length + 4;
  const outsideLength = fields.reduce((sum, [, values]) => sum + (values.length > 1 ? 4 * values.length : 0), 0);
  const samplesAt = align16(outsideAt + outsideLength);

  const block = new Uint8Array(samplesAt + samples.length);
  const view = new DataView(block.buffer);
  const putEntry = (at: number, tag: number, count: number, value: number) => {
    view.setUint16(at, tag, true);
    view.setUint16(at + 2, 4, true);
    view.setUint32(at + 4, count, true);
    view.setUint32(at + 8, value, true);
  };
  block.set([0x49, 0x49, 42, 0, 8, 0, 0, 0, 1, 0]);
  putEntry(10, 0xf000, 1, tableAt);
  view.setUint16(tableAt, fields.length, true);
  let outside = outsideAt;
  fields.forEach(([tag, values], i) => {
    const at = tableAt + 2 + 12 * i;
    if (values.length === 1) putEntry(at, tag, 1, tag === 0xf007 ? samplesAt : values[0]);
    else {
      putEntry(at, tag, values.length, outside);
      for (const value of values) {
        view.setUint32(outside, value, true);
        outside += 4;
      }
    }
  });
  block.set(samples, samplesAt);
  return block;
}

/** A JPEG of one grey 8 × 8 block with an EXIF segment: the container keeps its EXIF there. */
function cameraJpeg(model: string, exif: NonNullable<RafOptions["exif"]>): Uint8Array {
  const shooting = new Map<number, Field>();
  if (exif.shutter) shooting.set(33434, ["rational", exif.shutter]);
  if (exif.aperture) shooting.set(33437, ["rational", exif.aperture]);
  if (exif.iso) shooting.set(34855, ["short", exif.iso]);
  const tiff = buildTiff({
    fields: new Map<number, Field>([
      [271, ["ascii", "FUJIFILM"]],
      [272, ["ascii", model]],
    ]),
    exif: { fields: shooting },
  });
  const segment = new Uint8Array(10 + tiff.length);
  segment.set([0xff, 0xe1]);
  new DataView(segment.buffer).setUint16(2, 8 + tiff.length);
  putText(segment, 4, "Exif\0\0");
  segment.set(tiff, 10);
  return Uint8Array.from([0xff, 0xd8, ...segment, ...GREY_BLOCK]);
}

/** Baseline JPEG after its SOI: flat quantisation, two one-code Huffman tables, 8 × 8 grey. */
// oxfmt-ignore
const GREY_BLOCK = [
  0xff, 0xdb, 0, 67, 0, ...Array.from({ length: 64 }, () => 16),
  0xff, 0xc0, 0, 11, 8, 0, 8, 0, 8, 1, 1, 0x11, 0,
  0xff, 0xc4, 0, 20, 0x00, 1, ...Array.from({ length: 15 }, () => 0), 0,
  0xff, 0xc4, 0, 20, 0x10, 1, ...Array.from({ length: 15 }, () => 0), 0,
  0xff, 0xda, 0, 8, 1, 1, 0, 0, 63, 0, 0x3f,
  0xff, 0xd9,
];

function shorts(...values: number[]): Uint8Array {
  const bytes = new Uint8Array(2 * values.length);
  const view = new DataView(bytes.buffer);
  values.forEach((value, i) => view.setUint16(2 * i, value));
  return bytes;
}

function putText(bytes: Uint8Array, at: number, text: string): void {
  bytes.set(new TextEncoder().encode(text), at);
}

function align16(n: number): number {
  return (n + 15) & ~15;
}
