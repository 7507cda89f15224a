/** A colour negative as a camera would see it at every pixel, for comparing demosaicing: truth and its mosaic. */
import { type Random, random } from "../witness/random.ts";
import { blurGaussian } from "../witness/blur.ts";
import type { FilterPattern } from "../witness/raw/dng.ts";

/** Density of the orange base and slope of the film, typical of data sheets (see tests/reference). */
const BASE = [0.31, 0.6, 0.76];
export const GAMMA = [0.53, 0.56, 0.63];
/** Bare light, as a fraction of saturation: the sensor's channels are unequal. */
export const LIGHT = [0.75, 0.95, 0.6];
/** Density of grain in one pixel, of each dye layer alone. */
const GRAIN = [0.012, 0.012, 0.018];
/** Sensor: electrons at saturation (shot noise) and read noise, in electrons. */
const FULL_WELL = 40000;
const READ_NOISE = 4;
/** Blur of lens, film and filter stack, in pixels: nothing on film is sharper. */
const BLUR = 0.65;

export interface FilmPicture {
  readonly width: number;
  readonly height: number;
  /** Signal 0 … 1 of the three channels at every pixel, interleaved, without sensor noise. */
  readonly truth: Float32Array;
}

/** Scene log exposure (0 = mid-grey) of the three layers. */
type SceneColour = (x: number, y: number) => readonly [number, number, number];

/** Side by side: spokes, saturated patches with thin lines, ripples of falling period, and mottled foliage. */
export function drawFilm(width: number, height: number): FilmPicture {
  const source = random(7, "film");
  const scene = parts(width, height, source);
  const planes = [0, 1, 2].map(() => new Float32Array(width * height));
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const h = scene(x, y);
      for (let c = 0; c < 3; c++) planes[c][y * width + x] = BASE[c] + GAMMA[c] * (h[c] + 1.2727);
    }
  const truth = new Float32Array(width * height * 3);
  planes.forEach((density, c) => {
    for (let i = 0; i < density.length; i++) density[i] = LIGHT[c] * 10 ** -(density[i] + GRAIN[c] * source.normal());
    const plane = { width, height, channels: 1 as const, data: density };
    blurGaussian(plane, BLUR);
    for (let i = 0; i < density.length; i++) truth[3 * i + c] = density[i];
  });
  return { width, height, truth };
}

function parts(width: number, height: number, source: Random): SceneColour {
  const leaves = Float32Array.from({ length: width * height }, () => source.normal());
  blurGaussian({ width, height, channels: 1 as const, data: leaves }, 1.2);
  const quarter = width / 4;
  return (x, y) => {
    const part = Math.min(3, Math.floor(x / quarter));
    const u = x - part * quarter;
    if (part === 0) {
      const angle = Math.atan2(y - height / 2, u - quarter / 2);
      return grey(Math.sin(angle * 36) > 0 ? 0.4 : -0.8);
    }
    if (part === 1) return patchColour(u, y);
    if (part === 2) return grey(-0.2 + 0.35 * Math.sin((x * x + y * y) / (height * 3)));
    const leaf = leaves[y * width + x] * 1.4;
    return [leaf - 0.3, leaf * 0.9, leaf * 0.7 - 0.5];
  };
}

function grey(h: number): readonly [number, number, number] {
  return [h, h, h];
}

/** Saturated squares crossed by thin dark wires that run at all slopes. */
function patchColour(u: number, y: number): readonly [number, number, number] {
  const wire =
    Math.abs(((u * 0.37 + y * 0.93) % 23) - 11) < 0.8 || Math.abs(((u * 0.9 - y * 0.3 + 9000) % 31) - 15) < 0.7;
  if (wire) return grey(-0.9);
  const patch = (Math.floor(u / 37) + 2 * Math.floor(y / 29)) % 6;
  const tones: (readonly [number, number, number])[] = [
    [0.35, -0.5, -0.6],
    [-0.4, 0.2, -0.5],
    [-0.6, -0.4, 0.3],
    [0.4, 0.35, -0.4],
    [0.3, 0.3, 0.3],
    [-0.4, 0.1, 0.3],
  ];
  return tones[patch];
}

/** What a 14-bit sensor records under these filters, with shot and read noise. */
export function recordMosaic(
  { width, height, truth }: FilmPicture,
  pattern: FilterPattern,
  { black, white }: { readonly black: number; readonly white: number },
): Uint16Array {
  const source = random(11, "sensor");
  const data = new Uint16Array(width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const colour = pattern.colours[(y % pattern.rows) * pattern.columns + (x % pattern.columns)];
      const electrons = truth[(y * width + x) * 3 + colour] * FULL_WELL;
      const noisy = electrons + source.normal() * Math.sqrt(electrons + READ_NOISE ** 2);
      data[y * width + x] = Math.min(white, Math.max(0, Math.round(black + (noisy / FULL_WELL) * (white - black))));
    }
  return data;
}
