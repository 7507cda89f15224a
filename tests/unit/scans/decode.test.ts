import { describe, expect, test } from "vitest";
import { decodeScan } from "../../../extension/scans/decode.ts";
import type { LinearScan } from "../../../extension/engine/types.ts";
import { BGGR, type FilterPattern, GBRG, GRBG, RGGB, writeDng, XTRANS } from "../../witness/raw/dng.ts";
import { writeRaf } from "../../witness/raw/raf.ts";
import type { FieldNumber } from "../../witness/raw/tiff.ts";
import { drawMosaic, temporaryFolder } from "./files.ts";

const WIDTH = 310;
const HEIGHT = 206;
const BLACK = 512;
const WHITE = 15000;
const folder = temporaryFolder();

/** Weak blue, strong red: bare light through an orange base. */
const FILM = [0.8, 0.5, 0.2] as const;

function signalAt(scan: LinearScan, x: number, y: number, channel: number): number {
  return (scan.data[(y * scan.width + x) * scan.channels + channel] - scan.black) * scan.scale;
}

/** Largest difference from `truth` over the picture and all channels. */
function worst(scan: LinearScan, truth: (x: number, y: number, channel: number) => number, border = 0): number {
  let max = 0;
  for (let y = border; y < scan.height - border; y++)
    for (let x = border; x < scan.width - border; x++)
      for (let c = 0; c < scan.channels; c++) max = Math.max(max, Math.abs(signalAt(scan, x, y, c) - truth(x, y, c)));
  return max;
}

function filmDng(pattern: FilterPattern, light: (x: number, y: number) => number): Uint8Array {
  const data = drawMosaic(WIDTH, HEIGHT, { pattern, light, colour: FILM, noise: 0 });
  return writeDng({ width: WIDTH, height: HEIGHT, data, pattern, black: BLACK, white: WHITE, bits: 14 });
}

const patterns = { RGGB, GRBG, GBRG, BGGR };

describe("demosaicing", () => {
  test.each(Object.entries(patterns))("%s: an even field stays even, to the last number", async (name, pattern) => {
    const { scan } = await decodeScan(
      folder.put(
        `${name}.dng`,
        filmDng(pattern, () => 0.6),
      ),
    );
    expect(scan).toMatchObject({ width: WIDTH, height: HEIGHT, channels: 3 });
    // Half a recorded number is what rounding in the file may cost.
    expect(worst(scan, (_x, _y, c) => 0.6 * FILM[c])).toBeLessThan(0.51 / (WHITE - BLACK));
  });

  test.each(Object.entries(patterns))("%s: recorded numbers are kept exactly", async (name, pattern) => {
    const light = (x: number, y: number) => 0.5 + 0.4 * Math.sin(x * 1.3) * Math.cos(y * 0.9);
    const data = drawMosaic(WIDTH, HEIGHT, { pattern, light, colour: FILM });
    const bytes = writeDng({ width: WIDTH, height: HEIGHT, data, pattern, black: BLACK, white: WHITE });
    const { scan } = await decodeScan(folder.put(`exact-${name}.dng`, bytes));
    const gain = Math.round(1 / scan.scale / (WHITE - BLACK));
    const changed = data.findIndex((recorded, i) => {
      const colour = pattern.colours[(Math.floor(i / WIDTH) % 2) * 2 + ((i % WIDTH) % 2)];
      return (scan.data[3 * i + colour] - scan.black) / gain + BLACK !== recorded;
    });
    expect(changed).toBe(-1);
  });

  test("a step edge at any angle keeps its colour", async () => {
    for (const angle of [0, 90, 45, 20]) {
      const [nx, ny] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
      const light = (x: number, y: number) => {
        const distance = (x - WIDTH / 2) * nx + (y - HEIGHT / 2) * ny;
        return 0.2 + 0.6 / (1 + Math.exp(-distance / 0.8)); // a lens draws no sharper edge
      };
      const { scan } = await decodeScan(folder.put(`edge-${angle}.dng`, filmDng(RGGB, light)));
      expect(
        worst(scan, (x, y, c) => light(x, y) * FILM[c], 3),
        `angle ${angle}`,
      ).toBeLessThan(0.03);
    }
  });

  test("X-Trans: an even field stays even, recorded numbers are kept, a smooth scene is close", async () => {
    const put = (light: (x: number, y: number) => number) => {
      const data = drawMosaic(WIDTH, HEIGHT, {
        pattern: XTRANS,
        light,
        colour: FILM,
        noise: 0,
        black: 1024,
        white: 16383,
      });
      return folder.put("x.raf", writeRaf({ width: WIDTH, height: HEIGHT, data, black: 1024 }));
    };
    const even = await decodeScan(put(() => 0.6));
    expect(even.info.mosaic).toBe("xtrans");
    expect(worst(even.scan, (_x, _y, c) => 0.6 * FILM[c])).toBeLessThan(0.51 / (16383 - 1024));
    const light = (x: number, y: number) => 0.5 + 0.3 * Math.sin(x / 6) * Math.cos(y / 5);
    const smooth = await decodeScan(put(light));
    expect(worst(smooth.scan, (x, y, c) => light(x, y) * FILM[c], 3)).toBeLessThan(0.01);
  });

  test("X-Trans: recorded numbers are kept exactly, also at the edges and where detail is wild", async () => {
    const light = (x: number, y: number) => 0.5 + 0.45 * Math.sin(x * 2.1) * Math.cos(y * 1.7);
    const data = drawMosaic(WIDTH, HEIGHT, { pattern: XTRANS, light, colour: FILM, black: 1024, white: 16383 });
    const { scan } = await decodeScan(
      folder.put("wild.raf", writeRaf({ width: WIDTH, height: HEIGHT, data, black: 1024 })),
    );
    const gain = Math.round(1 / scan.scale / (16383 - 1024));
    const changed = data.findIndex((recorded, i) => {
      const colour = XTRANS.colours[(Math.floor(i / WIDTH) % 6) * 6 + ((i % WIDTH) % 6)];
      return (scan.data[3 * i + colour] - scan.black) / gain + 1024 !== recorded;
    });
    expect(changed).toBe(-1);
  });

  test("monochrome gives one channel", async () => {
    const light = (x: number, y: number) => 0.3 + (0.5 * x) / WIDTH + (0.1 * y) / HEIGHT;
    const data = drawMosaic(WIDTH, HEIGHT, { light, colour: [1, 1, 1], noise: 0 });
    const bytes = writeDng({ width: WIDTH, height: HEIGHT, data, kind: "monochrome", black: BLACK, white: WHITE });
    const { scan, info } = await decodeScan(folder.put("mono.dng", bytes));
    expect(scan.channels).toBe(1);
    expect(info.mosaic).toBeUndefined();
    expect(worst(scan, light)).toBeLessThan(0.51 / (WHITE - BLACK));
  });

  test("linear DNG: black levels of each channel are taken off, noise below black is kept", async () => {
    const black = [256, 300, 280];
    const data = Uint16Array.from(
      { length: WIDTH * HEIGHT * 3 },
      (_, i) => black[i % 3] + (i % 7 === 0 ? -9 : i % 60000),
    );
    const bytes = writeDng({ width: WIDTH, height: HEIGHT, data, kind: "linear", black, white: 62000 });
    const { scan } = await decodeScan(folder.put("linear.dng", bytes));
    expect(scan.black).toBeGreaterThan(9);
    const range = 62000 - 300;
    expect(worst(scan, (x, y, c) => (data[(y * WIDTH + x) * 3 + c] - black[c]) / range)).toBeLessThan(1e-9);
  });
});

describe("half size", () => {
  const ramp = (x: number, y: number) => 0.2 + (0.4 * x) / WIDTH + (0.2 * y) / HEIGHT;
  /** The mean of a cell's light: on a ramp, the light at the cell's centre. */
  const atCentre = (x: number, y: number, c: number) => ramp(2 * x + 0.5, 2 * y + 0.5) * FILM[c];

  test.each(Object.entries(patterns))("%s: all colours lie on the cell's centre", async (name, pattern) => {
    const { scan, info } = await decodeScan(folder.put(`half-${name}.dng`, filmDng(pattern, ramp)), { half: true });
    expect(scan).toMatchObject({ width: WIDTH / 2, height: HEIGHT / 2 });
    expect(info).toMatchObject({ width: WIDTH, height: HEIGHT, mosaic: "bayer" });
    expect(worst(scan, atCentre, 2)).toBeLessThan(0.51 / (WHITE - BLACK));
  });

  test("X-Trans: even fields stay even; a ramp is off by less than half a pixel", async () => {
    const data = drawMosaic(WIDTH, HEIGHT, {
      pattern: XTRANS,
      light: ramp,
      colour: FILM,
      noise: 0,
      black: 1024,
      white: 16383,
    });
    const path = folder.put("half.raf", writeRaf({ width: WIDTH, height: HEIGHT, data, black: 1024 }));
    const { scan } = await decodeScan(path, { half: true });
    const halfPixel = 0.5 * (0.4 / WIDTH + 0.2 / HEIGHT);
    expect(worst(scan, atCentre, 2)).toBeLessThan(halfPixel);
  });
});

test("camera data come from the file, orientation changes nothing", async () => {
  const bytes = writeDng({
    width: WIDTH,
    height: HEIGHT,
    data: drawMosaic(WIDTH, HEIGHT),
    black: BLACK,
    white: WHITE,
    bits: 14,
    orientation: 6,
    make: "Invented",
    model: "Copy One",
    colourMatrix: [0.75, -0.25, -0.0625, -0.5, 1.25, 0.25, -0.125, 0.25, 0.5],
    exif: { shutter: [1, 125], aperture: [56, 10], iso: 200, time: "2026:01:02 03:04:05", lens: "Macro 60", focal: 60 },
  });
  const { scan, info, warnings } = await decodeScan(folder.put("exif.dng", bytes));
  expect(scan).toMatchObject({ width: WIDTH, height: HEIGHT });
  expect(info).toEqual({
    source: "raw",
    make: "Invented",
    model: "Copy One",
    lens: "Macro 60",
    shutter: 1 / 125,
    aperture: 5.6,
    iso: 200,
    focal: 60,
    time: "2026-01-02T03:04:05",
    width: WIDTH,
    height: HEIGHT,
    bits: 14,
    mosaic: "bayer",
    colourMatrix: [
      [0.75, -0.25, -0.0625],
      [-0.5, 1.25, 0.25],
      [-0.125, 0.25, 0.5],
    ],
  });
  expect(warnings).toEqual([]);
});

test("values the file does not have are absent", async () => {
  const bytes = writeDng({ width: WIDTH, height: HEIGHT, data: drawMosaic(WIDTH, HEIGHT), black: BLACK, white: WHITE });
  const { info } = await decodeScan(folder.put("bare.dng", bytes));
  for (const key of ["shutter", "aperture", "iso", "lens", "focal", "time"]) expect(info).not.toHaveProperty(key);
});

test("a nominal shutter time gives way to the APEX value that says the true one, and to nothing else", async () => {
  const data = drawMosaic(WIDTH, HEIGHT, {});
  const read = async (name: string, shutterSpeed: FieldNumber | undefined) => {
    const exif = { shutter: [1, 30] as const, shutterSpeed };
    const { info } = await decodeScan(folder.put(name, writeDng({ width: WIDTH, height: HEIGHT, data, exif })));
    return info.shutter;
  };
  // EXIF 2.32: Tv = −log2 t, so 5 is 1/32 s; cameras write 1/30 beside it.
  expect(await read("apex.dng", [5, 1])).toBeCloseTo(1 / 32, 9);
  expect(await read("same.dng", [4907, 1000])).toBeCloseTo(1 / 30, 4);
  expect(await read("other.dng", [4, 1])).toBe(1 / 30);
  expect(await read("broken.dng", [5, 0])).toBe(1 / 30);
  expect(await read("none.dng", undefined)).toBe(1 / 30);
});

test("X-Trans files carry their camera data in a JPEG", async () => {
  const data = drawMosaic(WIDTH, HEIGHT, { pattern: XTRANS });
  const exif = { shutter: [1, 60], aperture: 8, iso: 160 } as const;
  const { info } = await decodeScan(
    folder.put("exif.raf", writeRaf({ width: WIDTH, height: HEIGHT, data, black: 1024, exif })),
  );
  expect(info).toMatchObject({ shutter: 1 / 60, aperture: 8, iso: 160, model: "X-TEST" });
});
