/**
 * From a film's published data to the numbers of a stock's recipe, for one camera and one light: the film's dyes are seen
 * through the camera's sensitivities under the light. What is not known of camera, light and dyes is averaged over, with
 * weights by how well each explains the blank's colour and the base's density.
 */
import type { ColourData, DyeSet, PublishedFilm } from "../film/library/types.ts";
import { type Spectrum, WAVELENGTHS } from "../film/library/types.ts";
import { multiply, diagonal, invert } from "../math/matrix.ts";
import { principalComponents } from "../math/principal-components.ts";
import type { CurveTable, Matrix3, Rgb } from "../types.ts";
import { candidateLights, type Sensitivity } from "./copy-lights.ts";
import { dyesFor, type FilmData, fitUnmix, type TrainingPatch } from "./spectra.ts";

/** Spectra that a computation chooses from. */
export interface SpectraTable {
  readonly dyes: Readonly<Record<string, DyeSet>>;
  readonly lights: Readonly<Record<string, Spectrum>>;
  readonly cameras: Readonly<Record<string, Sensitivity>>;
}

/** What is known of the scans. */
export interface ScanEvidence {
  /** Cameras of the table that may have taken the scans, with weights. */
  readonly cameras: readonly (readonly [name: string, weight: number])[];
  /** Mean raw signal of the bare light per channel, before any white balance; any scale. */
  readonly blank?: Rgb;
  /** Density of the film's base: against the blank, or, without one, of the raw signal (its scale then says nothing). */
  readonly base?: Rgb;
}

/** Mean and components of a film's neutrals in a camera's densities, as functions of green density above base. */
export interface FilmNeutrals {
  readonly green: readonly number[];
  readonly red: readonly number[];
  readonly blue: readonly number[];
  readonly components: readonly { readonly red: readonly number[]; readonly blue: readonly number[] }[];
  /** log10 exposure above mid-grey at `green`. */
  readonly logH: readonly number[];
}

/** The numbers of a stock's recipe. */
export interface PublishedNumbers {
  /** Density of the base as camera and light see it. */
  readonly base: Rgb;
  readonly curve: CurveTable;
  readonly unmix: Matrix3;
  readonly colour: Matrix3;
  /** What a fit to a roll's pictures begins with. */
  readonly neutrals: FilmNeutrals;
  /** What the camera's channels see of the layers' log exposures, rows summing to 1. */
  readonly crosstalk: Matrix3;
  /** The kinds of light that explain blank and base best, with their shares, the likeliest first. */
  readonly lights: readonly { readonly name: string; readonly share: number }[];
  /** Standard deviation of mid-grey's density over what is not known, the worse of red and blue against green, D. */
  readonly spread: number;
}

/** Standard deviations: log10 of the blank's channel ratios; base density, and its colour, D. */
const BLANK_ERROR = 0.02;
const BASE_ERROR = 0.04;
const BASE_COLOUR_ERROR = 0.02;
/** Noise in the camera's densities that fidelity is weighed against, as for the table of unmix matrices. */
const SIGMA = 0.01;
/** Pairs of camera and light that are kept, the likeliest; more change no grey by 0.1 ΔC*ab. */
const MAX_PAIRS = 30;
const MIN_SHARE = 0.02;
/** Exposures of the surfaces, stops, and of the greys, log10 above mid-grey. */
const STOPS = [-1, 0, 1, 2, 3];
const GREYS = [-1.2, -0.8, -0.4, 0, 0.4, 0.8, 1.2, 1.6];
const MID_GREY_OF_WHITE = Math.log10(0.18);
/** Components of the neutrals that a fit may move along. */
const COMPONENTS = 4;

/** One camera under one light looking at one set of dyes. */
interface View {
  readonly weight: number;
  readonly light: string;
  readonly dyes: DyeSet;
  /** Sensitivity × light × transmittance of the base, each channel summing to 1. */
  readonly weights: Sensitivity;
  readonly base: Rgb;
}

/** @throws RangeError for a film that no dyes are published of: `plainCurve` is all there is */
export function publishedNumbers(film: PublishedFilm, evidence: ScanEvidence, table: SpectraTable): PublishedNumbers {
  const { colour } = film;
  if (!colour) throw new RangeError(`${film.name} has no dyes: its curve is all that is published.`);
  const views = viewsOf(colour, evidence, table);
  const amounts = new Map([...new Set(views.map((v) => v.dyes))].map((dyes) => [dyes, amountTable(film, dyes)]));
  const seen = film.logH.map((_, i) => seenBy(views, (dyes) => amounts.get(dyes)!.steps[i]));
  const { unmix } = fitUnmix(trainingPatches(film, colour, views, amounts), SIGMA);
  const base = mean(
    views,
    views.map((v) => v.base),
  );
  const greys = seen.map((own) => apply(unmix, mean(views, own)));
  const channel = (c: number): number[] => rising(greys.map((d) => base[c] + d[c]));
  const neutrals = neutralsOf(film, views, seen);
  const at = (table: readonly number[], g: number): number => interpolate(neutrals.green, table, g);
  const slope = (table: readonly number[]): number => (at(table, 1) - at(table, 0.3)) / 0.7;
  return {
    base: [short(base[0]), short(base[1]), short(base[2])],
    curve: { logH: film.logH, red: channel(0), green: channel(1), blue: channel(2), mid: 0 },
    unmix: unmix.map((row) => row.map(short)) as unknown as Matrix3,
    colour: withWholeRows(colour.matrix),
    neutrals,
    crosstalk: invert(normalised(multiply(unmix, diagonal([slope(neutrals.red), 1, slope(neutrals.blue)])))),
    lights: sharesOf(views),
    spread: spreadOf(views, seen[nearestTo(film.logH, 0)]),
  };
}

/** The curve of a film that no dyes are published of, black-and-white film above all. */
export function plainCurve({ logH, densities }: PublishedFilm): {
  readonly logH: readonly number[];
  readonly density: readonly number[];
  readonly mid: number;
} {
  return { logH, density: rising(densities[0]), mid: 0 };
}

const short = (v: number): number => Number(v.toFixed(4)) + 0;

/** A digitised toe may fall by a hair; a recipe's table must not. */
function rising(values: readonly number[]): number[] {
  let max = -Infinity;
  return values.map((v) => (max = Math.max(max, short(v))));
}

/** Rows that sum to 1 to the last digit that is written. */
const withWholeRows = (n: readonly number[]): Matrix3 => [
  [n[0], n[1], short(1 - n[0] - n[1])],
  [n[3], n[4], short(1 - n[3] - n[4])],
  [n[6], n[7], short(1 - n[6] - n[7])],
];

const normalised = (m: Matrix3): Matrix3 =>
  m.map((row) => row.map((v) => v / (row[0] + row[1] + row[2]))) as unknown as Matrix3;

const apply = (m: Matrix3, d: Rgb): Rgb =>
  m.map((row) => row[0] * d[0] + row[1] * d[1] + row[2] * d[2]) as unknown as Rgb;

function mean(views: readonly View[], of: readonly Rgb[]): Rgb {
  const sum = [0, 0, 0];
  views.forEach(({ weight }, i) => of[i].forEach((v, c) => (sum[c] += weight * v)));
  return [sum[0], sum[1], sum[2]];
}

/** The views that blank and base leave likely; weights sum to 1. */
function viewsOf(colour: ColourData, evidence: ScanEvidence, { dyes, lights, cameras }: SpectraTable): View[] {
  const clear = colour.base.map((d) => 10 ** -d);
  const { blank, base } = evidence;
  const seen = blank ?? (base && (base.map((d) => 10 ** -d) as unknown as Rgb));
  const pairs = evidence.cameras.flatMap(([camera, share]) => {
    const sensitivity = cameras[camera];
    return candidateLights(lights, sensitivity, seen, blank ? undefined : clear).map(({ name, power, prior }) => {
      const bare = sensitivity.map((s) => s.map((v, i) => v * power[i])) as unknown as Sensitivity;
      const level = bare.map(total) as unknown as Rgb;
      const filmed = bare.map((s) => s.map((v, i) => v * clear[i])) as unknown as Sensitivity;
      const through = filmed.map(total) as unknown as Rgb;
      const own = through.map((t, c) => -Math.log10(t / level[c])) as unknown as Rgb;
      const weights = filmed.map((s, c) => s.map((v) => v / through[c])) as unknown as Sensitivity;
      const likelihood = Math.exp(-misfit({ level, through, base: own }, evidence) / 2);
      return { light: name, weights, base: own, weight: share * prior * likelihood };
    });
  });
  const kept = pairs.toSorted((a, b) => b.weight - a.weight).slice(0, MAX_PAIRS);
  const all = kept.flatMap((pair) =>
    colour.dyes.map(([name, share]) => ({ ...pair, dyes: dyes[name], weight: pair.weight * share })),
  );
  const max = Math.max(...all.map((v) => v.weight));
  // Nothing fits: then every pair counts alike, and the pictures decide.
  const likely = max > 0 ? all.filter((v) => v.weight > MIN_SHARE * max) : all.map((v) => ({ ...v, weight: 1 }));
  const sum = likely.reduce((s, v) => s + v.weight, 0);
  return likely.map((v) => ({ ...v, weight: v.weight / sum }));
}

const total = (s: Spectrum): number => s.reduce((a, b) => a + b, 0);

/** Squared errors, in standard deviations, of what a pair predicts. */
function misfit(
  predicted: { readonly level: Rgb; readonly through: Rgb; readonly base: Rgb },
  { blank, base }: ScanEvidence,
): number {
  const ratio = (v: Rgb, c: number): number => Math.log10(v[c] / v[1]);
  let squares = 0;
  if (blank) for (const c of [0, 2]) squares += ((ratio(blank, c) - ratio(predicted.level, c)) / BLANK_ERROR) ** 2;
  if (blank && base) {
    const off = base.map((d, c) => d - predicted.base[c]);
    squares += (off[1] / BASE_ERROR) ** 2;
    for (const c of [0, 2]) squares += ((off[c] - off[1]) / BASE_COLOUR_ERROR) ** 2;
  } else if (base)
    for (const c of [0, 2]) squares += ((base[1] - base[c] - ratio(predicted.through, c)) / BASE_COLOUR_ERROR) ** 2;
  return squares;
}

/** Amounts of dye of neutrals: at the film's own steps, and by layer at any log exposure. */
interface AmountTable {
  readonly steps: readonly Rgb[];
  readonly at: (layer: number, h: number) => number;
}

/** Amounts of the dyes that make neutrals follow the published Status M curves. */
function amountTable({ logH, densities, colour }: PublishedFilm, dyes: DyeSet): AmountTable {
  // Only spectra count here; the curves are the library's own.
  const film: FilmData = { grid: WAVELENGTHS, base: colour!.base, dyes, response: [[], [], []], above: () => 0 };
  const min = densities.map((d) => Math.min(...d));
  let last: Rgb = [0, 0, 0];
  const steps = logH.map((_, i) => {
    const aim = densities.map((d, c) => d[i] - min[c]) as unknown as Rgb;
    return (last = dyesFor(film, aim, last));
  });
  return {
    steps,
    at: (layer, h) =>
      interpolate(
        logH,
        steps.map((s) => s[layer]),
        h,
        true,
      ),
  };
}

/** Straight lines through points; beyond them straight on, or level. */
function interpolate(x: readonly number[], y: readonly number[], at: number, level = false): number {
  const last = x.length - 1;
  if (level && at <= x[0]) return y[0];
  if (level && at >= x[last]) return y[last];
  let i = 1;
  while (i < last && x[i] < at) i++;
  return y[i - 1] + ((at - x[i - 1]) / (x[i] - x[i - 1])) * (y[i] - y[i - 1]);
}

/** Densities above base that each view sees of amounts of dye. */
function seenBy(views: readonly View[], amountsOf: (dyes: DyeSet) => Rgb): Rgb[] {
  const spectra = new Map<DyeSet, Float64Array>();
  const through = (dyes: DyeSet): Float64Array => {
    let t = spectra.get(dyes);
    if (!t) {
      const [a, b, c] = amountsOf(dyes);
      t = Float64Array.from(WAVELENGTHS, (_, i) => 10 ** -(a * dyes[0][i] + b * dyes[1][i] + c * dyes[2][i]));
      spectra.set(dyes, t);
    }
    return t;
  };
  return views.map(({ dyes, weights }) => {
    const t = through(dyes);
    const of = (w: Spectrum): number => {
      let sum = 0;
      for (let i = 0; i < t.length; i++) sum += w[i] * t[i];
      // Display primaries see less than nothing of what lies outside their gamut.
      return -Math.log10(Math.max(sum, 1e-5));
    };
    return [of(weights[0]), of(weights[1]), of(weights[2])];
  });
}

/**
 * What unmix is fitted to. A layer's aim is the density that a neutral of its exposure has: then the crosstalk of dyes and
 * of the camera both go, and the curve gives back each layer's exposure.
 */
function trainingPatches(
  { logH, densities }: PublishedFilm,
  colour: ColourData,
  views: readonly View[],
  amounts: ReadonlyMap<DyeSet, AmountTable>,
): TrainingPatch[] {
  const min = densities.map((d) => Math.min(...d));
  const aim = (c: number, h: number): number => interpolate(logH, densities[c], h, true) - min[c];
  const colours = STOPS.flatMap((stop) =>
    colour.surfaces.map((s) => ({
      grey: false,
      h: s.map((v) => v - MID_GREY_OF_WHITE + stop * Math.log10(2)) as unknown as Rgb,
    })),
  );
  const greys = GREYS.map((h) => ({ grey: true, h: [h, h, h] as const }));
  const end = logH[logH.length - 1];
  // What the sheet does not show teaches nothing.
  const shown = [...colours, ...greys].filter(({ h }) => Math.max(...h) < end);
  return shown.map(({ grey, h }) => {
    const dyed = (dyes: DyeSet): Rgb => h.map((v, k) => amounts.get(dyes)!.at(k, v)) as unknown as Rgb;
    const status = h.map((v, c) => aim(c, v)) as unknown as Rgb;
    return { grey, status, camera: mean(views, seenBy(views, dyed)) };
  });
}

/** Green densities above base at which neutrals are tabled. */
const GREEN: readonly number[] = [0, 0.05, 0.1, 0.15, 0.2, 0.3, 0.45, 0.6, 0.8, 1, 1.25, 1.5, 1.75, 2];

function neutralsOf({ logH }: PublishedFilm, views: readonly View[], seen: readonly (readonly Rgb[])[]): FilmNeutrals {
  const curves = views.map((_, i) => {
    const own = seen.map((d) => d[i]);
    const green = strictlyRising(own.map((d) => d[1]));
    const at = (y: readonly number[], g: number): number => (g === 0 ? 0 : interpolate(green, y, g));
    return {
      red: GREEN.map((g) =>
        at(
          own.map((d) => d[0]),
          g,
        ),
      ),
      blue: GREEN.map((g) =>
        at(
          own.map((d) => d[2]),
          g,
        ),
      ),
      logH: GREEN.map((g) => interpolate(green, logH, g)),
    };
  });
  const n = GREEN.length;
  const rows = curves.map(({ red, blue }) => [...red, ...blue]);
  const middle = rows[0].map((_, k) => views.reduce((s, { weight }, i) => s + weight * rows[i][k], 0));
  const covariance = middle.map((_, j) =>
    middle.map((__, k) =>
      views.reduce((s, { weight }, i) => s + weight * (rows[i][j] - middle[j]) * (rows[i][k] - middle[k]), 0),
    ),
  );
  const components = principalComponents(covariance, COMPONENTS).map(({ variance, vector }) => {
    const scaled = vector.map((v) => v * Math.sqrt(variance));
    return { red: scaled.slice(0, n), blue: scaled.slice(n) };
  });
  const h = GREEN.map((_, k) => views.reduce((s, { weight }, i) => s + weight * curves[i].logH[k], 0));
  return { green: GREEN, red: middle.slice(0, n), blue: middle.slice(n), components, logH: h };
}

const strictlyRising = (values: readonly number[]): number[] => {
  let last = -Infinity;
  return values.map((v) => (last = Math.max(v, last + 1e-4)));
};

function sharesOf(views: readonly View[]): { name: string; share: number }[] {
  const shares = new Map<string, number>();
  for (const { light, weight } of views) shares.set(light, (shares.get(light) ?? 0) + weight);
  return [...shares].map(([name, share]) => ({ name, share })).toSorted((a, b) => b.share - a.share);
}

/** Standard deviation over the views of red and of blue density against green's, the worse of the two. */
function spreadOf(views: readonly View[], seen: readonly Rgb[]): number {
  const middle = mean(views, seen);
  const of = (c: number): number =>
    Math.sqrt(
      views.reduce((s, { weight }, i) => s + weight * (seen[i][c] - seen[i][1] - middle[c] + middle[1]) ** 2, 0),
    );
  return Math.max(of(0), of(2));
}

const nearestTo = (values: readonly number[], at: number): number =>
  values.reduce((best, v, i) => (Math.abs(v - at) < Math.abs(values[best] - at) ? i : best), 0);
