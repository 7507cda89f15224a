/** Checks the negative: base, gamma, curve and matrices. */
import { determinant } from "../../../engine/math/matrix.ts";
import type { RecipePath } from "../../path.ts";
import { type Checked, fields, type Fields, list, numbers, stated, text } from "./check.ts";

/** Base, gamma, curve and matrices, wherever they are stated. */
export function checkNegative(checked: Checked): void {
  // Where the stock may say what film it is, the check waits until the stock is known.
  checkMask(checked, text(checked.root.film) ?? (checked.root.stock === undefined ? "colour-negative" : undefined));
  for (const { path, value } of stated(checked.root, "negative")) {
    const negative = fields(value);
    if (!negative) continue;
    checkBase(checked, negative, path);
    if (negative.gamma !== undefined && negative.curve !== undefined)
      checked.report(
        "gamma-and-curve",
        [...path, "gamma"],
        "Both gamma and curve are stated here; the film's slope comes from one of them. Remove one.",
        {
          part: "key",
          data: { key: "gamma" },
          see: { path: [...path, "curve"], part: "key", message: "the curve" },
        },
      );
    checkCurve(checked, fields(negative.curve), [...path, "curve"]);
    checkMatrices(checked, negative, path);
  }
}

/** The mask of colour negative film absorbs blue most and red least. Without a blank the light's colour is in it too. */
export function checkMask({ root, report }: Checked, film: string | undefined): void {
  const blank = stated(root, "light").some(({ value }) => fields(value)?.blank !== undefined);
  if (!blank || film !== "colour-negative") return;
  for (const { path, value } of stated(root, "negative")) {
    const density = numbers(fields(fields(value)?.base)?.density);
    if (density?.length !== 3 || density.every((d) => d === 0)) continue;
    const [red, green, blue] = density as [number, number, number];
    if (!(blue > green && green > red))
      report(
        "base-implausible",
        [...path, "base", "density"],
        "The base of masked colour negative film is densest in blue and thinnest in red. Was the reading taken on the rebate? For film without a mask, ignore this.",
      );
  }
}

function checkBase({ report }: Checked, negative: Fields, path: RecipePath): void {
  const [left = 0, top = 0, width = 0, height = 0] = numbers(fields(fields(negative.base)?.read)?.area) ?? [];
  if (left + width > 1 + 1e-9 || top + height > 1 + 1e-9)
    report(
      "area-outside",
      [...path, "base", "read", "area"],
      "The area leaves the scan: left plus width, and top plus height, may be at most 1.",
    );
}

function checkCurve({ report }: Checked, curve: Fields | undefined, path: RecipePath): void {
  if (!curve) return;
  const logH = numbers(curve.logH);
  const channels = ["red", "green", "blue"].filter((key) => curve[key] !== undefined);
  if (curve.density !== undefined && channels.length > 0)
    report(
      "curve-incomplete",
      [...path, "density"],
      "Give red, green and blue for colour film, or density alone for black-and-white film.",
      { part: "key", data: { key: "density" } },
    );
  else if (curve.density === undefined && channels.length < 3) {
    const missing = ["red", "green", "blue"].filter((key) => !channels.includes(key));
    report(
      "curve-incomplete",
      path,
      `The curve lacks densities. Add ${missing.join(", ")}${channels.length === 0 ? ", or density alone for black-and-white film" : ""}, one value for each exposure.`,
      { part: "key", data: { key: missing[0]! } },
    );
  }
  if (logH) {
    const at = logH.findIndex((value, i) => i > 0 && value <= logH[i - 1]!);
    if (at > 0)
      report(
        "not-ascending",
        [...path, "logH", at],
        `The exposures of a curve ascend, but ${logH[at]} follows ${logH[at - 1]}. Sort the table.`,
      );
  }
  for (const key of ["red", "green", "blue", "density"]) {
    const densities = numbers(curve[key]);
    if (!densities) continue;
    if (logH && densities.length !== logH.length)
      report(
        "curve-lengths",
        [...path, key],
        `${key} has ${densities.length} values, logH has ${logH.length}. Each density belongs to one exposure.`,
        { see: { path: [...path, "logH"], message: `${logH.length} exposures` } },
      );
    const at = densities.findIndex((value, i) => i > 0 && value < densities[i - 1]!);
    if (at > 0)
      report(
        "not-monotone",
        [...path, key, at],
        `Density does not fall as exposure rises, but ${densities[at]} follows ${densities[at - 1]}. Smooth the table.`,
      );
    else if (densities.length > 1 && densities.every((d) => d === densities[0]))
      report(
        "not-monotone",
        [...path, key],
        `${key} is the same at every exposure. A film's density rises with exposure.`,
      );
  }
}

function checkMatrices({ report }: Checked, negative: Fields, path: RecipePath): void {
  for (const key of ["unmix", "colour"]) {
    const rows = list(negative[key])?.map(numbers);
    if (rows?.length !== 3 || !rows.every((row) => row?.length === 3)) continue;
    const matrix = rows as unknown as Parameters<typeof determinant>[0];
    if (Math.abs(determinant(matrix)) < 1e-6)
      report(
        "singular-matrix",
        [...path, key],
        `${key} cannot be inverted: its rows are not independent, so colours would be lost. Check the numbers.`,
      );
    if (key !== "colour") continue;
    for (const [i, row] of matrix.entries()) {
      const sum = row[0] + row[1] + row[2];
      if (Math.abs(sum - 1) > 0.01)
        report(
          "colour-rows",
          [...path, key, i],
          `This row adds up to ${Number(sum.toFixed(4))}, so neutrals would take on a tint. Each row of colour adds up to 1 (±0.01).`,
        );
    }
  }
}
