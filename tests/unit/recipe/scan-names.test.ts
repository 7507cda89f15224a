/** What a name says of a file: its kind, whether it is taken for a scan, and whether it may be written as one. */
import { expect, it } from "vitest";
import { isScanPath, mayBeScanName, scanKind } from "../../../extension/recipe/scan-names.ts";

it.each([
  ["A.DNG", "raw", true, true],
  ["A.tiff", "tiff", true, true],
  ["A.jpg", "jpeg", true, true],
  ["A.xyz", undefined, false, true],
  ["A.xmp", undefined, false, false],
  ["roll.yaml", undefined, false, false],
  ["dng", undefined, false, false],
  [".A.dng", "raw", false, false],
  ["folder/.A.dng", "raw", false, undefined],
  ["__MACOSX/A.dng", "raw", false, undefined],
] as const)("%s is of kind %s", (name, kind, isTaken, isOffered) => {
  expect(scanKind(name)).toBe(kind);
  expect(isScanPath(name)).toBe(isTaken);
  if (isOffered !== undefined) expect(mayBeScanName(name)).toBe(isOffered);
});
