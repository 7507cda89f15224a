import { describe, expect, test } from "vitest";
import { pathProblem } from "../../../../../extension/recipe/paths.ts";
import { unwritableName } from "../../../../../extension/work/new-roll/scans/unwritable-name.ts";

describe("names of scans that a recipe cannot hold", () => {
  test.each([
    ["a:b.dng", "a-b.dng"],
    ["12:30:05.dng", "12-30-05.dng"],
    ["nul.dng", "scan-nul.dng"],
    ["COM1.tif", "scan-COM1.tif"],
    ["a\nb.dng", "a-b.dng"],
    ["a\u009bb.dng", "a-b.dng"],
    ["a\\b.dng", "a-b.dng"],
    [":.dng", "-.dng"],
    ["aux:.dng", "aux-.dng"],
  ])("%j is named, with another name that will do", (name, other) => {
    const message = unwritableName(name);
    expect(message).toContain(`Rename it, for example to "${other}"`);
    expect(pathProblem(other)).toBeUndefined();
    // eslint-disable-next-line no-control-regex
    expect(message).not.toMatch(/[\u0000-\u001f\u007f-\u009f]/);
  });

  test.each([
    "H0001.dng",
    "a b.dng",
    "é.dng",
    "朝.dng",
    "a#b.dng",
    "-x.dng",
    "it's.dng",
    "a.b.dng",
    "%x.dng",
    "!x.dng",
  ])("%j can stand in a recipe", (name) => {
    expect(unwritableName(name)).toBeUndefined();
  });
});
