/** Everything that is found on one scan by itself: flare, base, the picture's rectangle. */
import type { LightSetup } from "../flat-field/transmittance.ts";
import type { Film, LinearScan, Rgb } from "../types.ts";
import { type FoundBase, findBase } from "./base.ts";
import { flareOf, flareWithin, withoutFlare } from "./flare.ts";
import { type DensityAboveBase, densityAboveBaseOf } from "./edges.ts";
import { type FoundFrame, findFrame, isWhole } from "./frame.ts";
import type { FrameOptions } from "./rectangle.ts";
import { type DownsampledScan, downsample } from "./downsampled-scan.ts";
import { findStripFrames, type FoundStrips } from "./strip/strip-frames.ts";
import { placedFrame, type RollPlace, withinSpread } from "./roll-place.ts";

export interface FoundOnScan {
  /** With flare taken off. */
  readonly downsampled: DownsampledScan;
  readonly flare?: Rgb;
  readonly base?: FoundBase;
  readonly frame?: FoundFrame;
  /** Where the scan shows several pictures: all that are whole, and then no `frame`. */
  readonly strips?: FoundStrips;
}

export interface FindOptions extends FrameOptions {
  readonly place?: RollPlace;
  readonly flare?: Rgb;
  readonly base?: Rgb;
  readonly film?: Film;
  /** Whether the scan may show several pictures. */
  readonly several?: boolean;
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
  const aboveBase = density && densityAboveBaseOf(downsampled, density);
  const alone = frameOn(aboveBase, options);
  const strips = aboveBase && stripsOn({ scan, light, flare, downsampled, aboveBase, density, alone }, options);
  const frame = strips ? undefined : alone;
  // Around the picture no shadow of it can pass for base; where no margin is in view there is no base either.
  const edged = frame && Object.values(frame.sides).some((s) => s === "edge");
  const areas = strips ? strips.frames.map(({ area }) => area) : frame && edged ? [frame.area] : [];
  const around = areas.length > 0 ? findBase(downsampled, areas) : undefined;
  const base = frame ? around : (around ?? first);
  const film = options.film ?? "colour-negative";
  const pictures = strips ? areas : frame ? [frame.area] : [];
  const measured =
    flare && !options.flare && density
      ? pictures.reduce((least, area) => flareWithin(least, raw, area, density, film), flare)
      : flare;
  return {
    downsampled: measured && measured !== flare ? withoutFlare(raw, measured) : downsampled,
    ...(measured ? { flare: measured } : {}),
    ...(base && base.confidence >= MIN_BASE ? { base } : {}),
    ...(frame ? { frame } : {}),
    ...(strips ? { strips } : {}),
  };
}

interface ScanWithFrame {
  readonly scan: LinearScan;
  readonly light: LightSetup;
  readonly flare?: Rgb;
  readonly downsampled: DownsampledScan;
  readonly aboveBase: DensityAboveBase;
  readonly density: Rgb;
  readonly alone?: FoundFrame;
}

/**
 * A picture that is found with all its sides, at this confidence, with its format's proportions and over more than half
 * of the scan's width and height, is the only one.
 */
const [SURE, MORE_THAN_HALF] = [0.9, 0.52];
/** Pixels of the longer side at which the edges of one of several pictures are measured. */
const FINE_WIDTH = 3200;

const isAlone = (frame: FoundFrame): boolean =>
  isWhole(frame) && frame.confidence > SURE && frame.area.width > MORE_THAN_HALF && frame.area.height > MORE_THAN_HALF;

/** All pictures of a scan that shows several. */
function stripsOn(looked: ScanWithFrame, { several, ratio, place }: FindOptions): FoundStrips | undefined {
  const { scan, light, flare, downsampled, aboveBase, density, alone } = looked;
  if (!several || place) return undefined;
  if (ratio !== undefined && alone && isAlone(alone)) return undefined;
  const fine = (): DownsampledScan => {
    const all = downsample(scan, { ...light, flare: undefined }, FINE_WIDTH);
    return flare ? withoutFlare(all, flare) : all;
  };
  return findStripFrames(fine, { ...aboveBase, shrink: downsampled.shrink }, density, ratio);
}

/** The picture's rectangle by its own edges, where they do not contradict the roll's; else where the roll's lie. */
function frameOn(aboveBase: DensityAboveBase | undefined, options: FindOptions): FoundFrame | undefined {
  const frame = aboveBase && findFrame(aboveBase, options);
  const { place } = options;
  if (!place) return frame;
  return frame ? withinSpread(frame, place) : placedFrame(place);
}
