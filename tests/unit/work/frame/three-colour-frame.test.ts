/** A frame in three-colour light, as rendering, preview, base tool and survey see it. */
import { mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { planeAligner, planeOf } from "../../../../extension/engine/merge/channels.ts";
import { displacementAt } from "../../../../extension/engine/merge/displacement.ts";
import { openScan } from "../../../../extension/work/frame/open-scan.ts";
import { densityOfCode } from "../../../../extension/engine/plan/log-code.ts";
import { readTransmittance } from "../../../../extension/engine/flat-field/transmittance.ts";
import { type FrameLight, type FrameSetup, lightSetup } from "../../../../extension/work/frame/develop.ts";
import type { FrameMerge } from "../../../../extension/work/frame/merge/frame-merge.ts";
import { openMerged } from "../../../../extension/work/frame/merge/open-merged.ts";
import { openFrame } from "../../../../extension/work/frame/open-frame.ts";
import { linearProxy } from "../../../../extension/work/frame/preview-proxy.ts";
import { readBaseOfScan } from "../../../../extension/work/frame/read-base.ts";
import { readLight } from "../../../../extension/work/frame/read-light.ts";
import { surveyBlank } from "../../../../extension/work/survey/survey-blank.ts";
import { surveyScan } from "../../../../extension/work/survey/survey-scan.ts";
import { type Scan } from "../../../witness/camera/camera.ts";
import { CAMERA_A } from "../../../witness/camera/cameras.ts";
import { dngOf } from "../../../witness/camera/scan-file.ts";
import { GOOD_PLACEMENT, GOOD_SETUP } from "../../../witness/camera/setup.ts";
import { photographThree } from "../../../witness/camera/three-lights.ts";
import { develop } from "../../../witness/film/film.ts";
import { FORMAT_135 } from "../../../witness/film/format.ts";
import { NORTHLIGHT_400 } from "../../../witness/film/stocks.ts";
import { chart } from "../../../witness/scenes/targets.ts";
import { readReflectances } from "../../../witness/spectra/reflectances.ts";
import { plainLook } from "../../engine/looks.ts";

const context = { report() {}, checkpoint() {} };
const quiet = { checkpoint() {} };
const [width, height] = [960, 640];
// No holder: it would stand still where the film moves.
const setup = { ...GOOD_SETUP, veil: [0, 0, 0], stray: [0, 0, 0], opening: undefined } as const;
// 24 measured surfaces (BabelColor average, as carried by colour-science, BSD-3-Clause).
const surfaces = readReflectances(
  readFileSync(
    new URL("../../../reference/charts/colorchecker24_babelcolor_avg_380_730_10nm.csv", import.meta.url),
    "utf8",
  ),
);
const { scene, patches } = chart(576, 384, surfaces);
const film = develop(scene, NORTHLIGHT_400, { format: FORMAT_135, grain: 0 }, 4101);
const request = { camera: CAMERA_A, setup, film, placement: GOOD_PLACEMENT, width, height, noise: 0.2 };
/** Red and blue lie beside green by 1.6 and 0.9 pixels. */
const MOVED = [
  [0, 0],
  [1.3 / width, -0.9 / height],
  [-0.5 / width, 0.75 / height],
] as const;

describe("a frame in three-colour light", () => {
  const folder = mkdtempSync(join(tmpdir(), "three-colour-"));
  const mergeOf = (name: string): FrameMerge => ({
    scans: ["green", "red", "blue"].map((c) => ({ name: `${name}-${c}.dng`, path: join(folder, `${name}-${c}.dng`) })),
    channels: true,
  });
  const [merge, blanks] = [mergeOf("A"), mergeOf("LIGHT")];
  const cache = { folder: join(folder, "cache"), maxBytes: 50e6 };
  let light: FrameLight;
  let shots: Scan[];

  const write = (to: FrameMerge, scans: readonly Scan[]): void =>
    scans.forEach((scan, i) => writeFileSync(to.scans[i]!.path, dngOf(scan, "2026:05:16 10:00:00")));
  const frameSetup = (): FrameSetup => ({
    look: plainLook,
    framing: { area: { left: 0, top: 0, width: 1, height: 1, tilt: 0 }, turn: 0, mirror: false },
    light,
    spots: [],
    merge,
  });

  beforeAll(async () => {
    shots = photographThree(request, 4110, MOVED);
    write(merge, shots);
    write(blanks, photographThree({ ...request, film: "blank" }, 4120));
    const { field, exposure, exposures } = await readLight({
      path: blanks.scans[0]!.path,
      merge: blanks,
      field: true,
    });
    light = { field, flare: [0, 0, 0], reference: exposure, references: exposures };
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  /** True density of each patch, each channel by its own light. */
  const truths = () =>
    patches.map(({ box }) => {
      const middle = [box.left + box.width / 2, box.top + box.height / 2] as const;
      const at = shots.map((shot) => shot.truth.transmittanceAt(...shot.truth.placeOf(...middle)));
      const [x, y] = shots[0]!.truth.placeOf(...middle);
      return { x, y, density: [at[1]![0], at[0]![1], at[2]![2]].map((t) => -Math.log10(t)) };
    });

  it("has in each channel the density that its own light shows, within 0.01 D", async () => {
    const { scan, info, warnings } = await openFrame(merge.scans[0]!.path, frameSetup(), quiet);
    expect([scan.width, scan.height, scan.channels, warnings]).toEqual([width, height, 3, []]);
    expect(info.shutter).toBeCloseTo(1 / 125, 6);
    const reader = readTransmittance(scan, lightSetup(light, info));
    const row = new Float32Array(width * 3);
    let worst = 0;
    for (const { x, y, density } of truths()) {
      const sums = [0, 0, 0];
      for (let j = -6; j <= 6; j++) {
        reader.row(Math.round(y) + j, row);
        for (let i = -6; i <= 6; i++) for (let c = 0; c < 3; c++) sums[c]! += row[(Math.round(x) + i) * 3 + c]! / 169;
      }
      sums.forEach((t, c) => (worst = Math.max(worst, Math.abs(-Math.log10(t) - density[c]!))));
    }
    if (process.env["FIGURES"]) console.log("worst density", worst.toFixed(4));
    expect(worst).toBeLessThan(0.01);
  });

  it("is laid on green to parts of a pixel, though the mosaic’s pattern stands still", async () => {
    const planes = await Promise.all(
      merge.scans.map(async ({ path }, i) =>
        planeOf((await openScan(path, undefined)).scan, [1, 0, 2][i] as 0 | 1 | 2),
      ),
    );
    const lay = planeAligner(planes[0]!);
    for (const i of [1, 2]) {
      const reading = lay(planes[i]!);
      if (typeof reading === "string") throw new Error(reading);
      const [dx, dy] = displacementAt(reading.displacement, (width - 1) / 2, (height - 1) / 2);
      const [right, down] = [MOVED[i]![0] * width, MOVED[i]![1] * height];
      if (process.env["FIGURES"]) console.log("laid", dx - right, dy - down);
      expect(Math.hypot(dx - right, dy - down)).toBeLessThan(0.15);
    }
  });

  it("is the same picture where red was exposed otherwise than its blank", async () => {
    const [green, red, blue] = photographThree({ ...request, noise: 0 }, 4110);
    const twice = join(folder, "twice.dng");
    const doubled = red!.mosaic.map((v, i) => {
      const black = CAMERA_A.black[((Math.floor(i / width) & 1) << 1) | ((i % width) & 1)];
      return Math.round(black + (v - black) / 2);
    });
    const [seconds, of] = red!.meta.shutter;
    const dark = { ...red!, mosaic: doubled, meta: { ...red!.meta, shutter: [seconds, of * 2] as const } };
    const plain = mergeOf("plain");
    write(plain, [green!, red!, blue!]);
    writeFileSync(twice, dngOf(dark, "2026:05:16 10:00:00"));
    const other = { ...plain, scans: plain.scans.map((s, i) => (i === 1 ? { name: "twice.dng", path: twice } : s)) };
    const [a, b] = [await openMerged(plain, light, quiet), await openMerged(other, light, quiet)];
    // The mean, for edges move with what half the light changes of the registration, by hundredths of a pixel.
    const [p, q] = [a, b].map(({ scan }) => {
      let [sum, n] = [0, 0];
      for (let i = 0; i < scan.data.length; i += 3 * 7, n++) sum += (scan.data[i]! - scan.black) * scan.scale;
      return sum / n;
    }) as [number, number];
    expect(Math.abs(p / q - 1)).toBeLessThan(1e-3);
    expect(b.info.shutter).toBe(a.info.shutter);
  });

  it("is one picture in the preview, small and close, and comes again from the cache", async () => {
    const order = { path: merge.scans[0]!.path, merge, spots: [], cache, light } as const;
    const made = await linearProxy({ ...order, want: "picture" }, context);
    expect([made.scanWidth, made.scanHeight, made.warnings]).toEqual([width, height, []]);
    const close = await linearProxy({ ...order, want: { left: 0, top: 0, width: 1, height: 1 } }, context);
    for (const proxy of [made, close]) {
      const words = new Uint16Array(proxy.codes.buffer, proxy.codes.byteOffset, proxy.codes.length / 2);
      for (const { x, y, density } of truths()) {
        const [u, v] = [Math.floor((x / width) * proxy.width), Math.floor((y / height) * proxy.height)];
        density.forEach((d, c) => {
          const code = words[(v * proxy.width + u) * 3 + c]!;
          expect(Math.abs(densityOfCode(code) - d)).toBeLessThan(0.04);
        });
      }
    }
    const again = await linearProxy({ ...order, want: "picture" }, context);
    expect(Buffer.compare(Buffer.from(made.codes), Buffer.from(again.codes))).toBe(0);
  });

  it("has its base read in all three lights", async () => {
    const [x, y] = shots[0]!.truth.placeOf(0.5, -0.02);
    const area = [x / width - 0.05, y / height - 0.006, 0.1, 0.012] as const;
    const reading = await readBaseOfScan({ path: merge.scans[0]!.path, merge, area, light }, context);
    const truth = shots.map((shot) => shot.truth.base!);
    [truth[1]![0], truth[0]![1], truth[2]![2]].forEach((d, c) =>
      expect(Math.abs(reading.density[c]! - d)).toBeLessThan(0.01),
    );
  });

  it("is surveyed as one scan against one blank of three lights", async () => {
    const blank = await surveyBlank({ path: blanks.scans[0]!.path, merge: blanks, name: "LIGHT-green.dng" }, context);
    expect(blank.exposures?.map(({ shutter }) => shutter)).toEqual([1 / 125, 1 / 2500, 1 / 400]);
    expect(Math.min(...blank.field.mean)).toBeGreaterThan(0.5);
    const frame = { frame: "01", area: frameSetup().framing.area, mirror: false, light, shared: false };
    const order = { path: merge.scans[0]!.path, merge, name: "A-green.dng", film: plainLook.film, frames: [frame] };
    const [{ reading }] = await surveyScan(order, context);
    expect([reading.info.width, reading.info.height]).toEqual([width, height]);
  });

  it("is no picture without one of the three, and says which and why", async () => {
    for (const i of [0, 1, 2]) {
      const broken = join(folder, `broken-${i}.dng`);
      writeFileSync(broken, dngOf(shots[i]!, "2026:05:16 10:00:00"));
      truncateSync(broken, 3000);
      for (const path of [broken, join(folder, "none.dng")]) {
        const scans = merge.scans.map((s, k) => (k === i ? { name: "x.dng", path } : s));
        await expect(openMerged({ scans, channels: true }, light, quiet)).rejects.toMatchObject({
          message: expect.stringContaining("Two colours are no picture."),
          file: path,
        });
      }
    }
  });

  it("is refused where a scan has another size, shows another picture, or is not the one that was locked", async () => {
    const other = mergeOf("other");
    const small = photographThree({ ...request, width: 480, height: 320 }, 4130);
    const leader = develop("leader", NORTHLIGHT_400, { format: FORMAT_135 }, 4131);
    write(other, [small[0]!, small[1]!, photographThree({ ...request, film: leader }, 4132)[2]!]);
    const [green, red] = merge.scans;
    const withBlue = (scan: FrameMerge["scans"][number]) =>
      openMerged({ scans: [green!, red!, scan], channels: true }, light, quiet);
    await expect(withBlue(other.scans[0]!)).rejects.toThrow(
      "other-green.dng has another size than A-green.dng: the three scans of three-colour light are of one size.",
    );
    await expect(withBlue({ ...merge.scans[2]!, locked: { size: 1, sha256: "0" } })).rejects.toThrow(/locked/);
  });
});
