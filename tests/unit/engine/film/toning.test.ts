import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import { labOf, lightnessOf, luminanceOf } from "../../../../extension/engine/colour/lab.ts";
import { conversion, SPACES, toD50 } from "../../../../extension/engine/colour/spaces.ts";
import { printColour, toneShares } from "../../../../extension/engine/film/toning.ts";
import { apply } from "../../../../extension/engine/math/matrix.ts";
import type { Film, Hue, OutputSpace, Rgb, Toning } from "../../../../extension/engine/types.ts";
import { between } from "../looks.ts";

const NONE: Hue = { hue: 0, strength: 0 };
const PLAIN: Toning = { shadows: NONE, highlights: NONE, paper: NONE };
const spaces = fc.constantFrom<OutputSpace>("srgb", "p3", "adobe", "romm");

function colourOf(
  toning: Toning,
  y: number,
  space: OutputSpace = "srgb",
  film: Film = "black-and-white-negative",
): Rgb {
  const colour = printColour({ film, toning }, space);
  return colour ? [colour(0, y), colour(1, y), colour(2, y)] : [y, y, y];
}
const labIn = (space: OutputSpace, rgb: Rgb) => labOf(apply(toD50(SPACES[space]), rgb));
const hueOf = (a: number, b: number): number => ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;

describe("toned silver", () => {
  const toned = fc.record({ shadows: hue(60), highlights: hue(60), paper: fc.constant(NONE) });

  it("keeps the L* of every tone, in every space", () => {
    fc.assert(
      fc.property(toned, between(0, 100), spaces, (toning, lightness, space) => {
        const rgb = colourOf(toning, luminanceOf(lightness), space);
        for (const v of rgb) expect(v).toBeGreaterThanOrEqual(0);
        for (const v of rgb) expect(v).toBeLessThanOrEqual(1);
        expect(labIn(space, rgb)[0]).toBeCloseTo(lightness, 3);
      }),
    );
  });
  it("is one colour whatever the space that it is written in", () => {
    fc.assert(
      fc.property(toned, between(0, 100), spaces, (toning, lightness, space) => {
        const y = luminanceOf(lightness);
        const there = apply(conversion(SPACES[space], SPACES.srgb), colourOf(toning, y, space));
        colourOf(toning, y).forEach((v, c) => expect(there[c]).toBeCloseTo(v, 3));
      }),
    );
  });
  it("has the hue and the chroma that it states, at mid-grey, in the shadows and in the highlights", () => {
    const [warm, cool] = [
      { hue: 70, strength: 12 },
      { hue: 250, strength: 8 },
    ];
    const both = labIn("srgb", colourOf({ ...PLAIN, shadows: warm, highlights: warm }, luminanceOf(50)));
    expect(Math.hypot(both[1], both[2])).toBeCloseTo(12, 3);
    expect(hueOf(both[1], both[2])).toBeCloseTo(70, 2);
    const split = { ...PLAIN, shadows: cool, highlights: warm };
    const [dark, light] = [20, 80].map((l) => labIn("srgb", colourOf(split, luminanceOf(l))));
    expect(dark![2]).toBeLessThan(-4);
    expect(light![2]).toBeGreaterThan(6);
    // Shares change places about the middle, and vanish at both ends.
    expect(toneShares(50)[0]).toBeCloseTo(0.5, 12);
    expect([...toneShares(0), ...toneShares(100)].every((s) => Math.abs(s) < 1e-12)).toBe(true);
  });
  it("leaves film with colours alone", () => {
    const toning = { ...PLAIN, shadows: { hue: 60, strength: 20 } };
    expect(printColour({ film: "colour-negative", toning }, "srgb")).toBeUndefined();
    expect(printColour({ film: "black-and-white-negative", toning: PLAIN }, "srgb")).toBeUndefined();
    expect(printColour({ film: "black-and-white-negative" }, "srgb")).toBeUndefined();
  });
});

describe("the paper's base", () => {
  it("colours white by its hue and chroma, as light as such a colour can be, on any film", () => {
    fc.assert(
      fc.property(between(0, 360), between(0.5, 30), (angle, strength) => {
        const paper = { hue: angle, strength };
        const white = colourOf({ ...PLAIN, paper }, 1, "srgb", "colour-negative");
        expect(Math.max(...white)).toBeCloseTo(1, 4);
        const [lightness, a, b] = labIn("srgb", white);
        expect(lightness).toBeGreaterThan(60);
        expect(Math.hypot(a, b)).toBeCloseTo(strength, 1);
      }),
    );
  });
  it("takes the same part of the light from every tone", () => {
    const toning = { ...PLAIN, paper: { hue: 85, strength: 6 } };
    const white = colourOf(toning, 1);
    const grey = colourOf(toning, 0.18);
    grey.forEach((v, c) => expect(v / white[c]!).toBeCloseTo(0.18, 9));
    expect(lightnessOf(white[1])).toBeGreaterThan(95);
  });
});

function hue(strongest: number): fc.Arbitrary<Hue> {
  return fc.record({ hue: between(0, 360), strength: between(0, strongest) });
}
