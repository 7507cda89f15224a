/** Sheets to print: the printer's profile read from its file, the picture laid on paper, and the bytes of the file. */
import type { Sheet } from "../../engine/image/paper.ts";
import type { Raster } from "../../engine/types.ts";
import { type PrinterProfile, printerProfile } from "../../scans/icc/profile.ts";
import { type RenderingIntent, withTransform } from "../../scans/icc/transform.ts";
import { encodePicture, type EncodeSpec, type PictureMetadata } from "../../scans/output/encode.ts";
import { iccProfile } from "../../scans/output/icc.ts";
import { sheetPicture } from "../../scans/output/sheet.ts";
import { readPlainFile } from "../files/read-plain-file.ts";

/** How colours become a printer's. Plain data: it crosses to the workers. */
export interface PrinterRequest {
  /** Absolute path of the profile. */
  readonly file: string;
  readonly intent: RenderingIntent;
  readonly compensate: boolean;
}

/** What is written of a sheet. */
export interface SheetRequest {
  readonly spec: EncodeSpec;
  readonly metadata: PictureMetadata;
  readonly printer?: PrinterRequest;
}

/**
 * The bytes of a sheet's file.
 * @throws JobError "unreadable" or "profile" where the printer's profile cannot be used
 */
export async function encodeSheet(
  picture: Raster<Uint16Array>,
  sheet: Sheet,
  { spec, metadata, printer }: SheetRequest,
): Promise<Uint8Array> {
  if (!printer) return encodePicture(await sheetPicture(picture, spec.space, sheet), spec, metadata);
  const profile = readProfile(printer.file);
  const samples = await sheetPicture(picture, spec.space, sheet, { ...printer, profile });
  const resolution = spec.sheet?.resolution ?? 300;
  return encodePicture(samples, { ...spec, sheet: { resolution, profile: profile.bytes } }, metadata);
}

/** @throws JobError "unreadable" or "profile" */
export const readProfile = (file: string): PrinterProfile => printerProfile(readPlainFile(file), file);

/**
 * The job that tries a printer's profile, before anything is written with it.
 * @throws JobError "unreadable" or "profile"
 */
export async function checkProfile({ file, intent, compensate }: PrinterRequest): Promise<PrinterProfile["space"]> {
  const { bytes, channels, space } = readProfile(file);
  const from = { profile: iccProfile("romm", 3), channels: 3 } as const;
  const to = { profile: bytes, channels, file } as const;
  await withTransform({ from, to, intent, compensate, exact: true }, (convert) =>
    convert(new Uint16Array(3), new Uint16Array(channels)),
  );
  return space;
}
