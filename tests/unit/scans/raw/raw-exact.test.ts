// What LibRaw hands over is what our own writers put into the files, number by number.
import { describe, expect, test } from "vitest";
import { loadLibRaw } from "../../../../extension/scans/raw/libraw.ts";
import { readRaw } from "../../../../extension/scans/raw/read-raw.ts";
import { type DngOptions, GBRG, RGGB, writeDng, XTRANS } from "../../../witness/raw/dng.ts";
import { writeRaf } from "../../../witness/raw/raf.ts";
import { drawMosaic, sameNumbers, seeded } from "../files.ts";

const WIDTH = 310;
const HEIGHT = 206;
const PIXELS = 1e8;

async function read(bytes: Uint8Array) {
  return readRaw(await loadLibRaw(), bytes, PIXELS);
}

async function readMosaic(bytes: Uint8Array) {
  const raw = await read(bytes);
  if (raw.kind !== "mosaic") throw new Error("expected a mosaic");
  return raw.mosaic;
}

describe("Bayer DNG", () => {
  const cases: [name: string, options: Partial<DngOptions>, white: number][] = [
    ["12 bits, packed", { bits: 12 }, 4000],
    ["14 bits, packed", { bits: 14 }, 15000],
    ["16 bits", { bits: 16 }, 60000],
    ["14 bits, lossless JPEG in tiles", { bits: 14, compression: "jpeg" }, 15000],
    ["16 bits, lossless JPEG in tiles", { bits: 16, compression: "jpeg" }, 60000],
  ];
  test.each(cases)("%s", async (_, options, white) => {
    const data = drawMosaic(WIDTH, HEIGHT, { black: 128, white });
    const mosaic = await readMosaic(writeDng({ width: WIDTH, height: HEIGHT, data, black: 128, white, ...options }));
    expect(mosaic).toMatchObject({ width: WIDTH, height: HEIGHT, left: 0, top: 0, stride: WIDTH, white, period: 2 });
    expect(mosaic.colours).toEqual(RGGB.colours);
    expect(mosaic.black).toEqual([128, 128, 128, 128]);
    expect(sameNumbers(mosaic.data, data)).toBe(true);
  });

  test("a black level of its own for every site", async () => {
    const black = [500, 520, 540, 560];
    const data = drawMosaic(WIDTH, HEIGHT, { black });
    const mosaic = await readMosaic(writeDng({ width: WIDTH, height: HEIGHT, data, black, white: 15000 }));
    expect(mosaic.black).toEqual(black);
    expect(mosaic.white).toBe(15000);
    expect(sameNumbers(mosaic.data, data)).toBe(true);
  });

  test("GBRG inside an active area", async () => {
    const data = drawMosaic(WIDTH, HEIGHT, { pattern: GBRG });
    const activeArea = [6, 10, HEIGHT - 6, WIDTH - 10] as const;
    const mosaic = await readMosaic(
      writeDng({ width: WIDTH, height: HEIGHT, data, black: 512, white: 15000, pattern: GBRG, activeArea }),
    );
    expect(mosaic).toMatchObject({ width: WIDTH - 20, height: HEIGHT - 12, left: 10, top: 6, stride: WIDTH });
    expect(mosaic.colours).toEqual(GBRG.colours);
    expect(sameNumbers(mosaic.data, data)).toBe(true);
  });

  test("filters and black level are learnt where the middle of the picture is dark", async () => {
    const black = [500, 520, 540, 560];
    const isMiddle = (x: number, y: number) => Math.abs(x - WIDTH / 2) < 60 && Math.abs(y - HEIGHT / 2) < 60;
    const light = (x: number, y: number) => (isMiddle(x, y) ? 0 : 0.5);
    const data = drawMosaic(WIDTH, HEIGHT, { black, noise: 0, light });
    const mosaic = await readMosaic(writeDng({ width: WIDTH, height: HEIGHT, data, black, white: 15000 }));
    expect(mosaic.colours).toEqual(RGGB.colours);
    expect(mosaic.black).toEqual(black);
  });

  test("a file is not decoded with the settings of the one before", async () => {
    const data = drawMosaic(WIDTH, HEIGHT);
    const linear = new Uint16Array(WIDTH * HEIGHT * 3).fill(1000);
    const bytes = writeDng({ width: WIDTH, height: HEIGHT, data, black: 512, white: 15000 });
    await read(writeDng({ width: WIDTH, height: HEIGHT, data: linear, kind: "linear" }));
    expect(sameNumbers((await readMosaic(bytes)).data, data)).toBe(true);
    expect(sameNumbers((await readMosaic(bytes)).data, data)).toBe(true);
  });
});

test("monochrome DNG", async () => {
  const data = drawMosaic(WIDTH, HEIGHT, { colour: [1, 1, 1] });
  const mosaic = await readMosaic(
    writeDng({ width: WIDTH, height: HEIGHT, data, black: 512, white: 15000, kind: "monochrome" }),
  );
  expect(mosaic.monochrome).toBe(true);
  expect(new Set(mosaic.black)).toEqual(new Set([512]));
  expect(sameNumbers(mosaic.data, data)).toBe(true);
});

test.each(["none", "jpeg"] as const)("linear RGB DNG, compression %s", async (compression) => {
  const random = seeded(3);
  const data = Uint16Array.from({ length: WIDTH * HEIGHT * 3 }, () => 400 + Math.floor(random() * 60000));
  const raw = await read(
    writeDng({ width: WIDTH, height: HEIGHT, data, kind: "linear", black: [256, 300, 280], white: 62000, compression }),
  );
  expect(raw.kind).toBe("linear");
  if (raw.kind !== "linear") return;
  expect(raw.picture).toMatchObject({ width: WIDTH, height: HEIGHT, channels: 3 });
  expect(sameNumbers(raw.picture.data, data)).toBe(true); // black level still in
});

test("X-Trans RAF", async () => {
  const data = drawMosaic(WIDTH, HEIGHT, { pattern: XTRANS, black: 1024, white: 15360 });
  const mosaic = await readMosaic(writeRaf({ width: WIDTH, height: HEIGHT, data, black: 1024 }));
  expect(mosaic).toMatchObject({ width: WIDTH, height: HEIGHT, period: 6, white: 16383 });
  expect(mosaic.colours).toEqual(XTRANS.colours);
  expect(new Set(mosaic.black)).toEqual(new Set([1024]));
  expect(sameNumbers(mosaic.data, data)).toBe(true);
});
