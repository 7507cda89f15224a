import { describe, expect, it } from "vitest";
import fc from "../../../properties.ts";
import { MIN_T, MAX_T } from "../../../../extension/engine/film/look-steps.ts";
import {
  codeOf,
  codesOf,
  codeTable,
  densityOfCode,
  transmittanceOfCode,
} from "../../../../extension/engine/plan/log-code.ts";

describe("log-coded transmittance", () => {
  it("keeps density within 0.000056 over the whole range", () => {
    fc.assert(
      fc.property(fc.double({ min: Math.log10(MIN_T), max: Math.log10(MAX_T), noNaN: true }), (log) => {
        const t = 10 ** log;
        expect(Math.abs(densityOfCode(codeOf(t)) + log)).toBeLessThan(5.6e-5);
      }),
    );
  });

  it("is the same for many at once, but for what lies halfway between two codes", () => {
    const random = fc.sample(
      fc.float({ min: Math.fround(MIN_T / 4), max: Math.fround(MAX_T * 4), noNaN: true }),
      20_000,
    );
    const even = Array.from({ length: 200_000 }, (_, k) => MIN_T * (MAX_T / MIN_T) ** (k / 200_000));
    const ends = [0, -0, -1, NaN, -NaN, Infinity, -Infinity, 1e9, 1e-30, 1e-45, MIN_T, MAX_T, 1, 0.5, 2];
    const all = Float32Array.from([...random, ...even, ...ends]);
    const codes = new Uint16Array(all.length);
    codesOf(all, codes);
    let others = 0;
    for (const [k, t] of all.entries()) {
      const code = codeOf(t);
      if (codes[k] !== code) others++;
      expect(Math.abs(codes[k] - code)).toBeLessThanOrEqual(1);
    }
    expect(others).toBeLessThan(all.length / 1000);
    expect([...codes.subarray(-ends.length)]).toEqual(ends.map((t) => codeOf(Math.fround(t))));
  });

  it("gives each code back, and holds what lies outside", () => {
    for (let code = 0; code < 65536; code += 97) expect(codeOf(transmittanceOfCode(code))).toBe(code);
    expect([codeOf(0), codeOf(-1), codeOf(NaN), codeOf(Infinity), codeOf(1e9)]).toEqual([0, 0, 0, 65535, 65535]);
    expect(codeTable()[43690]).toBeCloseTo(transmittanceOfCode(43690), 6);
  });
});
