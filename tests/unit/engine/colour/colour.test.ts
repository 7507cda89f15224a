import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import { deltaCab, deltaE2000, deltaE76 } from "../../../../extension/engine/colour/difference.ts";
import { labOf, lightnessOf, luminanceOf, xyzOfLab } from "../../../../extension/engine/colour/lab.ts";
import { conversion, SPACES } from "../../../../extension/engine/colour/spaces.ts";
import { apply, multiply } from "../../../../extension/engine/math/matrix.ts";
import type { OutputSpace } from "../../../../extension/engine/types.ts";
import { between } from "../looks.ts";

const names = Object.keys(SPACES) as OutputSpace[];
const lab = fc.tuple(between(0, 100), between(-90, 90), between(-90, 90));

describe("output spaces", () => {
  it("keep greys grey from one to another, and come back", () => {
    for (const from of names)
      for (const to of names) {
        const there = conversion(SPACES[from], SPACES[to]);
        for (const v of apply(there, [0.3, 0.3, 0.3])) expect(v).toBeCloseTo(0.3, 9);
        const back = multiply(conversion(SPACES[to], SPACES[from]), there);
        for (const [r, row] of back.entries())
          for (const [c, v] of row.entries()) expect(v).toBeCloseTo(r === c ? 1 : 0, 9);
      }
  });
  it("encode in order, and decode what they encoded", () => {
    fc.assert(
      fc.property(fc.constantFrom(...names), between(-0.2, 1.2), between(1e-6, 0.1), (name, v, more) => {
        const { encode, decode } = SPACES[name];
        expect(encode(v + more)).toBeGreaterThan(encode(v));
        expect(decode(encode(v))).toBeCloseTo(v, 9);
      }),
    );
  });
});

describe("L*a*b*", () => {
  it("goes to XYZ and back", () => {
    fc.assert(
      fc.property(lab, (colour) => {
        labOf(xyzOfLab(colour)).forEach((v, i) => expect(v).toBeCloseTo(colour[i], 8));
      }),
    );
  });
  it("has the same L* for a luminance alone", () => {
    fc.assert(
      fc.property(between(0, 100), (L) => {
        expect(lightnessOf(luminanceOf(L))).toBeCloseTo(L, 9);
        expect(xyzOfLab([L, 0, 0])[1]).toBeCloseTo(luminanceOf(L), 12);
      }),
    );
  });
});

describe("colour differences", () => {
  it("are distances: 0 to itself, the same both ways", () => {
    fc.assert(
      fc.property(lab, lab, (one, two) => {
        for (const delta of [deltaE2000, deltaE76, deltaCab]) {
          expect(delta(one, one)).toBe(0);
          expect(delta(one, two)).toBeCloseTo(delta(two, one), 6);
          expect(delta(one, two)).toBeGreaterThanOrEqual(0);
        }
      }),
    );
  });
  it("in a*b* alone leave lightness out, and are the chroma against a neutral", () => {
    expect(deltaCab([50, 3, -4], [80, 0, 0])).toBeCloseTo(5, 12);
    expect(deltaE76([50, 3, -4], [62, 0, 0])).toBeCloseTo(13, 12);
  });
});
