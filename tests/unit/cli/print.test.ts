/** Sheets to print, by the command: read back with other programs' readers than the ones that wrote them where there are such. */
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import exifr from "exifr";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { makeRoll } from "../../bench/synthetic-roll.ts";
import { modelProfile } from "../../witness/printer/printer-profile.ts";
import { asJson, fingerprints, rollbook } from "./command.ts";

const PAPER = "paper: [60, 40], border: 5, resolution: 254";
const OUTPUT = `  - { name: light, type: tiff, depth: 8, print: { ${PAPER}, profile: profiles/rgb.icc, intent: perceptual } }
  - { name: exact, type: tiff, print: { ${PAPER}, profile: profiles/rgb.icc } }
  - { name: inks, type: tiff, depth: 8, print: { ${PAPER}, profile: profiles/cmyk.icc } }
  - { name: press, type: jpeg, quality: 95, print: { ${PAPER}, profile: profiles/cmyk.icc } }
  - { name: plain, type: jpeg, space: p3, print: { ${PAPER}, place: [0, 0.5] } }
  - { name: web, type: jpeg, long: 100 }`;

interface Report {
  ok: boolean;
  frames: { pictures: { file: string; status: string; width: number; height: number }[] }[];
  error?: { message: string };
}

let folder = "";
let roll = "";
let out = "";
const profile = (name: string): string => join(folder, "profiles", `${name}.icc`);
const file = (output: string, ending: string): string => join(out, output, `harbour-01.${ending}`);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "print-"));
  roll = makeRoll(folder, "harbour", { width: 240, height: 160, frames: 1, output: OUTPUT, frameKeys: [] });
  mkdirSync(join(folder, "profiles"));
  writeFileSync(profile("rgb"), modelProfile("RGB"));
  writeFileSync(profile("cmyk"), modelProfile("CMYK"));
  out = join(folder, "out");
  const { code, err } = await asJson<Report>(["render", roll, "-o", out, "--workers", "1"]);
  if (code !== 0) throw new Error(`The sheets could not be rendered: ${err}`);
}, 90_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const samples = async (path: string) => {
  const { data, info } = await sharp(path)
    .pipelineColourspace((await sharp(path).metadata()).space === "cmyk" ? "cmyk" : "srgb")
    .toColourspace((await sharp(path).metadata()).space === "cmyk" ? "cmyk" : "srgb")
    .raw()
    .toBuffer({ resolveWithObject: true });
  return (x: number, y: number): number[] => [
    ...data.subarray((y * info.width + x) * info.channels, (y * info.width + x + 1) * info.channels),
  ];
};

describe("a sheet", () => {
  it("has the paper's size in pixels and by its resolution, and the printer's profile, byte for byte", async () => {
    for (const [output, ending, name] of [
      ["light", "tif", "rgb"],
      ["exact", "tif", "rgb"],
      ["inks", "tif", "cmyk"],
      ["press", "jpg", "cmyk"],
    ] as const) {
      const found = await sharp(file(output, ending)).metadata();
      expect([output, found.width, found.height, found.density]).toEqual([output, 600, 400, 254]);
      expect(found.space).toBe(name === "cmyk" ? "cmyk" : output === "exact" ? "rgb16" : "srgb");
      expect(found.icc?.equals(readFileSync(profile(name)))).toBe(true);
    }
    const plain = await sharp(file("plain", "jpg")).metadata();
    expect([plain.width, plain.height, plain.density]).toEqual([600, 400, 254]);
    const exif = (await exifr.parse(file("press", "jpg"))) as Record<string, unknown>;
    expect([exif.XResolution, exif.YResolution, exif.ResolutionUnit]).toEqual([254, 254, "inches"]);
    expect((await sharp(file("web", "jpg")).metadata()).width).toBe(100);
  });

  it("is bare paper within its borders, and picture between them", async () => {
    const inks = await samples(file("inks", "tif"));
    const light = await samples(file("light", "tif"));
    for (const [x, y] of [
      [0, 0],
      [49, 200],
      [300, 399],
    ] as const) {
      expect(inks(x, y)).toEqual([0, 0, 0, 0]);
      expect(light(x, y)).toEqual([255, 255, 255]);
    }
    expect(inks(300, 200).some((ink) => ink > 0)).toBe(true);
    expect(light(300, 200)).not.toEqual([255, 255, 255]);
    // The picture is 450 × 300 in a space of 500 × 300: at the left where its place says so.
    const plain = await samples(file("plain", "jpg"));
    expect(plain(52, 200).every((v) => v > 245)).toBe(false);
    expect(plain(540, 200).every((v) => v > 245)).toBe(true);
    expect(light(60, 200)).toEqual([255, 255, 255]);
  });

  it("of four inks is the same colours as tiff and as jpeg", async () => {
    const [tiff, jpeg] = [await samples(file("inks", "tif")), await samples(file("press", "jpg"))];
    for (let k = 0; k < 60; k++) {
      const [x, y] = [100 + 7 * k, 100 + ((k * 37) % 200)];
      tiff(x, y).forEach((ink, c) => expect(Math.abs(ink - jpeg(x, y)[c]!)).toBeLessThan(26));
    }
    const mean = (at: (x: number, y: number) => number[], c: number): number =>
      Array.from({ length: 300 }, (_, x) => at(150 + x, 200)[c]!).reduce((a, b) => a + b, 0) / 300;
    for (let c = 0; c < 4; c++) expect(Math.abs(mean(tiff, c) - mean(jpeg, c))).toBeLessThan(2);
  });

  it("is read by jpgicc of liblcms2-utils, inks the right way round", async ({ skip }) => {
    const back = join(folder, "back.jpg");
    try {
      execFileSync("jpgicc", ["-q", "95", file("press", "jpg"), back], { stdio: "ignore" });
    } catch (error) {
      if ((error as { code?: unknown }).code === "ENOENT") skip("liblcms2-utils is not installed");
      throw error;
    }
    const at = await samples(back);
    for (const v of at(10, 10)) expect(v).toBeGreaterThan(240); // paper
  });

  it("follows its intent and its profile", async () => {
    const [perceptual, relative] = [
      await samples(file("light", "tif")),
      await sharp(file("exact", "tif")).raw().toBuffer(),
    ];
    expect(relative.length).toBeGreaterThan(0);
    const before = fingerprints(out);
    const again = async (text: (recipe: string) => string, to: string): Promise<number | null> => {
      const other = join(folder, `${to}.roll.yaml`);
      writeFileSync(other, text(readFileSync(roll, "utf8")));
      return (await rollbook(["render", other, "-o", join(folder, to), "--output", "light", "--workers", "1"])).code;
    };
    for (const intent of ["saturation", "relative-colorimetric", "absolute-colorimetric"]) {
      const code = await again((recipe) => recipe.replace("intent: perceptual", `intent: ${intent}`), intent);
      expect(code).toBe(0);
      const there = await samples(join(folder, intent, "light", `${intent}-01.tif`));
      const apart = Array.from({ length: 300 }, (_, x) =>
        Math.max(...there(150 + x, 200).map((v, c) => Math.abs(v - perceptual(150 + x, 200)[c]!))),
      );
      expect([intent, Math.max(...apart) > 4]).toEqual([intent, true]);
    }
    // A profile that changed makes its sheets anew, and no other picture.
    const bytes = modelProfile("RGB").slice();
    bytes[30]!++; // the time in its header
    writeFileSync(profile("rgb"), bytes);
    const { json } = await asJson<Report>(["render", roll, "-o", out, "--resume", "--workers", "1"]);
    const written = json.frames.flatMap(({ pictures }) =>
      pictures.filter((p) => p.status === "written").map((p) => p.file),
    );
    expect(written).toEqual(["light/harbour-01.tif", "exact/harbour-01.tif"]);
    expect(fingerprints(out)["web/harbour-01.jpg"]).toBe(before["web/harbour-01.jpg"]);
  }, 60_000);
});

describe("a profile that cannot be used", () => {
  const tryProfile = async (name: string, bytes: Uint8Array | undefined) => {
    const recipe = join(folder, `${name}.roll.yaml`);
    writeFileSync(recipe, readFileSync(roll, "utf8").replaceAll("rgb.icc", `${name}.icc`));
    if (bytes) writeFileSync(profile(name), bytes);
    const to = join(folder, `to-${name}`);
    const ran = await rollbook(["render", recipe, "-o", to, "--workers", "1"]);
    return { ...ran, left: existsSync(to) ? readdirSync(to) : [] };
  };

  const cases: readonly (readonly [string, () => Uint8Array | undefined, RegExp])[] = [
    ["cut", () => modelProfile("RGB").subarray(0, 5000), /cut\.icc is incomplete.*Fetch the profile again/],
    ["text", () => new TextEncoder().encode("matte paper"), /text\.icc is not an ICC profile/],
    ["absent", () => undefined, /absent\.icc/],
    [
      "oneway",
      // Its tables towards the printer are renamed.
      () =>
        Uint8Array.from(
          Buffer.from(
            Buffer.from(modelProfile("RGB"))
              .toString("latin1")
              .replaceAll(/B2A(?=\d)/g, "Q2A"),
            "latin1",
          ),
        ),
      /oneway\.icc cannot be used/,
    ],
  ];

  it.each(cases)("%s: the error names it, and nothing is written", async (name, bytes, message) => {
    const { code, err, left } = await tryProfile(name, bytes());
    expect(err).toMatch(message);
    expect([code === 0, left]).toEqual([false, []]);
  });
});
