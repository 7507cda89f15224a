/** Checks the positive: toe and shoulder of its version, its tone points, and toning that the film cannot have. */
import type { RecipePath } from "../../path.ts";
import type { Value } from "../../yaml/values.ts";
import { type Checked, fields, list, numbers, stated, text } from "./check.ts";

/** Toning of silver is for film that gives silver. The tone points ascend in lightness before, and do not fall in lightness after. */
export function checkPositive({ root, report }: Checked): void {
  const film = text(root.film) ?? (root.stock === undefined ? "colour-negative" : undefined);
  const isFirst = root["version"] === 1;
  for (const { path, value } of stated(root, "positive")) {
    if (isFirst) checkToneOfVersion1(report, path, value);
    const toning = fields(fields(value)?.toning);
    for (const part of ["shadows", "highlights"])
      if (toning?.[part] !== undefined && film !== undefined && film !== "black-and-white-negative")
        report(
          "without-effect",
          [...path, "toning", part],
          `Toning of ${part} colours the silver of black-and-white prints; this film is ${film}. Remove it, or state the paper's colour in toning.paper.`,
          { part: "key", data: { key: part } },
        );
    const points = list(fields(value)?.curve)?.map(numbers);
    if (!points?.every((point) => point?.length === 2)) continue;
    const here = [...path, "curve"];
    if (points.length === 1)
      report(
        "wrong-length",
        here,
        "One point makes no curve. Give two points or more, for example [[0, 0], [50, 55], [100, 100]].",
        { data: { minimum: 2 } },
      );
    for (let i = 1; i < points.length; i++) {
      const [x0, y0] = points[i - 1] as [number, number];
      const [x1, y1] = points[i] as [number, number];
      if (x1 <= x0)
        report(
          "not-ascending",
          [...here, i, 0],
          `The points of a tone curve ascend, but L* ${x1} follows ${x0}. Sort the points.`,
        );
      else if (y1 < y0)
        report(
          "not-monotone",
          [...here, i, 1],
          `A tone curve does not fall, but L* ${y1} follows ${y0}. Raise this point or lower the one before.`,
        );
    }
  }
}

/** In version 1 toe and shoulder begin at 0. */
function checkToneOfVersion1(report: Checked["report"], path: RecipePath, positive: Value): void {
  for (const end of ["toe", "shoulder"] as const) {
    const value = fields(positive)?.[end];
    if (typeof value === "number" && value < 0)
      report(
        "out-of-range",
        [...path, end],
        `In version 1 ${end} is 0 to 1, not ${value}. Upgrade the recipe to version 2 to close or hold back tones.`,
        { data: { nearest: 0, minimum: 0, maximum: 1 } },
      );
  }
}
