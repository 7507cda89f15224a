/** What a scan's file says of how it was made. Orientation is not read: cameras that point down write it at random. */
import type { ScanInfo } from "../engine/types.ts";
import type { LibRawMetadata } from "./raw/libraw.ts";
import type { TiffDirectory, TiffFile } from "./tiff/read.ts";
import { TAG } from "./tiff/tags.ts";

/** The part of `ScanInfo` that cameras write. */
export type CameraInfo = Pick<ScanInfo, "make" | "model" | "lens" | "shutter" | "aperture" | "iso" | "focal" | "time">;

const MAX_TEXT = 200;
/** EXIF's way to say that the true sensitivity does not fit 16 bits. */
const ISO_ELSEWHERE = 65535;

/** One line of printable text, shortened; undefined where nothing is left. Files from elsewhere hold anything. */
export function cleanText(text: string | undefined, length = MAX_TEXT): string | undefined {
  const line = text
    // Control and format characters, among them those that turn the direction of the text around them.
    ?.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Co}\p{Cs}\ufffd]+/gu, " ")
    .replace(/\s+/g, " ")
    .trim();
  // By characters, not by halves of them.
  return line ? Array.from(line).slice(0, length).join("") : undefined;
}

/** From TIFF and EXIF directories: exact fractions, and the time as the camera's clock showed it. */
export function infoFromExif(tiff: TiffFile | undefined): CameraInfo {
  if (!tiff) return {};
  // TIFF/EP files, DNG among them, may keep exposure tags in the root directory.
  const places = [tiff.exif, ...tiff.directories].filter((place) => place !== undefined);
  const text = (tag: number) => firstOf(places, (place) => cleanText(place.text(tag)));
  const positive = (tag: number) => firstOf(places, (place) => positiveNumber(place.number(tag)));
  const iso = positive(TAG.iso);
  return {
    make: text(TAG.make),
    model: text(TAG.model),
    lens: text(TAG.lensModel),
    shutter: trueTime(
      positive(TAG.exposureTime),
      firstOf(places, (place) => place.number(TAG.shutterSpeed)),
    ),
    aperture: positive(TAG.fNumber),
    iso: iso === ISO_ELSEWHERE ? undefined : iso,
    focal: positive(TAG.focalLength),
    time: wallClock(text(TAG.dateTimeOriginal) ?? text(TAG.dateTime)),
  };
}

/** From LibRaw, for files whose metadata only it can read. It writes 0 or nothing for unknown. */
export function infoFromLibRaw(metadata: LibRawMetadata): CameraInfo {
  return {
    make: cleanText(metadata.camera_make),
    model: cleanText(metadata.camera_model),
    lens: cleanText(metadata.lens?.Lens) ?? cleanText(metadata.lens?.makernotes?.Lens),
    shutter: positiveNumber(fromSingle(metadata.shutter)),
    aperture: positiveNumber(fromSingle(metadata.aperture)),
    iso: positiveNumber(fromSingle(metadata.iso_speed)),
    focal: positiveNumber(fromSingle(metadata.focal_len)),
    time: metadata.timestamp > 0 ? localTime(new Date(metadata.timestamp * 1000)) : undefined,
  };
}

/** Values of `first` where it has any, else of `second`. Absent keys stay absent. */
export function mergeInfo(first: CameraInfo, second: CameraInfo): CameraInfo {
  const known = (info: CameraInfo) =>
    Object.fromEntries(Object.entries(info).filter(([, value]) => value !== undefined));
  return { ...known(second), ...known(first) };
}

function firstOf<T>(places: readonly TiffDirectory[], look: (place: TiffDirectory) => T | undefined): T | undefined {
  for (const place of places) {
    const found = look(place);
    if (found !== undefined) return found;
  }
  return undefined;
}

function positiveNumber(value: number | undefined): number | undefined {
  return value !== undefined && Number.isFinite(value) && value > 0 ? value : undefined;
}

/** The fraction 1/n, or the short decimal, that a single-precision number was made from. */
function fromSingle(value: number): number {
  const inverse = Math.round(1 / value);
  if (inverse > 1 && Math.fround(1 / inverse) === Math.fround(value)) return 1 / inverse;
  return Number(value.toPrecision(7));
}

/** Stops by which a nominal time of the series differs at most from the true one: 1/15 for 1/16 is 0.09, 1/6 for 1/6.35 0.08. */
const NOMINAL = 0.12;

/**
 * The shutter time in seconds. Where a file has both, the time is often the nominal one of the series (1/30) and the APEX
 * value, Tv = −log2 t (EXIF 2.32, §4.6.5), the true one (5: 1/32); where they differ by more, they say different things
 * and the time counts.
 */
function trueTime(seconds: number | undefined, apex: number | undefined): number | undefined {
  if (seconds === undefined || apex === undefined || !Number.isFinite(apex)) return seconds;
  const own = 2 ** -apex;
  return Math.abs(Math.log2(own / seconds)) <= NOMINAL ? own : seconds;
}

function wallClock(text: string | undefined): string | undefined {
  const match = /^(\d{4}):(\d\d):(\d\d) (\d\d):(\d\d):(\d\d)/.exec(text ?? "");
  if (!match || match[1] === "0000") return undefined;
  const [, year, month, day, hour, minute, second] = match;
  return `${year}-${month}-${day}T${hour}:${minute}:${second}`;
}

/** LibRaw took the camera's clock for this computer's: its local reading is the camera's again. */
function localTime(date: Date): string {
  const two = (n: number) => String(n).padStart(2, "0");
  const day = `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
  return `${day}T${two(date.getHours())}:${two(date.getMinutes())}:${two(date.getSeconds())}`;
}
