/** Finds the EXIF block of a JPEG. */
import { type ByteSource, memorySource } from "./files/source.ts";
import { readTiff, type TiffFile } from "./tiff/read.ts";

const MARKER = { exif: 0xe1, scan: 0xda };
const EXIF_HEADER = "Exif\0\0";

/** The EXIF block of a JPEG that begins at `start`; undefined where it has none. */
export function readJpegExif(source: ByteSource, start = 0): TiffFile | undefined {
  let at = start + 2;
  for (let segments = 0; segments < 64; segments++) {
    const head = source.read(at, 10);
    if (head.length < 10 || head[0] !== 0xff || head[1] === MARKER.scan) return undefined;
    const length = (head[2] << 8) | head[3];
    if (head[1] === MARKER.exif && String.fromCharCode(...head.subarray(4, 10)) === EXIF_HEADER)
      return readTiff(memorySource(source.read(at + 10, length - 8)));
    at += 2 + length;
  }
  return undefined;
}
