import { describe, expect, it } from "vitest";
import fc from "../../../properties.ts";
import { MIN_T, MAX_T } from "../../../../extension/engine/film/look-steps.ts";
import { codeOf, codeTable, densityOfCode, transmittanceOfCode } from "../../../../extension/engine/plan/log-code.ts";

describe("log-coded transmittance", () => {
  it("keeps density within 0.000056 over the whole range", () => {
    fc.assert(
      fc.property(fc.double({ min: Math.log10(MIN_T), max: Math.log10(MAX_T), noNaN: true }), (log) => {
        const t = 10 ** log;
        expect(Math.abs(densityOfCode(codeOf(t)) + log)).toBeLessThan(5.6e-5);
      }),
    );
  });

  it("gives each code back, and holds what lies outside", () => {
    for (let code = 0; code < 65536; code += 97) expect(codeOf(transmittanceOfCode(code))).toBe(code);
    expect([codeOf(0), codeOf(-1), codeOf(NaN), codeOf(Infinity), codeOf(1e9)]).toEqual([0, 0, 0, 65535, 65535]);
    expect(codeTable()[43690]).toBeCloseTo(transmittanceOfCode(43690), 6);
  });
});
