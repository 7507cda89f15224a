/**
 * Lossless JPEG (ITU-T T.81 process 14, SOF3, predictor 1) as DNG files carry it. Writer only: the readers under
 * test are LibRaw and the house's own.
 */

/** Length of the Huffman code for each difference category 0 … 16; fixed, so that files do not depend on content. */
const CODE_LENGTH = [3, 3, 3, 3, 3, 4, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14];
const MARKER = { start: 0xd8, huffman: 0xc4, losslessFrame: 0xc3, scan: 0xda, end: 0xd9 };

/** One tile: its rows of interleaved samples. `samples.length === width * height * components`. */
export interface Tile {
  readonly samples: Uint16Array;
  /** Pixels to a row, each of `components` samples. */
  readonly width: number;
  readonly height: number;
  readonly components: number;
  /** Bits of a sample, 2 … 16. */
  readonly bits: number;
}

export function encodeLosslessJpeg(tile: Tile): Uint8Array {
  const codes = huffmanCodes();
  const out = new BitWriter(tile.samples.length * 4 + 1024);
  out.marker(MARKER.start);
  writeHuffmanTable(out, codes);
  writeFrameHeader(out, tile);
  writeScanHeader(out, tile.components);
  writeDifferences(out, codes, tile);
  out.flush();
  out.marker(MARKER.end);
  return out.finish();
}

interface HuffmanCodes {
  /** Categories in the order of their codes. */
  readonly order: readonly number[];
  /** Code of each category. */
  readonly code: readonly number[];
}

function huffmanCodes(): HuffmanCodes {
  const order = CODE_LENGTH.map((_, category) => category).sort((a, b) => CODE_LENGTH[a] - CODE_LENGTH[b] || a - b);
  const code: number[] = [];
  let next = 0;
  let length = CODE_LENGTH[order[0]];
  for (const category of order) {
    next <<= CODE_LENGTH[category] - length;
    length = CODE_LENGTH[category];
    code[category] = next++;
  }
  return { order, code };
}

function writeHuffmanTable(out: BitWriter, { order }: HuffmanCodes): void {
  out.marker(MARKER.huffman);
  out.short(2 + 1 + 16 + order.length);
  out.byte(0);
  for (let length = 1; length <= 16; length++) out.byte(CODE_LENGTH.filter((l) => l === length).length);
  for (const category of order) out.byte(category);
}

function writeFrameHeader(out: BitWriter, { width, height, components, bits }: Tile): void {
  out.marker(MARKER.losslessFrame);
  out.short(8 + 3 * components);
  out.byte(bits);
  out.short(height);
  out.short(width);
  out.byte(components);
  for (let component = 0; component < components; component++) {
    out.byte(component);
    out.byte(0x11);
    out.byte(0);
  }
}

function writeScanHeader(out: BitWriter, components: number): void {
  out.marker(MARKER.scan);
  out.short(6 + 2 * components);
  out.byte(components);
  for (let component = 0; component < components; component++) {
    out.byte(component);
    out.byte(0);
  }
  out.byte(1); // predictor 1: the sample to the left
  out.byte(0);
  out.byte(0);
}

function writeDifferences(out: BitWriter, { code }: HuffmanCodes, tile: Tile): void {
  const { samples, components } = tile;
  const row = tile.width * components;
  for (let i = 0; i < samples.length; i++) {
    const x = i % row;
    const above = i >= row ? samples[i - row] : 1 << (tile.bits - 1);
    const predicted = x >= components ? samples[i - components] : above;
    const difference = ((samples[i] - predicted) << 16) >> 16; // modulo 2^16, as §H.1.2.1 wants it
    const category = difference === -32768 ? 16 : 32 - Math.clz32(Math.abs(difference));
    out.bits(code[category], CODE_LENGTH[category]);
    if (category > 0 && category < 16)
      out.bits(difference < 0 ? difference + (1 << category) - 1 : difference, category);
  }
}

/** Bits, most significant first, with the zero byte that T.81 stuffs after 0xFF. */
class BitWriter {
  readonly #bytes: Uint8Array;
  #at = 0;
  #pending = 0;
  #count = 0;

  constructor(capacity: number) {
    this.#bytes = new Uint8Array(capacity);
  }

  byte(value: number): void {
    this.#bytes[this.#at++] = value;
  }

  short(value: number): void {
    this.byte(value >> 8);
    this.byte(value & 255);
  }

  marker(code: number): void {
    this.short(0xff00 | code);
  }

  bits(value: number, count: number): void {
    this.#pending = (this.#pending << count) | value;
    this.#count += count;
    while (this.#count >= 8) {
      this.#count -= 8;
      const byte = (this.#pending >>> this.#count) & 255;
      this.byte(byte);
      if (byte === 255) this.byte(0);
    }
    this.#pending &= (1 << this.#count) - 1;
  }

  /** Fills the last byte with ones. */
  flush(): void {
    if (this.#count > 0) this.bits((1 << (8 - this.#count)) - 1, 8 - this.#count);
  }

  finish(): Uint8Array {
    return this.#bytes.slice(0, this.#at);
  }
}
