import { mkdtempSync, readFileSync, rmSync, unlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { extractText, getDocumentProxy } from "unpdf";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { BASE, makeRoll } from "../../bench/synthetic-roll.ts";
import { eachLimited } from "../../../extension/work/pool/each-limited.ts";
import { asJson, rollbook } from "./command.ts";

let folder = "";
let roll = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "verbs-"));
  roll = makeRoll(folder, "harbour", { width: 192, height: 128, frames: 3 });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const copyOf = (name: string, change: (text: string) => string): string => {
  const path = join(folder, name);
  writeFileSync(path, change(readFileSync(roll, "utf8")));
  return path;
};

describe("calling", () => {
  it("shows help with an example for every verb", async () => {
    const overview = await rollbook(["--help"]);
    expect(overview.code).toBe(0);
    const verbs = [...overview.out.matchAll(/^ {2}([a-z]+) {2,}/gm)].map((m) => m[1]);
    expect(verbs).toEqual(expect.arrayContaining(["check", "format", "base", "render", "contact", "lock"]));
    for (const verb of verbs) {
      const { code, out } = await rollbook([verb, "--help"]);
      expect(code).toBe(0);
      expect(out).toContain(`rollbook ${verb} `);
      expect(out).toMatch(/Example: rollbook /);
      expect(out).toContain("--json");
    }
  });

  it("answers wrong calls with a sentence, what was meant, and exit code 2", async () => {
    const calls = [
      [["rendr", roll], 'There is no verb "rendr". Did you mean "render"?'],
      [["render", roll, "--framse", "1"], "has no option --framse. Did you mean --frames?"],
      [["render", roll], "Give the destination with -o FOLDER."],
      [["render", "-o", "x"], "needs a recipe"],
      [["render", roll, roll, "-o", "x"], "takes one recipe"],
      [["render", roll, "-o", "x", "--workers", "many"], "--workers takes a whole number from 1 to 64"],
      [["render", roll, "-o", "x", "--frames", "77"], "There is no frame 77"],
      [["render", roll, "-o", "x", "--shard", "3/2"], "not a share"],
      [["render", roll, "-o", "x", "--output", "wbe"], 'Did you mean "web"?'],
      [["render", roll, "-o"], "needs a value"],
      [["check", roll, "--json=yes"], "takes no value"],
      [["check", join(folder, "nowhere.roll.yaml")], "There is no recipe"],
      [["contact", roll, "-o", "sheet.gif"], "A contact sheet ends in"],
      [["base", roll, "--area", "1,2"], "--area takes four numbers"],
    ] as const;
    // Starting is most of a wrong call's time: let several start at once.
    const wrong = async ([args, expectedText]: (typeof calls)[number]): Promise<void> => {
      const { code, out, err } = await rollbook(args, { cwd: folder });
      expect(err).toContain(expectedText);
      expect(err).not.toContain("broke down");
      expect([code, out]).toEqual([2, ""]);
    };
    await eachLimited(calls, 3, wrong);
  });

  it("tells wrong calls as JSON too", async () => {
    const { code, json } = await asJson<{ ok: boolean; error: { message: string } }>(["frmat", roll]);
    expect(code).toBe(2);
    expect(json.ok).toBe(false);
    expect(json.error.message).toContain('Did you mean "format"?');
  });
});

describe("check", () => {
  it("is content with a good roll", async () => {
    const { code, out } = await rollbook(["check", roll]);
    expect([code, out]).toEqual([0, "1 recipe: no problems.\n"]);
  });

  it("prints problems as path:line:column with their code, and counts them", async () => {
    const bad = copyOf("bad.roll.yaml", (t) =>
      t.replace("gamma: 0.58", "gama: 0.58").replace("quality: 90", "quality: 900"),
    );
    const lines = readFileSync(bad, "utf8").split("\n");
    const line = lines.findIndex((l) => l.includes("gama")) + 1;
    const { code, out } = await rollbook(["check", "bad.roll.yaml"], { cwd: folder });
    expect(code).toBe(1);
    expect(out).toMatch(new RegExp(`^bad\\.roll\\.yaml:${line}:3 error .* \\[unknown-key\\]$`, "m"));
    expect(out).toMatch(/\[out-of-range\]$/m);
    expect(out).toContain("2 errors");
    const { json } = await asJson<{ ok: boolean; recipes: { problems: { line: number; endColumn: number }[] }[] }>([
      "check",
      bad,
    ]);
    expect(json.ok).toBe(false);
    expect(json.recipes[0].problems[0]).toMatchObject({
      line,
      column: 3,
      endLine: line,
      endColumn: 7,
      code: "unknown-key",
    });
  });

  it("keeps control characters of a recipe away from the terminal", async () => {
    const evil = copyOf("evil.roll.yaml", (t) =>
      t.replace("title: harbour", '"\\u001b]0;owned\\u0007\\u001b[2Jtitle": x'),
    );
    const { code, out } = await rollbook(["check", evil]);
    expect(code).toBe(1);
    // eslint-disable-next-line no-control-regex
    expect(out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/);
  });

  it("warns of a missing scan, which is no error", async () => {
    const lost = copyOf("lost.roll.yaml", (t) => t.replace("F02.dng", "F99.dng"));
    const { code, out } = await rollbook(["check", lost]);
    expect(code).toBe(0);
    expect(out).toMatch(/warning .*F99\.dng.*\[missing-scan\]/);
  });
});

describe("format", () => {
  it("says what would change, changes it, and is then content", async () => {
    const messy = copyOf("messy.roll.yaml", (t) =>
      t.replace("version: 1\n", "").replace("scans: scans", "scans:   scans\nversion: 1"),
    );
    const before = readFileSync(messy, "utf8");
    expect((await rollbook(["format", messy, "--check"])).code).toBe(1);
    expect(readFileSync(messy, "utf8")).toBe(before);
    expect((await rollbook(["format", messy])).code).toBe(0);
    expect(readFileSync(messy, "utf8")).toMatch(/^version: 1\n/);
    expect((await rollbook(["format", messy, "--check"])).code).toBe(0);
  });

  it("leaves the version alone, and with --upgrade brings it to the current one and reports the difference", async () => {
    const old = copyOf("old.roll.yaml", (t) => t.replace(/^frames:/m, "positive: { shoulder: 0.7 }\nframes:"));
    const text = readFileSync(old, "utf8");
    expect(text).toContain("shoulder: 0.7");
    await rollbook(["format", old]);
    expect(readFileSync(old, "utf8")).toMatch(/^version: 1\n/);
    const dry = await rollbook(["format", old, "--upgrade", "--dry-run"]);
    expect(dry.out).toContain("version: 2");
    expect(readFileSync(old, "utf8")).toMatch(/^version: 1\n/);
    const { code, json } = await asJson<{ upgraded: { file: string; difference: number }[] }>([
      "format",
      old,
      "--upgrade",
    ]);
    expect(code).toBe(0);
    expect(json.upgraded[0].difference).toBeGreaterThan(0.5);
    expect(readFileSync(old, "utf8")).toMatch(/^version: 2\n[^]*shoulder: -0.21\b/);
    expect((await asJson<{ upgraded: unknown[] }>(["format", old, "--upgrade"])).json.upgraded).toEqual([]);
  });
});

describe("base", () => {
  interface Reading {
    density: number[];
    scatter: number[];
    scan: string;
    written: boolean;
  }

  it("reads it within 0.005 of the truth, from where the recipe says", async () => {
    const { code, json } = await asJson<Reading>(["base", roll]);
    expect(code).toBe(0);
    json.density.forEach((d, c) => expect(Math.abs(d - BASE[c])).toBeLessThan(0.005));
    expect(json).toMatchObject({ scan: "LEADER.dng", written: false });
  });

  it("writes the reading into the recipe and leaves the rest of the text alone", async () => {
    const own = copyOf("own.roll.yaml", (t) => `# My roll\n${t}`);
    const before = readFileSync(own, "utf8").split("\n");
    const args = ["base", own, "--scan", "LEADER.dng", "--area", "0.1,0.1,0.5,0.5", "--write"];
    const { code, json } = await asJson<Reading>(args);
    expect([code, json.written]).toEqual([0, true]);
    const after = readFileSync(own, "utf8").split("\n");
    const changed = after.filter((line) => !before.includes(line));
    expect(changed.length).toBe(1);
    expect(changed[0]).toContain("area: [0.1, 0.1, 0.5, 0.5]");
    expect(after[0]).toBe("# My roll");
    expect((await rollbook(["check", own])).code).toBe(0);
  });

  it("says why an area is no base", async () => {
    const light = await rollbook(["base", roll, "--scan", "LIGHT.dng", "--area", "0.4,0.4,0.2,0.2"]);
    expect(light.code).toBe(2);
    expect(light.err).toContain("This is bare light");
    const outside = await rollbook(["base", roll, "--area", "0.9,0.4,0.2,0.2"]);
    expect(outside.err).toContain("outside the scan");
    const away = await rollbook(["base", roll, "--scan", "../../../../../etc/passwd", "--area", "0,0,1,1"]);
    expect(away.err).toContain("leads out of the workspace");
  });
});

describe("contact", () => {
  it("draws a sheet, with a field that explains a frame that fails", async () => {
    const lost = copyOf("gap.roll.yaml", (t) => t.replace("F02.dng", "F98.dng"));
    const sheet = join(folder, "sheet.png");
    const { code, json } = await asJson<{
      width: number;
      height: number;
      failures: { frame: string; message: string }[];
    }>(["contact", lost, "-o", sheet]);
    expect(code).toBe(1);
    expect(json.failures).toEqual([
      { frame: "02", message: expect.stringContaining("F98.dng does not exist") as string },
    ]);
    const { data, info } = await sharp(sheet).raw().toBuffer({ resolveWithObject: true });
    expect([info.width, info.height]).toEqual([json.width, json.height]);
    // Lettering in the colour of a film's edge, and pictures: the sheet is not just its ground.
    const colours = new Set<number>();
    for (let i = 0; i < data.length; i += info.channels)
      colours.add((data[i] << 16) | (data[i + 1] << 8) | data[i + 2]);
    expect(colours.has(0xe8a33d)).toBe(true);
    expect(colours.size).toBeGreaterThan(2000);
    // Its own sheet is replaced, somebody else's file is not.
    expect((await rollbook(["contact", lost, "-o", sheet])).code).toBe(1);
    writeFileSync(sheet, "mine");
    expect((await rollbook(["contact", lost, "-o", sheet])).code).toBe(2);
    expect(readFileSync(sheet, "utf8")).toBe("mine");
    unlinkSync(sheet);
  });
});

describe("contact as PDF", () => {
  it("writes pages with titles and the fields that were asked for, and refuses others", async () => {
    const own = copyOf("fields.roll.yaml", (t) =>
      t.replace(/scan: F01.dng/, "scan: F01.dng\n    exposed: { aperture: 5.6 }"),
    );
    const sheet = join(folder, "sheet.pdf");
    const args = ["contact", own, "-o", sheet, "--paper", "8x10in"];
    const { code, json } = await asJson<{ pages: number; width: number; height: number }>([
      ...args,
      "--fields",
      "aperture",
    ]);
    expect(code).toBe(0);
    expect([json.pages, json.width, json.height]).toEqual([1, 2400, 3000]);
    const pdf = await getDocumentProxy(new Uint8Array(readFileSync(sheet)));
    const { text } = await extractText(pdf, { mergePages: true });
    expect(text).toContain("f/5.6");
    const unknown = await rollbook([...args, "--fields", "apertura"]);
    expect([unknown.code, unknown.err]).toEqual([2, expect.stringContaining('--fields knows no "apertura"') as string]);
    expect((await rollbook(["contact", own, "-o", sheet, "--paper", "a0"])).err).toContain("8x10in or a4");
    expect((await rollbook(["contact", own, "-o", "x.jpg", "--paper", "a4"])).err).toContain("ends in .pdf");
    unlinkSync(sheet);
  });
});

describe("lock", () => {
  it("writes fingerprints, and rendering then refuses a scan that has changed", async () => {
    const own = mkdtempSync(join(tmpdir(), "lock-"));
    try {
      const locked = makeRoll(own, "locked", { width: 96, height: 64, frames: 2 });
      expect((await rollbook(["lock", locked])).code).toBe(0);
      const text = readFileSync(locked, "utf8");
      expect(text).toMatch(/fingerprints:\n {2}F01\.dng:\n {4}size: \d+\n {4}sha256: [0-9a-f]{64}\n/);
      expect(text).toMatch(/ {2}LIGHT\.dng:\n {4}size: \d+\n {4}sha256: /);
      expect((await rollbook(["lock", locked])).code).toBe(0);
      expect(readFileSync(locked, "utf8")).toBe(text);

      const scan = join(own, "scans", "F02.dng");
      const bytes = readFileSync(scan);
      bytes[bytes.length - 100] ^= 1;
      writeFileSync(scan, bytes);
      const { code, json } = await asJson<{ frames: { status: string; failure?: { code: string } }[] }>([
        "render",
        locked,
        "-o",
        join(own, "out"),
      ]);
      expect(code).toBe(1);
      expect(json.frames.map((f) => [f.status, f.failure?.code])).toEqual([
        ["written", undefined],
        ["failed", "fingerprint"],
      ]);

      unlinkSync(scan);
      expect((await rollbook(["lock", locked])).code).toBe(1);
      expect(readFileSync(locked, "utf8")).toBe(text);
    } finally {
      rmSync(own, { recursive: true, force: true });
    }
  });
});
