import { describe, expect, it } from "vitest";
import { composeRecipe, withComments } from "../../../../extension/recipe/edit/compose.ts";
import { CurveTableError, readCurveTable } from "../../../../extension/recipe/curve-table.ts";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { formatRecipe } from "../../../../extension/recipe/edit/layout/format.ts";
import { stockFromRoll } from "../../../../extension/recipe/edit/stock-from-roll.ts";
import { resolveRoll } from "../../../../extension/recipe/resolve/resolve.ts";
import type { FirstPassScan } from "../../../../extension/engine/auto/roll/first-pass.ts";
import { rolesOf } from "../../../../extension/engine/auto/roll/scan-roles.ts";
import { byName, inOrder, scanFiles } from "../../../../extension/work/new-roll/scans/sort-scans.ts";
import { overlapOf, type DensityMap } from "../../../../extension/engine/detect/overlap.ts";

describe("composing a recipe", () => {
  const text = composeRecipe({
    kind: "roll",
    head: "Begun by hand.",
    values: [
      { path: ["title"], value: "Quay: #1 'first'" },
      { path: ["frames", "01", "scan"], value: "A.dng" },
      { path: ["frames", "01", "area"], value: { left: 0.1, top: 0.1, width: 0.8, height: 0.8, tilt: -0.4 } },
      { path: ["negative", "base", "density"], value: [0.3, 0.6, 0.7] },
      { path: ["light", "flare"], value: undefined },
    ],
    comments: [
      { path: ["frames", "01", "area"], text: `A long remark ${"that goes on ".repeat(12)}and ends.` },
      { path: ["light", "flare"], text: "never written" },
    ],
  });

  it("is canonical, valid, and keeps its remarks above their keys", () => {
    expect(formatRecipe(text, { kind: "roll" })).toBe(text);
    const document = parseRecipe(text, { file: "a.roll.yaml" });
    expect(document.problems).toEqual([]);
    expect((document.value as unknown as { title: string }).title).toBe("Quay: #1 'first'");
    expect(text.startsWith("# Begun by hand.\n")).toBe(true);
    expect(text).toMatch(/ {4}# A long remark.*\n {4}# .*ends\.\n {4}area:/);
    expect(text).not.toContain("never written");
    for (const line of text.split("\n")) expect(line.length).toBeLessThan(160);
  });

  it("drops a remark on a key that is not there", () => {
    expect(withComments("version: 1\n", [{ path: ["title"], text: "x" }], "roll")).toBe("version: 1\n");
  });
});

describe("keeping a roll as a stock", () => {
  const stockText =
    "version: 1\ntitle: Old\nfilm: colour-negative\niso: 400\nnegative:\n  # from the maker\n  gamma: [0.53, 0.56, 0.63]\n  unmix: [[1.2, -0.2, 0], [0, 1, 0], [0, 0, 1]]\npositive:\n  contrast: 1.4\n";
  const rollText =
    'version: 1\ntitle: Harbour\nstock: s.stock.yaml\nscans: scans\nlight:\n  blank: B.dng\nnegative:\n  base: { density: [0.31, 0.6, 0.76], read: { scan: L.dng } }\n  curve:\n    logH: [-2, -1, 0, 1]\n    red: [0.2, 0.4, 1, 1.5]\n    green: [0.6, 0.8, 1.4, 2]\n    blue: [0.8, 1, 1.7, 2.4]\npositive:\n  exposure: 0.4\n  filtration: { yellow: 3 }\nframes:\n  "01":\n    scan: A.dng\n';
  const stock = parseRecipe(stockText, { file: "s.stock.yaml" });
  const roll = parseRecipe(rollText, { file: "r.roll.yaml" });

  it("takes the roll's negative and look and leaves out what belongs to the roll", () => {
    const kept = stockFromRoll(roll, resolveRoll(roll, stock), { stock, title: "New" });
    const document = parseRecipe(kept, { file: "n.stock.yaml" });
    expect(document.problems).toEqual([]);
    expect(document.value).toMatchObject({
      title: "New",
      iso: 400,
      negative: {
        base: { density: [0.31, 0.6, 0.76] },
        unmix: [
          [1.2, -0.2, 0],
          [0, 1, 0],
          [0, 0, 1],
        ],
      },
      positive: { contrast: 1.4, filtration: { yellow: 3 } },
    });
    // The roll measured a curve: the old gamma goes, and with it nothing else.
    expect(kept).not.toContain("gamma");
    expect(kept).toContain("logH: [-2, -1, 0, 1]");
    for (const own of ["scan", "exposure", "L.dng", "blank", "frames"]) expect(kept).not.toContain(own);
    expect(formatRecipe(kept, { kind: "stock" })).toBe(kept);
  });

  it("makes the same positives from the new stock alone", () => {
    const kept = parseRecipe(stockFromRoll(roll, resolveRoll(roll, stock), { stock }), { file: "n.stock.yaml" });
    const bare = parseRecipe("version: 1\nstock: n.stock.yaml\npositive: { exposure: 0.4 }\n", { file: "b.roll.yaml" });
    expect(resolveRoll(bare, kept).shared.look).toEqual(resolveRoll(roll, stock).shared.look);
  });

  it("works for a roll without a stock", () => {
    const alone = parseRecipe(rollText.replace("stock: s.stock.yaml\n", ""), { file: "r.roll.yaml" });
    const kept = parseRecipe(stockFromRoll(alone, resolveRoll(alone)), { file: "n.stock.yaml" });
    expect(kept.problems).toEqual([]);
    expect(kept.text).toContain("# Reference: the base of Harbour.");
    expect(kept.text).not.toContain("scan");
  });
});

describe("a curve as a table", () => {
  it("is read with commas, semicolons or tabs, in any order of rows", () => {
    const colour = readCurveTable("# sheet\nlogH;blue;green;red\n0;1;0.9;0.8\n-1;0.5;0.4;0.3\n", "c.csv");
    expect(colour).toEqual({ logH: [-1, 0], densities: { red: [0.3, 0.8], green: [0.4, 0.9], blue: [0.5, 1] } });
    expect(readCurveTable("LogH\tDensity\n-1\t0.2\n1\t1.2\n", "c.csv").densities).toEqual({ density: [0.2, 1.2] });
  });

  it.each([
    ["logH,red\n0,1\n1,2\n", /needs the columns red, green and blue, or density/],
    ["x,density\n0,1\n1,2\n", /c\.csv:1 names no column logH/],
    ["logH,density\n0,1\n1,two\n", /c\.csv:3 has no number under density/],
    ["logH,density\n0,1\n0,2\n", /two rows with logH 0/],
    ["", /holds no table/],
  ])("is refused where it is not one: %j", (text, reason) => {
    expect(() => readCurveTable(text, "c.csv")).toThrow(CurveTableError);
    expect(() => readCurveTable(text, "c.csv")).toThrow(reason);
  });
});

describe("sorting a folder's files", () => {
  it("takes one file a scan, the best of its name, and orders names as people do", () => {
    const names = ["S10.JPG", "S10.dng", "S9.tif", "S9.jpeg", "notes.txt", ".S1.dng", "S100.dng"];
    expect(scanFiles(names)).toEqual({ scans: ["S9.tif", "S10.dng", "S100.dng"], duplicates: ["S9.jpeg", "S10.JPG"] });
    expect(["a10", "a9", "A1b"].toSorted(byName)).toEqual(["A1b", "a9", "a10"]);
  });

  const firstPassScan = (
    name: string,
    about: Partial<FirstPassScan> & { shutter?: number; time?: string },
  ): FirstPassScan => ({
    name,
    even: 0.3,
    largestObject: 0,
    middle: [0.1, 0.1, 0.1],
    blocks: new Float32Array(0),
    info: { source: "raw", width: 1, height: 1, bits: 14, shutter: about.shutter ?? 0.01, time: about.time },
    ...about,
  });

  it("orders by the camera's clock, for counters start again", () => {
    const scans = [
      firstPassScan("S0001.dng", { time: "2026-05-02T11:00:00" }),
      firstPassScan("S9999.dng", { time: "2026-05-02T10:00:00" }),
    ];
    expect(inOrder(scans).map((s) => s.name)).toEqual(["S9999.dng", "S0001.dng"]);
    expect(inOrder([...scans, firstPassScan("S0002.dng", {})]).map((s) => s.name)).toEqual([
      "S0001.dng",
      "S0002.dng",
      "S9999.dng",
    ]);
  });

  it("tells light, leader and a plain sky apart, by light over exposure", () => {
    const base = [0.5, 0.26, 0.18] as const;
    const thin = base.map((t) => -Math.log10(t * 0.8)) as unknown as FirstPassScan["thinnest"];
    const frame = firstPassScan("F.dng", { thinnest: thin });
    const leader = firstPassScan("L.dng", { even: 0.95, middle: [0.4, 0.21, 0.144], thinnest: thin });
    // Half the time, so half the signal: brighter than film all the same.
    const light = firstPassScan("B.dng", { even: 0.99, middle: [0.4, 0.4, 0.4], shutter: 0.005 });
    const sky = firstPassScan("K.dng", { even: 0.9, middle: [0.05, 0.03, 0.02], thinnest: thin });
    const moon = { ...leader, name: "M.dng", largestObject: 0.02 };
    const roles = rolesOf([frame, leader, light, sky, moon]);
    expect(roles.blank?.name).toBe("B.dng");
    expect(roles.leaders.map((s) => s.name)).toEqual(["L.dng"]);
    expect(roles.pictures.map((s) => s.name)).toEqual(["F.dng", "K.dng", "M.dng"]);
    expect(rolesOf([frame, leader]).blank).toBeUndefined();
    expect(rolesOf([frame, leader], "F.dng").blank?.name).toBe("F.dng");
  });
});

describe("two scans of one picture", () => {
  const picture = (x: number, y: number): number =>
    0.6 + 0.3 * Math.sin(x * 0.21 + 2 * Math.sin(y * 0.13)) + 0.2 * Math.cos(y * 0.31 - x * 0.07);
  const map = (dx: number, dy: number): DensityMap => ({
    width: 96,
    height: 64,
    density: Float32Array.from({ length: 96 * 64 }, (_, i) => picture((i % 96) + dx, Math.floor(i / 96) + dy)),
  });

  it("are recognised by what they share, and others are not", () => {
    const overlap = overlapOf(map(0, 0), map(55, 2))!;
    expect(overlap.x * 96).toBeCloseTo(55, 6);
    expect(overlap.y * 64).toBeCloseTo(2, 6);
    expect(overlap.agreement).toBeGreaterThan(0.99);
    expect(overlapOf(map(0, 0), map(911, 377))).toBeUndefined();
    const sky = { width: 96, height: 64, density: new Float32Array(96 * 64).fill(1) };
    expect(overlapOf(sky, sky)).toBeUndefined();
  });
});
