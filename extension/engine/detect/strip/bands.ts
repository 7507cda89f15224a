/** Bands of pictures across a scan: each is the row of pictures of one strip of film that lies along the scan's x axis. */
import { BARE, HIDDEN, PICTURE, type PictureMap } from "./picture-map.ts";

/** A row of pictures; places in pixels where its edges cross the map's vertical middle line. */
export interface Band {
  readonly top: number;
  readonly bottom: number;
  /** Clockwise, degrees. */
  readonly tilt: number;
}

const RADIAN = Math.PI / 180;
/** Tilts that are looked at, and the steps between them: coarse over all, fine around the best; degrees. */
const MAX_TILT = 4;
const [COARSE, FINE] = [0.1, 0.0125];
/** Every so many columns and rows are enough for a tilt. */
const [STEP_X, STEP_Y] = [8, 2];
/** Part of a row that is picture, from which the row belongs to a band. */
const MIN_SHARE = 0.03;
/** Lowest band, pixels, and rows of clear film that part two. */
const [MIN_HEIGHT, MIN_APART] = [40, 2];

/** A steep change within this part of a band from its border parts marks on the film's edge from the pictures. */
const MARKS = 0.12;
/** Such a change, in parts of the share of rows in the band's middle. */
const MIN_CHANGE = 0.3;

/**
 * Bands at the tilt at which their edges are sharpest, from the top; empty where nothing lies in rows. Where marks on the
 * film's edge may have been taken for picture, a band is followed by what is left of it without them.
 */
export function bandsOf(map: PictureMap): (readonly Band[])[] {
  const coarse = sharpestTilt(map, 0, MAX_TILT, COARSE, 0, map.height);
  const common = sharpestTilt(map, coarse, COARSE, FINE, 0, map.height);
  const share = rowShares(map, common);
  return runsOf(share).flatMap(([top, bottom]) => {
    // Strips that lie side by side need not be parallel.
    const reach = 0.12 * (bottom - top);
    const tilt = sharpestTilt(map, common, 0.6, FINE, top - reach, bottom + reach);
    const shares = rowShares(map, tilt);
    const own = runsOf(shares).find(([a, b]) => a < (top + bottom) / 2 && b > (top + bottom) / 2);
    if (!own) return [];
    const band = { top: own[0], bottom: own[1], tilt };
    const inner = { ...withoutMarks(shares, own), tilt };
    return [inner.top === band.top && inner.bottom === band.bottom ? [band] : [band, inner]];
  });
}

/** A band between the steepest changes near its borders. */
function withoutMarks(share: Float64Array, [top, bottom]: [number, number]): { top: number; bottom: number } {
  const depth = Math.round(MARKS * (bottom - top));
  const middle = Float64Array.from(share.subarray(top + depth, bottom - depth)).sort();
  const least = MIN_CHANGE * (middle[middle.length >> 1] ?? 0);
  const edge = (from: number, inwards: 1 | -1): number => {
    let [at, max] = [from, least];
    for (let d = 1; d < depth; d++) {
      const y = from + inwards * d;
      // Places lie between rows: the row at a place is the one below it.
      const [inside, outside] = inwards > 0 ? [share[y + 1], share[y - 2]] : [share[y - 2], share[y + 1]];
      if (inside - outside > max) [at, max] = [y, inside - outside];
    }
    return at;
  };
  return { top: edge(top, 1), bottom: edge(bottom, -1) };
}

function runsOf(share: Float64Array): [top: number, bottom: number][] {
  const runs: [number, number][] = [];
  let from = -1;
  let clear = MIN_APART;
  for (let y = 0; y <= share.length; y++) {
    if (y < share.length && share[y] > MIN_SHARE) {
      if (from < 0) from = y;
      clear = 0;
    } else if (from >= 0 && (++clear >= MIN_APART || y === share.length)) {
      const to = y - clear + 1;
      if (to - from >= MIN_HEIGHT) runs.push([from, to]);
      from = -1;
    }
  }
  return runs;
}

/** Part of each sheared row that is picture. */
function rowShares({ width, height, kind }: PictureMap, tilt: number): Float64Array {
  const share = new Float64Array(height);
  const slope = Math.tan(tilt * RADIAN);
  for (let x = 0; x < width; x += 2) {
    const shift = Math.round(slope * (x - width / 2));
    for (let y = 0; y < height; y++) {
      const at = y + shift;
      if (at >= 0 && at < height && kind[at * width + x] === PICTURE) share[y] += 2 / width;
    }
  }
  return share;
}

/** The tilt within ± `reach` of `around` at which shares of rows change most steeply. */
function sharpestTilt(
  { width, height, kind }: PictureMap,
  around: number,
  reach: number,
  step: number,
  from: number,
  to: number,
): number {
  const [y0, y1] = [Math.max(0, Math.floor(from)), Math.min(height, Math.ceil(to))];
  const counts = new Float64Array(y1 - y0 + 4);
  let best = around;
  let max = -1;
  const steps = Math.round(reach / step);
  for (let k = -steps; k <= steps; k++) {
    const tilt = around + k * step;
    const slope = Math.tan(tilt * RADIAN);
    counts.fill(0);
    for (let x = STEP_X >> 1; x < width; x += STEP_X) {
      const shift = slope * (x - width / 2);
      for (let y = y0; y < y1; y += STEP_Y) {
        if (kind[y * width + x] !== PICTURE) continue;
        const at = Math.round(y - shift) - y0;
        if (at >= 0 && at < counts.length) counts[at]++;
      }
    }
    let score = 0;
    // Every second row was looked at: rows are compared over two.
    for (let i = 4; i < counts.length; i++) score += (counts[i] + counts[i - 1] - counts[i - 2] - counts[i - 3]) ** 2;
    if (score > max) {
      max = score;
      best = tilt;
    }
  }
  return best;
}

/** Parts of each sheared column of a band that are picture, and that are bare light or hidden. */
export interface ColumnShares {
  readonly picture: Float64Array;
  readonly noFilm: Float64Array;
}

/** Columns are numbered where they cross the band's middle. */
export function columnShares({ width, height, kind }: PictureMap, { top, bottom, tilt }: Band): ColumnShares {
  const slope = Math.tan(tilt * RADIAN);
  const picture = new Float64Array(width);
  const noFilm = new Float64Array(width);
  const middle = (top + bottom) / 2;
  // Rows at the band's edges are soft.
  const [first, last] = [Math.ceil(top) + 3, Math.floor(bottom) - 3];
  const each = 1 / Math.max(1, last - first);
  for (let y = first; y < last; y++)
    for (let x = 0; x < width; x++) {
      const px = Math.round(x - slope * (y - middle));
      const py = Math.round(y + slope * (x - width / 2));
      const what = px < 0 || px >= width || py < 0 || py >= height ? HIDDEN : kind[py * width + px];
      if (what === PICTURE) picture[x] += each;
      else if (what === BARE || what === HIDDEN) noFilm[x] += each;
    }
  return { picture, noFilm };
}

/**
 * Width of clear film beyond a band's edge, up to bare light, holder or the scan's border: the median along the band,
 * pixels. Marks on the film's edge and perforations do not count as its end.
 * @param side −1 above, 1 below
 */
export function filmBeyond({ width, height, kind }: PictureMap, band: Band, side: -1 | 1): number {
  const slope = Math.tan(band.tilt * RADIAN);
  const widths: number[] = [];
  for (let x = 4; x < width; x += 6) {
    const start = (side < 0 ? band.top : band.bottom) + slope * (x - width / 2);
    const at = (d: number): number => {
      const y = Math.round(start + side * d);
      return y < 0 || y >= height ? HIDDEN : kind[y * width + x];
    };
    let d = 3;
    while (at(d) === CLEAR_KIND) d++;
    widths.push(d);
  }
  return widths.sort((a, b) => a - b)[widths.length >> 1];
}

const CLEAR_KIND = 0;
