/** Checks the positive's tone points. */
import { type Checked, fields, list, numbers, stated } from "./check.ts";

/** The tone points ascend in lightness before, and do not fall in lightness after. */
export function checkPositive({ root, report }: Checked): void {
  for (const { path, value } of stated(root, "positive")) {
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
