import { expect, test } from "vitest";
import { toBytes } from "../../../../extension/scans/tiff/to-bytes.ts";

test("every 16-bit sample goes to the nearest of 256 levels", () => {
  const samples = Uint16Array.from({ length: 65536 }, (_, v) => v);
  const bytes = new Uint8Array(samples.length);
  toBytes(samples, bytes);
  expect([...bytes]).toEqual(Array.from(samples, (v) => Math.round(v / 257)));
});

test.each([0, 1, 15, 17, 32767, 32769, 100_003])("%i samples, and not one place beside them", (count) => {
  const samples = Uint16Array.from({ length: count + 40 }, (_, k) => (k * 40_503) & 0xffff);
  const bytes = new Uint8Array(count + 40).fill(7);
  toBytes(samples.subarray(3, 3 + count), bytes.subarray(5, 5 + count));
  expect([...bytes.subarray(0, 5)]).toEqual([7, 7, 7, 7, 7]);
  expect([...bytes.subarray(5, 5 + count)]).toEqual(
    [...samples.subarray(3, 3 + count)].map((v) => Math.round(v / 257)),
  );
  expect(new Set(bytes.subarray(5 + count))).toEqual(new Set([7]));
});
