/** The bare light of a roll: the blank's field and the flare that its scans share. */
import type { Film, Rgb } from "../../../engine/types.ts";
import { readLightJob } from "../../frame/jobs.ts";
import type { FrameLight } from "../../frame/develop.ts";
import type { StartContext } from "../new-roll-options.ts";
import type { FoundPicture } from "../pictures/find-frame.ts";
import type { FirstPassScan } from "../scans/sort-scans.ts";

/**
 * Where no holder is in view flare cannot be read, but there always is some, and without it dense tones lose most in blue:
 * a cast in the highlights. Half of a hundredth of the field's light comes back from a good lens, a third of which passes
 * the film: 0.2 % of the bare light (common practice, no source).
 */
export const USUAL_FLARE: Rgb = [0.002, 0.002, 0.002];

/** The light field of the blank; without one, only the exposure that the scans are compared with. */
export async function lightOf(
  blank: FirstPassScan | undefined,
  reference: FirstPassScan,
  { pathOf, pool, signal }: StartContext,
): Promise<FrameLight> {
  const { shutter, iso, aperture } = reference.info;
  if (!blank) return { flare: [0, 0, 0], reference: { shutter, iso, aperture } };
  const { field, exposure } = await pool.run(readLightJob, { path: pathOf(blank.name), field: true }, { signal });
  return { field, flare: [0, 0, 0], reference: exposure };
}

export interface RollFlare {
  /** Absent on slides, and where nothing is known of the bare light. */
  readonly flare?: Rgb;
  /** Whether nothing showed the flare, and what is usual was taken. */
  readonly assumed: boolean;
}

/** The flare of a roll as its pictures show it, or what is usual. */
export function rollFlare(found: readonly FoundPicture[], film: Film, hasBlank: boolean): RollFlare {
  if (film === "slide") return { assumed: false };
  const seen = commonFlare(found);
  if (seen) return { flare: seen, assumed: false };
  return hasBlank ? { flare: USUAL_FLARE, assumed: true } : { assumed: false };
}

/**
 * The roll's flare: the least that its pictures show, where half of them show any. What is taken off too much spoils
 * dense tones; what is left flattens them a little.
 */
function commonFlare(found: readonly FoundPicture[]): Rgb | undefined {
  const known = found.flatMap(({ flare }) => (flare ? [flare] : []));
  if (known.length === 0 || known.length * 2 < found.length) return undefined;
  const least = (c: number): number => Number(Math.min(...known.map((f) => f[c])).toFixed(4));
  return [least(0), least(1), least(2)];
}

/** Pictures whose samples have the roll's flare taken off, where their own was not seen. */
export function withoutFlare<P extends { readonly flare?: Rgb; readonly sample: Float32Array }>(
  pictures: readonly P[],
  common: Rgb | undefined,
): P[] {
  if (!common) return [...pictures];
  return pictures.map((picture) => {
    if (picture.flare) return picture;
    return { ...picture, sample: picture.sample.map((t, i) => (t - common[i % 3]) / (1 - common[i % 3])) };
  });
}
