import { expect, test } from "vitest";
import type { ChartFit } from "../../../../extension/engine/calibrate/chart-fit.ts";
import { readCurveTable } from "../../../../extension/recipe/curve-table.ts";
import {
  areaOf,
  chartValues,
  curveValues,
  greyValues,
} from "../../../../extension/work/calibrate/calibration-values.ts";

const fit = {
  unmix: [
    [1.02345, -0.01, -0.00001],
    [0, 1, 0],
    [0, 0, 1],
  ],
  colour: [
    [1.11111, -0.05555, -0.05556],
    [0.33333, 0.33333, 0.33334],
    [0, 0, 1],
  ],
  curve: { logH: [0, 1], density: [0.1, 0.7] },
  filtration: { cyan: 3.26, magenta: 0.4, yellow: -0.2 },
  exposure: 0.333,
} as unknown as ChartFit;

test("a chart's values are rounded as they are written, and rows of colour sum to 1", () => {
  const { colour, filtration, exposure, unmix, edits } = chartValues(fit, "colour-negative");
  for (const row of colour) expect(row.reduce((a, b) => a + b)).toBeCloseTo(1, 12);
  expect(filtration).toEqual({ cyan: 3.5, magenta: 0, yellow: 0 });
  expect(exposure).toBe(0.35);
  expect(Object.is(unmix[0]![2], 0)).toBe(true);
  expect(edits.map(({ path }) => path.join("."))).toEqual([
    "negative.curve",
    "negative.gamma",
    "negative.unmix",
    "positive.filtration",
    "negative.colour",
  ]);
});

test("a slide has no curve of a negative and no filters", () => {
  expect(chartValues(fit, "slide").edits.map(({ path }) => path.join("."))).toEqual(["negative.colour"]);
});

test("a grey card's filtration is in tenths of a CC, its exposure in twentieths of an EV", () => {
  const values = greyValues({ filtration: { cyan: -0.04, magenta: 4.26, yellow: 7.01 }, exposure: -0.48 });
  expect(values).toEqual({ filtration: { cyan: 0, magenta: 4.3, yellow: 7 }, exposure: -0.5 });
});

test("the curve of a table never falls, and takes the place of a gamma", () => {
  const table = readCurveTable("logH,density\n-3,0.2\n-2,0.199\n-1,0.6\n0,1.2\n", "toe.csv");
  const [curve, gamma] = curveValues(table).edits;
  const densities = (curve!.value as unknown as { density: number[] }).density;
  expect(densities).toEqual(densities.toSorted((a, b) => a - b));
  expect(gamma).toEqual({ path: ["negative", "gamma"], value: undefined });
});

test("an area is four fractions within the scan", () => {
  expect(areaOf("0.4, 0.45,0.1, 0.1")).toEqual([0.4, 0.45, 0.1, 0.1]);
  for (const wrong of [
    "",
    "0.4, 0.4, 0.1",
    "0.95, 0.4, 0.1, 0.1",
    "-0.1, 0, 0.1, 0.1",
    "0, 0, 0, 0.1",
    "a, b, c, d",
    "0,0,1,1,1",
  ])
    expect([wrong, areaOf(wrong)]).toEqual([wrong, undefined]);
});
