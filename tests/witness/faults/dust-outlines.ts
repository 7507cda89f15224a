/**
 * Dust, dirt, hairs and scratches as people outlined them on scans of empty developed frames (tests/reference/dust):
 * their sizes, shapes and places are real. How much light each takes is not known and is drawn by lot.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import type { Dust } from "./dust.ts";
import type { FilmFormat } from "../film/format.ts";
import { random, type Random } from "../random.ts";

/** Frames of the outlines by what they are used for; no frame serves two purposes. */
export const OUTLINE_SETS = { train: [1, 2, 3, 4, 5, 6], tune: [7, 8], heldOut: [9, 10] } as const;
export type OutlineSet = keyof typeof OUTLINE_SETS;

type Point = readonly [x: number, y: number];

interface Outline {
  readonly class: "Dust" | "Dirt" | "Short hair" | "Long hair" | "Scratch";
  readonly polygon: readonly Point[];
}

/** Width of the outlined scans in pixels, and of the film that they show in mm. */
const [SCAN_WIDTH, FILM_WIDTH, FILM_HEIGHT] = [4970, 36, 24];
const MM = FILM_WIDTH / SCAN_WIDTH;
/** Outlines of less area in mm² were drawn as a line without width. */
const MIN_AREA = 1e-4;

/** Range of the light that each class takes: invented, as for the witness's own dust. */
const OPACITY: Readonly<Record<Outline["class"], readonly [least: number, most: number]>> = {
  Dust: [0.65, 0.97],
  Dirt: [0.6, 0.97],
  "Short hair": [0.5, 0.85],
  "Long hair": [0.5, 0.85],
  Scratch: [0.45, 0.8],
};

const loaded = new Map<number, readonly Outline[]>();

/** The outlines of one frame. Run from the project's folder. */
export function outlinesOf(frame: number): readonly Outline[] {
  const known = loaded.get(frame);
  if (known) return known;
  const path = join("tests", "reference", "dust", `frame${String(frame).padStart(2, "0")}.json.gz`);
  const { artefacts } = JSON.parse(gunzipSync(readFileSync(path)).toString()) as { artefacts: Outline[] };
  loaded.set(frame, artefacts);
  return artefacts;
}

export interface RealDustOptions {
  /** Fewest things of a window; windows that hold fewer are drawn again, a hundred times at most. */
  readonly fewest?: number;
  /** Most things: of more, some are left out by lot. */
  readonly max?: number;
  /** Size of the things against what they are. */
  readonly scale?: number;
}

/** What lies in a window of one of a set's frames, the window as large as the format's picture. */
export function realDust(
  format: FilmFormat,
  set: OutlineSet,
  seed: number,
  { fewest = 8, max = 60, scale = 1 }: RealDustOptions = {},
): Dust[] {
  const r = random(seed, `outlines ${set}`);
  let found: Dust[] = [];
  for (let tries = 0; tries < 100 && found.length < fewest; tries++) found = windowOf(format, set, r, scale);
  while (found.length > max) found.splice(Math.floor(r.uniform() * found.length), 1);
  return found;
}

function windowOf({ picture: [wide, high] }: FilmFormat, set: OutlineSet, r: Random, scale: number): Dust[] {
  const frames = OUTLINE_SETS[set];
  const outlines = outlinesOf(frames[Math.floor(r.uniform() * frames.length)]);
  const [left, top] = [r.between(0, Math.max(0, FILM_WIDTH - wide)), r.between(0, Math.max(0, FILM_HEIGHT - high))];
  const inside = ([x, y]: Point): boolean =>
    Math.abs(x * MM - left - wide / 2) < 0.48 * wide && Math.abs(y * MM - top - high / 2) < 0.48 * high;
  return outlines.flatMap(({ class: kind, polygon }): Dust[] => {
    if (!polygon.every(inside)) return [];
    const [area, cx, cy] = centroid(polygon);
    const square = area * MM * MM * scale * scale;
    if (square < MIN_AREA) return [];
    const outline = polygon.map(([x, y]): Point => [(x - cx) * MM * scale, (y - cy) * MM * scale]);
    const length = Math.max(...outline.map(([x, y]) => Math.max(...outline.map(([u, v]) => Math.hypot(x - u, y - v)))));
    const isLine = kind !== "Dust" && kind !== "Dirt";
    return [
      {
        kind: kind === "Scratch" ? "scratch" : isLine ? "hair" : "speck",
        x: cx * MM - left - wide / 2,
        y: cy * MM - top - high / 2,
        radius: isLine ? square / perimeter(outline) : Math.sqrt(square / Math.PI),
        length,
        opacity: r.between(...OPACITY[kind]),
        shape: 0,
        outline,
      },
    ];
  });
}

/** Area of a polygon and its centroid; of one without area, the mean of its corners. */
export function centroid(polygon: readonly Point[]): [area: number, x: number, y: number] {
  let [twice, sx, sy] = [0, 0, 0];
  for (const [k, [x, y]] of polygon.entries()) {
    const [u, v] = polygon[(k + 1) % polygon.length];
    const cross = x * v - u * y;
    twice += cross;
    sx += (x + u) * cross;
    sy += (y + v) * cross;
  }
  const mean = (axis: 0 | 1): number => polygon.reduce((sum, p) => sum + p[axis], 0) / polygon.length;
  if (Math.abs(twice) < 1e-9) return [0, mean(0), mean(1)];
  return [Math.abs(twice) / 2, sx / (3 * twice), sy / (3 * twice)];
}

const perimeter = (polygon: readonly Point[]): number =>
  polygon.reduce((sum, [x, y], k) => {
    const [u, v] = polygon[(k + 1) % polygon.length];
    return sum + Math.hypot(x - u, y - v);
  }, 0);
