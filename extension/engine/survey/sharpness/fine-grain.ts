/**
 * Fine grain as a witness of blur where the picture has no even tone. Detail of the picture only adds to it: where less
 * is seen than the film's grain alone must show, the scan is blurred, whatever the picture.
 */
import { mean, quantile } from "../../math/statistics.ts";
import type { PixelBox } from "../../flat-field/film-plane.ts";
import type { FineGrain } from "../types.ts";
import { BLOCK, blockAt, FREQUENCY, type GrainPlane, type GrainSpectrum, type NoiseModel } from "./grain-spectrum.ts";

/** The frequencies, cycles per pixel of the half-size scan. */
const [MIN_FREQUENCY, MAX_FREQUENCY] = [0.24, 0.4];
const BINS = Array.from(FREQUENCY.keys()).filter((i) => FREQUENCY[i] >= MIN_FREQUENCY && FREQUENCY[i] < MAX_FREQUENCY);
const SQUARE = mean(BINS.map((i) => FREQUENCY[i] ** 2));
/** By how much a variance of 1 pixel² of the half-size scan weakens them, as ln of their power. */
const FALL = 4 * Math.PI ** 2 * SQUARE;

/** Blocks that are looked at in a cell, along each side, and the part of them with the least in it that counts. */
const [BLOCKS, KEPT] = [4, 1 / 3];
const MIN_BLOCKS = 3;
/** Noise is known to this part of itself: less grain than that cannot be told. */
const NOISE_ERROR = 0.1;

/** What is seen of fine grain in a part of a scan, at most: detail of the picture is in it. */
export function seenGrain(plane: GrainPlane, box: PixelBox, sensor?: NoiseModel): FineGrain | undefined {
  const [wide, high] = [box.x1 - box.x0 - BLOCK, box.y1 - box.y0 - BLOCK];
  if (wide < 0 || high < 0) return undefined;
  const blocks = Array.from({ length: BLOCKS * BLOCKS }, (_, k) =>
    blockAt(
      plane,
      box.x0 + Math.floor((wide * (k % BLOCKS)) / (BLOCKS - 1)),
      box.y0 + Math.floor((high * Math.floor(k / BLOCKS)) / (BLOCKS - 1)),
    ),
  ).flatMap((block): FineGrain[] => {
    if (!block) return [];
    const noise = sensor ? sensor.at(block.signal) * mean(BINS.map((i) => sensor.noise.shape[i])) : 0;
    const power = mean(BINS.map((i) => block.power[i])) - noise;
    return [{ power: Math.max(power, NOISE_ERROR * noise, Number.MIN_VALUE), signal: block.signal }];
  });
  if (blocks.length < MIN_BLOCKS) return undefined;
  const kept = blocks
    .toSorted((a, b) => a.power - b.power)
    .slice(0, Math.max(MIN_BLOCKS, Math.round(KEPT * blocks.length)));
  return { power: mean(kept.map((b) => b.power)), signal: mean(kept.map((b) => b.signal)) };
}

/**
 * Fine grain as a lens without blur would show it.
 * @param level power of the grain at frequency 0, from the fit that gave the blur
 * @param kernel variance of what demosaicing and halving add by themselves, in pixels² of the half-size scan
 */
export const unblurredGrain = (level: number, kernel: number, { signal }: GrainSpectrum): FineGrain => ({
  power: level * Math.exp(-FALL * kernel),
  signal,
});

/** Film of about one density: as much as ln of its transmittance may differ, and how many places must show its grain. */
const [SAME_DENSITY, MIN_PLACES] = [0.6, 3];
/** Of those places the part that has weaker grain than is counted on. */
const WEAKEST = 0.25;

/**
 * The blur that a place has at least, as a variance in pixels² of the full scan: what weakens the film's grain to what
 * is seen.
 * @param film fine grain without blur in other places of the same film
 * @returns undefined where the film's grain at that density is not known
 */
export function leastBlur(seen: FineGrain, film: readonly FineGrain[]): number | undefined {
  const alike = film.filter(({ signal }) => Math.abs(Math.log(signal / seen.signal)) < SAME_DENSITY);
  if (alike.length < MIN_PLACES) return undefined;
  const expected = quantile(
    alike.map(({ power }) => power),
    WEAKEST,
  );
  return Math.max(0, (4 * Math.log(expected / seen.power)) / FALL);
}
