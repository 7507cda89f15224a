/** What is written into a picture about itself, and how EXIF and XMP say it. */
import type { OutputSpace } from "../../engine/types.ts";
import { cleanText } from "../info.ts";
import { TAG } from "../tiff/tags.ts";
import { ascii, type Fields, type FieldValue, short } from "../tiff/write.ts";

/** Unknown values are left out; nothing is invented, and no time of writing is noted, so that bytes repeat. */
export interface PictureMetadata {
  readonly title?: string;
  readonly description?: string;
  /** The roll's name. */
  readonly roll?: string;
  /** The frame's name on the film's edge. */
  readonly frame?: string;
  /** Camera and lens that exposed the film. */
  readonly camera?: string;
  readonly lens?: string;
  /** Day of the exposure, "YYYY-MM-DD". */
  readonly date?: string;
  /** Exposure index the film was metered at. */
  readonly rated?: number;
  readonly place?: string;
  /** −1 for a rejected picture, 1 … 5 for a ranked one, 0 for any other; see `xmpRating`. */
  readonly rating?: number;
  /** The film, as its stock recipe calls it. */
  readonly stock?: string;
  readonly format?: string;
  /** File names of the scans. */
  readonly scans?: readonly string[];
  /** Camera that made the scan. */
  readonly scanCamera?: string;
  /** Hash of the resolved recipe, for telling pictures of different recipes apart. */
  readonly recipe?: string;
  /** Program and version. */
  readonly software?: string;
}

/** EXIF of a picture: fields of the root directory and of the EXIF directory. */
export interface ExifFields {
  readonly root: Fields;
  readonly exif: Fields;
}

/** Text as it may stand in EXIF and XMP: one line, no control characters, 200 characters; descriptions longer. */
export function metadataText(text: string | undefined, length = 200): string | undefined {
  return cleanText(text, length);
}

export const DESCRIPTION_LENGTH = 2000;

/** The sentence that programs without XMP show. */
function descriptionOf(meta: PictureMetadata): string | undefined {
  const frame = meta.frame === undefined ? undefined : `frame ${meta.frame}`;
  const place = [meta.roll, frame].filter((part) => part !== undefined).join(", ");
  const parts = [meta.title, place, meta.description].filter((part) => part !== undefined && part !== "");
  return metadataText(parts.join(". "), DESCRIPTION_LENGTH);
}

const UNCALIBRATED = 65535;

/** EXIF 2.32; only sRGB has a number of its own there. A day without a time of day has blanks for it, as §4.6.5 has it for what is unknown. */
export function exifFields(meta: PictureMetadata, space: OutputSpace): ExifFields {
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
  put(exif, TAG.dateTimeOriginal, exifDay(meta.date));
  const iso = Math.round(meta.rated ?? 0);
  if (iso >= 1 && iso < 65535) exif.set(TAG.iso, short(iso));
  return { root, exif };
}

/** Letters that do not come apart into a plain one and its marks. */
const LETTERS: ReadonlyMap<string, string> = new Map(
  'ß ss æ ae Æ AE œ oe Œ OE ø o Ø O ł l Ł L đ d Đ D þ th ð d – - — - ‘ \' ’ \' “ " ” " „ " × x µ u'
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

function exifDay(date: string | undefined): string | undefined {
  const match = /^(\d{4})-(\d\d)-(\d\d)$/.exec(date ?? "");
  return match ? `${match[1]}:${match[2]}:${match[3]}   :  :  ` : undefined;
}

/** Names of EXIF fields as sharp wants them, by directory. */
const SHARP_NAMES: Readonly<Record<number, string>> = {
  [TAG.description]: "ImageDescription",
  [TAG.model]: "Model",
  [TAG.software]: "Software",
  [TAG.colourSpace]: "ColorSpace",
  [TAG.lensModel]: "LensModel",
  [TAG.dateTimeOriginal]: "DateTimeOriginal",
  [TAG.iso]: "ISOSpeedRatings",
};

/** The same fields for sharp's `withExif`. */
export function exifForSharp({ root, exif }: ExifFields): {
  IFD0: Record<string, string>;
  IFD2: Record<string, string>;
} {
  const named = (fields: Fields) =>
    Object.fromEntries(
      [...fields].filter(([tag]) => tag in SHARP_NAMES).map(([tag, value]) => [SHARP_NAMES[tag], textOf(value)]),
    );
  return { IFD0: named(root), IFD2: named(exif) };
}

function textOf(value: FieldValue): string {
  if (value.type === "ascii") return value.text;
  return "bytes" in value ? new TextDecoder().decode(value.bytes) : String(value.values[0]);
}
