/**
 * Lateral colour judged by the witness, whose lens draws red and blue at known scales. Definition: shift of a colour's
 * picture against green's along the radius, in pixels (ISO 19084 measures chromatic displacement so; from memory). Bar:
 * at most 0.1 px is left in the corner. Constants were set by the first set of rolls alone; the others are held out.
 */
import { describe, expect, it } from "vitest";
import { pixelBox } from "../../../../extension/engine/flat-field/film-plane.ts";
import {
  fitLateralColour,
  lateralFaults,
  readLateralColour,
} from "../../../../extension/engine/lens/lateral-colour.ts";
import { lateralAt } from "../../../../extension/engine/lens/radial.ts";
import { CAMERA_B, WARM_PANEL } from "../../../witness/camera/cameras.ts";
import { SKERRY_100 } from "../../../witness/film/stocks.ts";
import { halfDiagonal, type LensRoll, photographed, planesOf } from "./rolls.ts";

const BAR = 0.1;

/** The film's picture, as a recipe's area has it. */
const read = (planes: ReturnType<typeof planesOf>) =>
  planes.map((plane) => readLateralColour(plane, pixelBox(plane, 0.05, 0.05, 0.95, 0.95)));

const rolls: readonly (readonly [string, LensRoll])[] = [
  [
    "tune",
    {
      subjects: ["quay", "meadow", "portrait", "night", "faces", "fair"],
      lens: { red: [0.0012, 0.0009], blue: [-0.001, -0.0015] },
      seed: 300,
    },
  ],
  [
    "held out: other pictures, seeds and terms",
    {
      subjects: ["market", "workbench", "pebbles", "regatta", "bracken", "rain"],
      lens: { red: [-0.0006, 0.0021], blue: [0.0016, -0.0004] },
      seed: 7100,
    },
  ],
  [
    "held out: another camera, light and film",
    {
      subjects: ["gulls", "shingle", "rigging", "fair", "seedheads", "mist"],
      lens: { red: [0.0004, -0.0008], blue: [-0.0023, 0.0006] },
      seed: 9900,
      rig: { camera: CAMERA_B, light: WARM_PANEL, stock: SKERRY_100 },
    },
  ],
  [
    "held out: a lens without faults",
    { subjects: ["hoarfrost", "night", "sundown", "lace", "snowfall", "glitter"], lens: {}, seed: 4400 },
  ],
];

describe.each(rolls)("%s", (_, roll) => {
  const scans = photographed(roll);
  const unit = halfDiagonal(scans[0]);
  const fit = fitLateralColour(read(planesOf(scans, roll.rig)))!;

  it.each(["red", "blue"] as const)("%s is known to 0.1 px all over the field", (colour) => {
    const truth = roll.lens[colour] ?? [0, 0];
    for (const r of [0.3, 0.5, 0.7, 0.9, 1]) {
      const left = r * unit * (lateralAt(fit[colour].terms, r * r) - lateralAt(truth, r * r));
      expect(Math.abs(left)).toBeLessThanOrEqual(BAR);
    }
    const off = Math.abs(fit[colour].corner - lateralAt(truth, 1));
    expect(off).toBeLessThan(4 * fit[colour].error + 0.02 / unit);
  });

  it("leaves at most 0.1 px in the corner of the corrected scans", () => {
    const corrected = planesOf(scans, roll.rig, { lateral: lateralFaults(fit) });
    const left = fitLateralColour(read(corrected))!;
    for (const { corner } of [left.red, left.blue]) expect(Math.abs(corner) * unit).toBeLessThanOrEqual(BAR);
  });
});
