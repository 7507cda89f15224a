/**
 * Grids of scans in any order, photographed by the witness, whose truth says where each lies. The search and its limits were
 * tuned on the tuning grids alone; the held-out ones have other subjects, seeds and faults.
 */
import { describe, expect, it } from "vitest";
import { measureJoin } from "../../../../../extension/engine/image/join/measure.ts";
import { joinPlane } from "../../../../../extension/engine/image/join/plane.ts";
import { canvas, clouds } from "../../survey/subjects/canvas.ts";
import { type GridOptions, type GridShot, photographGrid, seamErrors } from "./grid.ts";

/** What is asked for, in pixels of the full scan. */
const BAR = 0.3;

const USUAL = { rows: 2, columns: 3, overlap: 0.28, turned: 0.5, moved: 0.02, stops: 0.2 } as const;
const TUNING: GridOptions = { ...USUAL, subject: "quay", seed: 1 };
const HELD_OUT: readonly GridOptions[] = [
  { ...USUAL, subject: "workbench", seed: 21, distortion: [0.012, 0] },
  { ...USUAL, subject: "bracken", seed: 22, rows: 3, overlap: 0.25, distortion: [-0.008, 0.002] },
];

/** A clear sky over a low shore: the upper row of scans shows nothing but its gradient and the film's grain. */
function sky(width: number, height: number) {
  const hills = clouds(5);
  return canvas(width, height, (u, v) =>
    v > 0.82 + 0.04 * hills(u, 0.3)
      ? [0.03 + 0.05 * hills(u * 9, v * 9), 0.05, 0.03]
      : [0.2 + 0.2 * v, 0.3 + 0.2 * v, 0.5],
  );
}
const SKY: GridOptions = { ...USUAL, subject: sky, seed: 31, half: true };

const planesOf = (shots: readonly GridShot[]) => shots.map(({ scan, light }) => joinPlane(scan, light));

describe.each([
  ["tuning", TUNING],
  ["held out", HELD_OUT[0]!],
  ["held out", HELD_OUT[1]!],
  ["held out, a clear sky", SKY],
] as const)("a grid (%s)", (_, options) => {
  const shots = photographGrid(options);
  const { places, apart, overlaps, residual } = measureJoin(planesOf(shots));

  it("has every scan within 0.3 px of its neighbours, and around every loop", () => {
    expect(apart).toEqual([]);
    // Every pair of neighbours, and some across a corner.
    const { rows, columns } = options;
    expect(overlaps.length).toBeGreaterThanOrEqual(rows * (columns - 1) + columns * (rows - 1));
    const errors = seamErrors(shots, places);
    expect(errors.length).toBeGreaterThan(500);
    expect(Math.max(...errors)).toBeLessThan(BAR);
    // Of patches, some of which show little.
    expect(residual).toBeLessThan(0.5);
  });

  it("has every scan's exposure", () => {
    const first = shots.findIndex((__, i) => places[i]?.[0] === 0 && places[i]?.[1] === 0);
    const off = shots.map(({ stops }, i) => {
      const exposure = places[i]![3] as readonly [number, number, number];
      return exposure[1] + stops - shots[first]!.stops;
    });
    // Flare differs with what each scan shows, and only its mean is taken off.
    expect(Math.max(...off.map(Math.abs))).toBeLessThan(0.03);
  });
});

describe("a grid that is not whole", () => {
  const shots = photographGrid({ ...TUNING, half: true });
  const planes = planesOf(shots);
  const at = (row: number, column: number): number => shots.findIndex((s) => s.row === row && s.column === column);

  it("is laid without the scan that is missing", () => {
    const left = shots.filter((_, i) => i !== at(0, 1));
    const { places, apart } = measureJoin(planesOf(left));
    expect(apart).toEqual([]);
    expect(Math.max(...seamErrors(left, places))).toBeLessThan(BAR);
  });

  it("names a scan that the missing one leaves alone", () => {
    // Without the middle column the right one overlaps nothing.
    const ends = [at(0, 0), at(1, 0), at(0, 2)];
    const { apart } = measureJoin(ends.map((i) => planes[i]!));
    expect(apart).toEqual([2]);
  });

  it("names a scan of another sheet, and lays the others", () => {
    const other = photographGrid({ ...USUAL, rows: 1, columns: 1, subject: "portrait", seed: 33, half: true })[0]!;
    const { places, apart } = measureJoin([
      ...planes.slice(0, 3),
      joinPlane(other.scan, other.light),
      ...planes.slice(3),
    ]);
    expect(apart).toEqual([3]);
    const all = [...places.slice(0, 3), ...places.slice(4)];
    expect(Math.max(...seamErrors(shots, all))).toBeLessThan(BAR);
  });
});
