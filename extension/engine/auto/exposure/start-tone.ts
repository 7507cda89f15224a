/**
 * Tones of a start: brightness where no absolute scale exists, and a print curve without end points, so that nothing is
 * lost: toe and shoulder bend over their whole way, and contrast is raised for flat pictures and lowered for wide ones.
 */
import type { ToneVersion } from "../../film/tone-versions.ts";
import { quantile } from "../blocks.ts";

/** The contrast of a print that looks like its subject, and the limits within which pictures may move it. */
const DEFAULT_CONTRAST = 1.4;
const [MIN_CONTRAST, MAX_CONTRAST] = [1.15, 4];
/** log10 print luminance that the middle 96 % of a roll's tones should span at least: L* 24 to 77. */
const MIN_SPAN = 1.1;
/** Beyond this many log10 of print luminance tones are crowded together at white or black. */
const MAX_RANGE = 3;

export interface StartTone {
  readonly contrast: number;
  readonly toe: number;
  readonly shoulder: number;
}

/** Middle of a frame's log exposures: mean of median and trimmed mean. NaN where there is none. */
export function middleOf(sorted: Float64Array): number {
  if (sorted.length === 0) return NaN;
  const [low, high] = [Math.floor(0.05 * sorted.length), Math.ceil(0.95 * sorted.length)];
  let sum = 0;
  for (let i = low; i < high; i++) sum += sorted[i];
  return 0.5 * (quantile(sorted, 0.5) + sum / Math.max(1, high - low));
}

/** Toe and shoulder so gentle that no tone reaches black or white, in each version's terms: version 2's are the nearest. */
export const GENTLE = { 1: { toe: 0.6, shoulder: 0.7 }, 2: { toe: 0.05, shoulder: -0.21 } } as const;

/**
 * @param version of the recipe that the tone is for
 * @param logH a frame's (or roll's) log10 exposures over mid-grey as it will be printed, ascending
 */
export function toneFor(logH: Float64Array, version: ToneVersion): StartTone {
  const [low, high] = [quantile(logH, 0.02), quantile(logH, 0.98)];
  const whole = quantile(logH, 0.995) - quantile(logH, 0.005);
  let contrast = DEFAULT_CONTRAST;
  if (Number.isFinite(high - low) && high > low) {
    contrast = Math.max(contrast, Math.min(MAX_CONTRAST, MIN_SPAN / (high - low)));
    contrast = Math.min(contrast, Math.max(MIN_CONTRAST, MAX_RANGE / Math.max(whole, 0.05)));
  }
  return { contrast: Number(contrast.toFixed(2)), ...GENTLE[version] };
}
