/** What lies around the picture: holder, rebate, and the picture's own edges. */
import type { Area, Rgb, Side } from "../types.ts";
import { type FilmPlane, pixelBox } from "../flat-field/film-plane.ts";
import { median, quantile } from "../math/statistics.ts";
import { type Box, type RebateStrip, SIDES } from "./types.ts";

export interface BorderReading {
  readonly mask?: Rgb;
  readonly maskAt?: Box;
  /** A holder is in view, but too little of it to read it clear of the film. */
  readonly maskTooNarrow?: true;
  readonly rebate: readonly RebateStrip[];
  readonly edges: Partial<Readonly<Record<Side, number>>>;
}

/** The outermost part of the scan where a holder is looked for, in fractions of its width. */
const RIM = 0.005;
/** A holder lets less than this through, flare included; the clearest film and the blue of a masked one let through more. */
const DARK = 0.12;
/** Beside the film the holder is not black in a scan: demosaicing and halving alone carry light over so many pixels. */
const SOFT = 2;

/** Reads holder, rebate and edges on all four sides; what is not in view is left out. */
export function readBorder(plane: FilmPlane, area: Area): BorderReading {
  const lines = SIDES.map((side) => sideOf(plane, area, side));
  const dark = lines.flatMap(({ holder }) => (holder && holder !== "too narrow" ? [holder] : []));
  const [darkest] = dark.toSorted((a, b) => a.rim[1] - b.rim[1]);
  const mask = darkest
    ? { mask: darkest.rim, maskAt: darkest.at }
    : lines.some(({ holder }) => holder === "too narrow")
      ? { maskTooNarrow: true as const }
      : {};
  const strips = lines.flatMap((s) => (s.strip ? [s.strip] : []));
  const edges = Object.fromEntries(lines.flatMap((s) => (s.edge === undefined ? [] : [[s.side, s.edge]])));
  return { ...mask, rebate: strips, edges };
}

/** The holder's transmittance as the scan shows it, and where that was read. */
interface Holder {
  readonly rim: Rgb;
  readonly at: Box;
}

interface SideReading {
  readonly side: Side;
  readonly holder?: Holder | "too narrow";
  readonly strip?: RebateStrip;
  readonly edge?: number;
}

/** A side seen as if it were the left one: `deep` runs from the scan's border inwards, `along` beside it. */
interface View {
  readonly deep: number;
  readonly along: number;
  at(deep: number, along: number, c: number): number;
  /** A box in fractions of the scan. */
  box(from: number, to: number): Box;
  /** A depth as a fraction of the scan's side. */
  fraction(deep: number): number;
}

function viewOf({ width, height, data }: FilmPlane, side: Side): View {
  const upright = side === "left" || side === "right";
  const far = side === "right" || side === "bottom";
  const deep = upright ? width : height;
  const along = upright ? height : width;
  const place = (d: number): number => (far ? deep - 1 - d : d);
  return {
    deep,
    along,
    at: (d, a, c) => (upright ? data[(a * width + place(d)) * 3 + c] : data[(place(d) * width + a) * 3 + c]),
    box(from, to) {
      const [low, high] = far ? [1 - to / deep, 1 - from / deep] : [from / deep, to / deep];
      return upright ? [low, 0, high - low, 1] : [0, low, 1, high - low];
    },
    fraction: (d) => (far ? 1 - d / deep : d / deep),
  };
}

/** Parts of a side that are read by themselves. */
const PARTS = 6;
const SAMPLE_STEP = 4;

function sideOf(plane: FilmPlane, area: Area, side: Side): SideReading {
  const view = viewOf(plane, side);
  const near = {
    left: area.left,
    right: 1 - area.left - area.width,
    top: area.top,
    bottom: 1 - area.top - area.height,
  };
  const expected = Math.round(near[side] * view.deep);
  const search = Math.min(Math.round(view.deep * 0.25), expected + Math.round(0.04 * view.deep));
  const film = findFilmEdge(view, search);
  const holder = readHolder(view, Math.max(2, Math.round(RIM * plane.width)), film);
  const reading = { side, ...(holder ? { holder } : {}) };
  if (!film) return reading;
  const { from } = film;
  const edge = pictureEdge(view, from, search);
  const until = Math.floor(Math.min(expected, edge ?? expected));
  const seen = edge === undefined ? {} : { edge: view.fraction(edge) };
  const available = until - from;
  if (available < 6) return { ...reading, ...seen };
  const third = Math.max(2, Math.floor(available / 3));
  const outer = [0, 1, 2].map((c) => mediansAlong(view, from, from + third, c)[0]) as unknown as Rgb;
  const inner = [0, 1, 2].map((c) => mediansAlong(view, until - third - 1, until - 1, c)[0]) as unknown as Rgb;
  return { ...reading, ...seen, strip: { side, area: view.box(from, until), outer, inner } };
}

/** Highest and middle of the medians of the parts of a strip: light may leak in along a part of a side alone. */
function mediansAlong(view: View, from: number, to: number, c: number): [highest: number, middle: number] {
  const parts: number[] = [];
  const margin = 0.08 * view.along;
  for (let part = 0; part < PARTS; part++) {
    const a0 = margin + ((view.along - 2 * margin) * part) / PARTS;
    const a1 = margin + ((view.along - 2 * margin) * (part + 1)) / PARTS;
    const values: number[] = [];
    const step = Math.max(1, (a1 - a0) / 80);
    for (let a = a0; a < a1; a += step) for (let d = from; d < to; d++) values.push(view.at(d, Math.floor(a), c));
    parts.push(median(values));
  }
  return [Math.max(...parts), median(parts)];
}

interface FilmEdge {
  /** Middle of the rise out of the holder's shadow, as a depth. */
  readonly shadow: number;
  /** Its end. */
  readonly from: number;
}

/** Where film (or light) is first seen all along the side; undefined where the side stays dark. */
function findFilmEdge(view: View, search: number): FilmEdge | undefined {
  const profile = Array.from({ length: search }, (_, d) => {
    const values: number[] = [];
    for (let a = Math.floor(view.along * 0.1); a < view.along * 0.9; a += SAMPLE_STEP) values.push(view.at(d, a, 1));
    return median(values);
  });
  const top = quantile(profile, 0.98);
  if (!(top > DARK)) return undefined;
  const shadow = profile.findIndex((t) => t > 0.5 * top);
  if (shadow <= 0) return shadow === 0 ? { shadow: 0, from: 0 } : undefined;
  // The shadow is soft: the film begins where the rise has ended.
  const end = profile.findIndex((t, d) => d >= shadow && t > 0.93 * profile[Math.min(search - 1, d + 3)]);
  return { shadow, from: (end < 0 ? shadow : end) + 1 };
}

/**
 * The outermost pixels of a side, where they are a holder's: dark in every channel, and clear of the soft edge of its
 * shadow, which would count as flare.
 * @param wide pixels to read, fewer where the holder is narrower
 * @param film undefined where the side stays dark
 */
function readHolder(view: View, wide: number, film?: FilmEdge): SideReading["holder"] {
  if (film?.shadow === 0) return undefined;
  const read = (depth: number): Rgb => [0, 1, 2].map((c) => mediansAlong(view, 0, depth, c)[1]) as unknown as Rgb;
  // The shadow is as soft on the holder's side as it is on the film's.
  const clear = film ? film.shadow - Math.max(SOFT, film.from - film.shadow) : Infinity;
  const depth = Math.min(wide, clear);
  if (depth < 1) return "too narrow";
  const rim = read(depth);
  return rim.every((t) => t < DARK) ? { rim, at: view.box(0, depth) } : undefined;
}

/** A line that has come down to this part of the rebate's transmittance, for two pixels, is in the picture. */
const EDGE_LEVEL = 0.8;

/** Where the picture begins: the depth that few lines come down before. */
function pictureEdge(view: View, from: number, search: number): number | undefined {
  const steps: number[] = [];
  let lines = 0;
  for (let a = Math.floor(view.along * 0.15); a < view.along * 0.85; a += 2) {
    let level = 0;
    for (let d = from; d < from + 3; d++) level += view.at(d, a, 1) / 3;
    lines++;
    for (let d = from + 2; d + 1 < search; d++) {
      const t = view.at(d, a, 1);
      if (t >= EDGE_LEVEL * level || view.at(d + 1, a, 1) >= EDGE_LEVEL * level) continue;
      const before = view.at(d - 1, a, 1);
      steps.push(d + 0.5 - Math.min(1, Math.max(0, (EDGE_LEVEL * level - t) / Math.max(1e-6, before - t))));
      break;
    }
  }
  if (steps.length < 0.3 * lines) return undefined;
  return quantile(steps, 0.25);
}

/** The rectangle of an area in fractions, its tilt left aside, made smaller (or larger) by a margin on all sides. */
export function insideOf(
  plane: { width: number; height: number },
  area: Area,
  margin: number,
): ReturnType<typeof pixelBox> {
  // A tilted picture's corners lie outside its upright rectangle's: what surely lies inside is a little smaller.
  const lean = Math.abs(Math.sin((area.tilt * Math.PI) / 180));
  const across = margin + (lean * area.height * plane.height) / plane.width / 2;
  const down = (margin * plane.width) / plane.height + (lean * area.width * plane.width) / plane.height / 2;
  return pixelBox(
    plane,
    area.left + across,
    area.top + down,
    area.left + area.width - across,
    area.top + area.height - down,
  );
}
