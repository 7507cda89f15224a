/** The dark blobs of a scan that may be dust on its film, each with what it is like. */
import type { LinearScan } from "../types.ts";
import type { FilmPlane, PixelBox } from "../flat-field/film-plane.ts";
import { maskOf, measureBlob, type BlobMeasurements } from "./measure.ts";
import { type DarkBlob, darkening, darkBlobs, reachOf } from "./specks.ts";

/** A dark blob, in pixels of the half-size scan, and its nature. */
export interface Candidate extends DarkBlob {
  readonly measurements: BlobMeasurements;
}

/** Half the side of the closing against which small things stand out; see `reachOf` for large ones. */
const NARROW = 5;
/** Film's dust darkens by more than this, as ln, and stands out of grain by so many deviations. */
const FILM_DUST_LIMITS = { minDarkening: 0.3, noiseMultiple: 3 };

/** A hair is this thin, in pixels of the half-size scan or parts of its width; what is thicker is a thing in the picture. */
const MAX_HAIR_WIDTH = { pixels: 4, width: 0.0022 };
/** A speck that is wider than this, in pixels of the half-size scan, is rather a thing in the picture. */
const MAX_RADIUS = 12;

function isDustShaped({ component, elongation, radius }: DarkBlob, width: number): boolean {
  const { x0, y0, x1, y1, pixels, centreline } = component;
  const maxWidth = Math.max(MAX_HAIR_WIDTH.pixels, MAX_HAIR_WIDTH.width * width);
  if (centreline) return centreline.width <= maxWidth;
  return (elongation < 2.5 && radius < MAX_RADIUS) || pixels.length / Math.hypot(x1 - x0, y1 - y0) <= maxWidth;
}

/** A thing of whose pixels more than this part lie in things that came before is one of them. */
const MAX_OVERLAP = 0.25;

/** Lines first, for their pieces are no specks; then in their order, each without what lies in those before it. */
function withoutDuplicates(blobs: readonly DarkBlob[], places: number): DarkBlob[] {
  const covered = new Uint8Array(places);
  const isLine = ({ component }: DarkBlob): boolean => component.centreline !== undefined;
  return [...blobs.filter(isLine), ...blobs.filter((blob) => !isLine(blob))].filter(({ component: { pixels } }) => {
    const overlap = pixels.reduce((sum, p) => sum + covered[p], 0);
    if (overlap > MAX_OVERLAP * pixels.length) return false;
    for (const p of pixels) covered[p] = 1;
    return true;
  });
}

/** Looks through the box of a scan that was decoded at half size; `plane` is the same scan as transmittance. */
export function candidatesOf(scan: LinearScan, plane: FilmPlane, box: PixelBox): Candidate[] {
  const { width, height, channels, data, black } = scan;
  const green = new Uint16Array(width * height);
  for (let i = 0, k = channels === 3 ? 1 : 0; i < green.length; i++, k += channels) green[i] = data[k];
  // Small things first: against a narrow closing they stand out even where the picture is restless.
  const dark = new Float32Array(width * height);
  const blobs = withoutDuplicates(
    [NARROW, reachOf(width)].flatMap((reach) =>
      darkBlobs(darkening(green, black, width, height, box, reach, dark), width, height, FILM_DUST_LIMITS),
    ),
    width * height,
  );
  const mask = maskOf(blobs, width, height);
  return blobs.flatMap((blob) => {
    if (!isDustShaped(blob, width)) return [];
    const measurements = measureBlob(blob, plane, mask);
    return measurements ? [{ ...blob, measurements }] : [];
  });
}
