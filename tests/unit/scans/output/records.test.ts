// What a recipe records of a picture, read back from finished files by an independent reader (exifr, MIT) and held
// against the standards: CIPA DC-008-2019 (EXIF 2.32), ISO 16684-1 (XMP), IPTC Photo Metadata Standard 2023.1.
import exifr from "exifr";
import { describe, expect, test } from "vitest";
import { encodePicture, type EncodeSpec, type PictureMetadata } from "../../../../extension/scans/output/encode.ts";
import { exifFields } from "../../../../extension/scans/output/exif.ts";
import { fractionOf, shutterFraction } from "../../../../extension/scans/output/metadata.ts";
import { xmpPacket } from "../../../../extension/scans/output/xmp.ts";

const RECORD: PictureMetadata = {
  title: "Bow wave",
  camera: "folding 35",
  lens: "50 mm",
  date: "2026-05-02",
  time: "17:40+02:00",
  rated: 400,
  place: "Varnhaven",
  coordinates: [-58.240_612, 8.377_25],
  focal: 50,
  aperture: 5.6,
  shutter: "1/250",
  filter: "yellow, medium",
  developer: "1+9, 8 min at 20 °C",
  keywords: ["harbour", "ferry & <pier>"],
  creator: "Ada Lind",
  copyright: "© 2026 Ada Lind",
  description: "The east pier from the ferry.",
};

const picture = { width: 16, height: 12, channels: 3, data: new Uint16Array(16 * 12 * 3).fill(30_000) } as const;
const SPECS: EncodeSpec[] = [
  { type: "jpeg", depth: 8, space: "srgb" },
  { type: "tiff", depth: 16, space: "adobe" },
  { type: "tiff", depth: 16, space: "srgb", compression: "none" },
  { type: "png", depth: 8, space: "srgb" },
];

const READ = { tiff: true, exif: true, gps: true, xmp: true, icc: false, translateValues: false, reviveValues: false };

describe.each(SPECS.map((spec) => [`${spec.type} ${spec.compression ?? ""}`, spec] as const))("%s", (_, spec) => {
  test("an independent reader finds the exposure's record in EXIF", async () => {
    const bytes = await encodePicture(picture, spec, RECORD);
    const read = await exifr.parse(bytes, { ...READ, xmp: false, mergeOutput: true });
    expect(read).toMatchObject({
      Model: "folding 35",
      LensModel: "50 mm",
      Artist: "Ada Lind",
      DateTimeOriginal: "2026:05:02 17:40:00",
      OffsetTimeOriginal: "+02:00",
      ISO: 400,
      ExposureTime: 1 / 250,
      FNumber: 5.6,
      FocalLength: 50,
      GPSLatitudeRef: "S",
      GPSLongitudeRef: "E",
    });
    // EXIF text is 7-bit: the sign has a spelling of its own.
    expect(read.Copyright).toBe("(C) 2026 Ada Lind");
    // A thousandth of a second of arc is 3 cm.
    expect(read.latitude).toBeCloseTo(-58.240_612, 6);
    expect(read.longitude).toBeCloseTo(8.377_25, 6);
  });
});

test("an independent reader finds the IPTC properties in XMP", async () => {
  const bytes = await encodePicture(picture, SPECS[0], RECORD);
  const read = await exifr.parse(bytes, { ...READ, tiff: false, exif: false, gps: false, mergeOutput: false });
  expect(read.dc).toMatchObject({
    creator: "Ada Lind",
    rights: { value: "© 2026 Ada Lind" },
    description: { value: "The east pier from the ferry." },
    // The reader leaves character references of XML as they are.
    subject: ["harbour", "ferry &#38; &#60;pier&#62;"],
  });
  expect(read.Iptc4xmpCore).toEqual({ Location: "Varnhaven" });
  expect(read.exif).toMatchObject({
    DateTimeOriginal: "2026-05-02T17:40:00+02:00",
    ExposureTime: "1/250",
    FNumber: "28/5",
    FocalLength: "50/1",
    GPSLatitude: "58,14.436720S",
    GPSLongitude: "8,22.635000E",
  });
});

test("a picture without a record has no GPS directory and no IPTC namespace", async () => {
  for (const spec of SPECS) {
    const read = await exifr.parse(await encodePicture(picture, spec, {}), READ);
    expect(Object.keys(read ?? {}).filter((key) => key.startsWith("GPS"))).toEqual([]);
  }
  expect(xmpPacket({})).not.toContain("Iptc4xmpCore");
  expect(exifFields({}, "srgb").gps.size).toBe(0);
});

test("a time of day without its day is not written", () => {
  expect([...exifFields({ time: "17:40+02:00" }, "srgb").exif.keys()]).not.toContain(36881);
  expect(xmpPacket({ time: "17:40" })).not.toContain("17:40");
});

test("numbers become fractions of whole numbers", () => {
  expect(fractionOf(5.6)).toEqual([28, 5]);
  expect(fractionOf(50)).toEqual([50, 1]);
  expect(fractionOf(0.004)).toEqual([1, 250]);
  expect(fractionOf(1.5)).toEqual([3, 2]);
  expect(fractionOf(0.00001)).toEqual([1, 100_000]);
  expect(shutterFraction("1/8000")).toEqual([1, 8000]);
  expect(shutterFraction(2)).toEqual([2, 1]);
  expect(shutterFraction(undefined)).toBeUndefined();
});
