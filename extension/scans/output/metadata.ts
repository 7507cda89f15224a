/** What is written into a picture about itself: `exif.ts` and `xmp.ts` write it. */
import { cleanText } from "../info.ts";

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
  /** Local time of the exposure, "HH:MM" or "HH:MM:SS", with the offset from UTC, "+HH:MM", where it is known. */
  readonly time?: string;
  /** Focal length in millimetres, f-number, and exposure time in seconds, a number or a fraction "1/250". */
  readonly focal?: number;
  readonly aperture?: number;
  readonly shutter?: number | string;
  readonly filter?: string;
  readonly developer?: string;
  /** Exposure index the film was metered at. */
  readonly rated?: number;
  readonly place?: string;
  /** −1 for a rejected picture, 1 … 5 for a ranked one, 0 for any other; see `xmpRating`. */
  readonly rating?: number;
  /** Degrees, WGS 84, north and east positive. */
  readonly coordinates?: readonly [latitude: number, longitude: number];
  readonly keywords?: readonly string[];
  readonly creator?: string;
  readonly copyright?: string;
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

/** Text as it may stand in EXIF and XMP: one line, no control characters, 200 characters; descriptions longer. */
export function metadataText(text: string | undefined, length = 200): string | undefined {
  return cleanText(text, length);
}

export const DESCRIPTION_LENGTH = 2000;

/** The sentence that programs without XMP show. */
export function descriptionOf(meta: PictureMetadata): string | undefined {
  const frame = meta.frame === undefined ? undefined : `frame ${meta.frame}`;
  const place = [meta.roll, frame].filter((part) => part !== undefined).join(", ");
  const parts = [meta.title, place, meta.description].filter((part) => part !== undefined && part !== "");
  return metadataText(parts.join(". "), DESCRIPTION_LENGTH);
}

/** A time of day in its parts; seconds are 00 where they are not stated. Undefined for a text of another form. */
export function timeParts(time: string | undefined): { readonly clock: string; readonly offset?: string } | undefined {
  const match = /^(\d\d:\d\d)(:\d\d)?([+-]\d\d:\d\d)?$/.exec(time ?? "");
  if (!match) return undefined;
  return { clock: match[1] + (match[2] ?? ":00"), ...(match[3] === undefined ? {} : { offset: match[3] }) };
}

/** A positive number as a fraction of whole numbers, exact to three decimals; times below a second as 1/n. */
export function fractionOf(value: number): readonly [numerator: number, denominator: number] {
  const whole = Math.round(1 / value);
  if (value < 1 && Math.abs(whole * value - 1) < 0.001) return [1, whole];
  const thousandths = Math.max(1, Math.round(value * 1000));
  const divisor = greatestCommonDivisor(thousandths, 1000);
  return [thousandths / divisor, 1000 / divisor];
}

const greatestCommonDivisor = (a: number, b: number): number => (b === 0 ? a : greatestCommonDivisor(b, a % b));

/** An exposure time as a fraction: 1/250 for "1/250", 2/1 for 2 s. Undefined where none is stated. */
export function shutterFraction(
  shutter: number | string | undefined,
): readonly [numerator: number, denominator: number] | undefined {
  if (typeof shutter === "number") return fractionOf(shutter);
  const match = /^1\/(\d+)$/.exec(shutter ?? "");
  return match ? [1, Number(match[1])] : undefined;
}
