/** From an area of a joined picture to the scan that it lies on: what is read off film is read off one scan. */
import { JobError } from "../../../failure.ts";
import { joinFrame, onFirst } from "../../../engine/image/join/place.ts";
import type { ReadingArea } from "../../../engine/flat-field/densitometer.ts";
import type { DecodedScan } from "../../../scans/decode.ts";
import type { FrameJoin } from "./frame-join.ts";

/**
 * @param area in fractions of the joined picture
 * @param read a scan made smaller: its full size is all that is wanted of it
 * @returns the scan, by its number and path, and the area in fractions of it
 * @throws JobError where no scan holds all of the area
 */
export async function onOneScan(
  { scans }: FrameJoin,
  area: ReadingArea,
  read: (path: string) => Promise<Pick<DecodedScan, "info">>,
): Promise<{ readonly index: number; readonly path: string; readonly area: ReadingArea }> {
  const parts = [];
  for (const { path, place } of scans) parts.push({ path, place, scan: (await read(path)).info });
  const frame = joinFrame(parts);
  const [left, top] = [area[0] * frame.width + frame.left, area[1] * frame.height + frame.top];
  const [right, bottom] = [left + area[2] * frame.width, top + area[3] * frame.height];
  for (const [index, { path, place, scan }] of parts.entries()) {
    const [px, py, degrees] = place;
    const corners = [
      [left, top],
      [right, top],
      [left, bottom],
      [right, bottom],
    ].map(([x, y]) => onFirst(x - px, y - py, 0, 0, (-degrees * Math.PI) / 180));
    const [xs, ys] = [corners.map((c) => c[0] / scan.width), corners.map((c) => c[1] / scan.height)];
    const [x, y, x1, y1] = [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
    if (x >= 0 && y >= 0 && x1 <= 1 && y1 <= 1) return { index, path, area: [x, y, x1 - x, y1 - y] };
  }
  throw new JobError({
    code: "join",
    message: "The area lies across two of the scans that this frame is joined from.",
    remedy: "Draw it smaller, or farther from where they meet.",
  });
}
