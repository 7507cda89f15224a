/**
 * What a printer's ICC profile says of itself (ICC.1:2010 = ISO 15076-1, clause 7), and why one cannot be used. The file
 * comes from anywhere: sizes and places are checked before the colour engine sees a byte.
 */
import { basename } from "node:path";
import { JobError } from "../../failure.ts";

/** A printer's colours: grey, red green blue, or four inks. */
export type DeviceSpace = "GRAY" | "RGB" | "CMYK";

export interface PrinterProfile {
  readonly bytes: Uint8Array;
  readonly space: DeviceSpace;
  readonly channels: 1 | 3 | 4;
}

/** Profiles of printers have some megabytes at most; a JPEG's segments hold 16 (ICC.1:2010, B.4). */
export const MAX_PROFILE_BYTES = 16_000_000;
const HEADER = 128;
const MAX_TAGS = 256;
const CHANNELS: Readonly<Record<DeviceSpace, 1 | 3 | 4>> = { GRAY: 1, RGB: 3, CMYK: 4 };

/** Table 18: the class in the header, in words. */
const CLASSES: Readonly<Record<string, string>> = {
  scnr: "a scanner or camera",
  link: "a link between two devices",
  spac: "a colour space",
  abst: "an abstract effect",
  nmcl: "named colours",
};
/** A laboratory's printers with red, green and blue light are described as displays by some. */
const PRINTING = new Set(["prtr", "mntr"]);

/**
 * Reads a profile's header and table of tags.
 * @param file its path, for messages
 * @throws JobError "profile" that says what is wrong with it and what to do
 */
export function printerProfile(bytes: Uint8Array, file: string): PrinterProfile {
  const name = basename(file);
  const damaged = (why: string): JobError =>
    profileError(file, `${name} ${why}.`, "Fetch the profile again from where it came from.");
  if (bytes.length > MAX_PROFILE_BYTES)
    throw damaged(`is longer than ${MAX_PROFILE_BYTES / 1e6} MB, which no printer's profile is`);
  if (bytes.length < HEADER + 4 || text(bytes, 36) !== "acsp")
    throw profileError(file, `${name} is not an ICC profile.`, "Name the .icc or .icm file of the printer and paper.");
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const size = view.getUint32(0);
  if (size > bytes.length) throw damaged(`is incomplete: it should have ${size} bytes and has ${bytes.length}`);
  checkTags(view, size, damaged);

  const kind = text(bytes, 12);
  if (!PRINTING.has(kind)) {
    const what = CLASSES[kind] ?? `an unknown kind of device (${printable(kind)})`;
    throw profileError(file, `${name} is the profile of ${what}, not of a printer.`, NAME_ANOTHER);
  }
  const space = text(bytes, 16).trim();
  if (!Object.hasOwn(CHANNELS, space))
    throw profileError(
      file,
      `${name} is for a printer with colours ${printable(space)}; grey, RGB and CMYK can be written.`,
      "Use the profile that the printer's driver takes, mostly RGB.",
    );
  return { bytes: bytes.subarray(0, size), space: space as DeviceSpace, channels: CHANNELS[space as DeviceSpace] };
}

export const NAME_ANOTHER = "Name the profile of the printer with its paper.";

export const profileError = (file: string, message: string, remedy: string): JobError =>
  new JobError({ code: "profile", message, remedy, file });

/** Every tag lies inside the file, behind the table. */
function checkTags(view: DataView, size: number, damaged: (why: string) => JobError): void {
  const count = size < HEADER + 4 ? 0 : view.getUint32(HEADER);
  const start = HEADER + 4 + 12 * count;
  if (count === 0 || count > MAX_TAGS || start > size) throw damaged(`is damaged: its table states ${count} tags`);
  for (let i = 0; i < count; i++) {
    const at = HEADER + 4 + 12 * i;
    const [from, length] = [view.getUint32(at + 4), view.getUint32(at + 8)];
    if (from < start || from + length > size) throw damaged("is damaged: a tag lies outside the file");
  }
}

const text = (bytes: Uint8Array, at: number): string => String.fromCharCode(...bytes.subarray(at, at + 4));
const printable = (word: string): string => JSON.stringify(word.replaceAll(/[^\x20-\x7e]/g, "?"));
