import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  unlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { makeRoll } from "../../bench/synthetic-roll.ts";
import { asJson, fingerprints, rollbook } from "./command.ts";

const OUTPUT = `  - { name: archive, type: tiff, depth: 16, space: romm }
  - { name: web, type: jpeg, quality: 90, long: 100, sharpen: 0.5 }
  - { name: small, type: png, space: p3, long: 64 }`;
const AREA = "area: { left: 0.05, top: 0.06, width: 0.9, height: 0.85, tilt: -0.6 }";

interface Report {
  ok: boolean;
  frames: {
    frame: string;
    status: string;
    warnings: string[];
    failure?: { code: string; message: string };
    pictures: { file: string; status: string; width: number; height: number; sha256: string }[];
  }[];
}

let folder = "";
let roll = "";
let whole = "";
let reference: Record<string, string> = {};

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "render-"));
  roll = makeRoll(folder, "harbour", {
    width: 240,
    height: 160,
    frames: 5,
    output: OUTPUT,
    frameKeys: [AREA, "turn: 90"],
  });
  whole = join(folder, "whole");
  const { code, err } = await asJson<Report>(["render", roll, "-o", whole, "--workers", "2"]);
  if (code !== 0) throw new Error(`The reference roll could not be rendered: ${err}`);
  reference = fingerprints(whole);
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const away = (name: string): string => join(folder, name);
const render = (...args: string[]): Promise<{ code: number | null; json: Report }> =>
  asJson<Report>(["render", roll, ...args]);
const leftovers = (path: string): string[] =>
  existsSync(path)
    ? readdirSync(path, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".part"))
    : [];

describe("a roll", () => {
  it("becomes every output of every frame, of the size and kind that the recipe asks for", async () => {
    expect(Object.keys(reference)).toHaveLength(15);
    const archive = await sharp(join(whole, "archive", "harbour-03.tif")).metadata();
    // 0.9 × 240 by 0.85 × 160, turned.
    expect([archive.width, archive.height, archive.depth]).toEqual([136, 216, "ushort"]);
    const web = await sharp(join(whole, "web", "harbour-03.jpg")).metadata();
    expect([web.width, web.height, web.format]).toEqual([63, 100, "jpeg"]);
    expect((await sharp(join(whole, "small", "harbour-03.png")).metadata()).height).toBe(64);
  });

  it("is the same, byte for byte, with one worker and with two, and in shares", async () => {
    expect((await render("-o", away("one"), "--workers", "1")).code).toBe(0);
    expect(fingerprints(away("one"))).toEqual(reference);
    const shares = await Promise.all(
      [1, 2, 3].map((i) => render("-o", away("shares"), "--workers", "1", "--shard", `${i}/3`)),
    );
    expect(shares.map((s) => s.json.frames.length)).toEqual([2, 2, 1]);
    expect(fingerprints(away("shares"))).toEqual(reference);
  });

  it("is rendered in parts by frame and output, to the same bytes", async () => {
    const { json } = await render("-o", away("part"), "--frames", "2,4-5", "--output", "web");
    expect(json.frames.map((f) => f.frame)).toEqual(["02", "04", "05"]);
    const files = ["02", "04", "05"].map((id) => `web/harbour-${id}.jpg`);
    expect(fingerprints(away("part"))).toEqual(Object.fromEntries(files.map((f) => [f, reference[f]])));
  });

  it("leaves rejected frames out on demand alone, here and on the contact sheet", async () => {
    const text = readFileSync(roll, "utf8").replace('"02":\n', '"02":\n    choice: reject\n');
    const chosen = join(folder, "chosen.roll.yaml");
    writeFileSync(chosen, text);
    const ids = async (...args: string[]): Promise<string[]> => {
      const { json } = await asJson<{ pictures: { frame: string }[] }>(["render", chosen, "-o", away("c"), ...args]);
      return json.pictures.map(({ frame }) => frame);
    };
    const web = ["--dry-run", "--output", "web"];
    expect(await ids(...web)).toEqual(["01", "02", "03", "04", "05"]);
    expect(await ids(...web, "--without-rejected")).toEqual(["01", "03", "04", "05"]);
    const sheet = async (...args: string[]): Promise<string> =>
      (await rollbook(["contact", chosen, "-o", away("sheet.jpg"), "--dry-run", ...args])).out;
    expect(await sheet()).toContain("with 5 frames");
    expect(await sheet("--without-rejected")).toContain("with 4 frames");
  });

  it("skips a frame whose scan is cut off or missing, says so, and renders the others", async () => {
    const own = mkdtempSync(join(tmpdir(), "broken-"));
    try {
      const broken = makeRoll(own, "b", { width: 96, height: 64, frames: 3 });
      truncateSync(join(own, "scans", "F02.dng"), 9000);
      unlinkSync(join(own, "scans", "F03.dng"));
      const { code, json } = await asJson<Report>(["render", broken, "-o", join(own, "out")]);
      expect(code).toBe(1);
      expect(json.frames.map((f) => f.status)).toEqual(["written", "failed", "failed"]);
      expect(json.frames[1].failure?.code).toMatch(/truncated|corrupt/);
      expect(json.frames[2].failure?.message).toBe("F03.dng does not exist.");
      expect(Object.keys(fingerprints(join(own, "out")))).toEqual(["web/b-01.jpg"]);
      const { err } = await rollbook(["render", broken, "-o", join(own, "out")]);
      expect(err).toMatch(/^frame 02 was skipped: F02\.dng /m);

      unlinkSync(join(own, "scans", "LIGHT.dng"));
      const dark = await asJson<Report>(["render", broken, "-o", join(own, "dark")]);
      expect(dark.json.frames.map((f) => f.failure?.message)).toContain("LIGHT.dng does not exist.");
      expect(fingerprints(join(own, "dark"))).toEqual({});
    } finally {
      rmSync(own, { recursive: true, force: true });
    }
  });

  it("does not render a recipe with errors", async () => {
    const bad = away("bad.roll.yaml");
    writeFileSync(bad, readFileSync(roll, "utf8").replace("gamma: 0.58", "gamma: wide"));
    const { code, json } = await asJson<{ ok: boolean; problems: unknown[] }>(["render", bad, "-o", away("bad")]);
    expect([code, json.ok, json.problems.length]).toEqual([1, false, 1]);
    expect(existsSync(away("bad"))).toBe(false);
  });
});

describe("what is there already", () => {
  it("is replaced when it is the roll's own and untouched, else kept", async () => {
    const out = away("again");
    expect((await render("-o", out, "--output", "web")).code).toBe(0);
    expect((await render("-o", out, "--output", "web")).code).toBe(0);

    const touched = join(out, "web", "harbour-02.jpg");
    writeFileSync(touched, "retouched by hand");
    const { code, json } = await render("-o", out, "--output", "web");
    expect(code).toBe(1);
    expect(json.frames[1]).toMatchObject({ status: "failed", failure: { code: "exists" } });
    expect(readFileSync(touched, "utf8")).toBe("retouched by hand");
    expect((await render("-o", out, "--output", "web", "--overwrite")).code).toBe(0);
    expect(fingerprints(out)["web/harbour-02.jpg"]).toBe(reference["web/harbour-02.jpg"]);
  });

  it("is not replaced when another roll of the same name wrote it", async () => {
    const out = away("shared");
    expect((await render("-o", out, "--output", "web", "--frames", "1")).code).toBe(0);
    const other = mkdtempSync(join(tmpdir(), "other-"));
    try {
      const twin = makeRoll(other, "harbour", { width: 96, height: 64, frames: 1 });
      const before = fingerprints(out);
      const { code, err } = await rollbook(["render", twin, "-o", out]);
      expect([code, err]).toEqual([2, expect.stringContaining("are those of another recipe")]);
      expect(fingerprints(out)).toEqual(before);
    } finally {
      rmSync(other, { recursive: true, force: true });
    }
  });

  it("is never replaced when it is a scan or the recipe, even with --overwrite", async () => {
    const own = mkdtempSync(join(tmpdir(), "trap-"));
    try {
      mkdirSync(join(own, "scans"), { recursive: true });
      const trap = makeRoll(own, "F", { width: 96, height: 64, frames: 1, output: "  - { name: scans, type: tiff }" });
      // The scan bears the very name that the output will have.
      copyFileSync(join(own, "scans", "F01.dng"), join(own, "scans", "F-01.tif"));
      writeFileSync(trap, readFileSync(trap, "utf8").replace("scan: F01.dng", "scan: F-01.tif"));
      const before = fingerprints(own);
      const { code, json } = await asJson<Report>(["render", trap, "-o", own, "--overwrite"]);
      expect([code, json.frames[0].failure?.code]).toEqual([1, "protected"]);
      expect(fingerprints(own)).toEqual(before);
    } finally {
      rmSync(own, { recursive: true, force: true });
    }
  });

  it("is left alone with --resume as long as recipe and scans are the same and it is whole", async () => {
    const out = away("resume");
    await render("-o", out, "--output", "web", "--frames", "1-3");
    const first = await render("-o", out, "--output", "web", "--resume");
    expect(first.json.frames.map((f) => f.status)).toEqual(["kept", "kept", "kept", "written", "written"]);
    unlinkSync(join(out, "web", "harbour-01.jpg"));
    const text = readFileSync(roll, "utf8");
    writeFileSync(roll, text.replace('"03":\n', '"03":\n    positive: { exposure: 0.5 }\n'));
    try {
      const { json } = await render("-o", out, "--output", "web", "--resume");
      expect(json.frames.map((f) => f.status)).toEqual(["written", "kept", "written", "kept", "kept"]);
      const now = fingerprints(out);
      expect(now["web/harbour-01.jpg"]).toBe(reference["web/harbour-01.jpg"]);
      expect(now["web/harbour-03.jpg"]).not.toBe(reference["web/harbour-03.jpg"]);
    } finally {
      writeFileSync(roll, text);
    }
  });
});

describe("interrupting", () => {
  it.each(["SIGINT", "SIGTERM"] as const)(
    "with %s ends with 130, leaves whole files only, and can be resumed",
    async (signal) => {
      const out = away(`stopped-${signal}`);
      const ran = await rollbook(["render", roll, "-o", out, "--workers", "1"], {
        during(kill) {
          // As soon as the first picture is there, in the middle of the roll.
          const look = setInterval(() => {
            if (!existsSync(join(out, "archive", "harbour-01.tif"))) return;
            clearInterval(look);
            kill(signal);
          }, 5);
        },
      });
      expect(ran.code).toBe(130);
      expect(leftovers(out)).toEqual([]);
      const there = fingerprints(out);
      expect(Object.keys(there).length).toBeGreaterThan(0);
      for (const [file, hash] of Object.entries(there)) expect([file, hash]).toEqual([file, reference[file]]);
      const { code } = await render("-o", out, "--resume");
      expect(code).toBe(0);
      expect(fingerprints(out)).toEqual(reference);
    },
  );
});
