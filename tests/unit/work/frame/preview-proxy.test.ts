import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { densityOfCode } from "../../../../extension/engine/plan/log-code.ts";
import { linearProxy, type LinearProxy } from "../../../../extension/work/frame/preview-proxy.ts";
import { readLight } from "../../../../extension/work/frame/read-light.ts";
import type { FrameLight } from "../../../../extension/work/frame/develop.ts";
import { RGGB, writeDng } from "../../../witness/raw/dng.ts";

const [WIDTH, HEIGHT, BLACK, WHITE] = [480, 320, 256, 16383];
const context = { report() {}, checkpoint() {} };

/** Left half of the film has one density, the right half another; the light falls off to the right. */
const bare = (x: number): number => 0.8 - (0.3 * x) / WIDTH;
const film = (x: number): number => (x < WIDTH / 2 ? 0.4 : 1.1);
const shutters = { blank: 1 / 100, scan: 1 / 50 };

function camera(name: string, signal: (x: number, y: number) => number, shutter: number): Uint8Array {
  const data = new Uint16Array(WIDTH * HEIGHT);
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++)
      data[y * WIDTH + x] = Math.round(BLACK + Math.min(1, signal(x, y)) * (WHITE - BLACK));
  return writeDng({
    width: WIDTH,
    height: HEIGHT,
    data,
    pattern: RGGB,
    bits: 14,
    black: BLACK,
    white: WHITE,
    make: "Invented",
    model: name,
    exif: { shutter, aperture: 8, iso: 100, time: "2026:05:16 10:00:00" },
  });
}

describe("linear proxies", () => {
  const folder = mkdtempSync(join(tmpdir(), "proxy-"));
  const path = join(folder, "scan.dng");
  const cache = { folder: join(folder, "cache"), maxBytes: 50e6 };
  let light: FrameLight;
  const request = (want: LinearProxy["want"], spots: LinearProxy["spots"] = []): LinearProxy => ({
    path,
    light,
    spots,
    cache,
    want,
  });

  beforeAll(async () => {
    const blank = join(folder, "blank.dng");
    writeFileSync(
      blank,
      camera("A", (x) => bare(x) / 2, shutters.blank),
    );
    const speck = (x: number, y: number): boolean => Math.hypot(x - 120, y - 160) < 6;
    // Twice the exposure of the blank; a dark speck on the left half.
    writeFileSync(
      path,
      camera("A", (x, y) => (speck(x, y) ? 0.01 : bare(x) * 10 ** -film(x)), shutters.scan),
    );
    const { field, exposure } = await readLight({ path: blank, field: true });
    light = { field, flare: [0, 0, 0], reference: exposure };
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const densityAt = (
    { codes, width, height }: { codes: Uint8Array; width: number; height: number },
    u: number,
    v: number,
  ): number => {
    const words = new Uint16Array(codes.buffer, codes.byteOffset, codes.length / 2);
    return densityOfCode(words[(Math.floor(v * height) * width + Math.floor(u * width)) * 3 + 1]);
  };

  it("carry the film's density, light and exposure taken out, within 0.01 D", async () => {
    const made = await linearProxy(request("picture"), context);
    expect([made.scanWidth, made.scanHeight]).toEqual([WIDTH, HEIGHT]);
    expect(made.codes.length).toBe(made.width * made.height * 6);
    for (const [u, d] of [
      [0.1, 0.4],
      [0.4, 0.4],
      [0.6, 1.1],
      [0.9, 1.1],
    ] as const)
      expect(Math.abs(densityAt(made, u, 0.2) - d)).toBeLessThan(0.01);
    // (T·(1 − flare) + flare) · level · ratio gives the camera's own signal back.
    expect(made.field?.ratio).toBeCloseTo(2, 6);
    const level = made.field?.level[1] ?? 0;
    expect(level * 2).toBeCloseTo(bare(0), 1);
  });

  it("are the same from the cache", async () => {
    const first = await linearProxy(request("picture"), context);
    const again = await linearProxy(request("picture"), context);
    expect(Buffer.compare(Buffer.from(first.codes), Buffer.from(again.codes))).toBe(0);
  });

  it("heal spots", async () => {
    const u = 120 / WIDTH;
    const before = await linearProxy(request("picture"), context);
    expect(densityAt(before, u, 0.5)).toBeGreaterThan(1.2);
    const after = await linearProxy(request("picture", [[u, 160 / WIDTH, 8 / WIDTH]]), context);
    expect(Math.abs(densityAt(after, u, 0.5) - 0.4)).toBeLessThan(0.02);
  });

  it("are small as thumbnails", async () => {
    const made = await linearProxy(request("thumbnail"), context);
    expect(Math.max(made.width, made.height)).toBeLessThanOrEqual(220);
    expect(Math.abs(densityAt(made, 0.1, 0.2) - 0.4)).toBeLessThan(0.01);
  });

  it("show a part pixel by pixel, and say which", async () => {
    const part = { left: 0.5, top: 0.25, width: 0.25, height: 0.5 };
    const made = await linearProxy(request(part), context);
    expect([made.width, made.height, made.part]).toEqual([120, 160, part]);
    expect(Math.abs(densityAt(made, 0.5, 0.5) - 1.1)).toBeLessThan(0.01);
    const edge = await linearProxy(request({ left: 0.99, top: 0.99, width: 0.5, height: 0.5 }), context);
    expect(edge.part.left + edge.part.width).toBeLessThanOrEqual(1);
  });

  it("do without a blank, and fail with the scan's own words", async () => {
    const made = await linearProxy({ ...request("picture"), light: { flare: [0, 0, 0] } }, context);
    expect(made.field).toBeUndefined();
    expect(densityAt(made, 0.1, 0.2)).toBeCloseTo(0.4 - Math.log10(bare(48)), 1);
    await expect(linearProxy({ ...request("picture"), path: join(folder, "none.dng") }, context)).rejects.toThrow(
      /none\.dng/,
    );
  });
});
