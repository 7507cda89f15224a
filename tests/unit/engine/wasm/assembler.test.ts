/** The assembler's bytes, run by the engine's own WebAssembly: each helper against the same computation in JavaScript. */
import { describe, expect, test } from "vitest";
import {
  type Code,
  f64,
  get,
  i32,
  i64,
  lanes,
  moduleOf,
  repeat,
  set,
  tee,
  type ValueType,
} from "../../../../extension/engine/wasm/assembler.ts";

const memory = new WebAssembly.Memory({ initial: 1 });
const bytes = (): DataView => new DataView(memory.buffer);

function run(body: readonly Code[], numbers: number[] = [], locals: readonly ValueType[] = []): void {
  const module = new WebAssembly.Module(
    moduleOf(
      numbers.map(() => "i32" as const),
      locals,
      body,
    ) as Uint8Array<ArrayBuffer>,
  );
  (new WebAssembly.Instance(module, { host: { memory } }).exports.run as (...n: number[]) => void)(...numbers);
}

/** Four 32-bit floats through one operation. */
function float(operation: (a: Code, b: Code) => Code, a: readonly number[], b: readonly number[] = a): number[] {
  new Float32Array(memory.buffer, 0, 4).set(a);
  new Float32Array(memory.buffer, 16, 4).set(b);
  run([lanes.store(i32.value(32), operation(lanes.load(i32.value(0)), lanes.load(i32.value(16))))]);
  return [...new Float32Array(memory.buffer, 32, 4)];
}

function integer(operation: (a: Code, b: Code) => Code, a: readonly number[], b: readonly number[] = a): number[] {
  new Int32Array(memory.buffer, 0, 4).set(a);
  new Int32Array(memory.buffer, 16, 4).set(b);
  run([lanes.store(i32.value(32), operation(lanes.load(i32.value(0)), lanes.load(i32.value(16))))]);
  return [...new Int32Array(memory.buffer, 32, 4)];
}

// W3C WebAssembly Core Specification 2.0, binary format: a module is \0asm, version 1, then sections by ascending id.
test("a module has the specification's magic number and version, and is valid", () => {
  const module = moduleOf(["i32"], ["v128", "i64", "f64"], []);
  expect([...module.subarray(0, 8)]).toEqual([0, 0x61, 0x73, 0x6d, 1, 0, 0, 0]);
  expect(WebAssembly.validate(module as Uint8Array<ArrayBuffer>)).toBe(true);
});

// Same specification, LEB128: values of one to five bytes, on both sides of every boundary.
test.each([0, 1, -1, 63, 64, -64, -65, 127, 128, 8191, 8192, -8192, -8193, 2 ** 31 - 1, -(2 ** 31)])(
  "the constant %d survives its encoding",
  (value) => {
    run([lanes.store(i32.value(0), lanes.splatI32(value))]);
    expect([...new Int32Array(memory.buffer, 0, 4)]).toEqual([value, value, value, value]);
  },
);

test.each([0, 127, 128, 16383, 16384, 60000])("an offset of %d bytes reaches its address", (offset) => {
  run([lanes.store(i32.value(0), lanes.splatI32(77), offset)]);
  expect(bytes().getInt32(offset, true)).toBe(77);
});

describe("four lanes of floats", () => {
  const [a, b] = [
    [1.5, -2.75, 1e6, 0.1],
    [0.25, 3, -7, 0.2],
  ];
  test.each<[string, (a: Code, b: Code) => Code, (a: number, b: number) => number]>([
    ["add", lanes.add, (x, y) => x + y],
    ["sub", lanes.sub, (x, y) => x - y],
    ["mul", lanes.mul, (x, y) => x * y],
    ["divide", lanes.divide, (x, y) => x / y],
    ["lower", lanes.lower, Math.min],
    ["higher", lanes.higher, Math.max],
  ])("%s", (_, operation, expected) => {
    const [fa, fb] = [a.map(Math.fround), b.map(Math.fround)];
    expect(float(operation, a, b)).toEqual(fa.map((x, i) => Math.fround(expected(x, fb[i]))));
  });
  test("floor rounds down, also below zero", () => {
    expect(float((x) => lanes.floor(x), [1.5, -1.5, 2, -0.25])).toEqual([1, -2, 2, -1]);
  });
  test("toI32 cuts off the fraction and holds what is too large; fromI32 is its inverse", () => {
    new Float32Array(memory.buffer, 0, 4).set([1.9, -1.9, 3e9, NaN]);
    run([lanes.store(i32.value(16), lanes.toI32(lanes.load(i32.value(0))))]);
    expect([...new Int32Array(memory.buffer, 16, 4)]).toEqual([1, -1, 2 ** 31 - 1, 0]);
    run([lanes.store(i32.value(32), lanes.fromI32(lanes.load(i32.value(16))))]);
    expect([...new Float32Array(memory.buffer, 32, 2)]).toEqual([1, -1]);
  });
});

describe("four lanes of integers", () => {
  test.each<[string, (a: Code, b: Code) => Code, number[]]>([
    ["addI32", lanes.addI32, [6, 3, -1, 2 ** 30 + 7]],
    ["subI32", lanes.subI32, [-4, -13, 1, 2 ** 30 - 7]],
    ["lowerI32", lanes.lowerI32, [1, -5, -1, 7]],
    ["higherI32", lanes.higherI32, [5, 8, 0, 2 ** 30]],
    ["and", lanes.and, [1 & 5, -5 & 8, 0, (2 ** 30) & 7]],
    ["or", lanes.or, [1 | 5, -5 | 8, -1, (2 ** 30) | 7]],
  ])("%s", (_, operation, expected) => {
    expect(integer(operation, [1, -5, 0, 2 ** 30], [5, 8, -1, 7])).toEqual(expected);
  });
  test("shifts: zeros come in from both sides", () => {
    expect(integer((a) => lanes.shiftLeft(a, 4), [1, -1, 3, 0])).toEqual([16, -16, 48, 0]);
    expect(integer((a) => lanes.shiftRight(a, 28), [-1, 2 ** 28, 1, 0])).toEqual([15, 1, 0, 0]);
  });
  test("pick orders lanes of both", () => {
    expect(integer((a, b) => lanes.pick(a, b, [7, 0, 5, 2]), [10, 11, 12, 13], [14, 15, 16, 17])).toEqual([
      17, 10, 15, 12,
    ]);
  });
  test("narrow holds what does not fit in 16 bits at the limits", () => {
    integer(lanes.narrow, [-1, 0, 65535, 65536], [1, 2, 3, 2 ** 30]);
    expect([...new Uint16Array(memory.buffer, 32, 8)]).toEqual([0, 0, 65535, 65535, 1, 2, 3, 65535]);
  });
});

test("a loop counts, sets locals and reads its parameters", () => {
  new Int32Array(memory.buffer, 128, 4).fill(0);
  const [n, i, address] = [0, 1, 2];
  run(
    [
      repeat(
        [lanes.store(get(address), lanes.addI32(lanes.load(get(address)), lanes.splatI32(3)))],
        i32.lessThan(tee(i, i32.add(get(i), i32.value(1))), get(n)),
      ),
      set(i, i32.value(0)),
    ],
    [5, 0, 128],
  );
  expect([...new Int32Array(memory.buffer, 128, 4)]).toEqual([15, 15, 15, 15]);
});

test("64-bit numbers: products beyond 32 bits, and shifts that keep the sign", () => {
  const store = (value: Code): Code =>
    lanes.store(i32.value(0), lanes.load(i32.mul(i32.fromI64(value), i32.value(16))));
  for (let k = 0; k < 8; k++) new Int32Array(memory.buffer, k * 16, 4).fill(k);
  run([store(i64.shift(i64.mul(i64.fromI32(i32.value(2 ** 30)), i64.fromI32(i32.value(24))), 32))]);
  expect(bytes().getInt32(0, true)).toBe(6);
  run([store(i64.fromF64(f64.add(f64.mul(f64.value(2.5), f64.value(1.5)), f64.value(0.5))))]);
  expect(bytes().getInt32(0, true)).toBe(4);
});
