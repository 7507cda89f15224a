/** A renamed scan keeps its place in the roll. */
import { expect, it } from "vitest";
import { renameEdits } from "../../../../../extension/work/copy-stand/recipe/rename-edits.ts";
import type { RollView } from "../../../../../extension/work/copy-stand/recipe/roll-view.ts";

const view = {
  blank: "LIGHT.dng",
  frames: [
    { id: "01", scans: ["A.dng"], unused: [] },
    { id: "02", scans: ["B.dng", "C.dng"], unused: ["A.dng", "D.dng"] },
  ],
} as unknown as RollView;

it.each([
  ["LIGHT.dng", [{ path: ["light", "blank"], value: "new.dng" }]],
  [
    "A.dng",
    [
      { path: ["frames", "01", "scan"], value: "new.dng" },
      { path: ["frames", "02", "unused"], value: ["new.dng", "D.dng"] },
    ],
  ],
  ["C.dng", [{ path: ["frames", "02", "scans"], value: ["B.dng", "new.dng"] }]],
  ["Z.dng", []],
])("%s is renamed wherever the roll names it", (from, edits) => {
  expect(renameEdits(view, from, "new.dng")).toEqual(edits);
});

const merged = {
  blank: "G0.dng",
  threeBlanks: ["G0.dng", "R0.dng", "B0.dng"],
  frames: [
    { id: "01", scans: ["G1.dng", "R1.dng", "B1.dng"], key: "channels", unused: [] },
    { id: "02", scans: ["E1.dng", "E2.dng"], key: "exposures", unused: [] },
  ],
} as unknown as RollView;

it.each([
  ["G0.dng", [{ path: ["light", "blank", "green"], value: "new.dng" }]],
  ["B0.dng", [{ path: ["light", "blank", "blue"], value: "new.dng" }]],
  ["R1.dng", [{ path: ["frames", "01", "channels", "red"], value: "new.dng" }]],
  ["E2.dng", [{ path: ["frames", "02", "exposures"], value: ["E1.dng", "new.dng"] }]],
])("%s of several lights or exposures is renamed at its own key", (from, edits) => {
  expect(renameEdits(merged, from, "new.dng")).toEqual(edits);
});
