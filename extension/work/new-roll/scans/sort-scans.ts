/** Which files of a folder are scans of one roll, what each of them shows, and in which order they lie on the film. */
import { quantile } from "../../../engine/math/statistics.ts";
import type { Rgb } from "../../../engine/types.ts";
import type { FirstPass } from "./first-pass.ts";

// oxfmt-ignore
export const RAW_ENDINGS = new Set(["3fr", "arw", "cr2", "cr3", "crw", "dng", "erf", "fff", "iiq", "kdc", "mef", "mos", "mrw", "nef", "nrw", "orf", "pef", "raf", "raw", "rw2", "rwl", "sr2", "srf", "srw", "x3f"]);
/** From the best to the last resort. */
export const KINDS = ["raw", "tiff", "jpeg"] as const;

const endingOf = (name: string): string => /\.([^.]+)$/.exec(name)?.[1].toLowerCase() ?? "";

/** What a scan's name says of its kind; undefined for files that are no scans. */
export function kindOf(name: string): (typeof KINDS)[number] | undefined {
  const ending = endingOf(name);
  if (RAW_ENDINGS.has(ending)) return "raw";
  if (ending === "tif" || ending === "tiff") return "tiff";
  return ending === "jpg" || ending === "jpeg" ? "jpeg" : undefined;
}

export interface ScanFiles {
  /** One name a scan, in the order of the names. */
  readonly scans: readonly string[];
  /** Files left out because a better one of the same name lies beside them. */
  readonly duplicates: readonly string[];
}

/** The scans among a folder's names: of a raw file and a JPEG of one name, the raw file. */
export function scanFiles(names: readonly string[]): ScanFiles {
  const best = new Map<string, string>();
  const duplicates: string[] = [];
  for (const name of names) {
    const kind = kindOf(name);
    if (!kind || name.startsWith(".")) continue;
    const stem = name.slice(0, name.lastIndexOf(".")).toLowerCase();
    const rival = best.get(stem);
    const better = rival === undefined || KINDS.indexOf(kind) < KINDS.indexOf(kindOf(rival)!);
    if (rival !== undefined) duplicates.push(better ? rival : name);
    if (better) best.set(stem, name);
  }
  return { scans: [...best.values()].sort(byName), duplicates: duplicates.sort(byName) };
}

/** Names as people order them: numbers within them count as numbers. */
export function byName(a: string, b: string): number {
  const parts = (s: string): string[] => s.toLowerCase().match(/\d+|\D+/g) ?? [];
  const [p, q] = [parts(a), parts(b)];
  for (let i = 0; i < Math.min(p.length, q.length); i++) {
    if (p[i] === q[i]) continue;
    const [m, n] = [Number(p[i]), Number(q[i])];
    if (Number.isFinite(m) && Number.isFinite(n) && m !== n) return m - n;
    return p[i] < q[i] ? -1 : 1;
  }
  return p.length - q.length || (a < b ? -1 : a > b ? 1 : 0);
}

/** A scan with what was seen on it at first sight. */
export interface FirstPassScan extends FirstPass {
  readonly name: string;
}

/** By the camera's clock where every scan has a time of its own (a file counter may start again at 1), else by name. */
export function inOrder<T extends FirstPassScan>(scans: readonly T[]): T[] {
  const times = scans.map((s) => s.info.time);
  const hasClock = times.every((t) => t !== undefined) && new Set(times).size === times.length;
  return scans.toSorted((a, b) => (hasClock ? (a.info.time! < b.info.time! ? -1 : 1) : byName(a.name, b.name)));
}

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
