/**
 * From spectra to numbers: what a camera sees of film under a light, and the matrix that takes its densities to those of
 * a densitometer (ISO 5-3 Status M). Spectra are lists over one grid of wavelengths, 400–700 nm in tens or fives.
 */
import { statusDensity } from "../colour/status.ts";
import { apply } from "../math/matrix.ts";
import type { Matrix3, Rgb } from "../types.ts";
import { solveLinear } from "../math/least-squares.ts";
import { clamp } from "../math/clamp.ts";

/** One value a wavelength. */
export type Spectrum = readonly number[];

/** A camera's red, green and blue sensitivities and the light behind the film; only shapes matter. */
export interface ScanningSet {
  readonly sensitivity: readonly [Spectrum, Spectrum, Spectrum];
  readonly light: Spectrum;
}

/** Straight-line interpolation on a grid, level beyond its ends. `x` ascends. */
export function resampled(x: readonly number[], y: readonly number[], grid: readonly number[]): number[] {
  return grid.map((at) => {
    if (at <= x[0]) return y[0];
    if (at >= x[x.length - 1]) return y[y.length - 1];
    const i = x.findIndex((v) => v > at);
    const part = (at - x[i - 1]) / (x[i] - x[i - 1]);
    return y[i - 1] + part * (y[i] - y[i - 1]);
  });
}

/** D = −log10(Σ S·E·10^−D(λ) / Σ S·E): the densities that a camera sees of a spectral density, per channel. */
export function cameraDensity({ sensitivity, light }: ScanningSet, density: Spectrum): Rgb {
  const of = (s: Spectrum): number => {
    let through = 0;
    let all = 0;
    for (let i = 0; i < density.length; i++) {
      through += s[i] * light[i] * 10 ** -density[i];
      all += s[i] * light[i];
    }
    return -Math.log10(through / all);
  };
  return [of(sensitivity[0]), of(sensitivity[1]), of(sensitivity[2])];
}

/** Status M densities of a spectral density given on `grid` (nm). */
export function statusM(grid: readonly number[], density: Spectrum): Rgb {
  const first = grid[0];
  const step = grid[1] - first;
  const last = density.length - 1;
  return statusDensity("M", (nm) => {
    const u = clamp((nm - first) / step, 0, last);
    const i = Math.min(last - 1, Math.floor(u));
    return 10 ** -(density[i] + (u - i) * (density[i + 1] - density[i]));
  });
}

/** A colour negative as its maker publishes it. */
export interface FilmData {
  readonly grid: readonly number[];
  readonly base: Spectrum;
  /** Cyan, magenta, yellow dye. */
  readonly dyes: readonly [Spectrum, Spectrum, Spectrum];
  /** Sensitivity of the red, green and blue layer (linear) times the light that the film is balanced for. */
  readonly response: readonly [Spectrum, Spectrum, Spectrum];
  /** Density above base of neutrals, Status M, per channel, at log10 exposure above mid-grey. */
  readonly above: (channel: number, h: number) => number;
}

/** A patch of film: what the camera should read, what it does read, both above base. */
export interface TrainingPatch {
  readonly status: Rgb;
  readonly camera: Rgb;
  readonly grey: boolean;
}

/** Amounts of the three dyes whose Status M densities above base are `aim` (Newton's method). */
export function dyesFor(film: FilmData, aim: Rgb, start: Rgb = [0, 0, 0]): Rgb {
  const base = statusM(film.grid, film.base);
  let x = start;
  const readings = (a: Rgb): Rgb => {
    const d = statusM(film.grid, densityOfDyes(film, a));
    return [d[0] - base[0], d[1] - base[1], d[2] - base[2]];
  };
  for (let round = 0; round < 30; round++) {
    const at = readings(x);
    const error: Rgb = [aim[0] - at[0], aim[1] - at[1], aim[2] - at[2]];
    if (Math.max(...error.map(Math.abs)) < 1e-8) break;
    const columns = [0, 1, 2].map((k) => {
      const moved = x.map((v, i) => (i === k ? v + 1e-4 : v)) as unknown as Rgb;
      return readings(moved).map((v, i) => (v - at[i]) / 1e-4);
    });
    const step = solveLinear(
      [0, 1, 2].map((i) => columns.map((c) => c[i])),
      error,
    );
    x = [x[0] + step[0], x[1] + step[1], x[2] + step[2]];
  }
  return x;
}

function densityOfDyes(film: FilmData, amounts: Rgb): number[] {
  return film.base.map((b, i) => b + film.dyes.reduce((s, dye, k) => s + amounts[k] * dye[i], 0));
}

/** Amounts of dye over log exposure, so that neutrals follow the published curves; tabled in steps of 0.05. */
function dyeTables(film: FilmData): (layer: number, h: number) => number {
  const [low, step, count] = [-2.2, 0.05, 110];
  const tables = [0, 1, 2].map(() => new Float64Array(count));
  let last: Rgb = [0, 0, 0];
  for (let i = 0; i < count; i++) {
    const h = low + i * step;
    last = dyesFor(film, [film.above(0, h), film.above(1, h), film.above(2, h)], last);
    for (let k = 0; k < 3; k++) tables[k][i] = last[k];
  }
  return (layer, h) => {
    const u = clamp((h - low) / step, 0, count - 1.001);
    const i = Math.floor(u);
    return tables[layer][i] + (u - i) * (tables[layer][i + 1] - tables[layer][i]);
  };
}

/**
 * Photographs reflectances on film at several exposures and reads every patch with a densitometer; the camera's readings
 * are added by `seenBy`.
 */
export function photograph(
  film: FilmData,
  reflectances: readonly Spectrum[],
  stops: readonly number[],
): { readonly spectrum: number[]; readonly status: Rgb; readonly grey: boolean }[] {
  const dye = dyeTables(film);
  const base = statusM(film.grid, film.base);
  const white = film.response.map((r) => r.reduce((a, b) => a + b, 0));
  const greys = [0.02, 0.04, 0.09, 0.18, 0.36, 0.6, 0.9].map((y) => ({
    reflectance: film.grid.map(() => y),
    grey: true,
  }));
  const surfaces = [...reflectances.map((reflectance) => ({ reflectance, grey: false })), ...greys];
  return stops.flatMap((stop) =>
    surfaces.map(({ reflectance, grey }) => {
      const amounts = film.response.map((r, k) => {
        const light = r.reduce((s, v, i) => s + v * reflectance[i], 0) / white[k];
        return dye(k, Math.log10(Math.max(light, 1e-4) / 0.18) + stop * Math.log10(2));
      }) as unknown as Rgb;
      const spectrum = densityOfDyes(film, amounts);
      const d = statusM(film.grid, spectrum);
      return { spectrum, status: [d[0] - base[0], d[1] - base[1], d[2] - base[2]], grey };
    }),
  );
}

/** The same patches with what a camera reads of them. */
export function seenBy(set: ScanningSet, film: FilmData, patches: ReturnType<typeof photograph>): TrainingPatch[] {
  const base = cameraDensity(set, film.base);
  return patches.map(({ spectrum, status, grey }) => {
    const d = cameraDensity(set, spectrum);
    return { status, grey, camera: [d[0] - base[0], d[1] - base[1], d[2] - base[2]] };
  });
}

/** A matrix, how true it is and what it costs. */
export interface UnmixFit {
  readonly unmix: Matrix3;
  /** Root mean square and greatest error over colours, density. */
  readonly rms: number;
  readonly worst: number;
  /** Greatest error over greys of all exposures, density. */
  readonly grey: number;
  /** Noise of the unmixed densities over that of the camera's, the greatest of the channels. */
  readonly noise: number;
}

/**
 * Greys count at least this much more than colours, for a cast over a whole picture is worse than a colour a little off,
 * and more, in steps, until none of any exposure is farther off than GREY_AIM: as little below the 0.02 D that is
 * promised as a table of four digits needs, for every step costs colours.
 */
const GREY_WEIGHT = 12;
const HEAVIER = 1.15;
const MAX_WEIGHT = 400;
const GREY_AIM = 0.0195;
/** Rounds in which the greys that are farthest off gain weight, so that the worst of them is brought down. */
const ROUNDS = 24;
/** Part of its weight that a grey without any error keeps in a round, so that none is lost for good. */
const MIN_WEIGHT = 0.02;

/**
 * The matrix from camera densities above base to Status M densities above base: least squares, with the variance that
 * noise of `sigma` in the camera's densities would add counted as an error too, so that fidelity and noise are weighed
 * in one coin. Of the greys the worst counts; each channel's row is fitted by itself, for the worst grey of one channel
 * is another than that of the next.
 */
export function fitUnmix(patches: readonly TrainingPatch[], sigma: number): UnmixFit {
  const greys = patches.filter((p) => p.grey);
  const colours = momentsOf(patches.filter((p) => !p.grey));
  for (let weight = GREY_WEIGHT; ; weight *= HEAVIER) {
    const unmix = [0, 1, 2].map((c) => fitRow(c, colours, greys, weight, sigma)) as unknown as Matrix3;
    const fit = { unmix, ...judgeUnmix(unmix, patches) };
    if (fit.grey <= GREY_AIM || weight > MAX_WEIGHT || greys.length === 0) return fit;
  }
}

/** Sums of products over patches: camera with camera, and camera with each channel of the densitometer. */
interface Moments {
  readonly count: number;
  readonly camera: readonly (readonly number[])[];
  readonly status: readonly (readonly number[])[];
}

function momentsOf(patches: readonly TrainingPatch[], weights?: readonly number[]): Moments {
  const sum = (of: (p: TrainingPatch) => number): number =>
    patches.reduce((s, p, i) => s + (weights?.[i] ?? 1) * of(p), 0);
  return {
    count: sum(() => 1),
    camera: [0, 1, 2].map((i) => [0, 1, 2].map((j) => sum((p) => p.camera[i] * p.camera[j]))),
    status: [0, 1, 2].map((c) => [0, 1, 2].map((i) => sum((p) => p.camera[i] * p.status[c]))),
  };
}

function fitRow(c: number, colours: Moments, greys: readonly TrainingPatch[], weight: number, sigma: number): Rgb {
  let weights = greys.map(() => weight);
  let best: Rgb = [0, 0, 0];
  let min = Infinity;
  for (let round = 0; round < ROUNDS; round++) {
    const own = momentsOf(greys, weights);
    const total = colours.count + own.count;
    const normal = [0, 1, 2].map((i) =>
      [0, 1, 2].map((j) => (colours.camera[i][j] + own.camera[i][j]) / total + (i === j ? sigma * sigma : 0)),
    );
    const right = [0, 1, 2].map((i) => (colours.status[c][i] + own.status[c][i]) / total);
    const row = solveLinear(normal, right) as unknown as Rgb;
    const errors = greys.map((p) => Math.abs(errorOf(row, p, c)));
    const worst = Math.max(0, ...errors);
    if (worst < min || round === 0) [best, min] = [row, worst];
    const gained = weights.map((w, i) => w * (MIN_WEIGHT + errors[i] / Math.max(worst, 1e-9)));
    const mean = gained.reduce((a, b) => a + b, 0) / Math.max(1, gained.length);
    weights = gained.map((w) => (w * weight) / mean);
  }
  return best;
}

const errorOf = (row: Rgb, { camera, status }: TrainingPatch, c: number): number =>
  row[0] * camera[0] + row[1] * camera[1] + row[2] * camera[2] - status[c];

/**
 * Densities above base that neutrals have after unmixing, per channel, at log10 exposures above mid-grey. In place of
 * the published curve they make greys exact at every exposure: a matrix cannot, for a camera's densities are not quite
 * proportional to a densitometer's.
 */
export function curveSeen(set: ScanningSet, film: FilmData, unmix: Matrix3, logH: readonly number[]): Rgb[] {
  const base = cameraDensity(set, film.base);
  let dyes: Rgb = [0, 0, 0];
  return logH.map((h) => {
    dyes = dyesFor(film, [film.above(0, h), film.above(1, h), film.above(2, h)], dyes);
    const d = cameraDensity(set, densityOfDyes(film, dyes));
    return apply(unmix, [d[0] - base[0], d[1] - base[1], d[2] - base[2]]);
  });
}

/** How well a matrix does on patches. */
export function judgeUnmix(unmix: Matrix3, patches: readonly TrainingPatch[]): Omit<UnmixFit, "unmix"> {
  let squares = 0;
  let count = 0;
  let worst = 0;
  let grey = 0;
  for (const p of patches)
    for (let c = 0; c < 3; c++) {
      const error = Math.abs(errorOf(unmix[c], p, c));
      if (p.grey) grey = Math.max(grey, error);
      else {
        squares += error * error;
        count++;
        worst = Math.max(worst, error);
      }
    }
  return {
    rms: Math.sqrt(squares / Math.max(1, count)),
    worst,
    grey,
    noise: Math.max(...unmix.map((row) => Math.hypot(...row))),
  };
}
