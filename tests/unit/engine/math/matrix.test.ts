import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import { apply, determinant, diagonal, IDENTITY, invert, multiply } from "../../../../extension/engine/math/matrix.ts";
import type { Matrix3, Rgb } from "../../../../extension/engine/types.ts";
import { between, unitRows } from "../looks.ts";

/** Greatest difference between two lists. */
const apart = (a: readonly number[], b: readonly number[]): number => Math.max(...a.map((v, i) => Math.abs(v - b[i])));

describe("3×3 matrices", () => {
  const m: Matrix3 = [
    [1, 2, 3],
    [0, 1, 4],
    [5, 6, 0],
  ];
  it("act on columns", () => expect(apply(m, [1, 10, 100])).toEqual([321, 410, 65]));
  it("scale by a diagonal", () => expect(apply(diagonal([2, 3, 4]), [1, 1, 1])).toEqual([2, 3, 4]));
  it("have this inverse", () =>
    expect(apart(invert(m).flat(), [-24, 18, 5, 20, -15, -4, -5, 4, 1])).toBeLessThan(1e-12));
  it("span this volume, with a sign", () => {
    expect(determinant(m)).toBe(1);
    expect(determinant([m[1], m[0], m[2]])).toBe(-1);
    expect(determinant(diagonal([2, 3, 4]))).toBe(24);
  });
  it("multiply so that the right one acts first", () => {
    fc.assert(
      fc.property(
        unitRows(0.4),
        unitRows(0.4),
        fc.tuple(between(0, 1), between(0, 1), between(0, 1)),
        (a, b, v: Rgb) => {
          expect(apart(apply(multiply(a, b), v), apply(a, apply(b, v)))).toBeLessThan(1e-12);
        },
      ),
    );
  });
  it("times their inverse are the identity", () => {
    fc.assert(
      fc.property(unitRows(0.3), (a) => {
        // Up to six such numbers can leave rows nearly dependent; those are no case for this test.
        fc.pre(Math.abs(determinant(a)) > 0.05);
        expect(apart(multiply(invert(a), a).flat(), IDENTITY.flat())).toBeLessThan(1e-9);
      }),
    );
  });
  it("say so where they cannot be inverted", () => {
    expect(() =>
      invert([
        [1, 2, 3],
        [2, 4, 6],
        [0, 0, 1],
      ]),
    ).toThrow(/cannot be inverted/);
    expect(() => invert(diagonal([0, 0, 0]))).toThrow(RangeError);
  });
});
