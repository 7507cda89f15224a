/**
 * Finds all pictures of a scan that shows several: strips of film, half frames, sheets of strips side by side. A scan
 * counts as such only on clear evidence, so that a picture with bars or windows in it stays one picture.
 */
import { FILM_FORMATS, type FormatId } from "../../film/formats.ts";
import type { Side } from "../../types.ts";
import type { DensityAboveBase } from "../edges.ts";
import { type Band, bandsOf, columnShares, filmBeyond } from "./bands.ts";
import { isCrossedByFilm } from "./crossing.ts";
import { type PictureMap, pictureMapOf, transposed } from "./picture-map.ts";
import { edgesOf, type Sequence, sequenceOf } from "./sequence.ts";

/** A picture's rectangle in pixels of the map. */
export interface RoughFrame {
  readonly centre: readonly [x: number, y: number];
  /** Along the scan's x and y axis, before the tilt. */
  readonly width: number;
  readonly height: number;
  /** Clockwise, degrees. */
  readonly tilt: number;
  /** Clear film to the next picture or to where the film ends, before and after it along the strip, pixels. */
  readonly gaps: readonly [before: number, after: number];
  /** Whether both edges across the strip are steep. */
  readonly clear: boolean;
}

/** A strip's pictures in order along it: from the left, or from the top where it stands upright. */
export interface RoughStrip {
  readonly frames: readonly RoughFrame[];
  /** Where a picture is cut off, by the side of the scan to which its strip runs on. */
  readonly cut: readonly Side[];
}

export interface RoughStrips {
  /** From the top, or from the left where strips stand upright. */
  readonly strips: readonly RoughStrip[];
  readonly upright: boolean;
  /** Longer over shorter side of the pictures: their format's. */
  readonly ratio: number;
}

/** Formats whose longer side lies across the film. */
const ACROSS: readonly FormatId[] = ["135-half", "645", "127-4x3"];
/** A longer picture is looked for only where its format is stated: two ordinary ones side by side pass for it. */
const MAX_SHAPE = 1.7;
/** Formats that several pictures of fit into one scan: length along the film over width across it. */
const SHAPES: readonly number[] = (() => {
  const formats = FILM_FORMATS.filter(({ id }) => !id.startsWith("cine-") && !id.endsWith("in"));
  const shapes = formats.map(({ id, long, short }) => (ACROSS.includes(id) ? short / long : long / short));
  return [...new Set(shapes.map((shape) => Number(shape.toFixed(3))))].filter((shape) => shape < MAX_SHAPE);
})();

/** Gates differ from their format by this much, relative; tried in steps. */
const [PLAY, PLAY_STEP] = [0.025, 0.005];
/** Least gap between two pictures, in parts of a picture's width across the film, and pixels. */
const [MIN_GAP, MIN_GAP_PIXELS] = [0.012, 3];
/** An edge counts as steep from here, 0 … 1. */
const STEEP = 0.25;
/** Columns of a gap that are clear film may be picture by this part. */
const CLEAR_GAP = 0.06;
/** Film beyond the outermost pictures: up to this, in parts of their width across the film (135: 0.23; 120: 0.05). */
const MAX_REBATE = 0.36;
/** What is left unexplained of a strip, in parts of a picture's length for each picture. */
const MAX_COST = 0.08;
/** Part of a column without film from which the strip has ended there. */
const ENDED = 0.5;

/**
 * @param ratio longer over shorter side of the pictures, where the format is known
 * @returns undefined where the scan does not show several whole pictures beyond doubt
 */
export function findStrips(density: DensityAboveBase, ratio?: number): RoughStrips | undefined {
  const map = pictureMapOf(density);
  if (!isCrossedByFilm(map)) return undefined;
  const lying = stripsAlong(map, ratio);
  const standing = stripsAlong(transposed(map), ratio);
  if (!lying && !standing) return undefined;
  const upright = (standing?.worth ?? 0) > (lying?.worth ?? 0);
  const { strips, ratio: found } = upright ? standing! : lying!;
  return { strips: upright ? strips.map(turned) : strips.map(named), upright, ratio: found };
}

interface Strips {
  readonly strips: readonly (Omit<RoughStrip, "cut"> & { readonly cut: readonly [boolean, boolean] })[];
  /** Frames with both edges clear: the more, the surer. */
  readonly worth: number;
  readonly ratio: number;
}

const named = ({ frames, cut }: Strips["strips"][number]): RoughStrip => ({
  frames,
  cut: [...(cut[0] ? (["left"] as const) : []), ...(cut[1] ? (["right"] as const) : [])],
});

/** A strip of the transposed map in the map itself. */
const turned = ({ frames, cut }: Strips["strips"][number]): RoughStrip => ({
  frames: frames.map((f) => ({
    ...f,
    centre: [f.centre[1], f.centre[0]],
    width: f.height,
    height: f.width,
    tilt: -f.tilt,
  })),
  cut: [...(cut[0] ? (["top"] as const) : []), ...(cut[1] ? (["bottom"] as const) : [])],
});

/** Rows of pictures, each a strip that lies along the map's x axis. */
function stripsAlong(map: PictureMap, ratio: number | undefined): Strips | undefined {
  const rows = bandsOf(map).map((bands) => bands.map((band) => ({ band, ...columnShares(map, band) })));
  if (rows.length === 0 || !endsBeyond(map, rows[0][0].band, rows[rows.length - 1][0].band)) return undefined;
  const shapes = ratio === undefined ? SHAPES : ratio === 1 ? [1] : [ratio, 1 / ratio];
  let best: Strips | undefined;
  for (const shape of shapes) {
    const strips = rows.flatMap((alternatives): Strips["strips"] => {
      const fits = alternatives.flatMap(({ band, picture, noFilm }) => {
        const view = viewOf(noFilm);
        const fit = isCutOff(map, band) ? undefined : fitted(picture, view, band, shape);
        if (!fit) return [];
        const stretch = Math.abs(Math.log(fit.length / (band.bottom - band.top) / shape));
        return [{ strip: roughStrip(fit, band, map, view), stretch }];
      });
      // Where marks were taken for picture, or a part of the pictures for marks, the shape is off.
      fits.sort((a, b) => clearFrames(b.strip) - clearFrames(a.strip) || a.stretch - b.stretch);
      return fits.slice(0, 1).map(({ strip }) => strip);
    });
    const worth = strips.reduce((sum, strip) => sum + clearFrames(strip), 0);
    if (strips.some((strip) => clearFrames(strip) >= 2) && worth > (best?.worth ?? 0))
      best = { strips, worth, ratio: Math.max(shape, 1 / shape) };
  }
  return best;
}

const clearFrames = ({ frames }: { readonly frames: readonly RoughFrame[] }): number =>
  frames.filter(({ clear }) => clear).length;

/** Rows at the scan's border that a band may not reach: its pictures are cut off there. */
const BORDER = 3;

const isCutOff = ({ height }: PictureMap, { top, bottom }: Band): boolean => top < BORDER || bottom > height - BORDER;

/** Whether the film ends, or the view does, soon beyond the outermost pictures: lit windows in a night lie in black. */
const endsBeyond = (map: PictureMap, first: Band, last: Band): boolean =>
  filmBeyond(map, first, -1) < MAX_REBATE * (first.bottom - first.top) &&
  filmBeyond(map, last, 1) < MAX_REBATE * (last.bottom - last.top);

/** Columns in which film is in view. */
function viewOf(noFilm: Float64Array): [from: number, to: number] {
  let [from, to] = [0, noFilm.length];
  while (from < to && noFilm[from] > ENDED) from++;
  while (to > from && noFilm[to - 1] > ENDED) to--;
  return [from, to];
}

interface Fit extends Sequence {
  readonly length: number;
}

/** The sequence of pictures of one shape, at the length that leaves least unexplained; undefined where too much is. */
function fitted(picture: Float64Array, view: readonly [number, number], band: Band, shape: number): Fit | undefined {
  const across = band.bottom - band.top;
  const gap = Math.max(MIN_GAP_PIXELS, Math.round(MIN_GAP * across));
  let best: Fit | undefined;
  const tries = Math.round(PLAY / PLAY_STEP);
  const steps = edgesOf(picture);
  for (let k = -tries; k <= tries; k++) {
    const length = Math.round(across * shape * (1 + k * PLAY_STEP));
    const sequence = sequenceOf(picture, steps, { length, gap, view });
    if (sequence.cost < (best?.cost ?? Infinity)) best = { ...sequence, length };
  }
  if (!best || best.starts.length === 0) return undefined;
  best = withDarkFrames(best, picture, view);
  const parts = best.starts.length + best.cut.filter((c) => c > 0).length;
  if (best.cost > MAX_COST * best.length * parts) return undefined;
  return areGapsClear(best, picture) ? best : undefined;
}

/** How far a place for dark pictures may differ from whole pitches, in parts of a picture's length. */
const PITCH_PLAY = 0.06;
/** A column of clear film; more is something on it. */
const MIN_SOMETHING = 0.03;

/**
 * The sequence with pictures put where next to nothing of them was seen: lamps in a night between two neighbours, where
 * pictures of the length fit in at the gap of the others.
 */
function withDarkFrames(fit: Fit, picture: Float64Array, [from, to]: readonly [number, number]): Fit {
  const { starts, edges, length, cut } = fit;
  const gaps = starts
    .slice(1)
    .flatMap((start, k) => (start - starts[k] < 1.5 * length ? [start - starts[k] - length] : []));
  if (gaps.length === 0) return fit;
  const gap = gaps.toSorted((a, b) => a - b)[gaps.length >> 1];
  const pitch = length + gap;
  const shows = (start: number): boolean => picture.subarray(start, start + length).some((p) => p > MIN_SOMETHING);
  const added: number[] = [];
  starts.slice(1).forEach((start, k) => {
    const free = (start - starts[k]) / pitch;
    const count = Math.round(free) - 1;
    if (count < 1 || Math.abs(free - count - 1) * pitch > PITCH_PLAY * length * (count + 1)) return;
    const between = Array.from({ length: count }, (_, i) =>
      Math.round(starts[k] + ((start - starts[k]) * (i + 1)) / (count + 1)),
    );
    if (between.some(shows)) added.push(...between);
  });
  // Beyond the ends the strip goes on by the pitch, as far as something shows.
  for (let at = starts[0] - pitch; at >= from + cut[0] && shows(at); at -= pitch) added.push(Math.round(at));
  for (let at = starts[starts.length - 1] + pitch; at + length <= to - cut[1] && shows(at); at += pitch)
    added.push(Math.round(at));
  const all = [
    ...starts.map((start, k) => ({ start, edges: edges[k] })),
    ...added.map((start) => ({ start, edges: [0, 0] as const })),
  ];
  all.sort((a, b) => a.start - b.start);
  return { ...fit, starts: all.map(({ start }) => start), edges: all.map((one) => one.edges) };
}

/** Whether film between any two neighbours is clear. */
function areGapsClear({ starts, length }: Fit, picture: Float64Array): boolean {
  return starts.slice(1).every((start, k) => {
    const middle = Math.round((starts[k] + length + start) / 2);
    return [middle - 1, middle].every((x) => picture[x] < CLEAR_GAP);
  });
}

const RADIAN = Math.PI / 180;

function roughStrip(
  fit: Fit,
  band: Band,
  { width }: PictureMap,
  [from, to]: readonly [number, number],
): Strips["strips"][number] {
  const { starts, edges, length, cut } = fit;
  const slope = Math.tan(band.tilt * RADIAN);
  const across = band.bottom - band.top;
  const middle = (band.top + band.bottom) / 2;
  const frames = starts.map((start, k): RoughFrame => {
    const u = start + length / 2;
    const before = start - (k > 0 ? starts[k - 1] + length : from + cut[0]);
    const after = (k < starts.length - 1 ? starts[k + 1] : to - cut[1]) - start - length;
    return {
      // The columns were numbered where they cross the band's middle.
      centre: [u, middle + slope * (u - width / 2)],
      width: length * Math.cos(band.tilt * RADIAN),
      height: across * Math.cos(band.tilt * RADIAN),
      tilt: band.tilt,
      gaps: [before, after],
      clear: edges[k].every((steep) => steep > STEEP),
    };
  });
  return { frames, cut: [cut[0] > 0, cut[1] > 0] };
}
