import { describe, expect, it } from "vitest";
import { PROOF_SIDE, PROOF_VALUES, readProof } from "../../../../extension/engine/colour/proof-table.ts";

const STEPS = PROOF_SIDE - 1;

/** A table of a function of the node's colour. */
function tableOf(at: (r: number, g: number, b: number) => readonly number[]): Uint16Array {
  const table = new Uint16Array(PROOF_SIDE ** 3 * PROOF_VALUES);
  for (let b = 0, k = 0; b <= STEPS; b++)
    for (let g = 0; g <= STEPS; g++)
      for (let r = 0; r <= STEPS; r++, k += PROOF_VALUES) table.set(at(r / STEPS, g / STEPS, b / STEPS), k);
  return table;
}
const read = (table: Uint16Array, colour: readonly number[]): number[] => {
  const out = new Float32Array(PROOF_VALUES);
  const samples = Float64Array.from(colour, (v) => 65535 * v);
  readProof(table, { samples, n: 1, channels: colour.length === 1 ? 1 : 3 }, out);
  return [...out];
};

describe("a proof's table", () => {
  const straight = tableOf((r, g, b) => [r, g, b, (r + 2 * g + 3 * b) / 6].map((v) => Math.round(65535 * v)));

  it("gives what varies evenly as it is, in each of the six tetrahedra", () => {
    for (let i = 0; i < 600; i++) {
      const [r, g, b] = [(i * 0.618) % 1, (i * 0.414) % 1, (i * 0.732) % 1];
      const found = read(straight, [r!, g!, b!]);
      [r!, g!, b!, (r! + 2 * g! + 3 * b!) / 6].forEach((v, c) => expect(found[c]! / 65535).toBeCloseTo(v, 4));
    }
  });

  it("holds values beyond its ends to them", () => {
    expect(read(straight, [-0.2, 0.5, 1.3]).slice(0, 3).map(Math.round)).toEqual([0, 32768, 65535]);
    expect(read(straight, [1, 1, 1])).toEqual([65535, 65535, 65535, 65535]);
  });

  it("reads greys between greys alone", () => {
    // Every colour that is not grey is as far as can be from them.
    const greys = tableOf((r, g, b) => (r === g && g === b ? [20000, 20000, 20000, 0] : [65535, 0, 65535, 65535]));
    for (const v of [0, 0.01, 0.37, 0.5, 0.991, 1]) {
      expect(read(greys, [v])).toEqual(read(greys, [v, v, v]));
      expect(read(greys, [v, v, v]).slice(0, 3).map(Math.round)).toEqual([20000, 20000, 20000]);
    }
  });
});
