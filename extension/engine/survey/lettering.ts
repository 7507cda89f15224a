/** Reads the frame's number on the film's edge as it stands and mirrored, and says which agrees better. */
import type { Area } from "../types.ts";
import { type FilmPlane, pixelBox, type PixelBox } from "../flat-field/film-plane.ts";
import { mean } from "../math/statistics.ts";
import { clamp } from "../math/clamp.ts";

/** Strokes of the figures on a field 4 wide and 6 high, as broken lines: plain figures as film makers burn them in. */
const FIGURES: Readonly<Record<string, readonly (readonly (readonly [number, number])[])[]>> = {
  "0": [
    [
      [1, 0],
      [3, 0],
      [4, 1],
      [4, 5],
      [3, 6],
      [1, 6],
      [0, 5],
      [0, 1],
      [1, 0],
    ],
  ],
  "1": [
    [
      [1, 1],
      [2, 0],
      [2, 6],
    ],
  ],
  "2": [
    [
      [0, 1],
      [1, 0],
      [3, 0],
      [4, 1],
      [4, 2],
      [0, 6],
      [4, 6],
    ],
  ],
  "3": [
    [
      [0, 0],
      [4, 0],
      [2, 2.5],
      [4, 3.7],
      [4, 5],
      [3, 6],
      [1, 6],
      [0, 5],
    ],
  ],
  "4": [
    [
      [3, 6],
      [3, 0],
      [0, 4],
      [4, 4],
    ],
  ],
  "5": [
    [
      [4, 0],
      [0, 0],
      [0, 2.4],
      [3, 2.2],
      [4, 3.2],
      [4, 5],
      [3, 6],
      [0, 6],
    ],
  ],
  "6": [
    [
      [3, 0],
      [1, 1],
      [0, 3],
      [0, 5],
      [1, 6],
      [3, 6],
      [4, 5],
      [4, 4],
      [3, 3],
      [0, 3],
    ],
  ],
  "7": [
    [
      [0, 0],
      [4, 0],
      [1.5, 6],
    ],
  ],
  "8": [
    [
      [1, 3],
      [0, 2],
      [0, 1],
      [1, 0],
      [3, 0],
      [4, 1],
      [4, 2],
      [3, 3],
      [1, 3],
      [0, 4],
      [0, 5],
      [1, 6],
      [3, 6],
      [4, 5],
      [4, 4],
      [3, 3],
    ],
  ],
  "9": [
    [
      [4, 3],
      [1, 3],
      [0, 2],
      [0, 1],
      [1, 0],
      [3, 0],
      [4, 1],
      [4, 3],
      [3, 5],
      [1, 6],
    ],
  ],
};

/** Pixels of a template's figure, and of the even film beside a number: letters of a film's name have neighbours. */
const [WIDE, HIGH, GAP, PEN, SIDE] = [10, 14, 2, 1.1, 6];
/** Heights at which figures are looked for, in parts of the strip. */
const HEIGHTS = [0.16, 0.2, 0.25, 0.32, 0.4, 0.5, 0.64];
/** Agreement below which nothing was read: strokes of other letters reach as much. */
const READ = 0.6;

/** Variance of density around a figure: less is even film, more is a hole or the holder. */
const [MIN_SPREAD, MAX_SPREAD] = [0.01, 0.6];

interface Figures {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
}

/** A name's figures drawn in one line; undefined where it has none. */
function figuresOf(name: string): Figures | undefined {
  const digits = Array.from(name).filter((d) => d in FIGURES);
  if (digits.length === 0) return undefined;
  const width = digits.length * (WIDE + GAP) - GAP + 2 * SIDE;
  const height = HIGH + 2 * GAP;
  const data = new Float32Array(width * height);
  digits.forEach((digit, k) => {
    for (const line of FIGURES[digit])
      for (let i = 1; i < line.length; i++) {
        const to = (p: readonly [number, number]): [number, number] => [
          SIDE + k * (WIDE + GAP) + (p[0] / 4) * (WIDE - 1) + 0.5,
          GAP + (p[1] / 6) * (HIGH - 1) + 0.5,
        ];
        const [a, b] = [to(line[i - 1]), to(line[i])];
        for (let y = 0; y < height; y++)
          for (let x = 0; x < width; x++) {
            const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
            const t = Math.min(
              1,
              Math.max(0, ((x + 0.5 - a[0]) * (b[0] - a[0]) + (y + 0.5 - a[1]) * (b[1] - a[1])) / length ** 2),
            );
            const away = Math.hypot(x + 0.5 - a[0] - t * (b[0] - a[0]), y + 0.5 - a[1] - t * (b[1] - a[1]));
            data[y * width + x] = Math.max(data[y * width + x], clamp(PEN + 0.5 - away, 0, 1));
          }
      }
  });
  return { width, height, data };
}

/**
 * How much better the frame's number agrees with the strips above and below the picture as it stands than mirrored,
 * −1 … 1; undefined where neither agrees, or where the number looks the same in a mirror.
 */
export function readLettering(plane: FilmPlane, area: Area, frame: string | undefined): number | undefined {
  if (frame === undefined) return undefined;
  const [match] = matchNumbers(plane, area, [frame]);
  return !match || Math.max(match.upright, match.mirrored) < READ ? undefined : match.upright - match.mirrored;
}

/** How well one number agrees with the film's edge, 0 … 1. */
export interface NumberMatch {
  readonly name: string;
  readonly upright: number;
  readonly mirrored: number;
}

/** How well each of several frame numbers agrees with the strips above and below the picture, in the order given. */
export function matchNumbers(plane: FilmPlane, area: Area, names: readonly string[]): NumberMatch[] {
  const { left, top, width, height } = area;
  const strips = [
    pixelBox(plane, left, Math.max(0, top - 0.12), left + width, top),
    pixelBox(plane, left, top + height, left + width, Math.min(1, top + height + 0.12)),
  ].flatMap((box) => lettersOf(plane, box) ?? []);
  return names.flatMap((name): NumberMatch[] => {
    const figures = figuresOf(name);
    if (!figures) return [];
    const bestOf = (kinds: readonly Kind[]): number =>
      Math.max(0, ...strips.flatMap((film) => kinds.map((kind) => refined(film, figures, kind))));
    const [upright, mirrored] = [bestOf(["upright", "upside down"]), bestOf(["mirrored", "mirrored upside down"])];
    return [{ name, upright, mirrored }];
  });
}

interface Letters {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
  /** Sums of values and of squares above and left of each crossing. */
  readonly sums: Float64Array;
  readonly squares: Float64Array;
}

/** Rows that a strip is reduced to: figures are then about as large as the templates. */
const ROWS = 30;

/** Density of a strip, reduced. */
function lettersOf(plane: FilmPlane, box: PixelBox): Letters | undefined {
  const step = Math.max(1, Math.round((box.y1 - box.y0) / ROWS));
  const [width, height] = [Math.floor((box.x1 - box.x0) / step), Math.floor((box.y1 - box.y0) / step)];
  if (width < 20 || height < 6) return undefined;
  const data = new Float32Array(width * height);
  for (let y = 0; y < height * step; y++) {
    const row = Math.floor(y / step) * width;
    let k = ((y + box.y0) * plane.width + box.x0) * 3 + 1;
    for (let x = 0; x < width; x++) {
      let sum = 0;
      for (let i = 0; i < step; i++, k += 3) sum += Math.log(Math.max(0.005, plane.data[k]));
      data[row + x] -= sum / (Math.LN10 * step * step);
    }
  }
  const sums = new Float64Array((width + 1) * (height + 1));
  const squares = new Float64Array(sums.length);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const k = (y + 1) * (width + 1) + x + 1;
      const d = data[y * width + x];
      sums[k] = d + sums[k - 1] + sums[k - width - 1] - sums[k - width - 2];
      squares[k] = d * d + squares[k - 1] + squares[k - width - 1] - squares[k - width - 2];
    }
  return { width, height, data, sums, squares };
}

function within(table: Float64Array, width: number, left: number, top: number, w: number, h: number): number {
  const a = top * (width + 1) + left;
  const b = a + h * (width + 1);
  return table[b + w] - table[b] - table[a + w] + table[a];
}

/** How the figures may lie on the film: upside down is turned by half a turn. */
type Kind = "upright" | "upside down" | "mirrored" | "mirrored upside down";

/** A place in a strip, and how well the figures agree with it at one size. */
interface Match {
  readonly agreement: number;
  readonly scale: number;
  readonly left: number;
  readonly top: number;
}
const NO_MATCH: Match = { agreement: 0, scale: 1, left: 0, top: 0 };

/** Heights about that of the best match, and how far about its place, at which a better one is looked for. */
const [NEAR_HEIGHTS, NEAR] = [[0.86, 0.9, 0.95, 1, 1.05, 1.1, 1.16], 3];

/** Best agreement of the figures with a strip, over all heights and places: first coarsely, then about the best. */
function refined(film: Letters, figures: Figures, kind: Kind): number {
  const coarse = HEIGHTS.map((part) => bestMatch(film, templateOf(figures, (part * film.height) / HIGH, kind)));
  const best = coarse.reduce((a, b) => (b.agreement > a.agreement ? b : a));
  if (best.agreement === 0) return 0;
  const fine = NEAR_HEIGHTS.map((part) => bestMatch(film, templateOf(figures, part * best.scale, kind), best));
  return Math.max(best.agreement, ...fine.map(({ agreement }) => agreement));
}

/** Figures at one size, less their mean. */
interface Template extends Figures {
  readonly scale: number;
  /** Sum of squares. */
  readonly size: number;
}

/** Fewer samples to a template's pixel cannot be read, nor fewer rows. */
const [MIN_SCALE, MIN_TEMPLATE_ROWS] = [0.4, 5];

/** The figures as they lie at one size: each sample is the mean of what it covers. */
function templateOf(figures: Figures, scale: number, kind: Kind): Template | undefined {
  const [width, height] = [Math.round(figures.width * scale), Math.round(figures.height * scale)];
  if (scale < MIN_SCALE || height < MIN_TEMPLATE_ROWS) return undefined;
  const flipX = kind === "upside down" || kind === "mirrored";
  const flipY = kind === "upside down" || kind === "mirrored upside down";
  const data = new Float32Array(width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      data[y * width + x] = meanOver(figures, flipX ? width - 1 - x : x, flipY ? height - 1 - y : y, scale);
  const middle = mean(data);
  let size = 0;
  for (let i = 0; i < data.length; i++) {
    data[i] -= middle;
    size += data[i] ** 2;
  }
  return { width, height, data, scale, size };
}

/** Parts of a sample along each side at which the figures are looked up. */
const PARTS = 3;

function meanOver({ width, height, data }: Figures, x: number, y: number, scale: number): number {
  let sum = 0;
  for (let j = 0; j < PARTS; j++)
    for (let i = 0; i < PARTS; i++) {
      const u = Math.min(width - 1, Math.floor((x + (i + 0.5) / PARTS) / scale));
      const v = Math.min(height - 1, Math.floor((y + (j + 0.5) / PARTS) / scale));
      sum += data[v * width + u];
    }
  return sum / (PARTS * PARTS);
}

/** Best normalised correlation of a template with the strip, over all places, or over those about one. */
function bestMatch(film: Letters, template: Template | undefined, about?: Match): Match {
  if (!template || template.width >= film.width || template.height >= film.height) return NO_MATCH;
  const { width: w, height: h, scale } = template;
  const [low, high] = about
    ? [
        [Math.max(0, about.left - NEAR), Math.max(0, about.top - NEAR)],
        [about.left + NEAR, about.top + NEAR],
      ]
    : [
        [0, 0],
        [Infinity, Infinity],
      ];
  let best = { ...NO_MATCH, scale };
  for (let top = low[1]; top <= Math.min(high[1], film.height - h); top++)
    for (let left = low[0]; left <= Math.min(high[0], film.width - w); left++) {
      const sum = within(film.sums, film.width, left, top, w, h);
      const spread = within(film.squares, film.width, left, top, w, h) - (sum * sum) / (w * h);
      // Even film agrees with anything by chance, and a holder's edge is no figure.
      if (spread < MIN_SPREAD * w * h || spread > MAX_SPREAD * w * h) continue;
      let dot = 0;
      for (let y = 0; y < h; y++)
        for (let x = 0, i = (top + y) * film.width + left, k = y * w; x < w; x++, i++, k++)
          dot += template.data[k] * film.data[i];
      const agreement = dot / Math.sqrt(template.size * spread);
      if (agreement > best.agreement) best = { agreement, scale, left, top };
    }
  return best;
}
