/** Falloff without a blank, from the scans to the finished picture: measured by the command, written, rendered, previewed. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { afterAll, describe, expect, it } from "vitest";
import { photographFilm } from "../../../witness/camera/camera.ts";
import { projection } from "../../../witness/camera/project.ts";
import { dngOf } from "../../../witness/camera/scan-file.ts";
import { GOOD_PLACEMENT, type Falloff } from "../../../witness/camera/setup.ts";
import { asJson, rollbook } from "../../cli/command.ts";
import { EVEN } from "../../engine/lens/falloff-rolls.ts";
import { filmOf, request, RIG } from "../../engine/survey/rig.ts";

const ROLL = "r.roll.yaml";
const [WIDTH, HEIGHT] = [1080, 720];
const PLACEMENT = { ...GOOD_PLACEMENT, width: 0.86 };
const SUBJECTS = ["market", "pebbles", "regatta"] as const;

const { area } = projection(filmOf("market", RIG.stock), PLACEMENT, WIDTH, HEIGHT);
const REBATE = [0.3, 0.4 * area.top, 0.4, 0.35 * area.top].map((v) => Number(v.toFixed(4)));

const folders: string[] = [];
afterAll(() => folders.forEach((one) => rmSync(one, { recursive: true, force: true })));

async function rollUnder(falloff: Falloff): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), "falloff-"));
  folders.push(folder);
  mkdirSync(join(folder, "scans"));
  SUBJECTS.forEach((subject, i) => {
    const plain = request(RIG, filmOf(subject, RIG.stock));
    const setup = { ...plain.setup, falloff };
    const scan = photographFilm({ ...plain, setup, placement: PLACEMENT, width: WIDTH, height: HEIGHT }, 640 + i);
    writeFileSync(join(folder, "scans", `S${i + 1}.dng`), dngOf(scan, "2026:05:16 10:00:00"));
  });
  const place = (["left", "top", "width", "height"] as const)
    .map((key) => `${key}: ${area[key].toFixed(4)}`)
    .join(", ");
  writeFileSync(
    join(folder, ROLL),
    `version: 2
scans: scans
negative: { base: { density: [0.27, 0.59, 0.74], read: { scan: S1.dng, area: [${REBATE.join(", ")}] } } }
output:
  - { name: archive, type: tiff, depth: 8, space: srgb }
frames:
${SUBJECTS.map((_, i) => `  "0${i + 1}": { scan: S${i + 1}.dng, area: { ${place} } }`).join("\n")}
`,
  );
  expect((await rollbook(["base", ROLL, "--write"], { cwd: folder })).code).toBe(0);
  return folder;
}

interface Report {
  readonly falloff?: {
    readonly span: number;
    readonly error: number;
    readonly sure: boolean;
    readonly needed: boolean;
  };
  readonly written: boolean;
}

const measure = async (folder: string, ...more: string[]): Promise<Report> =>
  (await asJson<Report>(["lens", ROLL, ...more], { cwd: folder })).json;

async function picture(folder: string): Promise<Buffer> {
  const out = join(folder, `out-${Math.random()}`);
  expect((await rollbook(["render", ROLL, "-o", out, "--frames", "2"], { cwd: folder })).code).toBe(0);
  return await sharp(join(out, "archive", "r-02.tif"))
    .raw()
    .toBuffer();
}

/** Mean absolute difference of two pictures in codes of 255, each channel brought to the same mean. */
function apart(a: Buffer, b: Buffer): number {
  const means = [0, 1, 2].map((c) => {
    let sum = 0;
    for (let i = c; i < a.length; i += 3) sum += a[i] - b[i];
    return sum / (a.length / 3);
  });
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += Math.abs(a[i] - b[i] - means[i % 3]);
  return sum / a.length;
}

describe("rollbook lens, on rolls without a blank", () => {
  it("measures falloff on the rebates and writes it; the picture is then as under even light", async () => {
    const [dark, even] = [await rollUnder({ ...EVEN, corners: 0.3, slope: [0.08, -0.05] }), await rollUnder(EVEN)];
    const before = readFileSync(join(dark, ROLL), "utf8");
    const [faulty, truth] = [await picture(dark), await picture(even)];
    const report = await measure(dark, "--write");
    expect(report).toMatchObject({ written: true, falloff: { sure: true, needed: true } });
    const text = readFileSync(join(dark, ROLL), "utf8");
    expect(text).toMatch(/falloff:/);
    // The base keeps its density, for its place is the measure of the light.
    const baseOf = (recipe: string): string | undefined => /density: \[[^\]]*\]/.exec(recipe)?.[0];
    expect(baseOf(text)).toBe(baseOf(before));
    expect(apart(await picture(dark), truth)).toBeLessThan(0.35 * apart(faulty, truth));
    // Read again it is the same, and so is the falloff: what the recipe corrects makes no difference.
    expect((await rollbook(["base", ROLL, "--write"], { cwd: dark })).code).toBe(0);
    expect(baseOf(readFileSync(join(dark, ROLL), "utf8"))).toBe(baseOf(before));
    expect((await measure(dark)).falloff!.span).toBe(report.falloff!.span);
  });

  it("writes none under even light, and says nothing of it where a blank takes it out", async () => {
    const folder = await rollUnder(EVEN);
    const before = readFileSync(join(folder, ROLL), "utf8");
    const report = await measure(folder, "--write");
    expect(report.falloff).toMatchObject({ sure: true, needed: false });
    expect(readFileSync(join(folder, ROLL), "utf8")).not.toContain("falloff");
    writeFileSync(join(folder, ROLL), before.replace("scans: scans\n", "scans: scans\nlight: { blank: S1.dng }\n"));
    expect((await measure(folder)).falloff).toBeUndefined();
  });
});
