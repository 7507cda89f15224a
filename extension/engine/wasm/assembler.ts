/**
 * A minimal assembler for WebAssembly with SIMD (W3C WebAssembly Core Specification 2.0, binary format). Every helper
 * returns the bytes of one expression or statement, operands first, so that a kernel reads like the loop it is.
 */

export type Code = readonly number[];

/** Unsigned LEB128. */
function unsigned(value: number): number[] {
  const bytes: number[] = [];
  do {
    const low = value & 0x7f;
    value >>>= 7;
    bytes.push(value ? low | 0x80 : low);
  } while (value);
  return bytes;
}

/** Signed LEB128. */
function signed(value: number): number[] {
  const bytes: number[] = [];
  for (;;) {
    const low = value & 0x7f;
    value >>= 7;
    const last = (value === 0 && !(low & 0x40)) || (value === -1 && Boolean(low & 0x40));
    bytes.push(last ? low : low | 0x80);
    if (last) return bytes;
  }
}

const op =
  (code: number) =>
  (...operands: Code[]): Code => [...operands.flat(), code];
const simd =
  (code: number) =>
  (...operands: Code[]): Code => [...operands.flat(), 0xfd, ...unsigned(code)];
/** A memory access: address expression, constant offset in bytes; alignment is only a hint and left at 1. */
const access =
  (...code: number[]) =>
  (address: Code, offset = 0): Code => [...address, ...code, 0, ...unsigned(offset)];

const storeLane =
  (code: number) =>
  (address: Code, value: Code, lane: number, offset = 0): Code => [
    ...address,
    ...value,
    0xfd,
    ...unsigned(code),
    0,
    ...unsigned(offset),
    lane,
  ];

export const i32 = {
  value: (v: number): Code => [0x41, ...signed(v)],
  add: op(0x6a),
  mul: op(0x6c),
  and: op(0x71),
  lessThan: op(0x48),
  load: access(0x28),
  fromI64: op(0xa7),
};
export const i64 = {
  add: op(0x7c),
  mul: op(0x7e),
  /** Shift right, keeping the sign. */
  shift: (value: Code, bits: number): Code => [...value, 0x42, ...signed(bits), 0x87],
  fromI32: op(0xac),
  fromF64: op(0xb0),
};
export const f64 = {
  value: (v: number): Code => [0x44, ...new Uint8Array(Float64Array.of(v).buffer)],
  add: op(0xa0),
  mul: op(0xa2),
};
/** Four lanes of 32 bits. */
export const lanes = {
  load: access(0xfd, 0x00),
  /** Four unsigned 16-bit samples, each widened to 32 bits. */
  load16: access(0xfd, 0x04),
  /** One 32-bit number in all four lanes. */
  loadSplat: access(0xfd, 0x09),
  store: (address: Code, value: Code, offset = 0): Code => [...address, ...value, 0xfd, 0x0b, 0, ...unsigned(offset)],
  /** Stores the low 64 bits. */
  storeLow: (address: Code, value: Code, offset = 0): Code => storeLane(0x5b)(address, value, 0, offset),
  /** Stores one lane of 32 bits. */
  storeLane: storeLane(0x5a),
  /** Stores one lane of 16 bits. */
  storeLane16: storeLane(0x59),
  splat: (v: number): Code => [0x43, ...new Uint8Array(Float32Array.of(v).buffer), 0xfd, 0x13],
  add: simd(0xe4),
  sub: simd(0xe5),
  mul: simd(0xe6),
  divide: simd(0xe7),
  floor: simd(0x68),
  addI32: simd(0xae),
  subI32: simd(0xb1),
  /** The lower of two signed integers. */
  lowerI32: simd(0xb6),
  higherI32: simd(0xb8),
  fromI32: simd(0xfa),
  /** Cuts off the fraction. */
  toI32: simd(0xf8),
  /** The lower of two; where either is not a number, the first. */
  lower: (a: Code, b: Code): Code => [...a, ...b, 0xfd, ...unsigned(0xea)],
  /** The higher of two; where either is not a number, the first. */
  higher: (a: Code, b: Code): Code => [...a, ...b, 0xfd, ...unsigned(0xeb)],
  /** The lower of two unsigned 16-bit integers, in eight lanes. */
  lower16: simd(0x97),
  higher16: simd(0x99),
  and: simd(0x4e),
  or: simd(0x50),
  /** One 32-bit integer in all four lanes. */
  splatI32: (v: number): Code => [0x41, ...signed(v), 0xfd, 0x11],
  shiftLeft: (value: Code, bits: number): Code => [...value, 0x41, ...signed(bits), 0xfd, ...unsigned(0xab)],
  /** Shifts right, zeros coming in. */
  shiftRight: (value: Code, bits: number): Code => [...value, 0x41, ...signed(bits), 0xfd, ...unsigned(0xad)],
  /** A lane as a 32-bit integer. */
  extract: (value: Code, lane: number): Code => [...value, 0xfd, 0x1b, lane],
  /** 64 bits into the low half, zeros above. */
  loadLow: access(0xfd, 0x5d),
  /** 64 bits into the high half of `value`. */
  loadHigh: (value: Code, address: Code, offset = 0): Code => [
    ...address,
    ...value,
    0xfd,
    0x57,
    0,
    ...unsigned(offset),
    1,
  ],
  /** Lanes of a (0 … 3) and b (4 … 7) in a new order. */
  pick: (a: Code, b: Code, order: readonly [number, number, number, number]): Code => [
    ...a,
    ...b,
    0xfd,
    0x0d,
    ...order.flatMap((lane) => [4 * lane, 4 * lane + 1, 4 * lane + 2, 4 * lane + 3]),
  ],
  /** The same for lanes of 16 bits, eight (0 … 7) of a and eight (8 … 15) of b. */
  pick16: (a: Code, b: Code, order: readonly number[]): Code => [
    ...a,
    ...b,
    0xfd,
    0x0d,
    ...order.flatMap((lane) => [2 * lane, 2 * lane + 1]),
  ],
  /** Two sets of four signed 32-bit numbers to eight unsigned 16-bit ones; what does not fit is held at the limit. */
  narrow: simd(0x86),
  /** Two sets of eight signed 16-bit numbers to sixteen unsigned bytes; what does not fit is held at the limit. */
  toBytes: simd(0x66),
};
/** Two lanes of 64-bit floats. */
export const pairs = {
  /** One 64-bit float in both lanes. */
  loadSplat: access(0xfd, 0x0a),
  splat: (v: number): Code => [...f64.value(v), 0xfd, 0x14],
  add: simd(0xf0),
  sub: simd(0xf1),
  mul: simd(0xf2),
  divide: simd(0xf3),
  /** The lower of two numbers. */
  lower: simd(0xf4),
  higher: simd(0xf5),
  absolute: simd(0xec),
  /** The low two of four 32-bit floats. */
  fromLow: simd(0x5f),
  /** To 32-bit floats in the low half, zeros above. */
  toLow: simd(0x5e),
  /** The low two of four signed 32-bit integers. */
  fromLowI32: simd(0xfe),
  /** Cuts off the fraction; 32-bit integers in the low half, zeros above. */
  toLowI32: simd(0xfc),
};
export const get = (local: number): Code => [0x20, ...unsigned(local)];
export const set = (local: number, value: Code): Code => [...value, 0x21, ...unsigned(local)];
/** Sets a local and leaves the value. */
export const tee = (local: number, value: Code): Code => [...value, 0x22, ...unsigned(local)];
/** Runs `body`, and again while `condition` holds afterwards. */
export const repeat = (body: readonly Code[], condition: Code): Code => [
  0x03,
  0x40,
  ...body.flat(),
  ...condition,
  0x0d,
  0,
  0x0b,
];

const TYPES = { i32: 0x7f, i64: 0x7e, f64: 0x7c, v128: 0x7b };
export type ValueType = keyof typeof TYPES;

/** A module of one function, exported as "run", over the imported memory "host" "memory". */
export function moduleOf(
  parameters: readonly ValueType[],
  locals: readonly ValueType[],
  body: readonly Code[],
): Uint8Array {
  const section = (id: number, content: Code): Code => [id, ...unsigned(content.length), ...content];
  const name = (text: string): Code => [text.length, ...Array.from(text, (c) => c.charCodeAt(0))];
  const declared = locals.flatMap((t) => [1, TYPES[t]]);
  const code: Code = [...unsigned(locals.length), ...declared, ...body.flat(), 0x0b];
  return Uint8Array.from([
    0x00,
    0x61,
    0x73,
    0x6d,
    1,
    0,
    0,
    0,
    ...section(1, [1, 0x60, parameters.length, ...parameters.map((t) => TYPES[t]), 0]),
    ...section(2, [1, ...name("host"), ...name("memory"), 2, 0, 1]),
    ...section(3, [1, 0]),
    ...section(7, [1, ...name("run"), 0, 0]),
    ...section(10, [1, ...unsigned(code.length), ...code]),
  ]);
}
