/** A picture on its sheet of paper, in the printer's colours. */
import type { Sheet } from "../../engine/image/paper.ts";
import type { OutputSpace, Raster } from "../../engine/types.ts";
import type { PrinterProfile } from "../icc/profile.ts";
import { type Convert, type RenderingIntent, withTransform } from "../icc/transform.ts";
import type { TiffRaster } from "../tiff/picture.ts";
import { iccProfile } from "./icc.ts";

/** How a picture's colours become the printer's. */
export interface PrinterColours {
  readonly profile: PrinterProfile;
  /** Path of the profile, for messages. */
  readonly file: string;
  readonly intent: RenderingIntent;
  readonly compensate: boolean;
}

/** Rows that are converted at a time. */
const ROWS = 32;
const WHITE = 65535;

/**
 * Lays a picture on white paper. Without a printer's profile its samples stay as they are.
 * @param space the space that the picture's samples are in
 * @returns 16-bit samples of 1, 3 or 4 channels; paper is 65535, or no ink for four inks
 * @throws JobError "profile" where the profile cannot be used
 */
export async function sheetPicture(
  picture: Raster<Uint16Array>,
  space: OutputSpace,
  sheet: Sheet,
  colours?: PrinterColours,
): Promise<TiffRaster> {
  if (!colours) {
    const { channels, data } = picture;
    return layRows(picture, sheet, channels, (row, out) => out.set(data.subarray(row.from, row.to)));
  }
  const { profile, file, intent, compensate } = colours;
  const from = { profile: iccProfile(space, 3), channels: 3 } as const;
  const to = { profile: profile.bytes, channels: profile.channels, file };
  return withTransform({ from, to, intent, compensate }, (convert) =>
    layRows(picture, sheet, profile.channels, convertRows(picture, convert)),
  );
}

interface Samples {
  readonly from: number;
  readonly to: number;
}

function convertRows(
  { channels, data, width }: Raster<Uint16Array>,
  convert: Convert<Uint16Array, Uint16Array>,
): (rows: Samples, out: Uint16Array) => void {
  if (channels === 3) return (rows, out) => convert(data.subarray(rows.from, rows.to), out);
  // Grey has red, green and blue alike, in every space here.
  const colour = new Uint16Array(3 * ROWS * width);
  return ({ from, to }, out) => {
    for (let i = from; i < to; i++) colour.fill(data[i], 3 * (i - from), 3 * (i - from) + 3);
    convert(colour.subarray(0, 3 * (to - from)), out);
  };
}

function layRows(
  { width, height, channels: own }: Raster<Uint16Array>,
  sheet: Sheet,
  channels: 1 | 3 | 4,
  make: (rows: Samples, out: Uint16Array) => void,
): TiffRaster {
  const data = new Uint16Array(sheet.width * sheet.height * channels);
  if (channels !== 4) data.fill(WHITE);
  const strip = new Uint16Array(ROWS * width * channels);
  for (let y = 0; y < height; y += ROWS) {
    const rows = Math.min(ROWS, height - y);
    make({ from: y * width * own, to: (y + rows) * width * own }, strip.subarray(0, rows * width * channels));
    for (let k = 0; k < rows; k++)
      data.set(
        strip.subarray(k * width * channels, (k + 1) * width * channels),
        ((sheet.top + y + k) * sheet.width + sheet.left) * channels,
      );
  }
  return { width: sheet.width, height: sheet.height, channels, data };
}
