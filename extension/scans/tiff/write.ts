/** Writes TIFF files (TIFF 6.0, little-endian): directories of fields, and pictures with metadata. */

export type FieldValue =
  | { readonly type: "ascii"; readonly text: string }
  | { readonly type: "short" | "long"; readonly values: readonly number[] }
  | { readonly type: "rational"; readonly values: readonly (readonly [numerator: number, denominator: number])[] }
  | { readonly type: "undefined" | "byte"; readonly bytes: Uint8Array };

export type Fields = ReadonlyMap<number, FieldValue>;

const TYPES = {
  byte: { code: 1, size: 1 },
  ascii: { code: 2, size: 1 },
  short: { code: 3, size: 2 },
  long: { code: 4, size: 4 },
  rational: { code: 5, size: 8 },
  undefined: { code: 7, size: 1 },
} as const;

export const ascii = (text: string): FieldValue => ({ type: "ascii", text });
export const short = (...values: number[]): FieldValue => ({ type: "short", values });
export const long = (...values: number[]): FieldValue => ({ type: "long", values });
export const rational = (numerator: number, denominator: number): FieldValue => ({
  type: "rational",
  values: [[numerator, denominator]],
});

/** Where a file's first directory is told. */
export function tiffHeader(directoryAt: number): Uint8Array {
  const header = new Uint8Array(8);
  header.set([0x49, 0x49, 42, 0]);
  new DataView(header.buffer).setUint32(4, directoryAt, true);
  return header;
}

/**
 * One directory and, behind it, the values that do not fit into its entries.
 * @param at the offset in the file where these bytes will stand; even
 */
export function directoryBytes(fields: Fields, at: number): Uint8Array {
  const entries = [...fields].sort(([a], [b]) => a - b);
  const values = entries.map(([, value]) => valueBytes(value));
  const tableLength = 2 + 12 * entries.length + 4;
  const outside = values.reduce((sum, bytes) => sum + (bytes.length > 4 ? even(bytes.length) : 0), 0);
  const block = new Uint8Array(even(tableLength) + outside);
  const view = new DataView(block.buffer);
  view.setUint16(0, entries.length, true);
  let next = even(tableLength);
  entries.forEach(([tag, value], i) => {
    const entry = 2 + 12 * i;
    const bytes = values[i];
    view.setUint16(entry, tag, true);
    view.setUint16(entry + 2, TYPES[value.type].code, true);
    view.setUint32(entry + 4, bytes.length / TYPES[value.type].size, true);
    if (bytes.length <= 4) block.set(bytes, entry + 8);
    else {
      view.setUint32(entry + 8, at + next, true);
      block.set(bytes, next);
      next += even(bytes.length);
    }
  });
  return block;
}

function valueBytes(value: FieldValue): Uint8Array {
  switch (value.type) {
    case "ascii":
      return new TextEncoder().encode(`${value.text}\0`);
    case "undefined":
    case "byte":
      return value.bytes;
    case "short":
    case "long":
      return numbers(value.values, TYPES[value.type].size);
    case "rational":
      return numbers(value.values.flat(), 4);
  }
}

function numbers(values: readonly number[], size: 2 | 4): Uint8Array {
  const bytes = new Uint8Array(values.length * size);
  const view = new DataView(bytes.buffer);
  values.forEach((value, i) => (size === 2 ? view.setUint16(i * 2, value, true) : view.setUint32(i * 4, value, true)));
  return bytes;
}

function even(n: number): number {
  return n + (n & 1);
}
