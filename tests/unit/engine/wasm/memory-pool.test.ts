/** The pool of WebAssembly memories: reuse, growth, and addresses that do not overlap. */
import { expect, test } from "vitest";
import { i32, lanes, moduleOf } from "../../../../extension/engine/wasm/assembler.ts";
import { enterArena, Allocator } from "../../../../extension/engine/wasm/memory-pool.ts";

test("a memory in use is not handed out again; one that is released is", () => {
  const first = enterArena(1000);
  const second = enterArena(1000);
  expect(second.memory).not.toBe(first.memory);
  first.release();
  const third = enterArena(1000);
  expect(third.memory).toBe(first.memory);
  second.release();
  third.release();
});

test("a memory that is too small grows by whole pages", () => {
  const small = enterArena(10);
  small.release();
  const large = enterArena(65536 * 3 + 1);
  expect(large.memory.buffer.byteLength).toBeGreaterThanOrEqual(65536 * 4);
  expect(large.memory.buffer.byteLength % 65536).toBe(0);
  large.release();
});

test("a kernel is assembled once and works in each memory that asks for it", () => {
  let assembled = 0;
  const bytes = (): Uint8Array => {
    assembled++;
    return moduleOf(["i32"], [], [lanes.store(i32.value(64), lanes.splatI32(9))]);
  };
  const [one, two] = [enterArena(1000), enterArena(1000)];
  const kernel = one.kernel("nine", bytes);
  expect(one.kernel("nine", bytes)).toBe(kernel);
  kernel(0);
  expect(new Int32Array(one.memory.buffer)[16]).toBe(9);
  new Int32Array(two.memory.buffer)[16] = 0;
  two.kernel("nine", bytes)(0);
  expect(new Int32Array(two.memory.buffer)[16]).toBe(9);
  expect(assembled).toBe(1);
  one.release();
  two.release();
});

test("addresses are aligned to a vector, do not overlap, and have a vector's slack behind them", () => {
  const places = new Allocator();
  const taken = [1, 15, 16, 17, 1000, 0, 3].map((bytes) => ({ bytes, at: places.take(bytes) }));
  taken.forEach(({ at, bytes }, k) => {
    expect(at % 16).toBe(0);
    const next = taken[k + 1]?.at ?? places.end;
    expect(next - (at + bytes)).toBeGreaterThanOrEqual(16);
  });
});
