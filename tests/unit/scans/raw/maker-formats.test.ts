// Raw files in makers' own formats: samples, layout, margins, black and white are what our writers put into them.
import { expect, test } from "vitest";
import { decodeScan } from "../../../../extension/scans/decode.ts";
import { loadLibRaw } from "../../../../extension/scans/raw/libraw.ts";
import { readRaw } from "../../../../extension/scans/raw/read-raw.ts";
import { CR2, writeCr2 } from "../../../witness/raw/cr2.ts";
import { RGGB } from "../../../witness/raw/dng.ts";
import { type MakerFile, writeArw, writeNef, writeOrf, writePef } from "../../../witness/raw/maker-files.ts";
import { drawMosaic, sameNumbers, temporaryFolder } from "../files.ts";

const [WIDTH, HEIGHT] = [320, 208];
const folder = temporaryFolder();

function file(black: MakerFile["black"], white: number): MakerFile {
  return { width: WIDTH, height: HEIGHT, data: drawMosaic(WIDTH, HEIGHT, { black, white }), black, shutter: [1, 30] };
}

async function mosaicOf(bytes: Uint8Array) {
  const raw = readRaw(await loadLibRaw(), bytes, 1e8);
  if (raw.kind !== "mosaic") throw new Error("expected a mosaic");
  return raw.mosaic;
}

const fine = file([600, 601, 602, 603], 15000);
const coarse = file([200, 201, 202, 203], 4000);

test.each<[string, Uint8Array, MakerFile, number]>([
  ["14.nef", writeNef(fine, 14), fine, 16383],
  ["12.nef", writeNef(coarse, 12), coarse, 4095],
  ["14.arw", writeArw(fine), fine, 16383],
  ["12.orf", writeOrf(coarse), coarse, 4095],
  ["12.pef", writePef(coarse), coarse, 4095],
])("%s", async (name, bytes, { data, black }, white) => {
  const mosaic = await mosaicOf(bytes);
  expect(mosaic).toMatchObject({ width: WIDTH, height: HEIGHT, left: 0, top: 0, stride: WIDTH, period: 2, white });
  expect(mosaic.colours).toEqual(RGGB.colours);
  expect(mosaic.black).toEqual(black);
  expect(sameNumbers(mosaic.data, data)).toBe(true);
  const { scan, info, warnings } = await decodeScan(folder.put(name, bytes));
  expect(scan).toMatchObject({ width: WIDTH, height: HEIGHT, channels: 3 });
  expect(info).toMatchObject({ source: "raw", mosaic: "bayer", shutter: 1 / 30 });
  expect(warnings).toEqual([]);
});

test.each([undefined, { count: 2, width: 752 }, { count: 1, width: 1000 }])("CR2 in slices %o", async (slices) => {
  const { width, height, left, top, right, bottom } = CR2;
  const black = [600, 604, 608, 612];
  // The dark margin holds each site's black level exactly.
  const light = (x: number, y: number) => (x < left || y < top ? 0 : 0.2 + (0.6 * x) / width + (0.1 * y) / height);
  const data = drawMosaic(width, height, { black, white: 15000, light, noise: 0 });
  const bytes = writeCr2({ data, slices });
  const mosaic = await mosaicOf(bytes);
  const size = { width: width - left - right, height: height - top - bottom };
  expect(mosaic).toMatchObject({ ...size, left, top, stride: width, period: 2, white: 16383 });
  expect(mosaic.colours).toEqual(RGGB.colours);
  expect(mosaic.black).toEqual(black);
  expect(sameNumbers(mosaic.data, data)).toBe(true);
  const { info, warnings } = await decodeScan(folder.put("sliced.cr2", bytes), { half: true });
  expect(info).toMatchObject({ ...size, mosaic: "bayer", shutter: 1 / 60 });
  expect(warnings).toEqual([]);
});
