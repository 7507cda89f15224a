// Files that a decoder reads without an error into a wrong picture: refused, or decoded with a warning.
import sharp from "sharp";
import { describe, expect, test } from "vitest";
import { decodeScan } from "../../../extension/scans/decode.ts";
import { ScanError } from "../../../extension/scans/errors.ts";
import { type DngOptions, writeDng } from "../../witness/raw/dng.ts";
import { buildTiff, type Directory, type Field } from "../../witness/raw/tiff.ts";
import { drawMosaic, sameNumbers, seeded, temporaryFolder } from "./files.ts";

const WIDTH = 120;
const HEIGHT = 80;
const folder = temporaryFolder();

const tag = { width: 256, bits: 258, compression: 259, offsets: 273, rows: 278, lengths: 279, format: 339 };
const dngTag = { layout: 50711, blackRepeat: 50713, black: 50714, white: 50717 };

interface Wrong extends Partial<DngOptions> {
  readonly set?: Record<number, Field>;
}

function dng({ set = {}, ...options }: Wrong = {}): Uint8Array {
  const tags = new Map(Object.entries(set).map(([name, field]) => [Number(name), field] as const));
  const data = drawMosaic(WIDTH, HEIGHT);
  return writeDng({ width: WIDTH, height: HEIGHT, data, black: 512, white: 15000, tags, ...options });
}

async function resultOf(name: string, bytes: Uint8Array): Promise<{ refused?: string; warnings: string[] }> {
  try {
    const { warnings } = await decodeScan(folder.put(name, bytes));
    return { warnings: warnings.map((warning) => warning.code) };
  } catch (error) {
    if (error instanceof ScanError && error.remedy.endsWith(".")) return { refused: error.message, warnings: [] };
    throw error;
  }
}

const zeros = new Uint16Array(WIDTH * HEIGHT);
const long = (value: number): Field => ["long", value];
const short = (value: number): Field => ["short", value];
const mosaicOf = (value: (x: number, y: number) => number) =>
  Uint16Array.from({ length: WIDTH * HEIGHT }, (_, i) => value(i % WIDTH, Math.floor(i / WIDTH)));

describe("a DNG", () => {
  test.each(["none", "jpeg"] as const)("that is right (%s) is decoded without a warning", async (compression) => {
    expect(await resultOf("right.dng", dng({ compression }))).toEqual({ warnings: [] });
  });

  test.each<[string, Wrong, RegExp]>([
    ["all zeros", { data: zeros }, /nothing but zeros/],
    ["all zeros, black 0", { data: zeros, black: 0 }, /nothing but zeros/],
    ["all zeros, compressed", { data: zeros, compression: "jpeg" }, /nothing but zeros/],
    ["white below black", { white: 500 }, /white level of 500.*black level of 512/],
    ["white at black", { white: 512 }, /not above its black level/],
    ["black 65535", { black: 65535 }, /not above its black level of 65535/],
    ["black 4294967295", { set: { [dngTag.black]: long(4294967295) } }, /not above its black level/],
    [
      "black above all samples",
      { black: 14999.5, white: 60000, data: drawMosaic(WIDTH, HEIGHT, { white: 14000 }) },
      /no sample lies above/,
    ],
    ["8 bits for 16", { set: { [tag.bits]: short(8) } }, /does not fit a picture of 120 × 80 pixels/],
    ["15 bits for 16", { set: { [tag.bits]: short(15) } }, /does not fit/],
    [
      "16 bits for 12",
      { bits: 12, white: 4000, data: drawMosaic(WIDTH, HEIGHT, { white: 4000 }), set: { [tag.bits]: short(16) } },
      /ends too early|does not fit/,
    ],
    ["half the width", { set: { [tag.width]: long(WIDTH / 2) } }, /does not fit/],
    ["twice the width", { set: { [tag.width]: long(WIDTH * 2) } }, /does not fit/],
    [
      "half the width, tiles",
      { compression: "jpeg", set: { [tag.width]: long(WIDTH * 3) } },
      /need 2 tiles, but it names 1/,
    ],
    ["strips of ten rows", { set: { [tag.rows]: long(10) } }, /need 8 strips, but it names 1/],
    ["JPEG over plain numbers", { set: { [tag.compression]: short(7) } }, /does not fit/],
    ["staggered filters", { set: { [dngTag.layout]: short(2) } }, /staggered/],
    ["signed numbers", { set: { [tag.format]: short(2) } }, /signed/],
    ["floating-point numbers", { set: { [tag.format]: short(3) } }, /floating-point/],
    ["complex numbers", { set: { [tag.format]: short(5) } }, /unknown kind/],
  ])("with %s is refused", async (name, wrong, message) => {
    const { refused } = await resultOf(`${name}.dng`, dng(wrong));
    expect(refused).toMatch(message);
  });

  test("whose strip is shorter than its samples is refused", async () => {
    const bytes = dng();
    patchLong(bytes, tag.lengths, WIDTH * HEIGHT);
    expect((await resultOf("length.dng", bytes)).refused).toMatch(/does not fit/);
  });

  test("whose strip begins at 0 is refused", async () => {
    const bytes = dng();
    patchLong(bytes, tag.offsets, 0);
    expect((await resultOf("offset.dng", bytes)).refused).toMatch(/does not say where one of its strips begins/);
  });

  test("whose JPEG tile has a picture of another size is refused", async () => {
    const wide = dng({ compression: "jpeg" });
    const narrow = new Map<number, Field>([
      [322, long(128)],
      [323, long(128)],
    ]);
    const bytes = dng({ compression: "jpeg", tags: narrow });
    expect(wide.length).toBe(bytes.length);
    expect((await resultOf("tile.dng", bytes)).refused).toMatch(/its tile 1 of 1 does not fit/);
  });

  test.each<[string, Wrong, string]>([
    ["one number", { data: zeros.slice().fill(900) }, "flat"],
    ["the white level", { data: zeros.slice().fill(15000), compression: "jpeg" }, "flat"],
    ["one colour", { data: mosaicOf((x, y) => 700 + 100 * (y % 2) + 50 * (x % 2)) }, "flat"],
    ["a lens cap", { data: mosaicOf((x, y) => (x === 60 && y === 40 ? 9000 : 500 - ((x * 7 + y * 3) % 9))) }, "dark"],
    ["a part without data", { data: mosaicOf((x, y) => (y < 48 ? 900 + x : 0)) }, "incomplete"],
  ])("of %s is decoded with a warning", async (name, wrong, code) => {
    expect((await resultOf(`${name}.dng`, dng(wrong))).warnings).toContain(code);
  });

  test("of linear colours is looked at like one of a mosaic", async () => {
    const linear = { kind: "linear", black: [512, 512, 512] } as const;
    const samples = (value: (i: number) => number) =>
      Uint16Array.from({ length: WIDTH * HEIGHT * 3 }, (_, i) => value(i));
    const decodeError = async (wrong: Wrong) => (await resultOf("linear.dng", dng({ ...linear, ...wrong }))).refused;
    expect(await decodeError({ data: samples((i) => 600 + (i % 999)) })).toBeUndefined();
    expect(await decodeError({ data: samples(() => 0) })).toMatch(/nothing but zeros/);
    expect(await decodeError({ data: samples((i) => 100 + (i % 99)) })).toMatch(/no sample lies above/);
    const { warnings } = await resultOf("colour.dng", dng({ ...linear, data: samples((i) => 1000 + (i % 3)) }));
    expect(warnings).toEqual(["flat"]);
  });
});

/** Replaces a number that stands in its entry of a little-endian TIFF's root directory. */
function patchLong(bytes: Uint8Array, wanted: number, value: number): void {
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  const root = view.getUint32(4, true);
  for (let entry = root + 2; ; entry += 12)
    if (view.getUint16(entry, true) === wanted) return view.setUint32(entry + 8, value, true);
}

describe("a TIFF", () => {
  const random = seeded(4);
  const noise = Uint16Array.from({ length: WIDTH * HEIGHT * 3 }, () => Math.floor(random() * 65536));
  function picture(data: Uint16Array, width = WIDTH, more: Record<number, Field> = {}): Directory {
    const fields = new Map<number, Field>([
      [256, long(width)],
      [257, long(data.length / width / 3)],
      [258, ["short", [16, 16, 16]]],
      [259, short(1)],
      [262, short(2)],
      [277, short(3)],
      [278, long(data.length / width / 3)],
      [284, short(1)],
      ...Object.entries(more).map(([name, field]) => [Number(name), field] as const),
    ]);
    return { fields, image: [new Uint8Array(data.buffer, data.byteOffset, data.byteLength)] };
  }
  const small = noise.slice(0, 60 * 40 * 3);

  test("with a small picture before its main one gives the main one, and its exposure", async () => {
    const exif = { fields: new Map<number, Field>([[33434, ["rational", [1, 30]]]]) };
    const main = picture(noise);
    const path = folder.put(
      "sub.tif",
      buildTiff({ ...picture(small, 60, { 254: long(1) }), subDirectories: [main], exif }),
    );
    const { scan, info } = await decodeScan(path);
    expect(info).toMatchObject({ width: WIDTH, height: HEIGHT, shutter: 1 / 30 });
    expect(sameNumbers(scan.data, noise)).toBe(true);
  });

  test("with several pages gives the largest that is not a reduced copy or a mask", async () => {
    const page = (data: Uint16Array, width: number, type: number) => picture(data, width, { 254: long(type) });
    const larger = Uint16Array.from({ length: 200 * 100 * 3 }, () => Math.floor(random() * 65536));
    const pages = [page(small, 60, 1), page(noise, WIDTH, 0), page(larger, 200, 1), page(larger, 200, 4)];
    const { scan } = await decodeScan(folder.put("pages.tif", chained(pages)));
    expect(scan.width).toBe(WIDTH);
    expect(sameNumbers(scan.data, noise)).toBe(true);
  });

  test.each<[string, Uint16Array, Record<number, Field>, RegExp]>([
    ["signed numbers", noise, { 339: ["short", [2, 2, 2]] }, /signed/],
    ["signed numbers in its last channel", noise, { 339: ["short", [1, 1, 2]] }, /signed/],
    ["zeros", new Uint16Array(noise.length), {}, /nothing but zeros/],
    ["half the width", noise, { 256: long(WIDTH / 2) }, /does not fit/],
    ["too few strips", noise, { 278: long(8) }, /need 10 strips/],
  ])("of %s is refused", async (name, data, more, message) => {
    expect((await resultOf(`${name}.tif`, buildTiff(picture(data, WIDTH, more)))).refused).toMatch(message);
  });

  test("of one number is decoded with a warning", async () => {
    const { warnings } = await resultOf("one.tif", buildTiff(picture(new Uint16Array(noise.length).fill(7))));
    expect(warnings).toEqual(["flat"]);
  });

  test("whose white is 0 is turned around", async () => {
    const grey = noise.slice(0, WIDTH * HEIGHT);
    const root = picture(grey, WIDTH / 3, { 256: long(WIDTH), 258: short(16), 262: short(0), 277: short(1) });
    const { scan } = await decodeScan(folder.put("white.tif", buildTiff(root)));
    expect(scan.channels).toBe(1);
    expect(
      sameNumbers(
        scan.data,
        grey.map((v) => 65535 - v),
      ),
    ).toBe(true);
  });
});

/** Directories in one chain: the files of one directory each, laid one behind the other. */
function chained(pages: readonly Directory[]): Uint8Array {
  const files = pages.map((page) => buildTiff(page));
  const all = new Uint8Array(files.reduce((sum, file) => sum + file.length, 0));
  const view = new DataView(all.buffer);
  let base = 0;
  let link = 4;
  for (const file of files) {
    all.set(file, base);
    const root = base + new DataView(file.buffer).getUint32(4, true);
    view.setUint32(link, root, true);
    const entries = view.getUint16(root, true);
    for (let entry = root + 2; entry < root + 2 + 12 * entries; entry += 12) {
      const size = [0, 1, 1, 2, 4][view.getUint16(entry + 2, true)] * view.getUint32(entry + 4, true);
      const isPlace = view.getUint16(entry, true) === tag.offsets || size > 4;
      if (isPlace) view.setUint32(entry + 8, view.getUint32(entry + 8, true) + base, true);
    }
    link = root + 2 + 12 * entries;
    base += file.length;
  }
  return all;
}

test("a JPEG in CMYK is refused", async () => {
  const bytes = await sharp({ create: { width: 64, height: 48, channels: 3, background: "#906030" } })
    .toColourspace("cmyk")
    .jpeg()
    .toBuffer();
  expect((await resultOf("cmyk.jpg", bytes)).refused).toMatch(/CMYK/);
});
