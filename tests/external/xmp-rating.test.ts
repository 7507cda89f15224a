/**
 * xmp:Rating of written pictures, read back by a reader that shares no code with ours (exifr 7.1.3). Its meaning: XMP
 * Specification Part 1 (Adobe, April 2012; ISO 16684-1), 8.4 "XMP namespace": −1 is rejected, 0 unrated, 1 … 5 ranked.
 */
import exifr from "exifr";
import { describe, expect, test } from "vitest";
import { encodePicture, type EncodeSpec } from "../../extension/scans/output/encode.ts";
import { xmpRating } from "../../extension/work/render/metadata.ts";

const picture = { width: 8, height: 6, channels: 3, data: new Uint16Array(8 * 6 * 3).fill(30_000) } as const;

describe.each([
  ["tiff", 16],
  ["jpeg", 8],
] as const)("%s", (type, depth) => {
  const spec: EncodeSpec = { type, depth, space: "srgb" };
  test.each([
    [{ choice: "reject" }, -1],
    [{ choice: "reject", rank: 5 }, -1],
    [{ choice: "keep", rank: 4 }, 4],
    [{ rank: 1 }, 1],
    [{ choice: "keep" }, 0],
    [{}, 0],
  ] as const)("%j is read back as %i", async (frame, rating) => {
    const bytes = await encodePicture(picture, spec, { title: "Ferry", rating: xmpRating(frame) });
    const read = (await exifr.parse(Buffer.from(bytes), { xmp: true, tiff: true, mergeOutput: false })) as {
      xmp?: { Rating?: number };
    };
    expect(read.xmp?.Rating).toBe(rating);
  });
});
