/** From a chart's patches to a stock's two matrices: least squares in ΔE00, judged on patches that the fit did not see. */
import { chainOf } from "../film/look-steps.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { labOf, type Lab } from "../colour/lab.ts";
import { SPACES, toD50 } from "../colour/spaces.ts";
import { STOP } from "../colour/density.ts";
import { apply } from "../math/matrix.ts";
import type { FrameLook, Matrix3, Rgb } from "../types.ts";
import { leastSquares } from "../math/least-squares.ts";

/** One patch as the scan shows it and as it is. */
export interface ChartPatch {
  readonly name: string;
  readonly transmittance: Rgb;
  /** L*a*b* under D50. */
  readonly lab: Lab;
}

export interface ChartFit {
  readonly unmix: Matrix3;
  readonly colour: Matrix3;
  /** What the chart's own light and exposure needed beside the matrices; they belong to the frame, not to the stock. */
  readonly filtration: { readonly cyan: number; readonly yellow: number };
  readonly exposure: number;
  /** ΔE00 of every patch, with all of them fitted. */
  readonly errors: readonly number[];
  /** ΔE00 of every patch, each while it was not among those fitted. */
  readonly heldOut: readonly number[];
}

/** Why a chart's fit is refused. */
export class ChartError extends Error {
  readonly code = "chart";
}

/** Patches are left out in so many rounds, each patch in one of them. */
const FOLDS = 8;
/** How firmly the matrices are held to what is known already, ΔE00 for a change of 1 in a number: noise must not move them. */
const HOLD = 1.2;
/** A fit worse than this is a wrong chart, a wrong film or a bad scan. */
const WORST_MEAN = 3;
const WORST_HELD_OUT = 4.5;

/** Six numbers for rows that sum to 1, nine for unmix, then filtration red and blue, and exposure. */
type Unknowns = readonly number[];

const colourOf = ([a, b, c, d, e, f]: Unknowns): Matrix3 => [
  [1 - a - b, a, b],
  [c, 1 - c - d, d],
  [e, f, 1 - e - f],
];
const unmixOf = (x: Unknowns): Matrix3 => [
  [x[6], x[7], x[8]],
  [x[9], x[10], x[11]],
  [x[12], x[13], x[14]],
];

/**
 * Fits unmix, colour, and the chart's own balance and exposure. The film's base and curve stay as they are. A slide has
 * no unmix: only colour is fitted.
 * @throws ChartError where there are too few patches, or the fit is too bad to be used
 */
export function fitChart(patches: readonly ChartPatch[], look: FrameLook): ChartFit {
  if (patches.length < 18) throw new ChartError(`${patches.length} patches are too few for two matrices: 18 at least.`);
  const start = startOf(look);
  const all = solve(patches, look, start);
  const errors = patches.map((p) => deltaE2000(positive(p, look, all), p.lab));
  const heldOut = errors.map(() => 0);
  for (let fold = 0; fold < FOLDS; fold++) {
    const kept = patches.filter((_, i) => i % FOLDS !== fold);
    const x = solve(kept, look, all);
    patches.forEach((p, i) => {
      if (i % FOLDS === fold) heldOut[i] = deltaE2000(positive(p, look, x), p.lab);
    });
  }
  const fit = {
    unmix: look.film === "slide" ? look.unmix : unmixOf(all),
    colour: colourOf(all),
    filtration: { cyan: 100 * all[15], yellow: 100 * all[16] },
    exposure: all[17],
    errors,
    heldOut,
  };
  refuseBad(fit, patches);
  return fit;
}

export const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

/** The value that nine tenths of the patches stay below. */
export const ninetieth = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.ceil(0.9 * values.length) - 1)];

function refuseBad(fit: ChartFit, patches: readonly ChartPatch[]): void {
  const far = fit.errors
    .map((e, i) => ({ e, name: patches[i].name }))
    .toSorted((a, b) => b.e - a.e)
    .slice(0, 3)
    .map(({ e, name }) => `${name} ${e.toFixed(1)}`)
    .join(", ");
  if (mean(fit.errors) > WORST_MEAN)
    throw new ChartError(
      `The chart does not fit: mean ΔE00 ${mean(fit.errors).toFixed(1)}, where ${WORST_MEAN} is the limit (${far}). ` +
        "Check that the patches were found where they are, that nothing is clipped, and that film and chart are the ones named.",
    );
  if (mean(fit.heldOut) > WORST_HELD_OUT)
    throw new ChartError(
      `Patches that were left out do not fit: mean ΔE00 ${mean(fit.heldOut).toFixed(1)}, where ${WORST_HELD_OUT} is the ` +
        `limit, against ${mean(fit.errors).toFixed(1)} for those fitted. The scan is too noisy or unevenly lit.`,
    );
}

function startOf(look: FrameLook): number[] {
  const c = look.colour;
  const u = look.unmix.flat();
  return [c[0][1], c[0][2], c[1][0], c[1][2], c[2][0], c[2][1], ...u, 0, 0, 0];
}

function solve(patches: readonly ChartPatch[], look: FrameLook, start: Unknowns): number[] {
  const known = startOf(look);
  const slide = look.film === "slide";
  const free = known.map((_, i) => !(slide && i >= 6 && i < 15));
  const whole = (x: Unknowns): number[] => {
    let k = 0;
    return known.map((v, i) => (free[i] ? x[k++] : v));
  };
  const held = (x: readonly number[]): number[] =>
    x.flatMap((v, i) => (free[i] && i < 15 ? [(HOLD * (v - known[i])) / Math.sqrt(patches.length / 24)] : []));
  // L*a*b* first, loosened for strong colours, from which ΔE00 itself is near enough to be followed.
  const rough = leastSquares(
    (x) => {
      const all = whole(x);
      return [...patches.flatMap((p) => loosened(positive(p, look, all), p.lab)), ...held(all)];
    },
    start.filter((_, i) => free[i]),
    40,
  );
  const fine = leastSquares(
    (x) => {
      const all = whole(x);
      return [...patches.map((p) => deltaE2000(positive(p, look, all), p.lab)), ...held(all)];
    },
    rough,
    20,
  );
  return whole(fine);
}

function loosened(got: Lab, want: Lab): number[] {
  const loose = 1 + 0.045 * Math.hypot(want[1], want[2]);
  return [got[0] - want[0], (got[1] - want[1]) / loose, (got[2] - want[2]) / loose];
}

const TO_XYZ = toD50(SPACES.srgb);

/** What film and matrices make of a patch, without a print curve: the scene itself. */
function positive({ transmittance }: ChartPatch, look: FrameLook, x: Unknowns): Lab {
  const slide = look.film === "slide";
  const seen = transmittance.map(
    (t, c) => -Math.log10(Math.max(t, 1e-6)) - (slide ? 0 : look.base[c]),
  ) as unknown as Rgb;
  const mixed = slide ? seen : apply(unmixOf(x), seen);
  const filters = [x[15], 0, x[16]];
  const gain = 10 ** (STOP * x[17]);
  const back = inverseOf(look);
  const film = mixed.map((d, c) => gain * back[c](d + filters[c])) as unknown as Rgb;
  return labOf(apply(TO_XYZ, apply(colourOf(x), film)).map((v) => Math.max(v, 1e-6)) as unknown as Rgb);
}

const inverses = new WeakMap<FrameLook, readonly ((density: number) => number)[]>();

/** The film's curve backwards, as the plan has it, at exposure 0. */
function inverseOf(look: FrameLook): readonly ((density: number) => number)[] {
  let back = inverses.get(look);
  if (!back) inverses.set(look, (back = chainOf({ ...look, exposure: 0 }, "srgb").exposureOf));
  return back;
}
