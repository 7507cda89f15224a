/** Everything that is found on one scan by itself: flare, base, the picture's rectangle. */
import type { LightSetup } from "../flat-field/transmittance.ts";
import type { Film, LinearScan, Rgb } from "../types.ts";
import { type FoundBase, findBase } from "./base.ts";
import { flareOf, flareWithin, withoutFlare } from "./flare.ts";
import { type FoundFrame, findFrame } from "./frame.ts";
import type { FrameOptions } from "./rectangle.ts";
import { type DownsampledScan, downsample } from "./downsampled-scan.ts";
import { placedFrame, type RollPlace, withinSpread } from "./roll-place.ts";

export interface FoundOnScan {
  /** With flare taken off. */
  readonly downsampled: DownsampledScan;
  readonly flare?: Rgb;
  readonly base?: FoundBase;
  readonly frame?: FoundFrame;
}

export interface FindOptions extends FrameOptions {
  readonly place?: RollPlace;
  readonly flare?: Rgb;
  readonly base?: Rgb;
  readonly film?: Film;
}

/** A base of less confidence than this is not one: it may be a shadow of the picture. */
export const MIN_BASE = 0.6;

/**
 * @param known flare that is already known, per channel; otherwise it is read from the holder
 * @param film what the film may be as dense as; a colour negative where not given
 * @param base density of the film's base where it is known already: pictures whose margin cannot be seen need it
 * @param place where the roll's other pictures lie: what is not seen of this one is taken from there
 */
export function findOnScan(scan: LinearScan, light: LightSetup, options: FindOptions = {}): FoundOnScan {
  const raw = downsample(scan, { ...light, flare: undefined });
  const flare = options.flare ?? flareOf(raw);
  const downsampled = flare ? withoutFlare(raw, flare) : raw;
  const first = findBase(downsampled);
  const density = options.base ?? first?.density;
  const frame = frameOn(downsampled, density, options);
  // Around the picture no shadow of it can pass for base; where no margin is in view there is no base either.
  const edged = frame && Object.values(frame.sides).some((s) => s === "edge");
  const around = frame && edged ? findBase(downsampled, frame.area) : undefined;
  const base = frame ? around : first;
  const measured =
    flare && !options.flare && frame && density
      ? flareWithin(flare, raw, frame.area, density, options.film ?? "colour-negative")
      : flare;
  return {
    downsampled: measured && measured !== flare ? withoutFlare(raw, measured) : downsampled,
    ...(measured ? { flare: measured } : {}),
    ...(base && base.confidence >= MIN_BASE ? { base } : {}),
    ...(frame ? { frame } : {}),
  };
}

/** The picture's rectangle by its own edges, where they do not contradict the roll's; else where the roll's lie. */
function frameOn(downsampled: DownsampledScan, density: Rgb | undefined, options: FindOptions): FoundFrame | undefined {
  const frame = density && findFrame(downsampled, density, options);
  const { place } = options;
  if (!place) return frame;
  return frame ? withinSpread(frame, place) : placedFrame(place);
}
