/** 16-bit samples rounded to 8 bits, by vectors. */
import { get, i32, lanes, moduleOf, repeat, set } from "../../engine/wasm/assembler.ts";
import { Allocator, enterArena } from "../../engine/wasm/memory-pool.ts";

/** Samples that go through the kernel at a time: they stay in a processor's cache. */
const BLOCK = 1 << 15;
/** Samples in a vector of bytes. */
const VECTOR = 16;

/** The nearest of 256 levels for each sample: 65535 is 255 · 257. `target` is as long as `samples`, or shorter. */
export function toBytes(samples: Uint16Array, target: Uint8Array): void {
  const places = new Allocator();
  const from = places.take(2 * BLOCK);
  const to = places.take(BLOCK);
  const arena = enterArena(places.end);
  const { buffer } = arena.memory;
  const pass = arena.kernel("samples to bytes", bytesModule);
  const [block, bytes] = [new Uint16Array(buffer, from, BLOCK), new Uint8Array(buffer, to, BLOCK)];
  for (let at = 0; at < target.length; at += BLOCK) {
    const count = Math.min(BLOCK, target.length - at);
    block.set(samples.subarray(at, at + count));
    pass(from, to, to + count);
    target.set(bytes.subarray(0, count), at);
  }
  arena.release();
}

/**
 * Rounds sixteen samples at a time. Addresses: the samples, the target, the target's end. (255 · v + 32895) ÷ 65536, cut
 * off, is v ÷ 257 to the nearest for every v of 16 bits.
 */
function bytesModule(): Uint8Array {
  const [from, to, end] = [0, 1, 2];
  const [value, half] = [3, 4];
  const level = (offset: number) => [
    set(value, lanes.load16(get(from), offset)),
    lanes.shiftRight(lanes.addI32(lanes.subI32(lanes.shiftLeft(get(value), 8), get(value)), lanes.splatI32(32895)), 16),
  ];
  const eight = (offset: number) => [...level(offset).flat(), ...level(offset + 8).flat()];
  return moduleOf(
    ["i32", "i32", "i32"],
    ["v128", "v128"],
    [
      repeat(
        [
          set(half, lanes.narrow(eight(0))),
          lanes.store(get(to), lanes.toBytes(get(half), lanes.narrow(eight(2 * (VECTOR / 2))))),
          set(from, i32.add(get(from), i32.value(2 * VECTOR))),
          set(to, i32.add(get(to), i32.value(VECTOR))),
        ],
        i32.lessThan(get(to), get(end)),
      ),
    ],
  );
}
