/** Scale and sharpness of each scan in `survey --json`, on scans of the film model and on a real camera scan. */
import { copyFileSync, existsSync, mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, it } from "vitest";
import { startIn, writeRoll } from "../work/new-roll/rolls.ts";
import { asJson, rollbook } from "./command.ts";

const folders: string[] = [];
afterAll(() => folders.forEach((folder) => rmSync(folder, { recursive: true })));

interface Surveyed {
  readonly scans: readonly {
    readonly scan: string;
    readonly frame: string;
    readonly ppi?: { readonly value: number; readonly deviation: number; readonly from: string };
    readonly mtf50Percent?: { readonly value: number; readonly deviation: number };
  }[];
}

const surveyed = async (folder: string): Promise<Surveyed["scans"]> =>
  (await asJson<Surveyed>(["survey", "r.roll.yaml"], { cwd: folder })).json.scans;

describe("survey --json", () => {
  it("reports the scale of each scan by the format, with its standard deviation, and no sharpness that is not shown", async () => {
    const folder = writeRoll({ shots: [{ of: "portrait" }, { of: "street" }] });
    folders.push(folder);
    await startIn(folder);
    const scans = await surveyed(folder);
    expect(scans.map(({ scan, frame }) => [scan, frame])).toEqual([
      ["S0010.dng", "01"],
      ["S0011.dng", "02"],
    ]);
    // 36 mm across 0.91 of 780 pixels.
    const ppi = (25.4 * 0.91 * 780) / 36;
    for (const scan of scans) {
      expect(scan.ppi).toMatchObject({ from: "picture size" });
      expect(Math.abs(scan.ppi!.value / ppi - 1)).toBeLessThan(0.015);
      expect(scan.ppi!.deviation / scan.ppi!.value).toBeCloseTo(0.015, 3);
    }
  }, 120_000);
});

const REAL = fileURLToPath(new URL("../../../../shared/real/film/colour_negative_35mm_a7r4.jpg", import.meta.url));

describe.skipIf(!existsSync(REAL))("a real camera scan with perforations in view", () => {
  it("becomes a roll, and its survey gives samples per inch and sharpness, each with its standard deviation", async () => {
    const folder = mkdtempSync(join(tmpdir(), "real-"));
    folders.push(folder);
    mkdirSync(join(folder, "scans"));
    copyFileSync(REAL, join(folder, "scans", "real.jpg"));
    expect((await rollbook(["new", "scans", "-o", "r.roll.yaml"], { cwd: folder })).code).toBe(0);
    const [scan] = await surveyed(folder);
    // Measured by hand: eight holes at 2,855 ppi, to 0.3 %.
    expect(scan.ppi).toMatchObject({ from: "perforations" });
    expect(Math.abs(scan.ppi!.value / 2855 - 1)).toBeLessThan(0.003);
    expect(scan.ppi!.deviation).toBeLessThan(10);
    expect(scan.mtf50Percent!.value).toBeGreaterThan(50);
    expect(scan.mtf50Percent!.deviation).toBeLessThan(0.2 * scan.mtf50Percent!.value);
  }, 120_000);
});
