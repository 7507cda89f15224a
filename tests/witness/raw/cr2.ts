/**
 * A writer of CR2: four directories, the last with a lossless JPEG whose samples are the mosaic cut into upright slices,
 * one behind the other. The layout was found by reading files; only what a decoder needs is written.
 */
import { encodeLosslessJpeg } from "./ljpeg.ts";
import { buildTiff, type Field } from "./tiff.ts";

/** A size for which decoders know the margins: the picture begins 48 columns and 6 rows inside the stored samples. */
export const CR2 = { width: 2224, height: 1456, left: 48, top: 6, right: 0, bottom: 2 } as const;

export interface Cr2Options {
  /** `CR2.width * CR2.height` samples under RGGB filters. Its left margin is dark; decoders take black from there. */
  readonly data: Uint16Array;
  /** Width of all slices but the last, and of the last; together the whole width. One slice where left out. */
  readonly slices?: { readonly count: number; readonly width: number };
  readonly shutter?: readonly [number, number];
}

const MARK = [0x43, 0x52, 2, 0, 0, 0, 0, 0];
const LOSSLESS = 6;

/** @throws Error where samples or slices do not fit the size */
export function writeCr2({ data, slices, shutter = [1, 60] }: Cr2Options): Uint8Array {
  const { width, height } = CR2;
  if (data.length !== width * height) throw new Error(`A CR2 here needs ${width * height} samples.`);
  const last = width - (slices ? slices.count * slices.width : 0);
  if (last <= 0) throw new Error("The slices are wider than the picture.");
  const widths = [...Array.from({ length: slices?.count ?? 0 }, () => slices?.width ?? 0), last];
  const stream = sliced(data, widths);
  const jpeg = encodeLosslessJpeg({ samples: stream, width: width / 2, height, components: 2, bits: 14 });

  const raw = new Map<number, Field>([[259, ["short", LOSSLESS]]]);
  if (slices) raw.set(0xc640, ["short", [slices.count, slices.width, last]]);
  const small = new Map<number, Field>([
    [256, ["short", 16]],
    [257, ["short", 16]],
    [258, ["short", [8, 8, 8]]],
    [259, ["short", LOSSLESS]],
    [262, ["short", 2]],
    [277, ["short", 3]],
  ]);
  const thumbnail = new Map<number, Field>([
    [513, ["long", 0]],
    [514, ["long", 0]],
  ]);
  const names = new Map<number, Field>([
    [256, ["short", width]],
    [257, ["short", height]],
    [271, ["ascii", "Canon"]],
    [272, ["ascii", "Canon TEST"]],
    [274, ["short", 1]],
  ]);
  const exif = { fields: new Map<number, Field>([[33434, ["rational", shutter]]]) };
  return buildTiff(
    {
      fields: names,
      exif,
      next: { fields: thumbnail, next: { fields: small, next: { fields: raw, image: [jpeg] } } },
    },
    MARK,
  );
}

/** The samples of each slice row by row, slice after slice. */
function sliced(data: Uint16Array, widths: readonly number[]): Uint16Array {
  const stream = new Uint16Array(data.length);
  let at = 0;
  let left = 0;
  for (const wide of widths) {
    for (let y = 0; y < CR2.height; y++, at += wide) {
      const from = y * CR2.width + left;
      stream.set(data.subarray(from, from + wide), at);
    }
    left += wide;
  }
  return stream;
}
