/** What a name says of a file: its kind, whether it is taken for a scan, and whether it may be written as one. */
import { expect, it } from "vitest";
import { isScanPath, mayBeScanName, scanKind } from "../../../extension/recipe/scan-names.ts";

it.each([
  ["A.DNG", "raw", true],
  ["A.tiff", "tiff", true],
  ["A.jpg", "jpeg", true],
  ["A.xyz", undefined, false],
  ["A.xmp", undefined, false],
  [".A.dng", "raw", false],
  ["folder/.A.dng", "raw", false],
  ["__MACOSX/A.dng", "raw", false],
] as const)("%s is of kind %s, and taken without asking: %s", (path, kind, isTaken) => {
  expect(scanKind(path)).toBe(kind);
  expect(isScanPath(path)).toBe(isTaken);
});

it.each([
  ["A.dng", true],
  ["A.xyz", true],
  ["A.xmp", false],
  ["roll.yaml", false],
  ["dng", false],
  [".A.dng", false],
])("%s may be written as a scan: %s", (name, isOffered) => {
  expect(mayBeScanName(name)).toBe(isOffered);
});
