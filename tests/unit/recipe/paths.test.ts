import { describe, expect, test } from "vitest";
import { folderOf, joinPath, resolveInside } from "../../../extension/recipe/paths.ts";

describe("paths in recipes", () => {
  test.each([
    ["", "harbour/h.roll.yaml", "../stocks/n.stock.yaml", "stocks/n.stock.yaml"],
    ["", "h.roll.yaml", "./scans/./a.dng", "scans/a.dng"],
    ["", "harbour/h.roll.yaml", "scans\\a.dng", "harbour/scans/a.dng"],
    ["", "harbour/h.roll.yaml", "..a/b..c.dng", "harbour/..a/b..c.dng"],
    ["/work", "/work/harbour/h.roll.yaml", "../stocks/n.stock.yaml", "/work/stocks/n.stock.yaml"],
    ["C:\\work", "C:\\work\\harbour\\h.roll.yaml", "..\\stocks\\n.stock.yaml", "C:/work/stocks/n.stock.yaml"],
    [["/work", "/archive"], "/work/h.roll.yaml", "../archive/a.dng", "/archive/a.dng"],
    ["", "h.roll.yaml", "ümläut und leer/a b.dng", "ümläut und leer/a b.dng"],
    ["", "h.roll.yaml", "console/nullpunkt.dng", "console/nullpunkt.dng"],
  ])("root %s, %s: %s leads to %s", (root, file, path, wanted) => {
    expect(resolveInside(root, file, path)).toEqual({ path: wanted });
  });

  test.each([
    ["", "h.roll.yaml", "", "it is empty"],
    ["", "h.roll.yaml", "../a.dng", "it leads out of the workspace"],
    ["", "a/h.roll.yaml", "..\\..\\a.dng", "it leads out of the workspace"],
    ["/work", "/work/h.roll.yaml", "../work2/a.dng", "it leads out of the workspace"],
    ["/work", "/work/h.roll.yaml", "x/../../../a.dng", "it leads out of the workspace"],
    ["/work", "/other/h.roll.yaml", "a.dng", "it leads out of the workspace"],
    ["", "h.roll.yaml", "/etc/passwd", "it is absolute"],
    ["", "h.roll.yaml", "\\windows\\a.dng", "it is absolute"],
    ["", "h.roll.yaml", "C:a.dng", "it begins with a drive letter"],
    ["", "h.roll.yaml", "\\\\server\\share\\a.dng", "it names a network share"],
    ["", "h.roll.yaml", "//server/share/a.dng", "it names a network share"],
    ["", "h.roll.yaml", "\\\\?\\C:\\a.dng", "it names a network share"],
    ["", "h.roll.yaml", "file:///etc/passwd", "it is an address, not a file"],
    ["", "h.roll.yaml", "a.dng\0.tif", "it contains control characters"],
    ["", "h.roll.yaml", "scans/a.dng:stream", "it contains a colon"],
    ["", "h.roll.yaml", "scans/nul.dng", "it names a device"],
    ["", "h.roll.yaml", "COM1/a.dng", "it names a device"],
    ["", "h.roll.yaml", "scans./a.dng", "a part of it ends in a dot or a blank"],
    ["", "h.roll.yaml", "scans/.. /.. /a.dng", "a part of it ends in a dot or a blank"],
    ["", "h.roll.yaml", ".../a.dng", "a part of it ends in a dot or a blank"],
  ])("root %s, %s: %j is refused because %s", (root, file, path, why) => {
    expect(resolveInside(root, file, path)).toEqual({ problem: why });
  });

  test("folders and joins", () => {
    expect(["a/b.yaml", "b.yaml", "/b.yaml", "C:\\a\\b.yaml"].map(folderOf)).toEqual(["a", "", "/", "C:/a"]);
    expect([joinPath("a/b", "../c"), joinPath("", ".."), joinPath("/a", "../../b"), joinPath("/", "a")]).toEqual([
      "a/c",
      undefined,
      undefined,
      "/a",
    ]);
  });
});
