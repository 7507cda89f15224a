/**
 * Writers of makers' own raw files with uncompressed samples: NEF, ARW, ORF and PEF. The layouts are TIFF 6.0 with a
 * maker note (EXIF 2.32, tag 37500) whose tables are described in public lists of EXIF tags; which of them a decoder needs
 * was found by leaving each one out. Models are invented; the makers' names are what decoders tell the formats by.
 */
import { packRows, RGGB } from "./dng.ts";
import { buildTiff, type Directory, type Field, noteTable } from "./tiff.ts";

export interface MakerFile {
  readonly width: number;
  readonly height: number;
  /** `width * height` samples under RGGB filters. */
  readonly data: Uint16Array;
  /** Black level of red, green in red's rows, green in blue's rows, blue. */
  readonly black: readonly [number, number, number, number];
  /** Seconds. */
  readonly shutter?: readonly [number, number];
}

const TAG = { make: 271, model: 272, orientation: 274, shutter: 33434, note: 37500 };
const short = (...values: number[]): Field => ["short", values];
const long = (value: number): Field => ["long", value];
const text = (value: string): number[] => Array.from(value, (character) => character.charCodeAt(0));

/**
 * Nikon: a small first directory, the samples in a sub-directory, black levels in the note. 14 bits stand in 16, 12 bits
 * are packed; the note's levels are those of 14 bits for both.
 */
export function writeNef(file: MakerFile, bits: 12 | 14): Uint8Array {
  const scale = 2 ** (14 - bits);
  const black = short(...file.black.map((level) => level * scale));
  const tiff = [0x49, 0x49, 42, 0, 8, 0, 0, 0];
  const note = [...text("Nikon\0"), 2, 0x11, 0, 0, ...tiff, ...noteTable(new Map([[0x3d, black]]), 8)];
  return buildTiff({
    fields: nameFields("NIKON CORPORATION", "NIKON TEST"),
    subDirectories: [samples(file, bits)],
    exif: exifOf(file, note),
  });
}

/** Sony: the samples in a sub-directory, 14 bits in 16, with black levels beside them. */
export function writeArw(file: MakerFile): Uint8Array {
  const { fields, ...rest } = samples(file, 14);
  const withBlack = new Map([...fields, [0x7310, short(...file.black)] as const]);
  return buildTiff({
    fields: nameFields("SONY", "TEST-1"),
    subDirectories: [{ ...rest, fields: withBlack }],
    exif: exifOf(file),
  });
}

/** Olympus: "IIRO", 12 bits packed in groups of four bytes whose last comes first; black levels in the note's 0x2040. */
export function writeOrf(file: MakerFile): Uint8Array {
  const head = [...text("OLYMPUS\0II"), 3, 0];
  const length = noteTable(new Map([[0x2040, long(0)]]), 0).length;
  const outer = noteTable(new Map([[0x2040, long(head.length + length)]]), head.length);
  const inner = noteTable(new Map([[0x600, short(...file.black)]]), head.length + length);
  const { fields, image } = samples(file, 12);
  const bytes = buildTiff({
    fields: new Map([...nameFields("OLYMPUS CORPORATION", "TEST-2"), ...fields]),
    image: image?.map(swapFours),
    exif: exifOf(file, [...head, ...outer, ...inner]),
  });
  bytes.set(text("IIRO"));
  return bytes;
}

/** Pentax: the samples in the first directory, 12 bits packed; black levels in the note. */
export function writePef(file: MakerFile): Uint8Array {
  const head = text("PENTAX \0II");
  const note = [...head, ...noteTable(new Map([[0x200, short(...file.black)]]), head.length)];
  const { fields, image } = samples(file, 12);
  return buildTiff({
    fields: new Map([...nameFields("PENTAX Corporation", "PENTAX TEST"), ...fields]),
    image,
    exif: exifOf(file, note),
  });
}

function nameFields(make: string, model: string): Map<number, Field> {
  return new Map<number, Field>([
    [TAG.make, ["ascii", make]],
    [TAG.model, ["ascii", model]],
    [TAG.orientation, short(1)],
  ]);
}

function exifOf({ shutter = [1, 60] }: MakerFile, note?: readonly number[]): Directory {
  const fields = new Map<number, Field>([[TAG.shutter, ["rational", shutter]]]);
  if (note) fields.set(TAG.note, ["undefined", Uint8Array.from(note)]);
  return { fields };
}

/** A mosaic of one strip: 12 bits packed, 14 in 16. */
function samples({ width, height, data }: MakerFile, bits: 12 | 14): Directory {
  const fields = new Map<number, Field>([
    [254, long(0)],
    [256, long(width)],
    [257, long(height)],
    [258, short(bits)],
    [259, short(1)],
    [262, short(32803)],
    [277, short(1)],
    [278, long(height)],
    [284, short(1)],
    [33421, short(2, 2)],
    [33422, ["byte", [...RGGB.colours]]],
  ]);
  return { fields, image: [packRows({ width, height, data, bits: bits === 14 ? 16 : bits }, 1)] };
}

function swapFours(packed: Uint8Array): Uint8Array {
  return packed.map((_, i) => packed[(i & ~3) + 3 - (i & 3)]);
}
