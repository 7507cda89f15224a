/** A roll that starts right: from a folder of camera files to positives that need no hand, by the work room itself. */
import { copyFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { JobError } from "../../../../extension/failure.ts";
import { formatRecipe } from "../../../../extension/recipe/edit/layout/format.ts";
import { loadRoll } from "../../../../extension/recipe/resolve/workspace.ts";
import { frameShots } from "../../../../extension/work/new-roll/pictures/join-shots.ts";
import type { Pool } from "../../../../extension/work/pool/pool.ts";
import { openWorkspace } from "../../../../extension/work/files/workspace.ts";
import { cameraDensity } from "../../../witness/camera/negative.ts";
import { CAMERA_A, PANEL } from "../../../witness/camera/cameras.ts";
import { evenScene, paint } from "../../../witness/scenes/scene.ts";
import type { SubjectName } from "../../../witness/scenes/subjects.ts";
import { COALFISH_125, NORTHLIGHT_400 } from "../../../witness/film/stocks.ts";
import { cardReadings, chroma, poolHere, type RollPlan, startIn, stopsOff, writeRoll } from "./rolls.ts";
import { startRoll } from "../../../../extension/work/new-roll/new-roll.ts";

const folders: string[] = [];
const roll = (plan: RollPlan): string => {
  const folder = writeRoll(plan);
  folders.push(folder);
  return folder;
};
afterAll(() => folders.forEach((folder) => rmSync(folder, { recursive: true })));

describe("an ordinary roll", () => {
  const folder = roll({
    leader: true,
    shots: [{ of: "portrait" }, { of: "street", stops: 0.4 }, { of: "table", stops: 0.6 }],
  });
  // A JPEG beside its raw file is no second scan; neither is a note.
  copyFileSync(join(folder, "scans/S0010.dng"), join(folder, "scans/S0010.JPG"));
  writeFileSync(join(folder, "scans/notes.txt"), "developed at home");

  it("comes out neutral within ΔC*ab 4, bright within 0.3 EV, frames of one light within ΔC*ab 2", async () => {
    const started = await startIn(folder);
    expect(started.blank).toBe("S0001.dng");
    expect(started.leaders).toEqual(["S0002.dng"]);
    expect(started.duplicates).toEqual(["S0010.JPG"]);
    expect(started.frames.map((f) => [f.id, ...f.scans])).toEqual([
      ["01", "S0010.dng"],
      ["02", "S0011.dng"],
      ["03", "S0012.dng"],
    ]);
    const truth = cameraDensity(CAMERA_A, PANEL, NORTHLIGHT_400, [0, 0, 0]);
    started.base!.density.forEach((d, c) => expect(Math.abs(d - truth[c])).toBeLessThan(0.005));
    expect(started.difference!.kind).toBe("same");
    const cards = await cardReadings(folder);
    for (const card of cards) {
      expect(chroma(card)).toBeLessThan(4);
      expect(Math.abs(stopsOff(card))).toBeLessThan(0.3);
    }
    for (const one of cards)
      for (const other of cards)
        expect(Math.hypot(one.lab[1] - other.lab[1], one.lab[2] - other.lab[2])).toBeLessThan(2);
  });

  it("is written as a canonical recipe without problems, with a comment at each measured block", async () => {
    const { text, start } = await startIn(folder, {
      roll: join(folder, "other.roll.yaml"),
      stock: undefined,
      format: "135",
      first: 12,
      turn: 180,
      mirror: true,
    });
    expect(formatRecipe(text, { kind: "roll" })).toBe(text);
    const loaded = await loadRoll("other.roll.yaml", openWorkspace(folder));
    expect(loaded!.problems).toEqual([]);
    const frames = loaded!.resolved!.frames;
    expect(frames.map((f) => [f.id, f.turn, f.mirror])).toEqual(["12", "13", "14"].map((id) => [id, 180, true]));
    expect(text).toMatch(/# Measured: veiling light.*\n {2}flare: /);
    expect(text).toMatch(/# .*\n(?: {2}# .*\n)* {2}base:\n/);
    // A hair inside the edges, which are soft.
    for (const frame of frames) expect(Math.abs(frame.area.width - 0.9076)).toBeLessThan(0.0025);
    // A camera that nobody measured, and no stock that states a negative.
    expect(start!.negative!.crosstalk).toBe("mean");
    expect(text).toMatch(/# Assumed: the mean of published films, cameras and copy lights\.\n {2}unmix: \[/);
    expect(text).toMatch(/# Inferred: the neutral axis of 3 pictures[^]*?\n {2}curve:/);
    expect(text).toMatch(/# Inferred from the scans \(\d+ % sure\)\.\nfilm: colour-negative\n/);
    expect(text).not.toContain("stock:");
    expect(text).toContain('format: "135"');
  });
});

describe("a roll with a frame in which no edge can be seen", () => {
  it("lays that frame where the others lie, and says so", async () => {
    const dark = evenScene(450, 300, [1e-5, 1e-5, 1e-5]);
    // A lamp: without it the scan would pass for a leader.
    paint(dark, { left: 0.45, top: 0.4, width: 0.1, height: 0.12 }, [0.4, 0.4, 0.3]);
    const folder = roll({ shots: [{ of: "portrait" }, { of: "street" }, { of: dark }, { of: "table" }] });
    const { frames, text } = await startIn(folder);
    const seen = frames.map((f) => f.found!);
    expect(seen[2].sides).toEqual({ left: "roll", top: "roll", right: "roll", bottom: "roll" });
    const [before, after] = [seen[1].area, seen[3].area];
    // Film drifts a little from frame to frame here.
    expect(Math.abs(seen[2].area.left - (before.left + after.left) / 2)).toBeLessThan(0.003);
    expect(Math.abs(seen[2].area.width - before.width)).toBeLessThan(0.002);
    expect(text).toContain("# Look at this one: no side was seen, placed as the roll's other frames lie.");
    expect(formatRecipe(text, { kind: "roll" })).toBe(text);
  });

  it("leaves a night that was photographed smaller as large as it is", async () => {
    const folder = roll({
      shots: [{ of: "portrait" }, { of: "street" }, { of: "night", wide: 0.84 }, { of: "table" }],
    });
    const { frames } = await startIn(folder);
    const { area, sides } = frames[2].found!;
    expect(Object.values(sides)).toContain("format");
    expect(Math.abs(area.width - 0.84)).toBeLessThan(0.004);
  });
});

describe("a picture on two scans", () => {
  it("becomes one frame with its join measured, its edges found on both together, and is drawn from both", async () => {
    // The camera stands upright, so that half of a lying picture fills it; no holder is in view.
    const size = { width: 720, height: 900 };
    const folder = roll({ size, shots: ["street", "portrait"].map((of) => ({ of: of as SubjectName, halves: 0.3 })) });
    const { text, frames, warnings } = await startIn(folder);
    expect(warnings).toEqual([]);
    expect(frames.map((f) => [f.id, ...f.scans])).toEqual([
      ["01", "S0010a.dng", "S0010b.dng"],
      ["02", "S0011a.dng", "S0011b.dng"],
    ]);
    expect(formatRecipe(text, { kind: "roll" })).toBe(text);
    expect(text).toMatch(/# Assumed: no holder is in view.*\n {2}flare: \[0\.002, /);
    expect(text).toMatch(/# Parts of one picture.* px\.\n {4}join: \[\[0, 0, 0, \[0, 0, 0\]\], /);
    const { resolved, problems } = (await loadRoll("r.roll.yaml", openWorkspace(folder)))!;
    expect(problems).toEqual([]);
    // The picture's middle lies at (0.735, 0.5) of the one scan and (0.265, 0.507) of the other, there turned by 0.3°.
    const turn = (-0.3 * Math.PI) / 180;
    const [u, v] = [0.265 * size.width, 0.507 * size.height];
    const truth = [
      0.735 * size.width - (Math.cos(turn) * u - Math.sin(turn) * v),
      0.5 * size.height - (Math.sin(turn) * u + Math.cos(turn) * v),
    ];
    for (const { join, area } of resolved!.frames) {
      const [x, y, angle] = join![1];
      expect(Math.hypot(x - truth[0], y - truth[1])).toBeLessThan(0.5);
      expect(Math.abs(angle + 0.3)).toBeLessThan(0.04);
      // 36 mm at 1.35 times the scan's width, within 6 pixels, of which the crop's inset takes 2.5.
      const wide = Math.ceil(truth[0] + size.width * Math.cos(turn) - size.height * Math.sin(turn));
      expect(Math.abs(area.width * wide - 1.35 * size.width)).toBeLessThan(6);
      expect(Math.abs(area.tilt)).toBeLessThan(0.05);
    }
    for (const card of await cardReadings(folder)) {
      // Without a holder flare cannot be read; what is usual is taken off.
      expect(chroma(card)).toBeLessThan(4);
      expect(Math.abs(stopsOff(card))).toBeLessThan(0.3);
    }
  });

  it("that agree at first sight but cannot be laid together make a frame each, and it is said", async () => {
    const seen = { sample: new Float32Array(0), map: striped, codes: [], warnings: [] };
    const shots = ["A.dng", "B.dng"].map((name) => ({ name, path: name, seen }));
    const refusing: Pool = {
      ...poolHere,
      run: () => Promise.reject(new JobError({ code: "join", message: "Nothing in common." })),
    };
    // The same stripes repeat, so that they agree with themselves shifted.
    const { frames, warnings } = await frameShots(shots, { light: { flare: [0, 0, 0] } }, refusing);
    expect(frames.map((f) => f.scans)).toEqual([["A.dng"], ["B.dng"]]);
    expect(warnings).toEqual([expect.stringMatching(/^A\.dng and B\.dng look like parts of one picture/)]);
  });
});

const striped = {
  width: 96,
  height: 64,
  density: Float32Array.from({ length: 96 * 64 }, (_, i) => 0.6 + 0.3 * Math.sin(((i % 96) * 2 * Math.PI) / 24)),
};

describe("black-and-white film", () => {
  it("has one channel and no filtration", async () => {
    const folder = roll({ stock: COALFISH_125, shots: [{ of: "street", stops: 0.3 }] });
    const { balance, base, unmix } = await startIn(folder);
    expect(balance.filtration).toEqual({ cyan: 0, magenta: 0, yellow: 0 });
    expect(unmix).toBeUndefined();
    const truth = cameraDensity(CAMERA_A, PANEL, COALFISH_125, [0]);
    base!.density.forEach((d, c) => expect(Math.abs(d - truth[c])).toBeLessThan(0.005));
    for (const card of await cardReadings(folder)) expect(Math.abs(stopsOff(card))).toBeLessThan(0.4);
  });
});

describe("folders that give no roll", () => {
  it("are refused with a sentence", async () => {
    const folder = roll({ shots: [] });
    const options = { folder: join(folder, "scans"), roll: join(folder, "r.roll.yaml") };
    const workspace = openWorkspace(folder);
    await expect(startRoll(options, workspace, poolHere)).rejects.toThrow(/shows a picture/);
    await expect(startRoll({ ...options, folder }, workspace, poolHere)).rejects.toThrow(/There are no scans/);
    await expect(startRoll({ ...options, stock: join(folder, "no.stock.yaml") }, workspace, poolHere)).rejects.toThrow(
      /There is no stock/,
    );
    // A damaged file is named and left out; without any other there is nothing to begin.
    writeFileSync(join(folder, "scans/S0099.dng"), "no camera file");
    await expect(startRoll(options, workspace, poolHere)).rejects.toThrow(/shows a picture/);
  });
});
