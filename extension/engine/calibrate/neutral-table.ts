/** Makes the numbers of auto/table.ts from spectra; called by auto/make.mjs and by the tests that leave films out. */
import type { NeutralPrior } from "../auto/prior.ts";
import type { Matrix3, Rgb } from "../types.ts";
import { solveLinear } from "../math/least-squares.ts";
import {
  againstGreen,
  type DyeSet,
  type NegativeSheet,
  neutralsOf,
  priorOf,
  seeNeutrals,
  type Viewer,
  viewerOf,
  type WeighedCurve,
} from "./neutral-prior.ts";
import type { Spectrum } from "./spectra.ts";

export interface TableInputs {
  readonly grid: readonly number[];
  readonly films: readonly NegativeSheet[];
  readonly dyes: readonly DyeSet[];
  readonly cameras: readonly { readonly name: string; readonly sensitivity: readonly [Spectrum, Spectrum, Spectrum] }[];
  readonly lights: readonly { readonly name: string; readonly power: Spectrum }[];
  /** CIE 1931 observer and reflectances on the grid: for the matrix that a camera's own pictures went through. */
  readonly observer: readonly [Spectrum, Spectrum, Spectrum];
  readonly surfaces: readonly Spectrum[];
  /** Sensitivity of layers × the light that a film is balanced for, by film. */
  readonly responses: readonly (readonly [Spectrum, Spectrum, Spectrum])[];
}

export interface NeutralTable {
  readonly raw: NeutralPrior;
  readonly display: NeutralPrior;
  /** Density of masked base through a camera with a blank: mean and standard deviation per channel. */
  readonly mask: { readonly mean: Rgb; readonly spread: Rgb };
  /** Log exposure that camera channels see of the film's layers, rows summing to 1; mean, and by camera. */
  readonly crosstalk: Matrix3;
  readonly byCamera: Readonly<Record<string, Matrix3>>;
  /** Layer exposures to linear sRGB, rows summing to 1. */
  readonly colour: Matrix3;
}

/** One draw: a film with dyes through a camera and light. */
export interface Draw {
  readonly film: string;
  readonly family: string;
  readonly dyes: string;
  readonly camera: string;
  readonly light: string;
  readonly weight: number;
  readonly raw: WeighedCurve;
  readonly display: WeighedCurve;
  readonly base: Rgb;
  readonly crosstalk: Matrix3;
}

/** Pairs of camera and light that each film with each dye set is looked at through. */
const VIEWS = 56;
/** Fractional parts of multiples of irrational numbers fill 0 … 1 evenly (Weyl). */
const part = (i: number, irrational: number): number => (i * irrational) % 1;

/** Looks at every film with every dye set through cameras and lights that are spread evenly over all pairs. */
export function drawNeutrals(inputs: TableInputs): Draw[] {
  const { grid, films, dyes, cameras, lights } = inputs;
  const members = new Map<string, number>();
  for (const { family } of films) members.set(family, (members.get(family) ?? 0) + 1);
  const viewers = new Map<string, Viewer>();
  const developers = cameras.map((camera) => developerOf(inputs, camera.sensitivity));
  const draws: Draw[] = [];
  let i = 0;
  for (const sheet of films)
    for (const set of dyes) {
      const neutrals = neutralsOf(grid, sheet, set);
      // Several films of one family are not as many witnesses.
      const weight = 1 / Math.sqrt(members.get(sheet.family)!);
      for (let view = 0; view < VIEWS; view++, i++) {
        const c = Math.floor(part(i + 1, Math.SQRT2) * cameras.length);
        const l = Math.floor(part(i + 1, Math.sqrt(3)) * lights.length);
        const key = `${c}|${l}`;
        let viewer = viewers.get(key);
        if (!viewer) viewers.set(key, (viewer = viewerOf(cameras[c].sensitivity, lights[l].power)));
        const seen = seeNeutrals(viewer, neutrals);
        const shown = displayed(seen.base, seen.curve, developers[c], i + 1);
        draws.push({
          film: sheet.name,
          family: sheet.family,
          dyes: set.name,
          camera: cameras[c].name,
          light: lights[l].name,
          weight,
          raw: { ...againstGreen(seen.curve), weight },
          display: { ...againstGreen(shown), weight },
          base: seen.base,
          crosstalk: normalised(seen.crosstalk),
        });
      }
    }
  return draws;
}

export function tableOf(
  draws: readonly Draw[],
  inputs: Pick<TableInputs, "observer" | "surfaces" | "responses">,
): NeutralTable {
  const masked = draws.filter(({ base }) => base[2] - base[0] > 0.25);
  const mean = [0, 1, 2].map((c) => averageOf(masked, (d) => d.base[c]));
  const spread = [0, 1, 2].map((c) => Math.sqrt(averageOf(masked, (d) => (d.base[c] - mean[c]) ** 2)));
  const cameras = [...new Set(draws.map((d) => d.camera))];
  const crosstalkOf = (some: readonly Draw[]): Matrix3 =>
    [0, 1, 2].map((r) => [0, 1, 2].map((c) => averageOf(some, (d) => d.crosstalk[r][c]))) as unknown as Matrix3;
  return {
    raw: priorOf(draws.map((d) => d.raw)),
    display: priorOf(draws.map((d) => d.display)),
    mask: { mean: mean as unknown as Rgb, spread: spread as unknown as Rgb },
    crosstalk: crosstalkOf(draws),
    byCamera: Object.fromEntries(cameras.map((name) => [name, crosstalkOf(draws.filter((d) => d.camera === name))])),
    colour: colourOf(inputs),
  };
}

function averageOf(draws: readonly Draw[], of: (d: Draw) => number): number {
  const total = draws.reduce((s, d) => s + d.weight, 0);
  return draws.reduce((s, d) => s + d.weight * of(d), 0) / total;
}

/** Rows scaled to sum 1: what the neutral curve does to each channel's slope. */
function normalised(crosstalk: Matrix3): Matrix3 {
  return crosstalk.map((row) => {
    const sum = row[0] + row[1] + row[2];
    return row.map((v) => v / sum);
  }) as unknown as Matrix3;
}

/** White-balanced camera RGB under daylight to linear sRGB, rows summing to 1: what a camera's own pictures went through. */
function developerOf({ observer, surfaces, lights }: TableInputs, sensitivity: readonly Spectrum[]): Matrix3 {
  const light = lights.find(({ name }) => name === "D50")!.power;
  const white = observer.map((o) => dot(o, light));
  const target = surfaces.map((s) => rgbOf(observer.map((o, k) => dot(o, light, s) / white[k]) as unknown as Rgb));
  const full = sensitivity.map((s) => dot(s, light));
  const seen = surfaces.map((r) => sensitivity.map((s, k) => dot(s, light, r) / full[k]));
  return leastSquaresRows(seen, target);
}

const dot = (a: Spectrum, b: Spectrum, c?: Spectrum): number =>
  a.reduce((sum, v, i) => sum + v * b[i] * (c ? c[i] : 1), 0);

/** XYZ over white's, per component, to linear sRGB: von Kries in XYZ keeps white at [1, 1, 1]. */
function rgbOf(relative: Rgb): Rgb {
  const [x, y, z] = [relative[0] * 0.9505, relative[1], relative[2] * 1.0891];
  return [
    3.2406 * x - 1.5372 * y - 0.4986 * z,
    -0.9689 * x + 1.8758 * y + 0.0415 * z,
    0.0557 * x - 0.204 * y + 1.057 * z,
  ];
}

/** Rows that take `from` to `to` with least squares, and [1, 1, 1] to itself. */
function leastSquaresRows(from: readonly (readonly number[])[], to: readonly (readonly number[])[]): Matrix3 {
  return [0, 1, 2].map((r) => {
    // Eliminate the own weight: row = 1 for it, minus the sum of the other two.
    const others = [0, 1, 2].filter((k) => k !== r);
    const columns = from.map((f) => others.map((k) => f[k] - f[r]));
    const aims = from.map((f, i) => to[i][r] - f[r]);
    const normal = others.map((_, a) => others.map((__, b) => columns.reduce((s, c) => s + c[a] * c[b], 0)));
    const w = solveLinear(
      normal,
      others.map((_, a) => columns.reduce((s, c, i) => s + c[a] * aims[i], 0)),
    );
    const row = [0, 0, 0];
    others.forEach((k, a) => (row[k] = w[a]));
    row[r] = 1 - w[0] - w[1];
    return row;
  }) as unknown as Matrix3;
}

/** Layer exposures to linear sRGB: least squares over reflectances, the median of the films entry by entry. */
function colourOf({
  observer,
  surfaces,
  responses,
}: Pick<TableInputs, "observer" | "surfaces" | "responses">): Matrix3 {
  const even = surfaces[0].map(() => 1);
  const white = observer.map((o) => dot(o, even));
  const target = surfaces.map((s) => rgbOf(observer.map((o, k) => dot(o, s) / white[k]) as unknown as Rgb));
  const each = responses.map((layers) => {
    const full = layers.map((l) => l.reduce((a, b) => a + b, 0));
    return leastSquaresRows(
      surfaces.map((s) => layers.map((l, k) => dot(l, s) / full[k])),
      target,
    );
  });
  const middle = (r: number, c: number): number => each.map((m) => m[r][c]).sort((a, b) => a - b)[each.length >> 1];
  return [0, 1, 2].map((r) => {
    const row = [0, 1, 2].map((c) => middle(r, c));
    row[r] += 1 - row[0] - row[1] - row[2];
    return row;
  }) as unknown as Matrix3;
}

/**
 * Densities above base after a camera or raw developer made a picture for display of the scan: white balance anywhere
 * between light and base, the camera's matrix, an S curve of some strength, and no density below a veil of light.
 */
function displayed(base: Rgb, curve: readonly Rgb[], developer: Matrix3, i: number): Rgb[] {
  const balance = part(i, Math.sqrt(5));
  const bright = 0.35 + 0.6 * part(i, Math.sqrt(7));
  // Half of the draws are nearly straight, as exports for further work are.
  const strength = Math.max(0, 1.5 * part(i, Math.sqrt(11)) - 0.6);
  const tone = (lin: number): number => {
    const e = Math.max(0, lin + VEIL) ** (1 / 2.2);
    const s = e < 1 ? (1 - strength) * e + strength * e * e * (3 - 2 * e) : e;
    return Math.max(VEIL, s ** 2.2);
  };
  const shown = (d: readonly number[], scale: number): Rgb => {
    const t = d.map((v, c) => 10 ** (balance * base[c] - v)) as unknown as Rgb;
    return developer.map((row) => tone(scale * (row[0] * t[0] + row[1] * t[1] + row[2] * t[2]))) as unknown as Rgb;
  };
  const unit = Math.max(...developer.map((row) => row.reduce((s, w, c) => s + w * 10 ** ((balance - 1) * base[c]), 0)));
  const scale = bright / unit;
  const from = shown(base, scale);
  return curve.map((d) => {
    const to = shown([d[0] + base[0], d[1] + base[1], d[2] + base[2]], scale);
    return [Math.log10(from[0] / to[0]), Math.log10(from[1] / to[1]), Math.log10(from[2] / to[2])];
  });
}

const VEIL = 0.0004;
