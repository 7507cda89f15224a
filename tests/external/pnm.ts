/** Reads the portable grey and colour pictures (binary PGM and PPM) of the reference edges. */
import { readFileSync } from "node:fs";

export interface PnmPlane {
  readonly width: number;
  readonly height: number;
  readonly data: Float64Array;
}

/** One plane a channel, in the file's own numbers. */
export function readPnm(file: string): PnmPlane[] {
  const bytes = readFileSync(new URL(`../reference/${file}`, import.meta.url));
  let at = 0;
  const word = (): string => {
    const rest = /^(?:\s|#[^\n]*\n)*(\S+)/.exec(bytes.toString("latin1", at, at + 300));
    if (!rest) throw new Error(`${file} is not a portable picture.`);
    at += rest[0].length;
    return rest[1];
  };
  const channels = word() === "P6" ? 3 : 1;
  const [width, height, most] = [Number(word()), Number(word()), Number(word())];
  at++;
  const size = most > 255 ? 2 : 1;
  return Array.from({ length: channels }, (_, c) => ({
    width,
    height,
    data: Float64Array.from({ length: width * height }, (__, i) => {
      const from = at + (i * channels + c) * size;
      return size === 2 ? bytes.readUInt16BE(from) : bytes[from];
    }),
  }));
}
