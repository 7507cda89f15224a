// Finished pictures: samples, profile and metadata read back from the bytes by sharp and by our own small readers.
import sharp from "sharp";
import { describe, expect, test } from "vitest";
import type { OutputSpace, Raster } from "../../../../extension/engine/types.ts";
import { encodePicture, type EncodeSpec, type PictureMetadata } from "../../../../extension/scans/output/encode.ts";
import { iccProfile } from "../../../../extension/scans/output/icc.ts";
import { memorySource } from "../../../../extension/scans/files/source.ts";
import { readTiff } from "../../../../extension/scans/tiff/read.ts";
import { TAG } from "../../../../extension/scans/tiff/tags.ts";
import { NAMESPACE, xmpPacket } from "../../../../extension/scans/output/xmp.ts";
import { sameNumbers, seeded } from "../files.ts";

const WIDTH = 70;
const HEIGHT = 50;

function picture16(channels: 1 | 3): Raster<Uint16Array> {
  const random = seeded(4);
  const data = Uint16Array.from({ length: WIDTH * HEIGHT * channels }, () => Math.floor(random() * 65536));
  return { width: WIDTH, height: HEIGHT, channels, data };
}

const METADATA: PictureMetadata = {
  title: 'Bow wave <hold & "sky">',
  description: "First light,\nhold\u0007 the sky — größer",
  roll: "Harbour, first light",
  frame: "12A",
  camera: "folding 35",
  lens: "50 mm",
  date: "2026-05-02",
  rated: 400,
  place: "Saltmere",
  stock: "Northlight 400",
  format: "135",
  scans: ["H0012.dng", "H0012b.dng"],
  scanCamera: "Copy One",
  recipe: "0123abcd",
  software: "Rollbook test",
};

const ALL: EncodeSpec[] = [
  { type: "tiff", depth: 16, space: "romm" },
  { type: "tiff", depth: 16, space: "adobe", compression: "none" },
  { type: "tiff", depth: 8, space: "srgb" },
  { type: "png", depth: 16, space: "romm" },
  { type: "png", depth: 8, space: "p3" },
  { type: "jpeg", depth: 8, space: "srgb", quality: 92 },
  { type: "webp", depth: 8, space: "p3" },
  { type: "avif", depth: 8, space: "p3" },
];
const named = (specs: EncodeSpec[]) =>
  specs.map((spec) => [`${spec.type} ${spec.depth} ${spec.space} ${spec.compression ?? ""}`, spec] as const);

describe("samples", () => {
  const exact = ALL.filter((spec) => spec.type === "tiff" || spec.type === "png");
  test.each(named(exact).flatMap(([name, spec]) => ([1, 3] as const).map((c) => [name, c, spec] as const)))(
    "%s, %i channels: every number is kept",
    async (_, channels, spec) => {
      const picture = picture16(channels);
      const bytes = await encodePicture(picture, spec, METADATA);
      const deep = spec.depth === 16;
      const { data, info } = await sharp(bytes, { ignoreIcc: true })
        .toColourspace(channels === 1 ? (deep ? "grey16" : "b-w") : deep ? "rgb16" : "srgb")
        .raw({ depth: deep ? "ushort" : "uchar" })
        .toBuffer({ resolveWithObject: true });
      expect(info).toMatchObject({ width: WIDTH, height: HEIGHT, channels });
      const back = deep ? new Uint16Array(data.buffer, data.byteOffset, data.length / 2) : Uint16Array.from(data);
      const wanted = deep ? picture.data : picture.data.map((v) => Math.round(v / 257));
      expect(sameNumbers(back, wanted)).toBe(true);
    },
  );

  test.each(named(ALL.filter((spec) => ["jpeg", "webp", "avif"].includes(spec.type))))(
    "%s: smooth colours stay close, in their own space",
    async (_, spec) => {
      const data = new Uint16Array(WIDTH * HEIGHT * 3);
      data.forEach(
        (_v, i) => (data[i] = 65535 * [0.8, 0.4 + (0.3 * Math.floor(i / 3)) / (WIDTH * HEIGHT), 0.2][i % 3]),
      );
      const bytes = await encodePicture(
        { width: WIDTH, height: HEIGHT, channels: 3, data },
        { ...spec, quality: 95 },
        {},
      );
      const back = await sharp(bytes, { ignoreIcc: true }).raw().toBuffer();
      const worst = back.reduce((max, v, i) => Math.max(max, Math.abs(v - data[i] / 257)), 0);
      expect(worst).toBeLessThanOrEqual(5);
    },
  );

  test("8-bit pictures go through as they are", async () => {
    const data = Uint8Array.from({ length: WIDTH * HEIGHT * 3 }, (_, i) => i % 256);
    const raster = { width: WIDTH, height: HEIGHT, channels: 3, data } as const;
    const bytes = await encodePicture(raster, { type: "png", depth: 8, space: "adobe" }, {});
    expect([...(await sharp(bytes, { ignoreIcc: true }).raw().toBuffer())]).toEqual([...data]);
  });

  test("large pictures have many strips", async () => {
    const width = 2000;
    const height = 301;
    const data = Uint16Array.from({ length: width * height * 3 }, (_, i) => (i * 31) & 65535);
    for (const compression of ["none", "deflate"] as const) {
      const bytes = await encodePicture(
        { width, height, channels: 3, data },
        { type: "tiff", depth: 16, space: "srgb", compression },
        {},
      );
      const back = await sharp(bytes, { ignoreIcc: true }).toColourspace("rgb16").raw({ depth: "ushort" }).toBuffer();
      expect(sameNumbers(new Uint16Array(back.buffer, back.byteOffset, back.length / 2), data)).toBe(true);
      expect(readTiff(memorySource(bytes))!.directories[0].numbers(TAG.stripOffsets).length).toBeGreaterThan(5);
    }
  });

  test("a depth the file type does not have is refused", async () => {
    await expect(encodePicture(picture16(3), { type: "jpeg", depth: 16, space: "srgb" }, {})).rejects.toThrow(/8 bits/);
    const data = new Uint8Array(3);
    const tiny = { width: 1, height: 1, channels: 3, data } as const;
    await expect(encodePicture(tiny, { type: "png", depth: 16, space: "srgb" }, {})).rejects.toThrow(
      /render it with 16/,
    );
  });
});

/** The EXIF directories of a file, whatever its type. */
async function exifOf(bytes: Uint8Array, type: EncodeSpec["type"]) {
  if (type === "tiff") return readTiff(memorySource(bytes))!;
  const { exif } = await sharp(bytes).metadata();
  const start = exif!.subarray(0, 6).toString("latin1") === "Exif\0\0" ? 6 : 0;
  return readTiff(memorySource(exif!.subarray(start)))!;
}

describe.each(named(ALL))("%s", (_, spec) => {
  test.each([3, 1] as const)(
    "%i channels: profile, EXIF and XMP are in the file, and the bytes repeat",
    async (channels) => {
      const picture = picture16(channels);
      const bytes = await encodePicture(picture, spec, METADATA);
      expect(Buffer.from(await encodePicture(picture, spec, METADATA)).equals(bytes)).toBe(true);

      const meta = await sharp(bytes).metadata();
      // WebP and AVIF hold grey pictures as colour.
      const held = spec.type === "webp" || spec.type === "avif" ? 3 : channels;
      expect(meta.channels).toBe(held);
      expect(meta.icc && Buffer.from(iccProfile(spec.space, held)).equals(meta.icc)).toBe(true);
      expect(meta.xmpAsString).toBe(xmpPacket(METADATA));
      expect(meta.orientation ?? 1).toBe(1);

      const exif = await exifOf(bytes, spec.type);
      const root = exif.directories[0];
      expect(root.text(TAG.description)).toBe(
        'Bow wave <hold & "sky">. Harbour, first light, frame 12A. First light, hold the sky - grosser',
      );
      expect(root.text(TAG.model)).toBe("folding 35");
      expect(root.text(TAG.software)).toBe("Rollbook test");
      expect(exif.exif!.text(TAG.lensModel)).toBe("50 mm");
      expect(exif.exif!.text(TAG.dateTimeOriginal)).toBe("2026:05:02   :  :  ");
      expect(exif.exif!.number(TAG.iso)).toBe(400);
    },
  );

  test("without metadata nothing is invented", async () => {
    const bytes = await encodePicture(picture16(3), spec, {});
    const exif = await exifOf(bytes, spec.type);
    for (const tag of [TAG.description, TAG.model, TAG.make, TAG.software, TAG.dateTime])
      expect(exif.directories[0].text(tag), `tag ${tag}`).toBeUndefined();
    expect(exif.exif?.text(TAG.dateTimeOriginal)).toBeUndefined();
  });
});

describe("XMP", () => {
  test("escapes, drops control characters and names its own properties", () => {
    const packet = xmpPacket(METADATA);
    expect(packet).toContain("Bow wave &#60;hold &#38; &#34;sky&#34;&#62;");
    expect(packet).not.toContain("\u0007");
    expect(packet).toContain(`xmlns:rollbook="${NAMESPACE}"`);
    expect(packet).toContain("<rollbook:Recipe>0123abcd</rollbook:Recipe>");
    expect(packet).toContain("<rdf:li>H0012.dng</rdf:li><rdf:li>H0012b.dng</rdf:li>");
    expect(packet).toContain("<exif:DateTimeOriginal>2026-05-02</exif:DateTimeOriginal>");
  });

  test("hostile text stays text", () => {
    const packet = xmpPacket({ title: "</rdf:li><x/>\ud800\u202e\u0000", description: "x".repeat(5000) });
    expect(packet).not.toContain("<x/>");
    expect(packet).toContain(`>${"x".repeat(2000)}<`);
    expect(Buffer.from(packet, "utf8").toString("utf8")).toBe(packet); // no half characters
  });
});

test("every space has its own profile, and grey ones differ from colour ones", () => {
  const spaces: OutputSpace[] = ["srgb", "p3", "adobe", "romm"];
  const all = spaces.flatMap((space) =>
    [iccProfile(space, 1), iccProfile(space, 3)].map((p) => Buffer.from(p).toString("hex")),
  );
  expect(new Set(all).size).toBe(8);
});
