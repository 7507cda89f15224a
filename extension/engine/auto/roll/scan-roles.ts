/** What each scan of a roll shows, told from the first pass over all of them: bare light, leader, black film or picture. */
import { quantile } from "../../math/statistics.ts";
import type { Rgb } from "../../types.ts";
import type { FirstPass, FirstPassScan } from "./first-pass.ts";

/** Shutter × ISO ÷ f-number², with what is not known taken as 1. */
export function exposureOf({ shutter = 1, iso = 1, aperture = 1 }: FirstPass["info"]): number {
  return (shutter * iso) / (aperture * aperture);
}

/** Nearly all of a blank or a leader is even. */
const MIN_EVEN_SHARE = 0.85;
/** Bare light is brighter than the thinnest film in every channel by at least this. */
const MIN_BRIGHTNESS_RATIO = 1.12;
/** A leader's middle is as dense as the thinnest film on it, falloff aside. */
const MAX_DENSITY_DIFFERENCE = 0.12;
/** A smaller thing, in parts of the longer side, is dust: half a millimetre on small film. */
const MAX_DUST_SIZE = 0.015;

export interface Roles {
  readonly blank?: FirstPassScan;
  /** Even scans that are not the blank: leader, or frames that were never exposed. */
  readonly leaders: readonly FirstPassScan[];
  /** Scans of film as dense as film gets, with nothing on it: a slide film's unexposed leader, a negative's fogged one. */
  readonly black: readonly FirstPassScan[];
  readonly pictures: readonly FirstPassScan[];
}

/** Black film lets this part of the light through that the thinnest of all scans lets through, or less: 1.8 D. */
const MAX_BLACK_LIGHT = 10 ** -1.8;
/** Its blocks differ by noise alone: the brightest over the median. A moon is many times brighter. */
const MAX_PLAIN_RATIO = 1.35;

/** Whether a scan shows evenly black film; `thinnest` is the most light of any scan's blocks over its exposure. */
function isBlack({ blocks, middle, info }: FirstPassScan, thinnest: Rgb): boolean {
  const exposure = exposureOf(info);
  return [0, 1, 2].every((c) => {
    if (middle[c] / exposure > MAX_BLACK_LIGHT * thinnest[c]) return false;
    let most = 0;
    for (let i = c; i < blocks.length; i += 3) most = Math.max(most, blocks[i]);
    return most < MAX_PLAIN_RATIO * middle[c];
  });
}

/** Most light of any scan's blocks over its exposure, a hundredth of the blocks left out as glints. */
function mostLight(scans: readonly FirstPassScan[]): Rgb {
  const most = (c: number): number =>
    Math.max(
      0,
      ...scans.map(
        ({ blocks, info }) =>
          quantile(
            blocks.filter((_, i) => i % 3 === c),
            0.99,
          ) / exposureOf(info),
      ),
    );
  return [most(0), most(1), most(2)];
}

/**
 * The blank is the even scan that is brighter, over its exposure, than the thinnest film of all the others; an even scan
 * as bright as that film is a leader.
 */
export function rolesOf(scans: readonly FirstPassScan[], named?: string): Roles {
  const signalOverExposure = (s: FirstPassScan, v: Rgb): Rgb => {
    const e = exposureOf(s.info);
    return [v[0] / e, v[1] / e, v[2] / e];
  };
  const even = scans.filter((s) => s.even > MIN_EVEN_SHARE && s.name !== named);
  const others = scans.filter((s) => s.even <= MIN_EVEN_SHARE && s.thinnest && s.name !== named);
  const film = [0, 1, 2].map((c) => {
    const levels = others
      .map((s) => signalOverExposure(s, s.thinnest!.map((d) => 10 ** -d) as unknown as Rgb)[c])
      .sort((a, b) => a - b);
    return levels.length ? levels[levels.length >> 1] : undefined;
  });
  const brightness = (s: FirstPassScan): number =>
    Math.min(...signalOverExposure(s, s.middle).map((v, c) => v / (film[c] ?? v)));
  let blank = scans.find((s) => s.name === named);
  if (!named) {
    const brightest = even.toSorted((a, b) => brightness(b) - brightness(a)).at(0);
    if (brightest && brightness(brightest) > MIN_BRIGHTNESS_RATIO) blank = brightest;
    // Two even scans and no picture that shows its margin: the brighter of them is light, the other film.
    else if (brightest && film[0] === undefined && even.length > 1) {
      const sum = (s: FirstPassScan): number => signalOverExposure(s, s.middle).reduce((a, b) => a + b, 0);
      const [first, second] = even.toSorted((a, b) => sum(b) - sum(a));
      if (sum(first) > MIN_BRIGHTNESS_RATIO * sum(second)) blank = first;
    }
  }
  // A picture of plain sky is even as well, but not as thin as the margin around it; one of the moon is, but for the moon.
  const leaders = even.filter(
    (s) =>
      s !== blank &&
      s.largestObject < MAX_DUST_SIZE &&
      s.thinnest?.every((d, c) => Math.abs(d + Math.log10(s.middle[c])) < MAX_DENSITY_DIFFERENCE),
  );
  const rest = scans.filter((s) => s !== blank && !leaders.includes(s));
  const thinnest = mostLight(scans);
  const black = rest.filter((s) => isBlack(s, thinnest));
  // Nothing but black film is a roll of lens caps: then it is what there is.
  const some = black.length < rest.length;
  return {
    ...(blank ? { blank } : {}),
    leaders,
    black: some ? black : [],
    pictures: some ? rest.filter((s) => !black.includes(s)) : rest,
  };
}
