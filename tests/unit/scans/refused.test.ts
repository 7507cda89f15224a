// Files that cannot be used: one clear error each, and none is decoded in part.
import { chmodSync, mkdirSync } from "node:fs";
import { join } from "node:path";
import fc from "../../properties.ts";
import { describe, expect, test } from "vitest";
import { decodeScan } from "../../../extension/scans/decode.ts";
import { ScanError } from "../../../extension/scans/errors.ts";
import { type DngOptions, writeDng, XTRANS } from "../../witness/raw/dng.ts";
import { writeRaf } from "../../witness/raw/raf.ts";
import { buildTiff, type Field } from "../../witness/raw/tiff.ts";
import { drawMosaic, temporaryFolder } from "./files.ts";

const WIDTH = 120;
const HEIGHT = 80;
const folder = temporaryFolder();

function dng(options: Partial<DngOptions> = {}): Uint8Array {
  const data = drawMosaic(WIDTH, HEIGHT);
  return writeDng({ width: WIDTH, height: HEIGHT, data, black: 512, white: 15000, bits: 14, ...options });
}

async function decodeError(path: string, options = {}): Promise<ScanError> {
  const error = await decodeScan(path, options).catch((e: unknown) => e);
  expect(error).toBeInstanceOf(ScanError);
  return error as ScanError;
}

describe("not a usable file", () => {
  test("missing", async () => {
    const error = await decodeError(join(folder.path, "none.dng"));
    expect(error.code).toBe("missing");
    expect(error.message).toBe("none.dng does not exist.");
  });

  test("a folder", async () => {
    mkdirSync(join(folder.path, "folder.dng"));
    expect((await decodeError(join(folder.path, "folder.dng"))).code).toBe("not-a-file");
  });

  test.skipIf(process.getuid?.() === 0 || process.platform === "win32")("no permission", async () => {
    const path = folder.put("locked.dng", dng());
    chmodSync(path, 0);
    expect((await decodeError(path)).code).toBe("unreadable");
  });

  test.each<[string, Uint8Array | string, ScanError["code"], RegExp]>([
    ["empty.dng", "", "empty", /is empty/],
    ["letter.nef", "Dear colleague,\nthe scans follow.\n", "unrecognised", /is a text/],
    ["noise.dng", Uint8Array.from({ length: 5000 }, (_, i) => (i * 7919) >> 3), "unrecognised", /unknown kind/],
    ["picture.dng", "\x89PNG\r\n\x1a\n", "unrecognised", /PNG/],
    ["header.dng", Uint8Array.from([0x49, 0x49, 42, 0, 8, 0, 0, 0]), "truncated", /ends too early/],
    ["two.dng", "II", "unrecognised", /not a scan/],
  ])("%s", async (name, bytes, code, message) => {
    const error = await decodeError(folder.put(name, typeof bytes === "string" ? Buffer.from(bytes, "latin1") : bytes));
    expect(error.code).toBe(code);
    expect(error.message).toMatch(message);
    expect(error.message).toContain(name);
    expect(error.remedy).toMatch(/^[A-Z].*\.$/);
  });
});

describe("truncated", () => {
  const raf = () =>
    writeRaf({ width: 132, height: 96, data: drawMosaic(132, 96, { pattern: XTRANS, black: 1024 }), black: 1024 });
  const cases: [string, () => Uint8Array][] = [
    ["packed.dng", () => dng()],
    ["jpeg.dng", () => dng({ compression: "jpeg" })],
    ["xtrans.raf", raf],
  ];
  test.each(cases)("%s, wherever it is cut", async (name, make) => {
    const whole = make();
    for (const part of [0.1, 0.5, 0.9]) {
      const path = folder.put(`cut-${part}-${name}`, whole.subarray(0, Math.floor(whole.length * part)));
      expect((await decodeError(path)).code, `${part}`).toBe("truncated");
    }
  });

  test("a JPEG without its end", async () => {
    const jpeg = Buffer.concat([Buffer.from([0xff, 0xd8, 0xff, 0xdb]), Buffer.alloc(500)]);
    expect((await decodeError(folder.put("cut.jpg", jpeg))).code).toBe("truncated");
  });
});

describe("cannot be decoded here", () => {
  test.each<[string, number, RegExp]>([
    ["JPEG XL", 52546, /JPEG XL/],
    ["wavelets", 9, /VC-5/],
  ])("%s", async (name, compression, message) => {
    const tags = new Map<number, Field>([[259, ["short", compression]]]);
    const error = await decodeError(folder.put(`${name}.dng`, dng({ tags })));
    expect(error.code).toBe("unsupported");
    expect(error.message).toMatch(message);
    expect(error.remedy).toMatch(/DNG/);
  });

  test("deflated whole numbers", async () => {
    const error = await decodeError(folder.put("deflate.dng", dng({ compression: "deflate", bits: 16 })));
    expect(error.message).toMatch(/deflate/);
  });

  test("floating point", async () => {
    const tags = new Map<number, Field>([[339, ["short", 3]]]);
    expect((await decodeError(folder.put("float.dng", dng({ tags })))).message).toMatch(/floating-point/);
  });
});

describe("absurd sizes are refused from the header", () => {
  test("of the picture", async () => {
    const tags = new Map<number, Field>([
      [256, ["long", 2_000_000_000]],
      [257, ["long", 2_000_000_000]],
    ]);
    const error = await decodeError(folder.put("huge.dng", dng({ tags })));
    expect(error.code).toBe("too-large");
    expect(error.message).toContain("2000000000");
  });

  test("of a tile", async () => {
    const tags = new Map<number, Field>([[322, ["long", 4_000_000_000]]]);
    expect((await decodeError(folder.put("tile.dng", dng({ compression: "jpeg", tags })))).code).toBe("too-large");
  });

  test("by the caller's limit", async () => {
    const path = folder.put("fits.dng", dng());
    expect((await decodeError(path, { maxPixels: WIDTH * HEIGHT - 1 })).code).toBe("too-large");
    expect((await decodeScan(path, { maxPixels: WIDTH * HEIGHT })).scan.width).toBe(WIDTH);
  });

  test("also where only the raw decoder reads the header", async () => {
    const data = drawMosaic(132, 96, { pattern: XTRANS, black: 1024 });
    const path = folder.put("large.raf", writeRaf({ width: 132, height: 96, data, black: 1024 }));
    expect((await decodeError(path, { maxPixels: 132 * 96 - 1 })).code).toBe("too-large");
  });
});

test("directories that point at themselves end", async () => {
  const bytes = buildTiff({ fields: new Map<number, Field>([[330, ["long", 8]]]) });
  const view = new DataView(bytes.buffer);
  view.setUint32(view.getUint32(4, true) + 2 + 8, view.getUint32(4, true), true);
  expect((await decodeError(folder.put("loop.tif", bytes))).code).toBe("corrupt");
});

test("damaged headers give an error of ours or a picture, never anything else", async () => {
  const whole = dng();
  const path = join(folder.path, "damaged.dng");
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.tuple(fc.nat({ max: 400 }), fc.nat({ max: 255 })), { minLength: 1, maxLength: 4 }),
      async (changes) => {
        const bytes = whole.slice();
        // The directory lies at the end: damage it there, and the header.
        for (const [at, value] of changes) bytes[at < 8 ? at : whole.length - at] = value;
        folder.put("damaged.dng", bytes);
        const result = await decodeScan(path, { maxPixels: 1e6 }).catch((e: unknown) => e);
        expect(result instanceof Error ? result : undefined).toSatisfy(
          (error) => error === undefined || error instanceof ScanError,
        );
      },
    ),
    { numRuns: 150, seed: 5 },
  );
});
