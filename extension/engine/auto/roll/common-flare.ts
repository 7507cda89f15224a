/** The flare that the scans of a roll share. */
import type { Film, Rgb } from "../../types.ts";

/**
 * Where no holder is in view flare cannot be read, but there always is some, and without it dense tones lose most in blue:
 * a cast in the highlights. Half of a hundredth of the field's light comes back from a good lens, a third of which passes
 * the film: 0.2 % of the bare light (common practice, no source).
 */
export const USUAL_FLARE: Rgb = [0.002, 0.002, 0.002];

/** A picture, as far as flare is concerned: per channel as a fraction of the bare light, absent where it was not seen. */
interface WithFlare {
  readonly flare?: Rgb;
}

export interface RollFlare {
  /** Absent on slides, and where nothing is known of the bare light. */
  readonly flare?: Rgb;
  /** Whether nothing showed the flare, and what is usual was taken. */
  readonly assumed: boolean;
}

/** The flare of a roll as its pictures show it, or what is usual. */
export function rollFlare(found: readonly WithFlare[], film: Film, hasBlank: boolean): RollFlare {
  if (film === "slide") return { assumed: false };
  const seen = commonFlare(found);
  if (seen) return { flare: seen, assumed: false };
  return hasBlank ? { flare: USUAL_FLARE, assumed: true } : { assumed: false };
}

/**
 * The roll's flare: the least that its pictures show, where half of them show any. What is taken off too much spoils
 * dense tones; what is left flattens them a little.
 */
function commonFlare(found: readonly WithFlare[]): Rgb | undefined {
  const known = found.flatMap(({ flare }) => (flare ? [flare] : []));
  if (known.length === 0 || known.length * 2 < found.length) return undefined;
  const least = (c: number): number => Number(Math.min(...known.map((f) => f[c])).toFixed(4));
  return [least(0), least(1), least(2)];
}

/** Pictures whose samples have the roll's flare taken off, where their own was not seen. */
export function samplesWithoutFlare<P extends WithFlare & { readonly sample: Float32Array }>(
  pictures: readonly P[],
  common: Rgb | undefined,
): P[] {
  if (!common) return [...pictures];
  return pictures.map((picture) => {
    if (picture.flare) return picture;
    return { ...picture, sample: picture.sample.map((t, i) => (t - common[i % 3]) / (1 - common[i % 3])) };
  });
}
