/** Reads TIFF and BigTIFF directories. */
import type { ByteSource } from "../files/source.ts";
import { TAG } from "./tags.ts";

/** Bytes of one value of each TIFF field type; the index is the type's code (TIFF 6.0 §2, BigTIFF 16 … 18). */
const TYPE_SIZE = [0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4, 0, 0, 8, 8, 8];
const MAX_DIRECTORIES = 64;
const MAX_FIELDS = 4096;
const MAX_VALUES = 1 << 20;

/** Where a directory stands in its file: in the main chain, or among the sub-directories of one there; from 0. */
export interface DirectoryPlace {
  readonly page: number;
  readonly sub?: number;
}

/** One image file directory. */
export interface TiffDirectory {
  /** Absent for the EXIF directory, and for sub-directories of sub-directories. */
  readonly place?: DirectoryPlace;
  has(tag: number): boolean;
  /** All numbers of a field; fractions as quotients. Empty where the field is absent or cut off. */
  numbers(tag: number): readonly number[];
  /** First number of a field. */
  number(tag: number): number | undefined;
  /** Text up to its first zero byte. */
  text(tag: number): string | undefined;
  /** The field's bytes as stored. */
  bytes(tag: number): Uint8Array | undefined;
}

export interface TiffFile {
  /** Main chain and sub-directories, in the order found; the first is the root. */
  readonly directories: readonly TiffDirectory[];
  readonly exif?: TiffDirectory;
  /** True where a directory or a field lies beyond the end of the source. */
  readonly cut: boolean;
}

interface Layout {
  readonly little: boolean;
  /** BigTIFF: 64-bit offsets. */
  readonly wide: boolean;
}

interface FieldEntry {
  readonly type: number;
  readonly count: number;
  readonly bytes: Uint8Array;
}

/**
 * Reads the directories of a TIFF file or EXIF block; never throws on damaged ones.
 * @returns undefined where the source does not begin like a TIFF file. Raw files with own version numbers in
 * place of 42 count as TIFF.
 */
export function readTiff(source: ByteSource): TiffFile | undefined {
  const head = source.read(0, 16);
  if (head.length < 8) return undefined;
  const order = String.fromCharCode(head[0], head[1]);
  if (order !== "II" && order !== "MM") return undefined;
  const little = order === "II";
  const view = viewOf(head);
  const wide = view.getUint16(2, little) === 43;
  if (wide && head.length < 16) return undefined;
  const first = wide ? Number(view.getBigUint64(8, little)) : view.getUint32(4, little);
  return new DirectoryWalk(source, { little, wide }).from(first);
}

class DirectoryWalk {
  readonly #source: ByteSource;
  readonly #layout: Layout;
  readonly #seen = new Set<number>();
  readonly #directories: TiffDirectory[] = [];
  #cut = false;

  constructor(source: ByteSource, layout: Layout) {
    this.#source = source;
    this.#layout = layout;
  }

  from(first: number): TiffFile {
    this.#followChain(first);
    const exifAt = this.#directories.map((d) => d.number(TAG.exifDirectory)).find((at) => at !== undefined);
    const exif = exifAt === undefined ? undefined : this.#readDirectory(exifAt)?.directory;
    return { directories: this.#directories, exif, cut: this.#cut };
  }

  #followChain(first: number): void {
    let page = 0;
    for (let at = first; at !== 0; page++) {
      const read = this.#readDirectory(at, { page });
      if (!read) return;
      this.#directories.push(read.directory);
      this.#followSubs(read.directory);
      at = read.next;
    }
  }

  #followSubs(directory: TiffDirectory): void {
    const { place } = directory;
    directory.numbers(TAG.subDirectories).forEach((first, sub) => {
      let at = first;
      for (let here = place && place.sub === undefined ? { ...place, sub } : undefined; at !== 0; here = undefined) {
        const read = this.#readDirectory(at, here);
        if (!read) return;
        this.#directories.push(read.directory);
        this.#followSubs(read.directory);
        at = read.next;
      }
    });
  }

  #readDirectory(at: number, place?: DirectoryPlace): { directory: TiffDirectory; next: number } | undefined {
    if (this.#seen.has(at) || this.#seen.size >= MAX_DIRECTORIES) return undefined;
    this.#seen.add(at);
    const { little, wide } = this.#layout;
    const countBytes = wide ? 8 : 2;
    const entryBytes = wide ? 20 : 12;
    const head = this.#source.read(at, countBytes);
    if (head.length < countBytes) return this.#cutOff();
    const count = wide ? Number(viewOf(head).getBigUint64(0, little)) : viewOf(head).getUint16(0, little);
    if (count > MAX_FIELDS) return this.#cutOff();
    const table = this.#source.read(at + countBytes, count * entryBytes + (wide ? 8 : 4));
    if (table.length < count * entryBytes) return this.#cutOff();

    const fields = new Map<number, FieldEntry>();
    for (let i = 0; i < count; i++) {
      const tag = viewOf(table).getUint16(i * entryBytes, little);
      fields.set(tag, this.#readField(table.subarray(i * entryBytes, (i + 1) * entryBytes)));
    }
    const end = table.subarray(count * entryBytes);
    const next = end.length < (wide ? 8 : 4) ? 0 : this.#offset(end, 0);
    return { directory: directoryOf(fields, little, place), next };
  }

  #readField(entry: Uint8Array): FieldEntry {
    const { little, wide } = this.#layout;
    const view = viewOf(entry);
    const type = view.getUint16(2, little);
    const count = wide ? Number(view.getBigUint64(4, little)) : view.getUint32(4, little);
    const wanted = (TYPE_SIZE[type] ?? 0) * Math.min(count, MAX_VALUES);
    const value = entry.subarray(wide ? 12 : 8);
    if (wanted <= value.length) return { type, count, bytes: value.subarray(0, wanted) };
    const bytes = this.#source.read(this.#offset(value, 0), wanted);
    if (bytes.length < wanted) this.#cut = true;
    return { type, count, bytes };
  }

  #offset(bytes: Uint8Array, at: number): number {
    const { little, wide } = this.#layout;
    return wide ? Number(viewOf(bytes).getBigUint64(at, little)) : viewOf(bytes).getUint32(at, little);
  }

  #cutOff(): undefined {
    this.#cut = true;
    return undefined;
  }
}

function directoryOf(
  fields: ReadonlyMap<number, FieldEntry>,
  little: boolean,
  place: DirectoryPlace | undefined,
): TiffDirectory {
  const numbers = (tag: number): number[] => {
    const field = fields.get(tag);
    return field ? numbersOf(field, little) : [];
  };
  return {
    place,
    has: (tag) => fields.has(tag),
    numbers,
    number: (tag) => numbers(tag)[0],
    bytes: (tag) => fields.get(tag)?.bytes,
    text(tag) {
      const field = fields.get(tag);
      if (!field || (field.type !== 2 && field.type !== 7 && field.type !== 1)) return undefined;
      const end = field.bytes.indexOf(0);
      return new TextDecoder().decode(end < 0 ? field.bytes : field.bytes.subarray(0, end));
    },
  };
}

function numbersOf({ type, bytes }: FieldEntry, little: boolean): number[] {
  const size = TYPE_SIZE[type] ?? 0;
  if (size === 0) return [];
  const view = viewOf(bytes);
  return Array.from({ length: Math.floor(bytes.length / size) }, (_, i) => numberAt(view, i * size, type, little));
}

function numberAt(view: DataView, at: number, type: number, little: boolean): number {
  switch (type) {
    case 3:
      return view.getUint16(at, little);
    case 4:
    case 13:
      return view.getUint32(at, little);
    case 5:
      return view.getUint32(at, little) / view.getUint32(at + 4, little);
    case 6:
      return view.getInt8(at);
    case 8:
      return view.getInt16(at, little);
    case 9:
      return view.getInt32(at, little);
    case 10:
      return view.getInt32(at, little) / view.getInt32(at + 4, little);
    case 11:
      return view.getFloat32(at, little);
    case 12:
      return view.getFloat64(at, little);
    case 16:
    case 17:
    case 18:
      return Number(view.getBigUint64(at, little));
    default:
      return view.getUint8(at);
  }
}

function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}
