/** Tells an almost empty picture (a moon, a lamp in the night) from a leader, which shows nothing at all. */
import { median } from "../math/statistics.ts";
import { largestBox } from "../math/largest-rectangle.ts";
import type { Cells } from "./uniform-tiles.ts";

/** Parts of the scan at each side that are not looked at: rebate with its lettering, perforations, holder. */
const BORDER = 0.15;
/** Denser than most of the film by this much, the mean of the channels, is a thing. */
const DENSER = 0.1;

/**
 * Side of the largest square that is denser than most of the film, in parts of the longer side. What reaches in from the
 * border does not count: a leader is often fogged at its end.
 */
export function isolatedObject({ columns, rows, density }: Cells): number {
  const [left, top] = [Math.ceil(BORDER * columns), Math.ceil(BORDER * rows)];
  const [wide, high] = [columns - 2 * left, rows - 2 * top];
  const at = (q: number, r: number): number => {
    const i = ((top + r) * columns + left + q) * 3;
    return (density[i] + density[i + 1] + density[i + 2]) / 3;
  };
  const values = Float32Array.from({ length: wide * high }, (_, i) => at(i % wide, Math.floor(i / wide)));
  const limit = median(values) + DENSER;
  const denser = Uint8Array.from(values, (v) => (v > limit ? 1 : 0));
  const open: number[] = [];
  for (let i = 0; i < denser.length; i++) if (isAtBorder(i, wide, high)) open.push(i);
  clear(denser, open, wide, high);
  const box = largestBox(denser, wide, high);
  return box ? Math.min(box.width, box.height) / Math.max(columns, rows) : 0;
}

const isAtBorder = (i: number, wide: number, high: number): boolean =>
  i % wide === 0 || i % wide === wide - 1 || i < wide || i >= wide * (high - 1);

/** Clears what is connected to some marked places. */
function clear(marked: Uint8Array, open: number[], wide: number, high: number): void {
  for (let i = open.pop(); i !== undefined; i = open.pop()) {
    if (!marked[i]) continue;
    marked[i] = 0;
    if (i % wide > 0) open.push(i - 1);
    if (i % wide < wide - 1) open.push(i + 1);
    if (i >= wide) open.push(i - wide);
    if (i < wide * (high - 1)) open.push(i + wide);
  }
}
