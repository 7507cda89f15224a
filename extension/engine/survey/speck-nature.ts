/** Tells dust from detail of the picture: dust takes light of every colour alike and has the edge of a thing that lies on the film. */
import type { Film } from "../types.ts";
import type { FilmPlane, PixelBox } from "./film-plane.ts";
import type { DarkThing } from "./specks.ts";
import { deviation, median, quantile } from "./statistics.ts";

/** How much a film's own detail changes red and blue against green, as slopes of densities. */
export interface DyeSlopes {
  readonly red: number;
  readonly blue: number;
}

const TRACE = 1e-4;
const logT = (t: number): number => Math.log(Math.max(TRACE, t));

/** Distance over which picture detail is compared, in pixels. */
const STEP = 6;

/**
 * The film's dye slopes, from pairs of neighbouring places that differ: the ratio that half of the detail stays below.
 * Silver and slides of grey things have 1; a masked colour negative has about 0.8 and 1.2 through a camera's wide
 * bands.
 */
export function dyeSlopes({ width, data }: FilmPlane, box: PixelBox): DyeSlopes {
  const red: number[] = [];
  const blue: number[] = [];
  const pairs: [number, number, number][] = [];
  const stride = Math.max(3, Math.floor(Math.sqrt(((box.x1 - box.x0) * (box.y1 - box.y0)) / 40_000)));
  const smooth = (i: number, c: number): number =>
    logT((data[i + c] + data[i + 3 + c] + data[i + width * 3 + c] + data[i + width * 3 + 3 + c]) / 4);
  for (let y = box.y0; y + STEP + 2 < box.y1; y += stride)
    for (let x = box.x0; x + STEP + 2 < box.x1; x += stride) {
      const a = (y * width + x) * 3;
      const b = a + STEP * 3 * ((x + y) % 2 ? 1 : width);
      pairs.push([0, 1, 2].map((c) => smooth(a, c) - smooth(b, c)) as [number, number, number]);
    }
  // Differences of grain alone say nothing; the strongest tenth are detail.
  const strong = quantile(
    pairs.map((p) => Math.abs(p[1])),
    0.9,
  );
  for (const [r, g, b] of pairs)
    if (Math.abs(g) >= Math.max(strong, 0.05)) {
      red.push(r / g);
      blue.push(b / g);
    }
  return red.length < 30 ? { red: 0.8, blue: 1.2 } : { red: median(red), blue: median(blue) };
}

/** What a dark thing is like. */
export interface Nature {
  /** Slopes of red and blue against green within it, and their uncertainty. */
  readonly red: number;
  readonly blue: number;
  readonly errorRed: number;
  readonly errorBlue: number;
  /** ln of the light that it lets through in its middle, negative. */
  readonly depth: number;
  /** Unrest of its surroundings in green, as ln. */
  readonly unrest: number;
  /** Steepness of its edge, in parts of its depth per pixel. */
  readonly steepness: number;
}

/** Error of a slope at a radius of one pixel: a mosaic's colours are not sampled in the same places. */
const SAMPLING = 0.06;
/** Pixels darker than this, as ln, are not compared. */
const DEEPEST = -1.6;
/** Pixels around a thing that are its surroundings: a ring this far away and this wide. */
const [GAP, RING] = [2, 3];

/** Looks at a dark thing against the ring around it. Undefined where no ring is to be had. */
export function natureOf(thing: DarkThing, plane: FilmPlane): Nature | undefined {
  const { width, height, data } = plane;
  const { component } = thing;
  const reach = GAP + RING;
  const [x0, y0] = [Math.max(0, component.x0 - reach), Math.max(0, component.y0 - reach)];
  const [x1, y1] = [Math.min(width, component.x1 + reach), Math.min(height, component.y1 + reach)];
  const w = x1 - x0;
  const distance = distances(component.pixels, width, x0, y0, w, y1 - y0);
  const ring: [number[], number[], number[]] = [[], [], []];
  const inside: number[] = [];
  for (let k = 0; k < distance.length; k++) {
    const p = (y0 + Math.floor(k / w)) * width + x0 + (k % w);
    if (distance[k] > GAP && distance[k] <= reach) for (let c = 0; c < 3; c++) ring[c].push(logT(data[p * 3 + c]));
    else if (distance[k] <= 1) inside.push(p);
  }
  if (ring[1].length < 12) return undefined;
  const level = ring.map(median);
  const unrest = deviation(ring[1]);
  // Tones around it move red and green together: only what they do apart makes the comparison uncertain.
  const apart = (c: number): number => deviation(ring[c].map((v, k) => v - ring[1][k]));
  let [gg, rg, bg] = [0, 0, 0];
  let depth = 0;
  for (const p of inside) {
    const g = logT(data[p * 3 + 1]) - level[1];
    depth = Math.min(depth, g);
    // Where next to nothing comes through, flare and noise are all there is.
    if (g < DEEPEST) continue;
    const [r, b] = [logT(data[p * 3]) - level[0], logT(data[p * 3 + 2]) - level[2]];
    gg += g * g;
    rg += r * g;
    bg += b * g;
  }
  if (!(gg > 0)) return undefined;
  const size = Math.sqrt(gg);
  const sampling = SAMPLING / thing.radius ** 2;
  return {
    red: rg / gg,
    blue: bg / gg,
    errorRed: Math.hypot(apart(0) / size, sampling),
    errorBlue: Math.hypot(apart(2) / size, sampling),
    depth,
    unrest,
    steepness: steepest(plane, inside, level[1]) / -depth,
  };
}

/** Chessboard distance of each pixel of a window from the nearest pixel of the thing, up to the ring's end. */
function distances(pixels: readonly number[], width: number, x0: number, y0: number, w: number, h: number): Uint8Array {
  const out = new Uint8Array(w * h).fill(255);
  let front: number[] = [];
  for (const p of pixels) {
    const k = (Math.floor(p / width) - y0) * w + (p % width) - x0;
    out[k] = 0;
    front.push(k);
  }
  for (let d = 1; d <= GAP + RING; d++) {
    const next: number[] = [];
    for (const k of front) {
      const [x, y] = [k % w, Math.floor(k / w)];
      for (let dy = -1; dy <= 1; dy++)
        for (let dx = -1; dx <= 1; dx++) {
          const [nx, ny] = [x + dx, y + dy];
          if (nx < 0 || ny < 0 || nx >= w || ny >= h || out[ny * w + nx] <= d) continue;
          out[ny * w + nx] = d;
          next.push(ny * w + nx);
        }
    }
    front = next;
  }
  return out;
}

/** The steepest change of ln T over one pixel, in green, among a thing's pixels. */
function steepest({ width, height, data }: FilmPlane, pixels: readonly number[], level: number): number {
  let most = 0;
  const at = (p: number): number => Math.min(level, logT(data[p * 3 + 1]));
  for (const p of pixels) {
    const x = p % width;
    if (x > 0 && x < width - 1) most = Math.max(most, Math.abs(at(p + 1) - at(p - 1)) / 2);
    if (p >= width && p < width * (height - 1)) most = Math.max(most, Math.abs(at(p + width) - at(p - width)) / 2);
  }
  return most;
}

/** Spread of the slopes of things in pictures around the film's own: their colours differ. */
const COLOURS = 0.13;
/** Spread of the slopes of dust: it is not quite grey. */
const DUST = 0.02;
/** What the edge adds per unit of steepness. */
const EDGE = 40;
/** Dust takes at least this part of the light where it lies; the scan spreads it by so many pixels. */
const LEAST_OPACITY = 0.65;
const SPREAD = 0.6;
/** What is missing of that, as a part, counts against dust with this weight. */
const SHALLOW = 12;
/** How much more there is of pictures than of dust, as a logarithm: evidence has to outweigh it. */
const BEFORE = 2;

/** The picture has more small things where it is restless. */
const RESTLESS = 12;

/**
 * Evidence that a dark thing is dust and not of the picture, as the logarithm of a ratio of likelihoods: above 0 it is
 * more likely dust. On colour film the colour decides: dust takes red, green and blue alike, dyes do not. On film that
 * is grey (silver), and on slides, whose dark things are dark in every colour, the edge decides: dust lies on the
 * film and has one as sharp as the scan, while the film's own detail went through another lens first.
 */
export function evidenceOfDust(n: Nature, radius: number, slopes: DyeSlopes, film: Film): number {
  // Dust is nearly opaque: what is wide enough for the scan to resolve and yet lets much light through is no dust.
  const covered = 1 - Math.exp(-((radius / SPREAD) ** 2) / 2);
  const shallow = Math.max(0, 0.85 + n.depth / -Math.log(1 - LEAST_OPACITY * covered));
  const standsOut = -n.depth / Math.max(0.02, n.unrest);
  if (standsOut < 3) return -5;
  const misfit = (red: number, blue: number, spread: number): number =>
    ((n.red - red) / Math.hypot(spread, n.errorRed)) ** 2 + ((n.blue - blue) / Math.hypot(spread, n.errorBlue)) ** 2;
  const dust = misfit(1, 1, DUST);
  if (film !== "colour-negative")
    return dust > 14 ? -5 : EDGE * (n.steepness - 0.465) - SHALLOW * shallow - RESTLESS * Math.max(0, n.unrest - 0.05);
  const before = BEFORE + RESTLESS * Math.max(0, n.unrest - 0.05);
  const edge = Math.min(1.5, Math.max(-4, EDGE * (n.steepness - 0.445)));
  const size = (spread: number): number => Math.log(Math.hypot(spread, n.errorRed) * Math.hypot(spread, n.errorBlue));
  return (
    (misfit(slopes.red, slopes.blue, COLOURS) - dust) / 2 +
    size(COLOURS) -
    size(DUST) -
    before +
    edge -
    SHALLOW * shallow
  );
}
