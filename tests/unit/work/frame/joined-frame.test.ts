/** A frame joined from two scans, as the preview, its base tool, thumbnails and the review see it. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { densityOfCode } from "../../../../extension/engine/plan/log-code.ts";
import type { FrameLook } from "../../../../extension/engine/types.ts";
import type { FrameLight, FrameSetup } from "../../../../extension/work/frame/develop.ts";
import type { FrameJoin } from "../../../../extension/work/frame/join/frame-join.ts";
import { compareFrame } from "../../../../extension/work/review/compare-frame.ts";
import {
  linearProxy,
  type LinearProxy,
  type LinearProxyValue,
} from "../../../../extension/work/frame/preview-proxy.ts";
import { readBaseOfScan } from "../../../../extension/work/frame/read-base.ts";
import { readLight } from "../../../../extension/work/frame/read-light.ts";
import { thumbnail } from "../../../../extension/work/contact/thumbnail.ts";
import { RGGB, writeDng } from "../../../witness/raw/dng.ts";
import { plainLook } from "../../engine/looks.ts";

const [WIDTH, HEIGHT, BLACK, WHITE] = [480, 320, 256, 16383];
/** The second scan lies this far to the right of the first, and a little lower. */
const [DX, DY] = [300, 4];
const FULL = [WIDTH + DX, HEIGHT + DY] as const;
const context = { report() {}, checkpoint() {} };

/** Density of the film at a column of the joined picture: three steps. */
const film = (x: number): number => (x < 260 ? 0.4 : x < 520 ? 0.8 : 1.2);
/** The light falls off to the right of each scan. */
const bare = (x: number): number => 0.7 - (0.3 * x) / WIDTH;

function camera(signal: (x: number, y: number) => number, shutter: number): Uint8Array {
  const data = new Uint16Array(WIDTH * HEIGHT);
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++)
      data[y * WIDTH + x] = Math.round(BLACK + Math.min(1, signal(x, y)) * (WHITE - BLACK));
  const exif = { shutter, aperture: 8, iso: 100, time: "2026:05:16 10:00:00" };
  const size = { width: WIDTH, height: HEIGHT, bits: 14, black: BLACK, white: WHITE } as const;
  return writeDng({ ...size, data, pattern: RGGB, make: "Invented", model: "A", exif });
}

describe("a frame joined from two scans", () => {
  const folder = mkdtempSync(join(tmpdir(), "joined-"));
  const paths = ["a.dng", "b.dng"].map((name) => join(folder, name));
  const cache = { folder: join(folder, "cache"), maxBytes: 50e6 };
  const frameJoin: FrameJoin = {
    scans: [
      { path: paths[0], place: [0, 0, 0] },
      { path: paths[1], place: [DX, DY, 0] },
    ],
    sensorDust: [],
  };
  let light: FrameLight;
  const request = (want: LinearProxy["want"], more: Partial<LinearProxy> = {}): LinearProxy => ({
    path: paths[0],
    join: frameJoin,
    light,
    spots: [],
    cache,
    want,
    ...more,
  });
  const setup = (look: Partial<FrameLook> = {}): FrameSetup => ({
    look: { ...plainLook, ...look },
    framing: { area: { left: 0, top: 0, width: 1, height: 1, tilt: 0 }, turn: 0, mirror: false },
    light,
    spots: [],
    join: frameJoin,
  });

  beforeAll(async () => {
    const speck = (x: number, y: number): boolean => Math.hypot(x - 640, y - 160) < 6;
    const blank = join(folder, "blank.dng");
    writeFileSync(blank, camera(bare, 1 / 100));
    writeFileSync(
      paths[0],
      camera((x) => bare(x) * 10 ** -film(x), 1 / 100),
    );
    // The second scan got half the light: the join brings both to one exposure.
    writeFileSync(
      paths[1],
      camera((x, y) => 0.5 * bare(x) * (speck(x + DX, y + DY) ? 0.01 : 10 ** -film(x + DX)), 1 / 200),
    );
    const { field, exposure } = await readLight({ path: blank, field: true });
    light = { field, flare: [0, 0, 0], reference: exposure };
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  /** Green density at a place of the joined picture, by the part of it that the proxy says it shows. */
  const densityAt = ({ codes, width, height, part }: LinearProxyValue, x: number, y: number): number => {
    const words = new Uint16Array(codes.buffer, codes.byteOffset, codes.length / 2);
    const column = Math.floor(((x / FULL[0] - part.left) / part.width) * width);
    const row = Math.floor(((y / FULL[1] - part.top) / part.height) * height);
    return densityOfCode(words[(row * width + column) * 3 + 1]);
  };
  const STEPS = [
    [100, 0.4],
    [400, 0.8],
    [700, 1.2],
  ] as const;

  it("is one picture in the preview, in one exposure, at its full size in the recipe's measure", async () => {
    const made = await linearProxy(request("picture"), context);
    expect([made.scanWidth, made.scanHeight]).toEqual(FULL);
    expect(made.codes.length).toBe(made.width * made.height * 6);
    for (const [x, d] of STEPS) expect(Math.abs(densityAt(made, x, 100) - d)).toBeLessThan(0.01);
    // The steps stand where the film has them.
    expect(densityAt(made, 254, 100)).toBeLessThan(0.45);
    expect(densityAt(made, 526, 100)).toBeGreaterThan(1.15);
    const again = await linearProxy(request("picture"), context);
    expect(Buffer.compare(Buffer.from(made.codes), Buffer.from(again.codes))).toBe(0);
    expect([again.part, again.weights]).toEqual([made.part, made.weights]);
  });

  it("follows a place and spots that change", async () => {
    const before = await linearProxy(request("picture"), context);
    expect(densityAt(before, 640, 160)).toBeGreaterThan(1.6);
    const spots = [[640 / FULL[0], 160 / FULL[0], 10 / FULL[0]]] as const;
    const after = await linearProxy(request("picture", { spots }), context);
    expect(Math.abs(densityAt(after, 640, 160) - 1.2)).toBeLessThan(0.02);
    const scans = [frameJoin.scans[0], { path: paths[1], place: [DX - 20, DY, 0] as const }];
    const moved = await linearProxy(request("picture", { join: { scans, sensorDust: [] } }), context);
    expect(moved.scanWidth).toBe(FULL[0] - 20);
  });

  it("is there as a thumbnail and, part by part, at full size", async () => {
    const small = await linearProxy(request("thumbnail"), context);
    expect(Math.max(small.width, small.height)).toBeLessThanOrEqual(220);
    const part = { left: 600 / FULL[0], top: 0.25, width: 0.19, height: 0.5 };
    const close = await linearProxy(request(part), context);
    expect([close.width, close.part.left]).toEqual([149, 600 / FULL[0]]);
    for (const proxy of [small, close]) expect(Math.abs(densityAt(proxy, 700, 100) - 1.2)).toBeLessThan(0.01);
  });

  it("is the same with measured exposures, in any order, its scans let go one by one", async () => {
    // The second scan's exposure by its file is half of the first one's, and so it is: nothing is left to match.
    const scans = frameJoin.scans.map(({ path, place: [x, y, angle] }) => ({ path, place: [x, y, angle, 0] as const }));
    const measured: FrameJoin = { scans, sensorDust: [] };
    const made = await linearProxy(request("picture", { join: measured }), context);
    expect([made.scanWidth, made.scanHeight]).toEqual(FULL);
    for (const [x, d] of STEPS) expect(Math.abs(densityAt(made, x, 100) - d)).toBeLessThan(0.01);
    const other = await linearProxy(
      request("picture", { join: { scans: scans.toReversed(), sensorDust: [] } }),
      context,
    );
    // Listed the other way round, the picture is counted from the other scan; here no scan is turned.
    expect([other.scanWidth, other.scanHeight]).toEqual(FULL);
    for (const [x, d] of STEPS) expect(Math.abs(densityAt(other, x, 100) - d)).toBeLessThan(0.01);
    // 0.3 EV more for the second scan makes it thinner by 0.09 D there.
    const brighter = [scans[0]!, { path: scans[1]!.path, place: [DX, DY, 0, 0.3] as const }];
    const lighter = await linearProxy(request("picture", { join: { scans: brighter, sensorDust: [] } }), context);
    expect(Math.abs(densityAt(lighter, 760, 100) - 1.11)).toBeLessThan(0.012);
  });

  it("has its base read on the scan that the area lies on", async () => {
    const joined = { join: frameJoin, cache };
    const area = [660 / FULL[0], 100 / FULL[1], 60 / FULL[0], 60 / FULL[1]] as const;
    const reading = await readBaseOfScan({ path: paths[0], area, light, joined });
    expect(reading.index).toBe(1);
    expect(reading.density[1]).toBeCloseTo(1.2, 2);
    // The area as it is written: in fractions of that scan.
    expect(reading.area[0] * WIDTH).toBeCloseTo(660 - DX, 6);
    expect(reading.area[1] * HEIGHT).toBeCloseTo(100 - DY, 6);
    const alone = await readBaseOfScan({ path: paths[1], area: reading.area, light });
    expect(alone.density).toEqual(reading.density);
    const across = [200 / FULL[0], 0.2, 400 / FULL[0], 0.2] as const;
    await expect(readBaseOfScan({ path: paths[0], area: across, light, joined })).rejects.toThrow(/lies across/);
  });

  it("is compared in the review, and drawn small for sheets", async () => {
    const before = { path: paths[0], setup: setup() };
    const after = { path: paths[0], setup: setup({ exposure: 0.5 }) };
    const made = await compareFrame({ before, after, long: 300 }, context);
    const { width = 0, height = 1 } = made.after ?? {};
    expect(width).toBe(300);
    expect(width / height).toBeCloseTo(FULL[0] / FULL[1], 1);
    expect(made.difference?.mean).toBeGreaterThan(2);
    const same = await compareFrame({ before, after: before, long: 300 }, context);
    expect(same.difference?.max).toBe(0);
    const small = await thumbnail({ path: paths[0], setup: setup(), box: [120, 120] }, context);
    expect([small.width, small.channels]).toEqual([120, 3]);
    // Denser is brighter: the three steps rise from left to right.
    const green = STEPS.map(([x]) => small.data[(20 * small.width + Math.floor((x / FULL[0]) * small.width)) * 3 + 1]);
    expect(green).toEqual(green.toSorted((a, b) => a - b));
    expect(green[2]).toBeGreaterThan(green[0] + 40);
  });
});
