/** Numbers of pictures that lie on one scan, by codes of ISO 1007 as a reader would return them; the scale is invented. */
import { describe, expect, it } from "vitest";
import type { FirstPassScan } from "../../../../../extension/engine/auto/roll/first-pass.ts";
import { frameNames, rollEdge } from "../../../../../extension/work/new-roll/edge/roll-edge.ts";
import type { FoundPicture } from "../../../../../extension/work/new-roll/pictures/found-picture.ts";
import type { Shot } from "../../../../../extension/work/new-roll/pictures/join-shots.ts";
import type { EdgeCode } from "../../../../../extension/scans/edge-codes/read-edge-codes.ts";

/** Scan widths per millimetre: 160 mm across the scan. */
const SCALE = 1 / 160;
const SIZES = { width: 1600, height: 800 };

/** A strip of four; the code of each number begins 2.8 mm before the middle of its picture. */
function strip(name: string, first: number): Shot[] {
  const middle = (k: number): number => (4 + 18 + 38 * k) * SCALE;
  const codes = [0, 1, 2, 3].map((k): EdgeCode => ({
    film: "36-2",
    names: [],
    frame: first + k,
    centre: [middle(k) + 4.5 * SCALE, 0.66],
    direction: [1, 0],
    pixelsPerMm: SCALE,
  }));
  return [0, 1, 2, 3].map((k): Shot => {
    const area = { left: middle(k) - 18 * SCALE, top: 0.35, width: 36 * SCALE, height: 0.3, tilt: 0 };
    const seen = { codes, frame: { area } } as unknown as FoundPicture;
    return { name, path: name, seen, part: [k + 1, 4] };
  });
}

const scan = (name: string): FirstPassScan => ({ name, info: SIZES }) as unknown as FirstPassScan;

describe("pictures of strips", () => {
  const shown = [...strip("A.dng", 3), ...strip("B.dng", 7)];
  const frames = shown.map(({ name, seen, part }) => ({ scans: [name], seen, part }));

  it("have the numbers that the film's edge has beside them", () => {
    const { edge } = rollEdge([scan("A.dng"), scan("B.dng")], shown);
    expect(frameNames({ frames, shown }, edge, undefined)).toEqual(["03", "04", "05", "06", "07", "08", "09", "10"]);
  });

  it("are counted where one number would stand twice", () => {
    const again = [...strip("A.dng", 3), ...strip("B.dng", 6)];
    const { edge } = rollEdge([scan("A.dng"), scan("B.dng")], again);
    const names = frameNames(
      { frames: again.map(({ name, seen, part }) => ({ scans: [name], seen, part })), shown: again },
      edge,
      undefined,
    );
    expect(names).toEqual(["01", "02", "03", "04", "05", "06", "07", "08"]);
  });
});
