/** A frame merged from three exposures, as rendering, preview, base tool, review and survey see it. */
import { mkdtempSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { densityOfCode } from "../../../../extension/engine/plan/log-code.ts";
import { openFrame } from "../../../../extension/work/frame/open-frame.ts";
import type { FrameLight, FrameSetup } from "../../../../extension/work/frame/develop.ts";
import type { FrameMerge } from "../../../../extension/work/frame/merge/frame-merge.ts";
import { openMerged } from "../../../../extension/work/frame/merge/open-merged.ts";
import { linearProxy, type LinearProxyValue } from "../../../../extension/work/frame/preview-proxy.ts";
import { readBaseOfScan } from "../../../../extension/work/frame/read-base.ts";
import { readLight } from "../../../../extension/work/frame/read-light.ts";
import { compareFrame } from "../../../../extension/work/review/compare-frame.ts";
import { surveyScan } from "../../../../extension/work/survey/survey-scan.ts";
import { random } from "../../../witness/random.ts";
import { RGGB, writeDng } from "../../../witness/raw/dng.ts";
import { plainLook } from "../../engine/looks.ts";

const [WIDTH, HEIGHT, BLACK, WHITE] = [640, 420, 256, 16383];
const context = { report() {}, checkpoint() {} };

/** Density: steps from thin to dense, each with some texture, so that scans can be laid on each other. */
const STEPS = [0.3, 0.9, 1.5, 2.1, 2.7];
const film = (x: number, y: number): number =>
  STEPS[Math.min(4, Math.max(0, Math.floor((x / WIDTH) * 5)))]! +
  0.05 * Math.sin(x / 5) * Math.cos(y / 6) +
  0.03 * Math.sin(y / 2.1 + x / 3);
const middleOf = (step: number): number => (step + 0.5) * (WIDTH / 5);

/** A scan of the film: shutter time in units of the blank's, and how far the film lies to the right. */
function photograph(time: number, shift: number, seed: number, density = film): Uint8Array {
  const noise = random(seed, "bracket");
  const data = new Uint16Array(WIDTH * HEIGHT);
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++) {
      const signal = 0.8 * time * 10 ** -density(x - shift, y);
      const noisy = signal + Math.sqrt(1e-7 + 4e-5 * signal) * noise.normal();
      data[y * WIDTH + x] = Math.max(0, Math.round(BLACK + Math.min(1, noisy) * (WHITE - BLACK)));
    }
  const exif = { shutter: time / 100, aperture: 8, iso: 100, time: "2026:05:16 10:00:00" };
  const size = { width: WIDTH, height: HEIGHT, bits: 14, black: BLACK, white: WHITE } as const;
  return writeDng({ ...size, data, pattern: RGGB, make: "Invented", model: "A", exif });
}

describe("a frame merged from three exposures", () => {
  const folder = mkdtempSync(join(tmpdir(), "merged-"));
  const names = ["a.dng", "b.dng", "c.dng"];
  const merge: FrameMerge = { scans: names.map((name) => ({ name, path: join(folder, name) })) };
  const cache = { folder: join(folder, "cache"), maxBytes: 50e6 };
  let light: FrameLight;
  const setup = (more: Partial<FrameSetup> = {}): FrameSetup => ({
    look: plainLook,
    framing: { area: { left: 0, top: 0, width: 1, height: 1, tilt: 0 }, turn: 0, mirror: false },
    light,
    spots: [],
    merge,
    ...more,
  });
  const request = { path: merge.scans[0]!.path, merge, spots: [], cache } as const;

  beforeAll(async () => {
    writeFileSync(
      join(folder, "blank.dng"),
      photograph(1, 0, 1, () => 0),
    );
    [1, 4, 16].forEach((time, i) => writeFileSync(merge.scans[i]!.path, photograph(time, 1.5 * i, 2 + i)));
    const { field, exposure } = await readLight({ path: join(folder, "blank.dng"), field: true });
    light = { field, flare: [0, 0, 0], reference: exposure };
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const densityAt = ({ codes, width, height }: LinearProxyValue, x: number): number => {
    const words = new Uint16Array(codes.buffer, codes.byteOffset, codes.length / 2);
    let [sum, n] = [0, 0];
    for (let row = 4; row < height - 4; row++, n++)
      sum += densityOfCode(words[(row * width + Math.floor((x / WIDTH) * width)) * 3 + 1]!);
    return sum / n;
  };

  it("is one picture in the preview, small and close, at its densities", async () => {
    const made = await linearProxy({ ...request, light, want: "picture" }, context);
    expect([made.scanWidth, made.scanHeight, made.warnings]).toEqual([WIDTH, HEIGHT, []]);
    const close = await linearProxy({ ...request, light, want: { left: 0, top: 0, width: 1, height: 1 } }, context);
    for (const proxy of [made, close])
      for (const [step, density] of STEPS.entries())
        expect(Math.abs(densityAt(proxy, middleOf(step)) - density)).toBeLessThan(0.06);
    const again = await linearProxy({ ...request, light, want: "picture" }, context);
    expect(Buffer.compare(Buffer.from(made.codes), Buffer.from(again.codes))).toBe(0);
  });

  it("has less noise than its shortest exposure where film is dense", async () => {
    const deviation = async (one: FrameSetup): Promise<number> => {
      const { scan } = await openFrame(request.path, one, { checkpoint() {} });
      const at = (x: number, y: number): number => (scan.data[(y * WIDTH + x) * 3 + 1]! - scan.black) * scan.scale;
      let [squares, n] = [0, 0];
      for (let y = 20; y < HEIGHT - 20; y++)
        for (let x = middleOf(4) - 40; x < middleOf(4) + 40; x++, n++)
          squares += (at(x, y) / (0.8 * 10 ** -film(x, y)) - 1) ** 2;
      return Math.sqrt(squares / n);
    };
    const [merged, alone] = [await deviation(setup()), await deviation(setup({ merge: undefined }))];
    expect(merged).toBeLessThan(alone / 3);
  });

  it("has its base read on the merged scan", async () => {
    const area = [0.42, 0.2, 0.16, 0.6] as const;
    const reading = await readBaseOfScan({ path: request.path, merge, area, light }, context);
    expect(Math.abs(reading.density[1] - STEPS[2]!)).toBeLessThan(0.02);
  });

  it("is compared with a single exposure of it in the review", async () => {
    const before = { path: request.path, setup: setup({ merge: undefined }) };
    const after = { path: request.path, setup: setup() };
    const { difference } = await compareFrame({ before, after, long: 300 }, context);
    expect(difference!.mean).toBeGreaterThan(0);
    expect(difference!.mean).toBeLessThan(3);
  });

  it("is surveyed as one scan, that is neither clipped nor too dark", async () => {
    const { framing, look } = setup();
    const frame = { frame: "01", area: framing.area, mirror: false, light, shared: false };
    const order = { ...request, name: "a.dng", film: look.film, frames: [frame] };
    const [{ reading }] = await surveyScan(order, context);
    expect(reading.info.shutter).toBeCloseTo(1 / 100, 6);
    expect([reading.info.width, reading.info.height]).toEqual([WIDTH, HEIGHT]);
  });

  it("names a part that is broken or missing and is made of the others, whichever it is", async () => {
    for (const broken of [0, 1, 2]) {
      const path = join(folder, `broken-${broken}.dng`);
      writeFileSync(path, photograph(1, 0, 9));
      truncateSync(path, 3000);
      for (const bad of [path, join(folder, "none.dng")]) {
        const scans = merge.scans.map((scan, i) => (i === broken ? { name: "x.dng", path: bad } : scan));
        const opened = await openMerged({ scans }, {}, { checkpoint() {} });
        expect(opened.parts.map(({ name }) => name)).toEqual(names.filter((_, i) => i !== broken));
        expect(opened.warnings.map(({ message }) => message).join()).toContain("x.dng takes no part in its frame");
        expect(opened.info.shutter).toBeCloseTo((broken === 0 ? 4 : 1) / 100, 6);
      }
    }
    const scans = merge.scans.map(({ name }) => ({ name, path: join(folder, `no-${name}`) }));
    await expect(openMerged({ scans }, {}, { checkpoint() {} })).rejects.toThrow(/no-c\.dng/);
  });

  it("is refused where a scan is not the one that the recipe was locked with", async () => {
    const scans = merge.scans.map((scan) => ({ ...scan, locked: { size: 1, sha256: "0" } }));
    await expect(openMerged({ scans }, {}, { checkpoint() {} })).rejects.toThrow(/locked/);
  });
});
