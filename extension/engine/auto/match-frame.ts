/**
 * Matches a frame to another one: filtration so that greys agree, and exposure so that mean tones of the print agree. Both
 * are robust: what only one of the frames shows does not decide. A picture without greys, such as a meadow, can still be
 * taken for one with a cast (a card in it was 16 ΔC*ab off), so a match is shown before it is written.
 */
import { bisquareCentre } from "./bisquare-centre.ts";
import { lightnessOf } from "../colour/lab.ts";
import { densityOf, MID_GREY } from "../colour/density.ts";
import { type Chain, chainOf, MAX_D, MIN_D } from "../film/look-steps.ts";
import { toneCurve } from "../film/print-curve.ts";
import { clamp } from "../math/clamp.ts";
import { apply } from "../math/matrix.ts";
import { median, quantile } from "../math/statistics.ts";
import type { FrameLook, Rgb } from "../types.ts";
import type { PictureSample } from "./balance.ts";

/** One of the two frames: what its scan shows, and how it is printed. */
export interface MatchSide {
  readonly sample: PictureSample;
  readonly look: FrameLook;
  /** Channel weights of one-channel film. */
  readonly weights?: Rgb;
}

export interface FrameMatch {
  /** Stops, −10 … 10. */
  readonly exposure: number;
  /** CC units, −200 … 200; cyan is left as it is, as at an enlarger. */
  readonly filtration: FrameLook["filtration"];
  /** Part of the pictures that counts as grey, of the frame that has less of it, 0 … 1. */
  readonly greys: number;
  /** False where the filtration was left alone: film without colours, or too little that is grey. */
  readonly filtered: boolean;
}

/** log10 exposures, red over green and blue over green. */
type Chroma = readonly [number, number];

/** What differs more than this from the greys (log10 exposure; half a stop) is a colour and no grey with a cast. */
const GREY_WIDTH = 0.15;
/** Less grey than this part of a picture decides nothing. */
const MIN_GREYS = 0.04;
/** Bins of the comparison of colours: 0.03 wide, ±0.99 around grey. */
const BIN = 0.03;
const HALF = 33;
const SIDE = 2 * HALF + 1;
/** Casts looked for reach ±0.75: 40 CC and more on any film. */
const REACH = 25;
/** A cast is the less likely the larger it is: one standard deviation, log10 exposure. */
const CAST_SPREAD = 0.4;
const ROUNDS = 8;
const MAX_CC = 200;
const MAX_STOPS = 10;

/** A picture before its filters: density above base per place, and how filters and film act on it. */
interface Prepared {
  readonly chain: Chain;
  /** Unmixed densities without filters, red, green, blue interleaved; places without numbers are left out. */
  readonly density: Float64Array;
}

/**
 * Values with which `target` looks as `reference` does.
 * @throws RangeError where a look's curve or gamma cannot be inverted
 */
export function matchFrame(reference: MatchSide, target: MatchSide): FrameMatch {
  const [from, to] = [prepare(reference), prepare(target)];
  const unchanged = { filtration: target.look.filtration, greys: 0, filtered: false };
  const balanced =
    from.chain.channels === 1 || to.chain.channels === 1
      ? unchanged
      : (matchGreys(from, reference.look.filtration, to, target.look.filtration) ?? unchanged);
  const tone = printedTone(from, reference.look, reference.look.filtration);
  return { ...balanced, exposure: exposureFor(tone(reference.look.exposure), to, target.look, balanced.filtration) };
}

function prepare({ sample, look, weights }: MatchSide): Prepared {
  const plain = { ...look, exposure: 0, filtration: { cyan: 0, magenta: 0, yellow: 0 } };
  const chain = chainOf(plain, "srgb", weights);
  const density: number[] = [];
  for (let i = 0; i + 2 < sample.length; i += 3) {
    const t: Rgb = [sample[i]!, sample[i + 1]!, sample[i + 2]!];
    if (!t.every((v) => v > 0)) continue;
    if (chain.channels === 1) {
      const d = densityOf(chain.weights[0] * t[0] + chain.weights[1] * t[1] + chain.weights[2] * t[2]);
      density.push(d + chain.offset[0], d + chain.offset[0], d + chain.offset[0]);
    } else {
      const mixed = apply(chain.unmix, [densityOf(t[0]), densityOf(t[1]), densityOf(t[2])]);
      density.push(mixed[0] + chain.offset[0], mixed[1] + chain.offset[1], mixed[2] + chain.offset[2]);
    }
  }
  return { chain, density: Float64Array.from(density) };
}

type Filters = FrameLook["filtration"];
const channelsOf = ({ cyan, magenta, yellow }: Filters): Rgb => [cyan / 100, magenta / 100, yellow / 100];

/** log10 exposure above mid-grey of a channel's density. */
const exposed = (chain: Chain, c: number, d: number): number =>
  Math.log10(chain.exposureOf[chain.channels === 1 ? 0 : c]!(clamp(d, MIN_D, MAX_D)) / MID_GREY);

/** Colours of the middle tones under some filters: toe and shoulder, where small errors of density count much, are left out. */
function chromaOf({ chain, density }: Prepared, filters: Filters): Chroma[] {
  const [r, g, b] = channelsOf(filters);
  const greens = Float64Array.from({ length: density.length / 3 }, (_, i) => density[3 * i + 1]!);
  const [low, high] = [quantile(greens, 0.05), quantile(greens, 0.95)];
  const found: Chroma[] = [];
  for (let i = 0; i < density.length; i += 3) {
    if (density[i + 1]! < low || density[i + 1]! > high) continue;
    const green = exposed(chain, 1, density[i + 1]! + g);
    found.push([exposed(chain, 0, density[i]! + r) - green, exposed(chain, 2, density[i + 2]! + b) - green]);
  }
  return found;
}

function matchGreys(
  from: Prepared,
  fromFilters: Filters,
  to: Prepared,
  toFilters: Filters,
): Pick<FrameMatch, "filtration" | "greys" | "filtered"> | undefined {
  const reference = chromaOf(from, fromFilters);
  const wanted = greysAbout(reference, [0, 0]);
  let filters = toFilters;
  let now = chromaOf(to, filters);
  if (reference.length === 0 || now.length === 0) return undefined;
  // Where the same colours lie in both pictures tells the cast roughly; greys near it, then, exactly.
  const shift = castBetween(reference, now);
  let about: Chroma = [wanted.at[0] - shift[0], wanted.at[1] - shift[1]];
  let greys = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const found = greysAbout(now, about);
    greys = Math.min(found.share, wanted.share);
    if (greys < MIN_GREYS) return undefined;
    const [red, blue] = [found.at[0] - wanted.at[0], found.at[1] - wanted.at[1]];
    if (Math.hypot(red, blue) < 2e-4) break;
    // Red keeps its filter, so green moves by what red is off, and blue by what is left.
    const next = {
      cyan: filters.cyan,
      magenta: filters.magenta + red / perCc(to, 1, filters.magenta),
      yellow: filters.yellow + (red - blue) / perCc(to, 2, filters.yellow),
    };
    filters = {
      ...next,
      magenta: clamp(next.magenta, -MAX_CC, MAX_CC),
      yellow: clamp(next.yellow, -MAX_CC, MAX_CC),
    };
    now = chromaOf(to, filters);
    about = wanted.at;
  }
  return { filtration: filters, greys, filtered: true };
}

/** log10 exposure that one CC more gives a channel, in its middle tones. */
function perCc({ chain, density }: Prepared, c: 1 | 2, filter: number): number {
  const own = Float64Array.from({ length: density.length / 3 }, (_, i) => density[3 * i + c]!);
  const middle = median(own) + filter / 100;
  const slope = (exposed(chain, c, middle + 0.02) - exposed(chain, c, middle - 0.02)) / 4;
  return Math.abs(slope) > 1e-4 ? slope : 0.01;
}

/** The centre of what is nearly grey, from a first guess, and how much of the picture that is. */
function greysAbout(chroma: readonly Chroma[], start: Chroma): { readonly at: Chroma; readonly share: number } {
  const { at, weight } = bisquareCentre(chroma, start, GREY_WIDTH, 16);
  return { at, share: chroma.length > 0 ? weight / chroma.length : 0 };
}

/** The shift of colours that lays the second picture's over the first's: the best overlap of their histograms. */
function castBetween(first: readonly Chroma[], second: readonly Chroma[]): Chroma {
  const [one, two] = [histogramOf(first), histogramOf(second)];
  const filled = [...two.keys()].filter((k) => two[k]! > 0);
  let best = { score: -1, x: 0, y: 0 };
  for (let y = -REACH; y <= REACH; y++)
    for (let x = -REACH; x <= REACH; x++) {
      let score = 0;
      for (const k of filled) {
        const [column, row] = [(k % SIDE) + x, Math.floor(k / SIDE) + y];
        if (column < 0 || row < 0 || column >= SIDE || row >= SIDE) continue;
        score += Math.sqrt(one[row * SIDE + column]! * two[k]!);
      }
      score *= Math.exp(-((x * x + y * y) * BIN * BIN) / (2 * CAST_SPREAD * CAST_SPREAD));
      if (score > best.score) best = { score, x, y };
    }
  return [best.x * BIN, best.y * BIN];
}

/** Shares of colours, spread over neighbouring bins so that noise and small casts overlap. */
function histogramOf(chroma: readonly Chroma[]): Float64Array {
  const counts = new Float64Array(SIDE * SIDE);
  const KERNEL = [0.25, 0.5, 0.25];
  for (const [p, q] of chroma) {
    const [x, y] = [Math.round(p / BIN) + HALF, Math.round(q / BIN) + HALF];
    for (let j = -1; j <= 1; j++)
      for (let i = -1; i <= 1; i++)
        if (x + i >= 0 && x + i < SIDE && y + j >= 0 && y + j < SIDE)
          counts[(y + j) * SIDE + x + i]! += (KERNEL[i + 1]! * KERNEL[j + 1]!) / chroma.length;
  }
  return counts;
}

/** Places of the middle half of the tones that stand for them. */
const TONES = 48;

/** The mean L* of the middle half of a print's tones, as a function of the exposure in stops. It never falls. */
function printedTone({ chain, density }: Prepared, look: FrameLook, filters: Filters): (stops: number) => number {
  const offsets = channelsOf(filters);
  const luminance = new Float64Array(density.length / 3);
  for (let i = 0; i < luminance.length; i++) {
    const film = ([0, 1, 2] as const).map(
      (c) => MID_GREY * 10 ** exposed(chain, c, density[3 * i + c]! + (chain.channels === 1 ? 0 : offsets[c]!)),
    );
    const [r, g, b] = apply(chain.colour, [film[0]!, film[1]!, film[2]!]);
    luminance[i] = Math.max(0, 0.2126 * r + 0.7152 * g + 0.0722 * b);
  }
  const tones = Array.from({ length: TONES }, (_, k) => quantile(luminance, 0.25 + (0.5 * (k + 0.5)) / TONES));
  const print = toneCurve(look.tone);
  return (stops) => tones.reduce((sum, y) => sum + lightnessOf(print(y * 2 ** stops)), 0) / TONES;
}

function exposureFor(lightness: number, to: Prepared, look: FrameLook, filters: Filters): number {
  const tone = printedTone(to, look, filters);
  let [low, high] = [-MAX_STOPS, MAX_STOPS];
  for (let k = 0; k < 40; k++) {
    const middle = (low + high) / 2;
    if (tone(middle) < lightness) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
