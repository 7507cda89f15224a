/**
 * Lossless JPEG (ITU-T T.81, process 14: Huffman codes, frame type SOF3) as raw files carry it: one or two components,
 * each predicted from the sample before it. A quick way for what is whole and usual; everything else is refused, and
 * left to the decoder that knows all of it.
 */

/** Where a picture's samples go. */
export interface SampleBlock {
  readonly data: Uint16Array;
  /** Index of the first sample, samples from one row to the next, and how many of a row and how many rows are kept. */
  readonly at: number;
  readonly stride: number;
  readonly columns: number;
  readonly rows: number;
}

/** Size of a stream: samples of a row (its components side by side) and rows. */
export interface BlockSize {
  readonly width: number;
  readonly height: number;
}

const PREFIX = 0xff;
const MARKER = { start: 0xd8, huffman: 0xc4, losslessFrame: 0xc3, scan: 0xda, restartInterval: 0xdd } as const;
/** The predictor that is the sample before, of the same component. */
const BEFORE = 1;
/** Bits that are looked up at once; longer codes are taken bit by bit. */
const PEEK = 13;
const LONGEST_CODE = 16;
/** Categories of differences: their number of bits. */
const CATEGORIES = 16;

/** Entries of a table: a whole difference with its bits, a category with the bits of its code alone, or nothing. */
const KIND = { none: 0, difference: 1, category: 2 } as const;
/** An entry is kind, then bits, then value. */
const KIND_BITS = 2;
const LENGTH_BITS = 5;
const KIND_MASK = (1 << KIND_BITS) - 1;
const LENGTH_MASK = (1 << LENGTH_BITS) - 1;
/** Bytes that are read at once, of which at least 25 bits are new: more than a code, or a difference, has. */
const BYTES_PEEKED = 4;
const entryOf = (kind: number, length: number, value: number): number =>
  (value << (KIND_BITS + LENGTH_BITS)) | (length << KIND_BITS) | kind;

interface HuffmanTable {
  /** By the next `PEEK` bits. */
  readonly entries: Int32Array;
  /** By length of the code: the lowest code, how many there are, and where their categories begin. */
  readonly first: readonly number[];
  readonly count: readonly number[];
  readonly begin: readonly number[];
  readonly categories: readonly number[];
}

interface Stream {
  readonly precision: number;
  readonly width: number;
  readonly height: number;
  readonly tables: readonly HuffmanTable[];
  /** Where its codes begin. */
  readonly at: number;
}

/**
 * Decodes the stream that begins with `bytes`.
 * @param size that it must have
 * @param block samples of the stream beyond its columns and rows are skipped
 * @returns whether it could be decoded whole; where not, what the block holds may be anything
 */
export function decodeLosslessJpeg(bytes: Uint8Array, size: BlockSize, block: SampleBlock): boolean {
  const stream = readHeaders(bytes);
  if (!stream || stream.height !== size.height || stream.width * stream.tables.length !== size.width) return false;
  return decodeRows(bytes, stream, block);
}

function readHeaders(bytes: Uint8Array): Stream | undefined {
  const short = (at: number): number => (bytes[at] << 8) | bytes[at + 1];
  if (bytes[0] !== PREFIX || bytes[1] !== MARKER.start) return undefined;
  const tables = new Map<number, HuffmanTable>();
  let frame: { readonly precision: number; readonly width: number; readonly height: number } | undefined;
  let components: readonly number[] = [];
  for (let at = 2; at + 4 <= bytes.length;) {
    if (bytes[at] !== PREFIX) return undefined;
    const [code, from, end] = [bytes[at + 1], at + 4, at + 2 + short(at + 2)];
    if (end > bytes.length) return undefined;
    if (code === MARKER.huffman) {
      if (!readTables(bytes.subarray(from, end), tables)) return undefined;
    } else if (code === MARKER.losslessFrame) {
      frame = { precision: bytes[from], height: short(from + 1), width: short(from + 3) };
      components = Array.from({ length: bytes[from + 5] }, (_, k) => bytes[from + 6 + 3 * k]);
    } else if (code === MARKER.scan) {
      const count = bytes[from];
      if (!frame || frame.precision < 2 || frame.precision > 16) return undefined;
      if (count !== components.length || count < 1 || count > 2) return undefined;
      const [predictor, last, shift] = bytes.subarray(from + 1 + 2 * count, from + 4 + 2 * count);
      if (predictor !== BEFORE || last !== 0 || shift !== 0) return undefined;
      const named = components.map((component, k) => {
        const named = from + 1 + 2 * k;
        return bytes[named] === component ? tables.get(bytes[named + 1] >> 4) : undefined;
      });
      const known = named.filter((table) => table !== undefined);
      return known.length === count ? { ...frame, tables: known, at: end } : undefined;
    } else if (code === MARKER.restartInterval && short(from) !== 0) return undefined;
    at = end;
  }
  return undefined;
}

/** The tables of one segment. @returns whether they can be used */
function readTables(segment: Uint8Array, tables: Map<number, HuffmanTable>): boolean {
  for (let at = 0; at < segment.length;) {
    const name = segment[at++];
    if (name > 3 || at + LONGEST_CODE > segment.length) return false;
    const counts = [...segment.subarray(at, at + LONGEST_CODE)];
    at += LONGEST_CODE;
    const total = counts.reduce((sum, count) => sum + count, 0);
    const categories = [...segment.subarray(at, at + total)];
    at += total;
    const table = categories.length === total ? tableOf(counts, categories) : undefined;
    if (!table) return false;
    tables.set(name, table);
  }
  return true;
}

function tableOf(counts: readonly number[], categories: readonly number[]): HuffmanTable | undefined {
  if (categories.some((category) => category > CATEGORIES)) return undefined;
  const entries = new Int32Array(1 << PEEK);
  const [first, count, begin] = [[0], [0], [0]];
  let code = 0;
  let used = 0;
  for (let length = 1; length <= LONGEST_CODE; length++) {
    const many = counts[length - 1];
    first[length] = code;
    count[length] = many;
    begin[length] = used;
    if (code + many > 1 << length) return undefined;
    if (length <= PEEK) for (let k = 0; k < many; k++) fillEntries(entries, code + k, length, categories[used + k]);
    used += many;
    code = (code + many) << 1;
  }
  return { entries, first, count, begin, categories };
}

/** All entries that begin with a code. */
function fillEntries(entries: Int32Array, code: number, length: number, category: number): void {
  const free = PEEK - length;
  const from = code << free;
  for (let rest = 0; rest < 1 << free; rest++) {
    const fits = category <= free && category < CATEGORIES;
    const difference = category === 0 ? 0 : extend(rest >> (free - category), category);
    entries[from + rest] = fits
      ? entryOf(KIND.difference, length + category, difference)
      : entryOf(KIND.category, length, category);
  }
}

/** The difference that `bits` of a category stand for: its lower half is negative. */
const extend = (bits: number, category: number): number =>
  bits < 1 << (category - 1) ? bits - (1 << category) + 1 : bits;

/** Reads a row's codes after one another; all of the time goes into its inner loop. */
function decodeRows(bytes: Uint8Array, { precision, width, height, tables, at }: Stream, block: SampleBlock): boolean {
  const components = tables.length;
  const samples = width * components;
  const row = new Uint16Array(samples);
  const kept = row.subarray(0, Math.min(samples, block.columns));
  const [even, odd] = [tables[0], tables[components - 1]];
  const { data, bits } = withoutStuffing(bytes, at, samples);
  const start = 1 << (precision - 1);
  /** Of the first samples of the row before. */
  let [firstEven, firstOdd] = [start, start];
  /** In bits. */
  let position = 0;
  let outside = 0;
  for (let y = 0; y < height; y++) {
    /** What the sample is predicted by, and the next one where that is of another component. */
    let [before, other] = [firstEven, firstOdd];
    for (let x = 0; x < samples; x++) {
      const table = (x & 1) === 0 ? even : odd;
      const next = data.getUint32(position >>> 3) << (position & 7);
      const entry = table.entries[next >>> (32 - PEEK)];
      position += (entry >> KIND_BITS) & LENGTH_MASK;
      let difference = entry >> (KIND_BITS + LENGTH_BITS);
      if ((entry & KIND_MASK) !== KIND.difference) {
        let category = difference;
        if ((entry & KIND_MASK) === KIND.none) {
          const code = longCode(next, table);
          if (!code) return false;
          position += code.length;
          category = code.category;
        }
        // Of category 16 no bits follow (DNG 1.1 and later).
        difference = -32768;
        if (category < CATEGORIES) {
          const rest = (data.getUint32(position >>> 3) << (position & 7)) >>> (32 - category);
          difference = extend(rest, category);
          position += category;
        }
      }
      const value = (before + difference) & 0xffff;
      outside |= value >>> precision;
      row[x] = value;
      before = components === 2 ? other : value;
      other = value;
    }
    if (outside !== 0 || position > bits) return false;
    firstEven = row[0];
    firstOdd = row[components - 1];
    if (y < block.rows) block.data.set(kept, block.at + y * block.stride);
  }
  return true;
}

/**
 * The coded data up to their marker: behind a byte of ones lies a zero that does not count. Zeros follow, enough for
 * the longest codes of a row: whether the data end too early is only looked at behind each row.
 */
function withoutStuffing(
  bytes: Uint8Array,
  from: number,
  samples: number,
): { readonly data: DataView; readonly bits: number } {
  const plain = new Uint8Array(Math.max(0, bytes.length - from) + (samples + 2) * BYTES_PEEKED);
  let length = 0;
  for (let at = from; ;) {
    const found = bytes.indexOf(PREFIX, at);
    const stop = found < 0 ? bytes.length : found;
    plain.set(bytes.subarray(at, stop), length);
    length += stop - at;
    if (found < 0 || bytes[found + 1] !== 0) return { data: new DataView(plain.buffer), bits: length * 8 };
    plain[length++] = PREFIX;
    at = found + 2;
  }
}

/** @param next 32 bits that begin with the code; undefined where they begin with none */
function longCode(
  next: number,
  { first, count, begin, categories }: HuffmanTable,
): { readonly length: number; readonly category: number } | undefined {
  for (let length = PEEK + 1; length <= LONGEST_CODE; length++) {
    const place = (next >>> (32 - length)) - first[length];
    if (place >= 0 && place < count[length]) return { length, category: categories[begin[length] + place] };
  }
  return undefined;
}
