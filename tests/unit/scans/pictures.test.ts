// TIFF and JPEG scans: exact where they are exact, made linear where they are not, refused where they cannot be.
import sharp from "sharp";
import { describe, expect, test } from "vitest";
import { decodeScan } from "../../../extension/scans/decode.ts";
import { iccProfile } from "../../../extension/scans/output/icc.ts";
import { buildTiff, type Field } from "../../witness/raw/tiff.ts";
import { seeded, sameNumbers, temporaryFolder } from "./files.ts";

const WIDTH = 60;
const HEIGHT = 40;
const folder = temporaryFolder();

function noise(channels: number, max: number): Uint16Array {
  const random = seeded(9);
  return Uint16Array.from({ length: WIDTH * HEIGHT * channels }, () => Math.floor(random() * (max + 1)));
}

interface TiffOptions {
  readonly bits?: number;
  readonly photometric?: number;
  readonly profile?: Uint8Array;
  readonly more?: [number, Field][];
}

/** An uncompressed TIFF of these numbers, from our own writer. */
function tiff(data: Uint16Array, channels: number, { bits = 16, photometric, profile, more = [] }: TiffOptions = {}) {
  const fields = new Map<number, Field>([
    [256, ["long", WIDTH]],
    [257, ["long", HEIGHT]],
    [258, ["short", Array.from({ length: channels }, () => bits)]],
    [259, ["short", 1]],
    [262, ["short", photometric ?? (channels === 1 ? 1 : 2)]],
    [277, ["short", channels]],
    [278, ["long", HEIGHT]],
    [284, ["short", 1]],
    ...more,
  ]);
  if (profile) fields.set(34675, ["undefined", profile]);
  const image = bits === 8 ? Uint8Array.from(data) : new Uint8Array(data.buffer);
  return buildTiff({ fields, image: [image], exif: { fields: new Map([[33434, ["rational", [1, 30]]]]) } });
}

describe("16-bit TIFF", () => {
  test.each([1, 3])("%i channels come through number by number", async (channels) => {
    const data = noise(channels, 65535);
    const { scan, info, warnings } = await decodeScan(folder.put(`t${channels}.tif`, tiff(data, channels)));
    expect(scan).toMatchObject({ width: WIDTH, height: HEIGHT, channels, black: 0, scale: 1 / 65535 });
    expect(sameNumbers(scan.data, data)).toBe(true);
    expect(info).toMatchObject({ source: "tiff", bits: 16, shutter: 1 / 30 });
    expect(warnings).toEqual([]);
  });

  test.each(["lzw", "deflate"] as const)("compressed with %s", async (compression) => {
    const data = noise(3, 65535);
    const bytes = await sharp(data, { raw: { width: WIDTH, height: HEIGHT, channels: 3 } })
      .toColourspace("rgb16")
      .tiff({ compression })
      .toBuffer();
    expect(sameNumbers((await decodeScan(folder.put(`${compression}.tif`, bytes))).scan.data, data)).toBe(true);
  });

  test("an orientation tag turns nothing", async () => {
    const data = noise(3, 65535);
    const { scan } = await decodeScan(folder.put("o.tif", tiff(data, 3, { more: [[274, ["short", 6]]] })));
    expect(scan.width).toBe(WIDTH);
    expect(sameNumbers(scan.data, data)).toBe(true);
  });

  test("a profile that encodes is undone, with a warning", async () => {
    const data = noise(3, 65535);
    const bytes = tiff(data, 3, { profile: iccProfile("adobe", 3) });
    const { scan, warnings } = await decodeScan(folder.put("adobe.tif", bytes));
    expect(warnings.map((w) => w.code)).toEqual(["encoded"]);
    data.forEach((v, i) => {
      const light = 65535 * (v / 65535) ** 2.19921875; // Adobe RGB (1998) §4.3.1.2
      if (Math.abs(scan.data[i] - light) > 1) throw new Error(`${v} became ${scan.data[i]}, not ${light}`);
    });
  });

  test("half size is the mean of 2 × 2", async () => {
    const data = noise(3, 65535);
    const { scan, info } = await decodeScan(folder.put("half.tif", tiff(data, 3)), { half: true });
    expect(scan).toMatchObject({ width: WIDTH / 2, height: HEIGHT / 2 });
    expect(info).toMatchObject({ width: WIDTH, height: HEIGHT });
    const mean = (data[0] + data[3] + data[WIDTH * 3] + data[WIDTH * 3 + 3]) / 4;
    expect(Math.abs(scan.data[0] - mean)).toBeLessThanOrEqual(0.5);
  });
});

/** IEC 61966-2-1, written out once more. */
const srgbLight = (v: number) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);

test("8-bit TIFF is made linear with a warning", async () => {
  const data = noise(3, 255);
  const { scan, info, warnings } = await decodeScan(folder.put("t8.tif", tiff(data, 3, { bits: 8 })));
  expect(info.bits).toBe(8);
  expect(warnings.map((w) => w.code)).toEqual(["eight-bit"]);
  expect([...scan.data]).toEqual([...data].map((v) => Math.round(65535 * srgbLight(v / 255))));
});

test("JPEG is made linear with a warning and keeps its camera data", async () => {
  const grey = 118;
  const [left, right] = [grey, 150].map((v) => ({ r: v, g: v, b: v }));
  const patch = { create: { width: 20, height: HEIGHT, channels: 3, background: right } } as const;
  const bytes = await sharp({ create: { width: WIDTH, height: HEIGHT, channels: 3, background: left } })
    .composite([{ input: patch, left: 40, top: 0 }])
    .jpeg({ quality: 100 })
    .withExif({ IFD0: { Model: "Copy One" }, IFD2: { ExposureTime: "1/15", FNumber: "8/1", ISOSpeedRatings: "100" } })
    .toBuffer();
  const { scan, info, warnings } = await decodeScan(folder.put("j.jpg", bytes));
  expect(warnings.map((w) => w.code)).toEqual(["jpeg"]);
  expect(info).toMatchObject({ source: "jpeg", bits: 8, model: "Copy One", shutter: 1 / 15, aperture: 8, iso: 100 });
  expect(scan.data[0]).toBe(Math.round(65535 * srgbLight(grey / 255)));
});

test.each<[string, Uint8Array, RegExp]>([
  ["float.tif", tiff(noise(3, 65535), 3, { more: [[339, ["short", [3, 3, 3]]]] }), /floating-point/],
  ["cmyk.tif", tiff(noise(4, 65535), 4, { photometric: 5 }), /CMYK/],
  ["twelve.tif", tiff(noise(3, 4095), 3, { bits: 12 }), /12-bit/],
])("%s is refused", async (name, bytes, message) => {
  await expect(decodeScan(folder.put(name, bytes))).rejects.toMatchObject({
    code: "unsupported",
    message: expect.stringMatching(message),
  });
});

test("a damaged TIFF body is an error", async () => {
  const bytes = await sharp(noise(3, 65535), { raw: { width: WIDTH, height: HEIGHT, channels: 3 } })
    .toColourspace("rgb16")
    .tiff({ compression: "deflate" })
    .toBuffer();
  bytes.fill(0xa5, 20, 400);
  await expect(decodeScan(folder.put("damaged.tif", bytes))).rejects.toMatchObject({ code: "corrupt" });
});
