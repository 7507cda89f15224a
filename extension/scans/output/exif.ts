/** EXIF of a picture (CIPA DC-008-2019, EXIF 2.32). */
import type { OutputSpace } from "../../engine/types.ts";
import { TAG } from "../tiff/tags.ts";
import { ascii, type Fields, type FieldValue, rational, short } from "../tiff/write.ts";
import {
  descriptionOf,
  fractionOf,
  metadataText,
  type PictureMetadata,
  shutterFraction,
  timeParts,
} from "./metadata.ts";

/** Fields of the root directory, of the EXIF directory and, where coordinates are known, of the GPS directory. */
export interface ExifFields {
  readonly root: Fields;
  readonly exif: Fields;
  readonly gps: Fields;
}

const UNCALIBRATED = 65535;

/** Only sRGB has a number of its own; `space` is undefined for colours of a printer. A day without a time of day has blanks for it, as §4.6.5 has it for what is unknown. */
export function exifFields(meta: PictureMetadata, space: OutputSpace | undefined): ExifFields {
  const root = new Map<number, FieldValue>();
  const exif = new Map<number, FieldValue>([
    [TAG.exifVersion, { type: "undefined", bytes: new TextEncoder().encode("0232") }],
    [TAG.flashpixVersion, { type: "undefined", bytes: new TextEncoder().encode("0100") }],
    [TAG.colourSpace, short(space === "srgb" ? 1 : UNCALIBRATED)],
  ]);
  const put = (fields: Map<number, FieldValue>, tag: number, text: string | undefined) => {
    if (text !== undefined) fields.set(tag, ascii(sevenBit(text)));
  };
  put(root, TAG.description, descriptionOf(meta));
  put(root, TAG.model, metadataText(meta.camera));
  put(root, TAG.software, metadataText(meta.software));
  put(exif, TAG.lensModel, metadataText(meta.lens));
  put(root, TAG.artist, metadataText(meta.creator));
  put(root, TAG.copyright, metadataText(meta.copyright));
  put(exif, TAG.dateTimeOriginal, exifDate(meta));
  if (meta.date !== undefined) put(exif, TAG.offsetTimeOriginal, timeParts(meta.time)?.offset);
  const numbers = [
    [TAG.exposureTime, shutterFraction(meta.shutter)],
    [TAG.fNumber, meta.aperture && fractionOf(meta.aperture)],
    [TAG.focalLength, meta.focal && fractionOf(meta.focal)],
  ] as const;
  for (const [tag, value] of numbers) if (value) exif.set(tag, rational(value[0], value[1]));
  const iso = Math.round(meta.rated ?? 0);
  if (iso >= 1 && iso < 65535) exif.set(TAG.iso, short(iso));
  return { root, exif, gps: gpsFields(meta.coordinates) };
}

/** Letters that do not come apart into a plain one and its marks. */
const LETTERS: ReadonlyMap<string, string> = new Map(
  'ß ss æ ae Æ AE œ oe Œ OE ø o Ø O ł l Ł L đ d Đ D þ th ð d – - — - ‘ \' ’ \' “ " ” " „ " × x µ u © (C) ® (R)'
    .split(" ")
    .flatMap((letter, i, all) => (i % 2 === 0 ? [[letter, all[i + 1]] as const] : [])),
);

/** EXIF text is 7-bit by its standard; the text as it was written stands in XMP. */
function sevenBit(text: string): string {
  const plain = Array.from(
    text,
    (character) => LETTERS.get(character) ?? character.normalize("NFKD").replace(/\p{M}/gu, ""),
  );
  return plain.join("").replace(/[^\x20-\x7e]/gu, "?");
}

function exifDate({ date, time }: PictureMetadata): string | undefined {
  const match = /^(\d{4})-(\d\d)-(\d\d)$/.exec(date ?? "");
  return match ? `${match[1]}:${match[2]}:${match[3]} ${timeParts(time)?.clock ?? "  :  :  "}` : undefined;
}

/** Tags of the GPS directory. */
const GPS_TAG = { version: 0, latitudeSide: 1, latitude: 2, longitudeSide: 3, longitude: 4, datum: 18 } as const;
const GPS_VERSION = [2, 3, 0, 0];

function gpsFields(coordinates: PictureMetadata["coordinates"]): Fields {
  if (!coordinates) return new Map();
  const [latitude, longitude] = coordinates;
  return new Map<number, FieldValue>([
    [GPS_TAG.version, { type: "byte", bytes: Uint8Array.from(GPS_VERSION) }],
    [GPS_TAG.latitudeSide, ascii(latitude < 0 ? "S" : "N")],
    [GPS_TAG.latitude, degrees(latitude)],
    [GPS_TAG.longitudeSide, ascii(longitude < 0 ? "W" : "E")],
    [GPS_TAG.longitude, degrees(longitude)],
    [GPS_TAG.datum, ascii("WGS-84")],
  ]);
}

/** Degrees, minutes and seconds to a thousandth, 3 cm on the ground. */
function degrees(value: number): FieldValue {
  const thousandths = Math.round(Math.abs(value) * 3_600_000);
  return {
    type: "rational",
    values: [
      [Math.floor(thousandths / 3_600_000), 1],
      [Math.floor(thousandths / 60_000) % 60, 1],
      [thousandths % 60_000, 1000],
    ],
  };
}

/** Names of EXIF fields as sharp wants them, by directory. */
const SHARP_NAMES: Readonly<Record<number, string>> = {
  [TAG.description]: "ImageDescription",
  [TAG.model]: "Model",
  [TAG.software]: "Software",
  [TAG.artist]: "Artist",
  [TAG.copyright]: "Copyright",
  [TAG.colourSpace]: "ColorSpace",
  [TAG.lensModel]: "LensModel",
  [TAG.dateTimeOriginal]: "DateTimeOriginal",
  [TAG.offsetTimeOriginal]: "OffsetTimeOriginal",
  [TAG.iso]: "ISOSpeedRatings",
  [TAG.exposureTime]: "ExposureTime",
  [TAG.fNumber]: "FNumber",
  [TAG.focalLength]: "FocalLength",
};

/** The codec writes the directory's version itself. */
const SHARP_GPS_NAMES: Readonly<Record<number, string>> = {
  [GPS_TAG.latitudeSide]: "GPSLatitudeRef",
  [GPS_TAG.latitude]: "GPSLatitude",
  [GPS_TAG.longitudeSide]: "GPSLongitudeRef",
  [GPS_TAG.longitude]: "GPSLongitude",
  [GPS_TAG.datum]: "GPSMapDatum",
};

/** The same fields for sharp's `withExif`. */
export function exifForSharp({ root, exif, gps }: ExifFields): {
  IFD0: Record<string, string>;
  IFD2: Record<string, string>;
  IFD3: Record<string, string>;
} {
  const named = (fields: Fields, names: Readonly<Record<number, string>>) =>
    Object.fromEntries([...fields].filter(([tag]) => tag in names).map(([tag, value]) => [names[tag], textOf(value)]));
  return { IFD0: named(root, SHARP_NAMES), IFD2: named(exif, SHARP_NAMES), IFD3: named(gps, SHARP_GPS_NAMES) };
}

function textOf(value: FieldValue): string {
  switch (value.type) {
    case "ascii":
      return value.text;
    case "rational":
      return value.values.map((pair) => pair.join("/")).join(" ");
    case "undefined":
    case "byte":
      return new TextDecoder().decode(value.bytes);
    case "short":
    case "long":
      return String(value.values[0]);
  }
}
