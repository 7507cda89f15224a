/** Where each pixel of the scan looks on the film, and the film's raster resampled to the scan's pixels. */
import type { Plane } from "../blur.ts";
import type { DevelopedFilm } from "../film/film.ts";
import type { LensDrawing, Placement } from "./setup.ts";

export interface Projection {
  /** Film pixels per scan pixel. */
  readonly ratio: number;
  readonly area: { left: number; top: number; width: number; height: number; tilt: number };
  toFilm(x: number, y: number): [number, number];
  toScan(x: number, y: number): [number, number];
}

export function projection(film: DevelopedFilm, placement: Placement, width: number, height: number): Projection {
  const { picture } = film;
  const ratio = picture.width / (placement.width * width);
  const angle = (placement.tilt * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const side = placement.mirrored ? -1 : 1;
  const [sx, sy] = [placement.centre[0] * width, placement.centre[1] * height];
  const [fx, fy] = [picture.left + picture.width / 2, picture.top + picture.height / 2];
  const high = picture.height / ratio / height;
  return {
    ratio,
    area: {
      left: placement.centre[0] - placement.width / 2,
      top: placement.centre[1] - high / 2,
      width: placement.width,
      height: high,
      tilt: placement.tilt,
    },
    // y runs downwards, so a clockwise turn takes (1, 0) to (cos, sin).
    toFilm: (x, y) => {
      const [dx, dy] = [x - sx, y - sy];
      return [fx + side * (cos * dx + sin * dy) * ratio, fy + (cos * dy - sin * dx) * ratio];
    },
    toScan: (x, y) => {
      const [dx, dy] = [(side * (x - fx)) / ratio, (y - fy) / ratio];
      return [sx + cos * dx - sin * dy, sy + sin * dx + cos * dy];
    },
  };
}

const PHASES = 1024;
/** Catmull-Rom weights of four neighbours at each phase between the middle two. */
const WEIGHTS = Float32Array.from({ length: (PHASES + 1) * 4 }, (_, i) => {
  const t = (i >> 2) / PHASES;
  const k = i & 3;
  if (k === 0) return ((-t + 2) * t - 1) * t * 0.5;
  if (k === 1) return ((3 * t - 5) * t * t + 2) * 0.5;
  if (k === 2) return ((-3 * t + 4) * t + 1) * t * 0.5;
  return (t - 1) * t * t * 0.5;
});

/**
 * How a lens draws: from a place on the sensor (pixels) to the place of the true picture that red (0), green (1) or blue
 * (2) shows there, by bisection of the radius, and back.
 */
export function lensDrawing(
  { distortion = [0, 0], red = [0, 0], blue = [0, 0] }: LensDrawing,
  width: number,
  height: number,
) {
  const unit = Math.hypot(width, height) / 2;
  const drawnAt = (r: number, channel: number): number => {
    const green = r * (1 + distortion[0] * r ** 2 + distortion[1] * r ** 4);
    const [a, b] = channel === 0 ? red : channel === 2 ? blue : [0, 0];
    return green * (1 + a + b * green ** 2);
  };
  const truthOf = (rho: number, channel: number): number => {
    let [low, high] = [0, 2 * rho + 0.1];
    for (let k = 0; k < 50; k++) {
      const middle = (low + high) / 2;
      if (drawnAt(middle, channel) < rho) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };
  const moved = (x: number, y: number, to: (r: number) => number): [number, number] => {
    const [dx, dy] = [x - width / 2, y - height / 2];
    const r = Math.hypot(dx, dy) / unit;
    const by = r > 0 ? to(r) / r : 1;
    return [width / 2 + dx * by, height / 2 + dy * by];
  };
  /** Truth over drawn radius by the drawn radius squared; a table, since every pixel asks. */
  const table = [0, 1, 2].map((channel) =>
    Float64Array.from({ length: TABLE + 2 }, (_, i) => {
      const rho = Math.sqrt(Math.max(i, 1e-3) / TABLE) * 1.05;
      return truthOf(rho, channel) / rho;
    }),
  );
  return {
    draw: (x: number, y: number, channel: number): [number, number] => moved(x, y, (r) => drawnAt(r, channel)),
    truth: (x: number, y: number, channel: number): [number, number] => {
      const [dx, dy] = [x - width / 2, y - height / 2];
      const at = Math.min(TABLE, ((dx * dx + dy * dy) / (unit * unit) / 1.05 ** 2) * TABLE);
      const i = Math.floor(at);
      const by = table[channel][i] + (at - i) * (table[channel][i + 1] - table[channel][i]);
      return [width / 2 + dx * by, height / 2 + dy * by];
    },
  };
}

const TABLE = 4096;

/** As `project`, each colour from where the lens draws it. */
export function projectThroughLens(
  plane: Plane,
  onFilm: Projection,
  lens: LensDrawing,
  width: number,
  height: number,
): Plane {
  const { truth } = lensDrawing(lens, width, height);
  const out = new Float32Array(width * height * 3);
  const { data, width: w, height: h } = plane;
  for (let y = 0, o = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      for (let c = 0; c < 3; c++, o++) {
        const [px, py] = onFilm.toFilm(...truth(x + 0.5, y + 0.5, c));
        const [i, j] = [Math.floor(px - 0.5), Math.floor(py - 0.5)];
        const wx = (((px - 0.5 - i) * PHASES + 0.5) | 0) * 4;
        const wy = (((py - 0.5 - j) * PHASES + 0.5) | 0) * 4;
        let sum = 0;
        for (let l = 0; l < 4; l++) {
          const row = held(j - 1 + l, h) * w;
          let along = 0;
          for (let k = 0; k < 4; k++) along += WEIGHTS[wx + k] * data[(row + held(i - 1 + k, w)) * 3 + c];
          sum += WEIGHTS[wy + l] * along;
        }
        out[o] = sum;
      }
  return { width, height, channels: 3, data: out };
}

/** Samples the raster at every pixel of the scan; beyond its edges the outermost pixel repeats. */
export function project(plane: Plane, onFilm: Projection, width: number, height: number): Plane {
  const out = new Float32Array(width * height * 3);
  const { data, width: w, height: h } = plane;
  const [x0, y0] = onFilm.toFilm(0.5, 0.5);
  const [x1, y1] = onFilm.toFilm(1.5, 0.5);
  const [x2, y2] = onFilm.toFilm(0.5, 1.5);
  for (let y = 0, o = 0; y < height; y++)
    for (let x = 0; x < width; x++, o += 3) {
      const px = x0 + x * (x1 - x0) + y * (x2 - x0) - 0.5;
      const py = y0 + x * (y1 - y0) + y * (y2 - y0) - 0.5;
      const i = Math.floor(px);
      const j = Math.floor(py);
      const wx = (((px - i) * PHASES + 0.5) | 0) * 4;
      const wy = (((py - j) * PHASES + 0.5) | 0) * 4;
      const a = held(i - 1, w) * 3;
      const b = held(i, w) * 3;
      const c = held(i + 1, w) * 3;
      const d = held(i + 2, w) * 3;
      let red = 0;
      let green = 0;
      let blue = 0;
      for (let l = 0; l < 4; l++) {
        const row = held(j - 1 + l, h) * w * 3;
        const vertical = WEIGHTS[wy + l];
        const wa = vertical * WEIGHTS[wx];
        const wb = vertical * WEIGHTS[wx + 1];
        const wc = vertical * WEIGHTS[wx + 2];
        const wd = vertical * WEIGHTS[wx + 3];
        const pa = row + a;
        const pb = row + b;
        const pc = row + c;
        const pd = row + d;
        red = red + wa * data[pa] + wb * data[pb] + wc * data[pc] + wd * data[pd];
        green = green + wa * data[pa + 1] + wb * data[pb + 1] + wc * data[pc + 1] + wd * data[pd + 1];
        blue = blue + wa * data[pa + 2] + wb * data[pb + 2] + wc * data[pc + 2] + wd * data[pd + 2];
      }
      out[o] = red;
      out[o + 1] = green;
      out[o + 2] = blue;
    }
  return { width, height, channels: 3, data: out };
}

/** An index held within 0 … count − 1. */
function held(index: number, count: number): number {
  return index < 0 ? 0 : index >= count ? count - 1 : index;
}
