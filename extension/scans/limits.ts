/**
 * More pixels than any camera back or stitched scan has; a header that claims more is wrong or hostile.
 * ROLLBOOK_MEGAPIXELS in the environment sets another limit, from 1 to 1000.
 */
export const MAX_PIXELS = 1e6 * (requestedLimit() ?? 200);

function requestedLimit(): number | undefined {
  const wanted = Number(process.env.ROLLBOOK_MEGAPIXELS);
  return wanted >= 1 && wanted <= 1000 ? wanted : undefined;
}

/** Up to here nobody is hurt by a claim that is not true. */
const ALWAYS_ALLOWED = 16_000_000;
/** No scan has so many pixels in a byte: film has grain, and sensors have noise. Flat pictures made to swell do. */
const PIXELS_PER_BYTE = 100;

/** Pixels that a file of this many bytes may claim: a small file that claims a large picture is refused unopened. */
export function maxPlausiblePixels(bytes: number): number {
  return Math.max(ALWAYS_ALLOWED, PIXELS_PER_BYTE * bytes);
}
