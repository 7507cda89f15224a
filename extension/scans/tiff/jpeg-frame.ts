/** What a JPEG stream (ITU-T T.81) inside a file says of its size, without decoding it. */
import type { ByteSource } from "../files/source.ts";

export interface JpegFrame {
  readonly width: number;
  readonly height: number;
  readonly components: number;
}

const MARKER = { prefix: 0xff, start: 0xd8, scan: 0xda };
/** Start-of-frame markers lie from C0 to CF; these three in between are tables and reserved. */
const NOT_FRAMES = [0xc4, 0xc8, 0xcc];
const MAX_SEGMENTS = 64;

export function isJpeg(source: ByteSource, at: number): boolean {
  const head = source.read(at, 2);
  return head[0] === MARKER.prefix && head[1] === MARKER.start;
}

/** The size that the frame header of the stream at `start` states; undefined where it has none before its data. */
export function jpegFrame(source: ByteSource, start: number): JpegFrame | undefined {
  let at = start + 2;
  for (let segments = 0; segments < MAX_SEGMENTS; segments++) {
    const head = source.read(at, 10);
    if (head.length < 10 || head[0] !== MARKER.prefix || head[1] === MARKER.scan) return undefined;
    const code = head[1];
    const short = (i: number): number => (head[i] << 8) | head[i + 1];
    if (code >= 0xc0 && code <= 0xcf && !NOT_FRAMES.includes(code))
      return { height: short(5), width: short(7), components: head[9] };
    at += 2 + short(2);
  }
  return undefined;
}
