import { writeDng } from "../witness/raw/dng.ts";
import { writeRaf } from "../witness/raw/raf.ts";
import { buildTiff, type Field } from "../witness/raw/tiff.ts";

const WIDTH = 48;
const HEIGHT = 32;

/** One small, whole camera file of each kind. */
export function smallFiles(): Record<string, Uint8Array> {
  const data = Uint16Array.from({ length: WIDTH * HEIGHT }, (_, i) => 512 + ((i * 7919) % 14_000));
  const exif = { shutter: [1, 60], aperture: 8, iso: 100, time: "2026:05:02 10:00:00", lens: "Macro" } as const;
  const dng = { width: WIDTH, height: HEIGHT, data, black: 512, white: 15_000, bits: 14, exif };
  const fields = new Map<number, Field>([
    [256, ["long", 16]],
    [257, ["long", 16]],
    [258, ["short", [16, 16, 16]]],
    [259, ["short", 1]],
    [262, ["short", 2]],
    [277, ["short", 3]],
  ]);
  return {
    "plain.dng": writeDng({ ...dng, bits: 16 }),
    "jpeg.dng": writeDng({ ...dng, compression: "jpeg" }),
    "plain.tif": buildTiff({ fields, image: [new Uint8Array(16 * 16 * 6)] }),
    "plain.raf": writeRaf({ width: WIDTH, height: HEIGHT, data, black: 512 }),
  };
}
