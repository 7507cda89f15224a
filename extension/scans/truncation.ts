/**
 * Looks for a missing end before anything is decoded: a cut file often decodes without an error into a picture
 * whose lower part is black or noise.
 */
import type { ByteSource } from "./files/source.ts";
import type { TiffFile } from "./tiff/read.ts";
import { TAG } from "./tiff/tags.ts";

/** Written for StripOffsets by raw files that keep the true place of their samples in `TAG.rawDataOffset`. */
const OFFSET_ELSEWHERE = 0xffffffff;

/**
 * Where the data that a TIFF's directories speak of ends. Compare it with the file's size.
 * @returns Infinity where a directory or field itself is cut off.
 */
export function tiffDataEnd(tiff: TiffFile): number {
  if (tiff.cut || tiff.directories.length === 0) return Infinity;
  let end = 0;
  for (const directory of tiff.directories)
    for (const [offsetTag, lengthTag] of [
      [TAG.stripOffsets, TAG.stripLengths],
      [TAG.tileOffsets, TAG.tileLengths],
      [TAG.jpegOffset, TAG.jpegLength],
    ]) {
      const lengths = directory.numbers(lengthTag);
      directory.numbers(offsetTag).forEach((offset, i) => {
        const at = offset === OFFSET_ELSEWHERE ? (directory.number(TAG.rawDataOffset) ?? 0) : offset;
        end = Math.max(end, at + (lengths[i] ?? 1));
      });
    }
  return end;
}

/** Where a RAF container's last part ends. Three (offset, length) pairs stand at byte 84 of its header. */
export function rafDataEnd(source: ByteSource): number {
  const head = source.read(84, 24);
  if (head.length < 24) return Infinity;
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
  return Math.max(...[0, 8, 16].map((at) => view.getUint32(at) + view.getUint32(at + 4)));
}

/** Where the last box of an ISO base media file (ISO/IEC 14496-12) ends. */
export function boxesEnd(source: ByteSource): number {
  let at = 0;
  while (at + 8 <= source.size) {
    const head = source.read(at, 16);
    const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
    let length = view.getUint32(0);
    if (length === 0) return source.size; // runs to the end of the file
    if (length === 1) {
      if (head.length < 16) return Infinity;
      length = Number(view.getBigUint64(8));
    }
    if (length < 8) return Infinity;
    at += length;
  }
  return at > source.size || at === source.size ? at : Infinity;
}
