// Camera files from outside the project, read where they are kept beside the repository and never copied into it:
// samples with known numbers (.u16, little-endian) are bit-exact, damaged or undecodable ones give the right error.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { decodeScan } from "../../extension/scans/decode.ts";
import { ScanError, type ScanErrorCode } from "../../extension/scans/errors.ts";
import { memorySource } from "../../extension/scans/files/source.ts";
import { loadLibRaw } from "../../extension/scans/raw/libraw.ts";
import { type RawPicture, readRaw } from "../../extension/scans/raw/read-raw.ts";
import { mainDirectory } from "../../extension/scans/recognise.ts";
import { readTiff } from "../../extension/scans/tiff/read.ts";
import { sameNumbers } from "../unit/scans/files.ts";

const samples = new URL("../../../shared/raw/samples/", import.meta.url).pathname;
const list = (folder: string) => (existsSync(samples) ? readdirSync(join(samples, folder)) : []);
const MAX_PIXELS = 1e8;

/** Losslessly compressed ones among them, of cameras and of two converters. */
const dngFiles = ["raw/samples/real", "raw/samples/synthetic", "real/raw"]
  .map((folder) => new URL(`../../../shared/${folder}/`, import.meta.url).pathname)
  .filter((folder) => existsSync(folder))
  .flatMap((folder) => readdirSync(folder).map((name) => join(folder, name)))
  .filter((path) => /\.dng$/i.test(path));

async function recordedNumbers(path: string): Promise<Uint16Array> {
  const raw = readRaw(await loadLibRaw(), new Uint8Array(readFileSync(path)), MAX_PIXELS);
  return raw.kind === "mosaic" ? raw.mosaic.data : raw.picture.data;
}

describe.runIf(existsSync(samples))("samples", () => {
  test.each(list("synthetic").filter((name) => !name.endsWith(".u16")))("synthetic/%s is bit-exact", async (name) => {
    const path = join(samples, "synthetic", name);
    const truth = readFileSync(path.replace(/\.\w+$/, ".u16"));
    const wanted = new Uint16Array(truth.buffer, truth.byteOffset, truth.length / 2);
    expect(sameNumbers(await recordedNumbers(path), wanted)).toBe(true);
    const { scan } = await decodeScan(path);
    expect(scan.channels).toBe(name.startsWith("mono") ? 1 : 3);
  });

  test("a camera's packed mosaic and its lossless JPEG copy hold the same numbers", async () => {
    const packed = await recordedNumbers(join(samples, "real/magiclantern_kissx4_colorchart.dng"));
    expect(sameNumbers(await recordedNumbers(join(samples, "real/kissx4_ljpeg.dng")), packed)).toBe(true);
  });

  test.each(dngFiles)("%s holds the same numbers by the quick way and by LibRaw's", async (path) => {
    const bytes = new Uint8Array(readFileSync(path));
    const tiff = readTiff(memorySource(bytes));
    const quick = readRaw(await loadLibRaw(), bytes, MAX_PIXELS, tiff && mainDirectory(tiff));
    const slow = readRaw(await loadLibRaw(), bytes, MAX_PIXELS);
    const pictureOf = (raw: RawPicture) => (raw.kind === "mosaic" ? raw.mosaic : raw.picture);
    expect({ ...pictureOf(quick), data: 0 }).toEqual({ ...pictureOf(slow), data: 0 });
    expect(sameNumbers(pictureOf(quick).data, pictureOf(slow).data)).toBe(true);
  });

  test("a camera's file: sizes, levels and pattern", async () => {
    const path = join(samples, "real/magiclantern_kissx4_colorchart.dng");
    const { scan, info, warnings } = await decodeScan(path);
    expect(info).toMatchObject({ source: "raw", width: 1734, height: 1156, bits: 14, mosaic: "bayer" });
    expect(scan).toMatchObject({ width: 1734, height: 1156, channels: 3 });
    expect(warnings).toEqual([]);
    expect((await decodeScan(path, { half: true })).scan).toMatchObject({ width: 867, height: 578 });
  });

  test("lossy DNG is decoded with a warning", async () => {
    const { scan, warnings } = await decodeScan(join(samples, "real/sample_1mp.dng"));
    expect(scan).toMatchObject({ width: 600, height: 338, channels: 3 });
    expect(warnings.map((warning) => warning.code)).toEqual(["lossy"]);
  });

  const bad: Record<string, [code: ScanErrorCode, says: RegExp]> = {
    "GOPR0024.GPR": ["unsupported", /VC-5/],
    "bep-sample.arw": ["truncated", /ends too early/],
    "bep-sample.cr2": ["truncated", /ends too early/],
    "bep-sample.dng": ["truncated", /ends too early/],
    "bep-sample.nef": ["truncated", /ends too early/],
    "empty.dng": ["empty", /is empty/],
    "garbage.dng": ["unrecognised", /not a scan/],
    "synthetic_deflate_int.dng": ["unsupported", /deflate/],
    "text.nef": ["unrecognised", /text/],
    "trunc-bayer_ljpeg.dng": ["truncated", /ends too early/],
    "trunc-colorchart.dng": ["truncated", /ends too early/],
  };

  test("every bad sample has an expected error", () => expect(list("bad").sort()).toEqual(Object.keys(bad).sort()));

  test.each(Object.entries(bad))("bad/%s", async (name, [code, message]) => {
    const error = await decodeScan(join(samples, "bad", name)).catch((e: unknown) => e);
    expect(error).toBeInstanceOf(ScanError);
    expect(error).toMatchObject({ code, file: join(samples, "bad", name) });
    expect((error as ScanError).message).toMatch(message);
    expect((error as ScanError).message).toContain(name);
    expect((error as ScanError).remedy).toMatch(/\.$/);
  });
});
