/** What calibrations set in recipes: values rounded as they are written, and the edits that write them. */
import type { ChartFit } from "../../engine/calibrate/chart-fit.ts";
import type { ReadingArea } from "../../engine/flat-field/densitometer.ts";
import type { neutralise } from "../../engine/calibrate/grey.ts";
import { type FilmCurve, filmCurve } from "../../engine/film/characteristic-curve.ts";
import type { Film } from "../../engine/types.ts";
import type { CurveColumns } from "../../recipe/curve-table.ts";
import type { ValueEdit } from "../../recipe/edit/edit.ts";

/** A number with so many decimals; 0 is never −0. */
export const rounded = (value: number, decimals: number): number => Number(value.toFixed(decimals)) + 0;

/** Exposure in EV, to a twentieth. */
const stops = (value: number): number => rounded(Math.round(value * 20) / 20, 2);

/** What a fitted chart sets. */
export interface ChartValues {
  readonly unmix: readonly (readonly number[])[];
  readonly colour: readonly (readonly number[])[];
  /** In CC; belongs to the matrices. */
  readonly filtration: { readonly cyan: number; readonly magenta: number; readonly yellow: number };
  /** EV, of the frame that shows the chart. */
  readonly exposure: number;
  /** For the recipe of the roll or of its stock; a slide has no negative's curve and no filters. */
  readonly edits: readonly ValueEdit[];
}

export function chartValues(fit: ChartFit, film: Film): ChartValues {
  const unmix = fit.unmix.map((row) => row.map((v) => rounded(v, 3)));
  // Rows of colour sum to 1 to the last digit that is written.
  const colour = fit.colour.map(([a, b]) => {
    const [first, second] = [rounded(a, 3), rounded(b, 3)];
    return [first, second, rounded(1 - first - second, 3)];
  });
  const half = (v: number): number => Math.round(2 * v) / 2 + 0;
  const filtration = { cyan: half(fit.filtration.cyan), magenta: 0, yellow: half(fit.filtration.yellow) };
  const negative: ValueEdit[] = [
    { path: ["negative", "curve"], value: fit.curve },
    { path: ["negative", "gamma"], value: undefined },
    { path: ["negative", "unmix"], value: unmix },
    { path: ["positive", "filtration"], value: filtration },
  ];
  const edits = [...(film === "slide" ? [] : negative), { path: ["negative", "colour"], value: colour }];
  return { unmix, colour, filtration, exposure: stops(fit.exposure), edits };
}

/** The edit that sets one frame's exposure. */
export const exposureEdit = (frame: string, exposure: number): ValueEdit => ({
  path: ["frames", frame, "positive", "exposure"],
  value: exposure,
});

/** What a grey card sets: filtration in CC for the roll, exposure in EV for the frame that shows it. */
export function greyValues({ filtration, exposure }: ReturnType<typeof neutralise>) {
  const tenth = (v: number): number => rounded(v, 1);
  return {
    filtration: {
      cyan: tenth(filtration.cyan),
      magenta: tenth(filtration.magenta),
      yellow: tenth(filtration.yellow),
    },
    exposure: stops(exposure),
  };
}

/** The curves of a table by channel, and the edits that write them; they take the place of a gamma. */
export function curveValues({ logH, densities }: CurveColumns): {
  readonly curves: readonly (readonly [channel: string, curve: FilmCurve])[];
  readonly edits: readonly ValueEdit[];
} {
  const curves = Object.entries(densities).map(([name, d]) => [name, filmCurve(logH, d)] as const);
  // The recipe's table must not fall, as a digitised toe may do by a hair.
  const level = (curve: FilmCurve): number[] => logH.map((x) => rounded(curve.at(x), 4));
  const value = {
    logH: logH.map((x) => rounded(x, 4)),
    ...Object.fromEntries(curves.map(([name, curve]) => [name, level(curve)])),
  };
  return {
    curves,
    edits: [
      { path: ["negative", "curve"], value },
      { path: ["negative", "gamma"], value: undefined },
    ],
  };
}

/** Left, top, width and height that a text states in fractions of a scan; undefined where they do not lie within it. */
export function areaOf(text: string): ReadingArea | undefined {
  const numbers = text.split(",").map((part) => (part.trim() === "" ? NaN : Number(part)));
  const [left = NaN, top = NaN, width = NaN, height = NaN] = numbers;
  const isWithin = left >= 0 && top >= 0 && width > 0 && height > 0 && left + width <= 1 && top + height <= 1;
  return numbers.length === 4 && isWithin ? [left, top, width, height] : undefined;
}
