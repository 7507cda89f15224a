/**
 * A small writer of little-endian classic TIFF (TIFF 6.0, Adobe, 1992): directories, sub-directories and image
 * blocks. Test files are built with it; it knows nothing of what the tags mean.
 */

/** Field types of TIFF 6.0 §2, by their usual names. */
type FieldType = "byte" | "ascii" | "short" | "long" | "rational" | "undefined" | "srational" | "float" | "double";

/** A fraction is written as given; a plain number gets a denominator that keeps six decimals. */
export type FieldNumber = number | readonly [numerator: number, denominator: number];

export type Field = readonly [type: FieldType, value: string | Uint8Array | FieldNumber | readonly FieldNumber[]];

export interface Directory {
  readonly fields: ReadonlyMap<number, Field>;
  /** Strips or tiles, in order. Their offsets and lengths are filled in. */
  readonly image?: readonly Uint8Array[];
  readonly tiled?: boolean;
  /** Written as the EXIF directory (tag 34665). */
  readonly exif?: Directory;
  /** Written as sub-directories (tag 330). */
  readonly subDirectories?: readonly Directory[];
  /** The next directory of the chain. */
  readonly next?: Directory;
}

const TYPES: Record<FieldType, { code: number; size: number }> = {
  byte: { code: 1, size: 1 },
  ascii: { code: 2, size: 1 },
  short: { code: 3, size: 2 },
  long: { code: 4, size: 4 },
  rational: { code: 5, size: 8 },
  undefined: { code: 7, size: 1 },
  srational: { code: 10, size: 8 },
  float: { code: 11, size: 4 },
  double: { code: 12, size: 8 },
};

/**
 * One TIFF file with one chain of directories.
 * @param mark bytes behind the header, by which some makers tell their files apart
 */
export function buildTiff(root: Directory, mark: readonly number[] = []): Uint8Array {
  const file = new Blocks();
  const header = file.append(Uint8Array.from([0, 0, 0, 0, 0, 0, 0, 0, ...mark]));
  const at = writeDirectory(file, root);
  const bytes = file.join();
  bytes.set([0x49, 0x49, 42, 0], header);
  new DataView(bytes.buffer).setUint32(header + 4, at, true);
  return bytes;
}

/** Bytes laid down one after the other, each block at an even offset. */
class Blocks {
  readonly #blocks: Uint8Array[] = [];
  #length = 0;

  append(block: Uint8Array): number {
    const at = this.#length;
    this.#blocks.push(block);
    this.#length += block.length;
    if (this.#length % 2) {
      this.#blocks.push(new Uint8Array(1));
      this.#length++;
    }
    return at;
  }

  join(): Uint8Array<ArrayBuffer> {
    const all = new Uint8Array(this.#length);
    let at = 0;
    for (const block of this.#blocks) {
      all.set(block, at);
      at += block.length;
    }
    return all;
  }
}

function writeDirectory(file: Blocks, directory: Directory): number {
  const fields = new Map(directory.fields);
  if (directory.exif) fields.set(34665, ["long", writeDirectory(file, directory.exif)]);
  if (directory.subDirectories?.length)
    fields.set(330, ["long", directory.subDirectories.map((sub) => writeDirectory(file, sub))]);
  if (directory.image) {
    fields.set(directory.tiled ? 324 : 273, ["long", directory.image.map((block) => file.append(block))]);
    fields.set(directory.tiled ? 325 : 279, ["long", directory.image.map((block) => block.length)]);
  }

  const next = directory.next ? writeDirectory(file, directory.next) : 0;
  return file.append(tableOf(fields, next, (bytes) => file.append(bytes)));
}

/**
 * A directory alone, its longer values behind it, as maker notes have them.
 * @param at where it will stand, counted from where its offsets are
 */
export function noteTable(fields: ReadonlyMap<number, Field>, at: number): Uint8Array {
  const outside: number[] = [];
  const length = 2 + 12 * fields.size + 4;
  const table = tableOf(fields, 0, (bytes) => {
    outside.push(...bytes);
    return at + length + outside.length - bytes.length;
  });
  return Uint8Array.from([...table, ...outside]);
}

function tableOf(
  fields: ReadonlyMap<number, Field>,
  next: number,
  putOutside: (bytes: Uint8Array) => number,
): Uint8Array {
  const sorted = [...fields].sort(([a], [b]) => a - b);
  const table = new Uint8Array(2 + 12 * sorted.length + 4);
  const view = new DataView(table.buffer);
  view.setUint16(0, sorted.length, true);
  sorted.forEach(([tag, [type, value]], i) => {
    const bytes = encodeField(type, value);
    const entry = 2 + 12 * i;
    view.setUint16(entry, tag, true);
    view.setUint16(entry + 2, TYPES[type].code, true);
    view.setUint32(entry + 4, bytes.length / TYPES[type].size, true);
    if (bytes.length <= 4) table.set(bytes, entry + 8);
    else view.setUint32(entry + 8, putOutside(bytes), true);
  });
  view.setUint32(table.length - 4, next, true);
  return table;
}

function encodeField(type: FieldType, value: Field[1]): Uint8Array {
  if (typeof value === "string") return new TextEncoder().encode(`${value}\0`);
  if (value instanceof Uint8Array) return value;
  const numbers = typeof value === "number" || isFraction(type, value) ? [value] : value;
  const { size } = TYPES[type];
  const bytes = new Uint8Array(numbers.length * size);
  const view = new DataView(bytes.buffer);
  numbers.forEach((number, i) => encodeNumber(view, i * size, type, number as FieldNumber));
  return bytes;
}

/** A rational field's `[1, 125]` is one fraction; to write two whole numbers give `[[1, 1], [125, 1]]`. */
function isFraction(type: FieldType, value: FieldNumber | readonly FieldNumber[]): value is readonly [number, number] {
  if (type !== "rational" && type !== "srational") return false;
  return Array.isArray(value) && value.length === 2 && value.every((part) => Number.isInteger(part));
}

function encodeNumber(view: DataView, at: number, type: FieldType, value: FieldNumber): void {
  if (type === "rational" || type === "srational") {
    const [numerator, denominator] = typeof value === "number" ? fractionOf(value) : value;
    view.setInt32(at, numerator, true);
    view.setInt32(at + 4, denominator, true);
    return;
  }
  if (typeof value !== "number") throw new Error(`A fraction does not fit a TIFF field of type ${type}.`);
  if (type === "short") view.setUint16(at, value, true);
  else if (type === "long") view.setUint32(at, value, true);
  else if (type === "float") view.setFloat32(at, value, true);
  else if (type === "double") view.setFloat64(at, value, true);
  else view.setUint8(at, value);
}

function fractionOf(value: number): readonly [number, number] {
  return Number.isInteger(value) ? [value, 1] : [Math.round(value * 1e6), 1e6];
}
