import { describe, expect, test } from "vitest";
import { layOnSheet, type PaperForm, paperSize, sheetProblem } from "../../../../extension/engine/image/paper.ts";

const FORM: PaperForm = {
  paper: paperSize("A4"),
  orientation: "picture",
  border: [10, 10, 10, 10],
  fit: "whole",
  place: [0.5, 0.5],
  resolution: 254, // ten pixels a millimetre
};

test("names stand for their sides", () => {
  // ISO 216:2007, Table 1.
  expect(paperSize("A4")).toEqual([210, 297]);
  expect(paperSize("13x18cm")).toEqual([130, 180]);
  expect(paperSize("8.5x11in").map((side) => side / 25.4)).toEqual([8.5, 11]);
  expect(() => paperSize("A11")).toThrow(RangeError);
});

describe("a picture on its sheet", () => {
  test("is as large as the borders leave, in the middle; the paper lies as the picture does", () => {
    expect(layOnSheet(FORM, 300, 200)).toEqual({
      width: 2970,
      height: 2100,
      picture: [2770, 1847],
      left: 100,
      top: 127,
      shares: [1, 1],
    });
    expect(layOnSheet({ ...FORM, orientation: "portrait" }, 300, 200)).toMatchObject({ width: 2100, height: 2970 });
  });

  test("has the length that is asked for, up to the borders, and its place", () => {
    const form = { ...FORM, length: 150, place: [0, 1], border: [20, 10, 30, 10] } as const;
    expect(layOnSheet(form, 3, 2)).toMatchObject({ picture: [1500, 1000], left: 100, top: 2100 - 300 - 1000 });
    expect(layOnSheet({ ...form, length: 400 }, 3, 2).picture[1]).toBe(1600);
  });

  test("fills the space between the borders with its middle", () => {
    const filled = layOnSheet({ ...FORM, fit: "fill" }, 1000, 1000);
    expect(filled.picture).toEqual([1900, 2770]);
    expect(filled.shares[0]).toBeCloseTo(1900 / 2770, 6);
    expect(filled.shares[1]).toBe(1);
  });
});

test("a sheet that cannot be is named with its remedy", () => {
  expect(sheetProblem({ ...FORM, border: [10, 100, 10, 105] })).toMatch(/less than 10 mm/);
  // Lying, the paper is wide enough.
  expect(sheetProblem({ ...FORM, orientation: "landscape", border: [10, 100, 10, 105] })).toBeUndefined();
  expect(sheetProblem({ ...FORM, paper: [2000, 2000], resolution: 1440 })).toMatch(/Lower the resolution/);
});
