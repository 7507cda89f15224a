/** The verbs that create a roll and measure with it, as a user runs them, on small scans of the film model. */
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { loadRoll } from "../../../extension/recipe/resolve/workspace.ts";
import { openWorkspace } from "../../../extension/work/files/workspace.ts";
import { cameraDensity } from "../../witness/camera/negative.ts";
import { CAMERA_A, PANEL } from "../../witness/camera/cameras.ts";
import { readReflectances } from "../../witness/spectra/reflectances.ts";
import { NORTHLIGHT_400 } from "../../witness/film/stocks.ts";
import { chart } from "../../witness/scenes/targets.ts";
import { CARD, cardReadings, chroma, stopsOff, writeRoll, writeWedge } from "../work/new-roll/rolls.ts";
import { asJson, rollbook } from "./command.ts";

// 24 measured patches: BabelColor's mean of 30 charts, © Danny Pascale, as carried by colour-science (BSD-3-Clause).
const reference = (name: string): string => readFileSync(new URL(`../../reference/${name}`, import.meta.url), "utf8");
const surfaces = readReflectances(reference("charts/colorchecker24_babelcolor_avg_380_730_10nm.csv"));

let folder = "";
const ROLL = "r.roll.yaml";
const START = ["new", "scans", "--stock", "film.stock.yaml", "-o", ROLL];
const inFolder = () => ({ cwd: folder });
const recipe = (name = ROLL): string => readFileSync(join(folder, name), "utf8");
beforeAll(() => {
  folder = writeRoll({ shots: [{ of: "portrait" }, { of: chart(600, 400, surfaces).scene, stops: 0.3 }] });
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("new", () => {
  interface Started {
    ok: boolean;
    blank: string;
    base: { density: number[] };
    frames: { id: string; scans: string[]; found?: { confidence: number } }[];
    difference: { kind: string };
    text?: string;
    sources: Record<string, string>;
  }

  it("writes a recipe whose picture is neutral and as bright as it was, and says what it measured", async () => {
    const { code, json, err } = await asJson<Started>(START, inFolder());
    expect([code, json.ok]).toEqual([0, true]);
    expect(err).not.toContain("broke down");
    expect(json.blank).toBe("S0001.dng");
    expect(json.frames.map(({ id, scans }) => [id, ...scans])).toEqual([
      ["01", "S0010.dng"],
      ["02", "S0011.dng"],
    ]);
    const truth = cameraDensity(CAMERA_A, PANEL, NORTHLIGHT_400, [0, 0, 0]);
    json.base.density.forEach((d, c) => expect(Math.abs(d - truth[c])).toBeLessThan(0.005));
    expect(json.difference.kind).toBe("same");
    expect(json.text).toBeUndefined();
    const words = { film: "stated", blank: "measured", flare: "measured", base: "measured", area: "measured" };
    expect(json.sources).toMatchObject(words);
    const checked = await rollbook(["check", ROLL], inFolder());
    expect([checked.code, checked.out]).toEqual([0, "1 recipe: no problems.\n"]);
    const [card] = await cardReadings(folder);
    expect(chroma(card)).toBeLessThan(4);
    expect(Math.abs(stopsOff(card))).toBeLessThan(0.3);
  });

  it("says what is measured, inferred and assumed, where there is no stock", async () => {
    const bare = await rollbook(["new", "scans", "--format", "135", "-o", "bare.roll.yaml"], inFolder());
    expect(bare.code).toBe(0);
    expect(bare.out).toMatch(/^film {8}colour-negative, inferred from the scans \(\d+ % sure\)$/m);
    expect(bare.out).toMatch(/^balance {5}inferred from the pictures.*base measured, brightness measured$/m);
    expect(bare.out).not.toMatch(/stock/);
    const again = ["new", "scans", "--format", "135", "-o", "bare.roll.yaml", "--overwrite"];
    const { json } = await asJson<Started>(again, inFolder());
    expect(json.sources).toMatchObject({ film: "inferred", curve: "inferred", unmix: "assumed", colour: "assumed" });
    for (const source of Object.values(json.sources)) expect(source).toMatch(/^(measured|inferred|assumed|stated)$/);
    expect(recipe("bare.roll.yaml")).not.toMatch(/stock/);
    expect(recipe("bare.roll.yaml")).toMatch(/# Assumed: the mean of published films, cameras and copy lights\./);
    expect(recipe()).not.toMatch(/# Assumed: the mean of/);
  });

  it("writes a stock from a published film beside the roll, with source and licence, and finds it by search", async () => {
    const roll = ["new", "scans", "--film-data", "kodak portra 400", "--format", "135", "-o", "named.roll.yaml"];
    interface Named {
      stock: { film: string; recipe: string; camera: string; data: { licence: string } };
    }
    const { code, json } = await asJson<Named>(roll, inFolder());
    expect(code).toBe(0);
    expect(json.stock).toMatchObject({ film: "Kodak Portra 400", recipe: "kodak-portra-400.stock.yaml" });
    expect(json.stock).toMatchObject({ camera: "colour matrix", data: { licence: "MIT" } });
    const stock = recipe("kodak-portra-400.stock.yaml");
    expect(stock).toMatch(/^title: Kodak Portra 400$[^]*^iso: 400$/m);
    expect(stock).toMatch(/^note: .*spectral_film_lut.*MIT licence, © Jan Lohse/m);
    expect(stock).toMatch(
      /# Neutrals as scans by Fernhill A24: averaged over published cameras with colour matrices like/,
    );
    const checked = await rollbook(["check", "named.roll.yaml", "kodak-portra-400.stock.yaml"], inFolder());
    expect([checked.code, checked.out]).toEqual([0, "2 recipes: no problems.\n"]);
    expect((await rollbook(["format", "--check", "kodak-portra-400.stock.yaml"], inFolder())).code).toBe(0);
    const again = await rollbook([...roll.slice(0, -1), "again.roll.yaml"], inFolder());
    expect([again.code, again.err]).toEqual([2, expect.stringContaining("kodak-portra-400.stock.yaml exists already")]);
    const wrong = await rollbook([...roll.slice(0, 3), "Portra", "-o", "wrong.roll.yaml"], inFolder());
    expect([wrong.code, wrong.err]).toEqual([2, expect.stringContaining("Did you mean Kodak Portra 160 or")]);
    const list = await asJson<{ films: { name: string; iso: number }[]; licence: string }>(["films", "tri-x", "9"]);
    expect(list.json.films.map((f) => [f.name, f.iso])).toEqual([["Kodak Tri-X 400, 9 min", 400]]);
    expect((await rollbook(["films", "nothing", "such"])).code).toBe(1);
  });

  it("never writes over a recipe unasked, and refuses what makes no sense with exit code 2", async () => {
    const before = recipe();
    const calls = [
      [START, "exists already and was not touched"],
      [["new", "scans"], "needs the recipe to write"],
      [["new", "scans", "-o", "r.yaml"], "does not end in .roll.yaml"],
      [["new", "scans", "-o", "n.roll.yaml", "--turn", "45"], "--turn takes 90, 180 or 270, not 45"],
      [["new", "scans", "-o", "n.roll.yaml", "--format", "36mm"], "--format takes one of 135"],
      [["new", "scans", "-o", "n.roll.yaml", "--stock", "no.stock.yaml"], "There is no stock"],
      [["new", "scans", "-o", "n.roll.yaml", "--root", "scans"], "leads out of the workspace"],
    ] as const;
    for (const [args, expectedText] of calls) {
      const { code, out, err } = await rollbook(args, inFolder());
      expect(err).toContain(expectedText);
      expect([code, out]).toEqual([2, ""]);
    }
    expect(recipe()).toBe(before);
  });
});

describe("stock", () => {
  it("keeps the roll's negative and leaves its scans behind; a second call touches nothing", async () => {
    const keep = ["stock", ROLL, "-o", "kept/own.stock.yaml", "--title", "Own"];
    expect((await rollbook(keep, inFolder())).code).toBe(0);
    const kept = recipe("kept/own.stock.yaml");
    expect(kept).toMatch(/^title: Own$/m);
    expect(kept).toContain("logH");
    for (const own of ["S0010", "frames", "blank", "scan"]) expect(kept).not.toContain(own);
    expect((await rollbook(["check", "kept/own.stock.yaml"], inFolder())).code).toBe(0);
    const again = await rollbook(keep, inFolder());
    expect([again.code, again.err]).toEqual([2, expect.stringContaining("was not touched") as string]);
    expect(recipe("kept/own.stock.yaml")).toBe(kept);
    expect((await rollbook(["stock", ROLL, "-o", "own.yaml"], inFolder())).err).toContain(
      "does not end in .stock.yaml",
    );
  });
});

describe("calibrate", () => {
  interface Chart {
    seen: number;
    fit: { mean: number; ninetieth: number };
    heldOut: { mean: number };
    filtration: { cyan: number; yellow: number };
    unseen: string[];
    unmix: number[][];
    written?: string;
  }

  it("fits matrices to a chart, and writes them only where it is told to", async () => {
    const stock = recipe("film.stock.yaml");
    // The table has more columns than are needed; they are found by name.
    const lines = reference("charts/cc24_babelcolor_xyY_XYZ_LabD50.csv").split("\n");
    writeFileSync(join(folder, "chart.csv"), lines.filter((l) => l !== "" && !l.startsWith("#")).join("\n"));
    const call = ["calibrate", "chart", ROLL, "--frame", "02", "--reference", "chart.csv"];
    const { code, json } = await asJson<Chart>(call, inFolder());
    expect(code).toBe(0);
    expect(json.seen).toBeGreaterThan(20);
    expect(json.fit.mean).toBeLessThan(2);
    expect(json.fit.ninetieth).toBeLessThan(4);
    expect(json.heldOut.mean).toBeLessThan(3);
    expect(json.written).toBeUndefined();
    expect(recipe("film.stock.yaml")).toBe(stock);
    const write = await asJson<Chart>([...call, "--write", "film.stock.yaml"], inFolder());
    expect([write.code, write.json.written]).toEqual([0, "film.stock.yaml"]);
    const { resolved, problems } = (await loadRoll(ROLL, openWorkspace(folder)))!;
    expect(problems).toEqual([]);
    expect(resolved!.shared.look.unmix).toEqual(json.unmix);
    // The filtration that was fitted belongs to the matrices, and is written with them.
    expect(recipe("film.stock.yaml")).toContain(
      `cyan: ${json.filtration.cyan}, magenta: 0, yellow: ${json.filtration.yellow}`,
    );
    expect(json.unseen.length + json.seen).toBe(24);
  });

  it("says so where there is no chart, no such frame, or no such kind", async () => {
    const calls = [
      [["chart", ROLL, "--frame", "01"], "No chart of six by four patches was found"],
      [["chart", ROLL], "Name it with --frame"],
      [["chart", ROLL, "--frame", "09"], "There is no frame 09"],
      [["chart", ROLL, "--frame", "02", "--corners", "0,0,1"], "--corners takes 8 numbers"],
      [["gray", ROLL], 'Did you mean "grey"?'],
      [["grey", ROLL, "--frame", "01"], "Where is the grey card?"],
    ] as const;
    for (const [args, expectedText] of calls) {
      const { code, err } = await rollbook(["calibrate", ...args], inFolder());
      expect(err).toContain(expectedText);
      expect(err).not.toContain("broke down");
      expect(code).toBe(2);
    }
  });

  it("makes a grey card grey", async () => {
    const { resolved } = (await loadRoll(ROLL, openWorkspace(folder)))!;
    const { area } = resolved!.frames[0];
    const within = (from: number, size: number, part: number): string => (from + size * part).toFixed(4);
    const at = [
      within(area.left, area.width, CARD.left + 0.25 * CARD.width),
      within(area.top, area.height, CARD.top + 0.25 * CARD.height),
      within(0, area.width, 0.5 * CARD.width),
      within(0, area.height, 0.5 * CARD.height),
    ].join(",");
    const call = ["calibrate", "grey", ROLL, "--frame", "01", "--area", at, "--write", ROLL];
    expect((await rollbook(call, inFolder())).code).toBe(0);
    const [card] = await cardReadings(folder);
    // Filters come in tenths of a CC unit, exposure in twentieths of a stop.
    expect(chroma(card)).toBeLessThan(0.6);
    expect(Math.abs(stopsOff(card))).toBeLessThan(0.05);
  });

  it("reads flare and range from a step wedge", async () => {
    const { densities, flare } = writeWedge(folder, "WEDGE.dng", 0.004);
    writeFileSync(join(folder, "wedge.txt"), densities.join(" "));
    const text = 'version: 1\nscans: scans\nlight:\n  blank: S0001.dng\nframes:\n  "00":\n    scan: WEDGE.dng\n';
    writeFileSync(join(folder, "w.roll.yaml"), text);
    const call = ["calibrate", "wedge", "w.roll.yaml", "--frame", "00", "--densities", "wedge.txt"];
    interface Wedge {
      flare: number;
      slope: number;
      usable: [number, number];
    }
    const { code, json } = await asJson<Wedge>([...call, "--write", "w.roll.yaml"], inFolder());
    expect(code).toBe(0);
    expect(Math.abs(json.flare - flare[1])).toBeLessThan(0.001);
    expect(Math.abs(json.slope - 1)).toBeLessThan(0.03);
    expect(json.usable[1]).toBeGreaterThan(1.9);
    expect(recipe("w.roll.yaml")).toContain(`flare: ${Number(json.flare.toFixed(4))}`);
  });

  it("takes a curve from a table and tells its speed, gamma and base", async () => {
    // A straight line of gamma 0.6 on a base of 0.2: every figure can be worked out by hand.
    const rows = Array.from({ length: 61 }, (_, k) => {
      const h = -3 + k * 0.05;
      return `${h.toFixed(2)},${Math.max(0.2, 0.2 + 0.6 * (h + 2)).toFixed(4)}`;
    });
    writeFileSync(join(folder, "sheet.csv"), ["logH,density", ...rows].join("\n"));
    writeFileSync(
      join(folder, "mono.stock.yaml"),
      "version: 1\nfilm: black-and-white-negative\nnegative:\n  gamma: 0.5\n",
    );
    interface Curve {
      speed: number;
      channels: { base: number; gamma: number }[];
    }
    const call = ["calibrate", "curve", "sheet.csv", "--write", "mono.stock.yaml"];
    const { code, json } = await asJson<Curve>(call, inFolder());
    expect(code).toBe(0);
    expect(json.channels[0].base).toBeCloseTo(0.2, 3);
    expect(json.channels[0].gamma).toBeCloseTo(0.6, 2);
    // ISO 6: speed 0.8 / Hm where the density is 0.10 above base, here at log H = −2 + 0.1/0.6.
    expect(json.speed / (0.8 / 10 ** (-2 + 0.1 / 0.6))).toBeCloseTo(1, 1);
    expect(recipe("mono.stock.yaml")).not.toContain("gamma");
    expect((await rollbook(["check", "mono.stock.yaml"], inFolder())).code).toBe(0);
    writeFileSync(join(folder, "sheet.csv"), "logH,density\n0,1\n1,x\n");
    const bad = await rollbook(call, inFolder());
    expect([bad.code, bad.err]).toEqual([2, expect.stringContaining("sheet.csv:3") as string]);
  });
});
