/**
 * The quick way for losslessly compressed DNG files against LibRaw's: the same numbers, sizes and levels where it reads
 * a file, and LibRaw's own answer where it does not.
 */
import { createHash } from "node:crypto";
import { describe, expect, test } from "vitest";
import { memorySource } from "../../../../extension/scans/files/source.ts";
import { type LibRaw, type LibRawFile, loadLibRaw } from "../../../../extension/scans/raw/libraw.ts";
import { decodeLosslessJpeg } from "../../../../extension/scans/raw/lossless-jpeg.ts";
import { RawFailure, type RawPicture, readRaw } from "../../../../extension/scans/raw/read-raw.ts";
import { mainDirectory } from "../../../../extension/scans/recognise.ts";
import { readTiff } from "../../../../extension/scans/tiff/read.ts";
import { BGGR, type DngOptions, GBRG, GRBG, RGGB, writeDng } from "../../../witness/raw/dng.ts";
import { encodeLosslessJpeg } from "../../../witness/raw/ljpeg.ts";
import type { Field } from "../../../witness/raw/tiff.ts";
import { drawMosaic, sameNumbers, seeded } from "../files.ts";

const [WIDTH, HEIGHT] = [522, 270];
const PIXELS = 1e8;

/** What LibRaw is asked for besides headers: nothing, where the quick way was taken. */
async function readBothWays(bytes: Uint8Array): Promise<{ quick: unknown; slow: unknown; unpacked: boolean }> {
  const tiff = readTiff(memorySource(bytes));
  const main = tiff && mainDirectory(tiff);
  const attempt = async (quickly: boolean): Promise<{ read: unknown; unpacked: boolean }> => {
    const lib = await loadLibRaw();
    let unpacked = false;
    function watched(): LibRawFile {
      const file = new lib.LibRaw();
      const imageData = file.imageData.bind(file);
      file.imageData = () => {
        unpacked = true;
        return imageData();
      };
      return file;
    }
    try {
      const raw = readRaw(
        { ...lib, LibRaw: watched as unknown as LibRaw["LibRaw"] },
        bytes,
        PIXELS,
        quickly ? main : undefined,
      );
      return { read: comparable(raw), unpacked };
    } catch (error) {
      if (!(error instanceof RawFailure)) throw error;
      return { read: { reason: error.reason, lines: error.lines }, unpacked };
    }
  };
  const [quick, slow] = [await attempt(true), await attempt(false)];
  return { quick: quick.read, slow: slow.read, unpacked: quick.unpacked };
}

/** All that a file gave, its numbers by their digest. */
function comparable(raw: RawPicture): unknown {
  if (raw.kind !== "mosaic") return { ...raw.picture, data: digest(raw.picture.data) };
  return { ...raw.mosaic, data: digest(raw.mosaic.data) };
}

const digest = (data: Uint16Array): string =>
  createHash("sha256")
    .update(new Uint8Array(data.buffer, data.byteOffset, data.byteLength))
    .digest("hex");

const dng = (options: Partial<DngOptions> = {}): Uint8Array => {
  const { width = WIDTH, height = HEIGHT, black = 512, white = 15000 } = options;
  const data = drawMosaic(width, height, { black, white, pattern: options.pattern, noise: 200 });
  return writeDng({ width, height, data, bits: 14, compression: "jpeg", black, white, ...options });
};

describe("a DNG in lossless JPEG tiles is read as LibRaw reads it", () => {
  const cases: [name: string, options: Partial<DngOptions>][] = [
    ["of 14 bits", {}],
    ["of 12 bits", { bits: 12, white: 4000 }],
    ["of 16 bits", { bits: 16, white: 65535 }],
    ["whose numbers are noise", { bits: 16, data: noise(65536), white: 65535 }],
    ["of one number", { data: new Uint16Array(WIDTH * HEIGHT).fill(4000) }],
    ["BGGR", { pattern: BGGR }],
    ["GRBG", { pattern: GRBG }],
    ["GBRG in an active area", { pattern: GBRG, activeArea: [6, 10, HEIGHT - 6, WIDTH - 10] }],
    ["in an active area that begins at an odd place", { activeArea: [5, 9, HEIGHT - 6, WIDTH - 10] }],
    ["with a black level for each site", { black: [500, 520, 540, 560] }],
    ["of three whole tiles a row", { width: 768, height: 256 }],
    ["without a white level", { tags: new Map([[50717, undefined]]) }],
    ["with samples above its white level", { white: 9000, data: drawMosaic(WIDTH, HEIGHT) }],
    [
      "with a default crop",
      {
        tags: new Map([
          [50719, ["short", [4, 4]]],
          [50720, ["short", [480, 240]]],
        ]),
      },
    ],
  ];
  test.each(cases)("%s", async (_, options) => {
    const { quick, slow, unpacked } = await readBothWays(dng(options));
    expect(quick).toEqual(slow);
    expect(unpacked).toBe(false);
  });
});

test("two whole tiles a row, of which LibRaw leaves the second empty", async () => {
  const [width, height] = [512, 256];
  const data = drawMosaic(width, height);
  const { quick } = await readBothWays(dng({ width, height, data }));
  expect(quick).toMatchObject({ width, height, data: digest(data) });
});

describe("a DNG that is not as usual is left to LibRaw", () => {
  const tag = (number: number, field: Field | undefined) => ({ tags: new Map([[number, field]]) });
  const curve = Array.from({ length: 16384 }, (_, k) => Math.min(65535, k * 2));
  const cases: [name: string, options: Partial<DngOptions>][] = [
    ["uncompressed", { compression: "none" }],
    ["with a curve", { ...tag(50712, ["short", curve]), white: 30000 }],
    ["with a black level that is no whole number", tag(50714, ["rational", [[1025, 2]]])],
    ["with a black level that changes along the rows", tag(50715, ["srational", Array(WIDTH).fill(3)])],
    ["with masked areas", { ...tag(50830, ["long", [0, 0, HEIGHT, 8]]), activeArea: [6, 10, HEIGHT, WIDTH] }],
    ["with interleaved rows", tag(50975, ["long", 2])],
    ["with a version before 1.1", tag(50706, ["byte", [1, 0, 0, 0]])],
    ["smaller than a tile", { width: 200, height: 120 }],
    ["without filters", { kind: "monochrome" }],
  ];
  test.each(cases)("%s", async (_, options) => {
    const { quick, slow, unpacked } = await readBothWays(dng(options));
    expect(quick).toEqual(slow);
    expect(unpacked).toBe(true);
  });

  test("damaged anywhere", { timeout: 60_000 }, async () => {
    const whole = dng({ pattern: RGGB });
    const random = seeded(20261202);
    for (let k = 0; k < 60; k++) {
      const bytes = whole.slice();
      bytes[Math.floor(random() * bytes.length)] ^= 1 << Math.floor(random() * 8);
      const { quick, slow } = await readBothWays(bytes);
      expect(quick, `change ${k}`).toEqual(slow);
    }
  });

  test("cut off anywhere", { timeout: 60_000 }, async () => {
    const whole = dng();
    const random = seeded(7);
    for (let k = 0; k < 20; k++) {
      const { quick, slow } = await readBothWays(
        whole.subarray(0, Math.floor(1000 + random() * (whole.length - 1000))),
      );
      expect(quick, `cut ${k}`).toEqual(slow);
    }
  });
});

describe("a lossless JPEG", () => {
  const block = (width: number, height: number) => ({
    data: new Uint16Array(width * height),
    at: 0,
    stride: width,
    columns: width,
    rows: height,
  });
  const [width, height] = [64, 24];

  test.each([1, 2])("of %d components, at every number of bits", (components) => {
    for (let bits = 2; bits <= 16; bits++) {
      const samples = noise(2 ** bits, width * height);
      const bytes = encodeLosslessJpeg({ samples, width: width / components, height, components, bits });
      const target = block(width, height);
      expect(decodeLosslessJpeg(bytes, { width, height }, target)).toBe(true);
      expect(sameNumbers(target.data, samples)).toBe(true);
    }
  });

  test("is put where it belongs, and no farther", () => {
    const samples = noise(4096, width * height);
    const bytes = encodeLosslessJpeg({ samples, width: width / 2, height, components: 2, bits: 12 });
    const target = { data: new Uint16Array(100 * 40).fill(9), at: 205, stride: 100, columns: 10, rows: 4 };
    expect(decodeLosslessJpeg(bytes, { width, height }, target)).toBe(true);
    target.data.forEach((value, i) => {
      const [x, y] = [(i % 100) - 5, Math.floor(i / 100) - 2];
      const isInside = x >= 0 && x < 10 && y >= 0 && y < 4;
      expect(value).toBe(isInside ? samples[y * width + x] : 9);
    });
  });

  test("of another size, cut off, or of samples beyond its bits is refused", () => {
    const samples = noise(4096, width * height);
    const bytes = encodeLosslessJpeg({ samples, width: width / 2, height, components: 2, bits: 12 });
    const decode = (changed: Uint8Array, size = { width, height }) =>
      decodeLosslessJpeg(changed, size, block(width, height));
    expect(decode(bytes, { width: width - 2, height })).toBe(false);
    expect(decode(bytes, { width, height: height - 1 })).toBe(false);
    for (const length of [0, 1, 2, 30, 60, 90, bytes.length / 2, bytes.length - 40])
      expect(decode(bytes.subarray(0, length))).toBe(false);
    const narrow = encodeLosslessJpeg({ samples, width: width / 2, height, components: 2, bits: 11 });
    expect(decode(narrow)).toBe(false);
  });
});

/** Even noise from 0 to below `range`. */
function noise(range: number, length = WIDTH * HEIGHT): Uint16Array {
  const random = seeded(range);
  return Uint16Array.from({ length }, () => Math.floor(random() * range));
}
