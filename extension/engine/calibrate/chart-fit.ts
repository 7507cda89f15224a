/** From a chart's patches to a stock's two matrices: least squares in ΔE00, judged on patches that the fit did not see. */
import { chainOf } from "../film/look-steps.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { labOf, type Lab } from "../colour/lab.ts";
import { SPACES, toD50 } from "../colour/spaces.ts";
import { MID_GREY, STOP } from "../colour/density.ts";
import { apply } from "../math/matrix.ts";
import { MID_GREY_DENSITY, MID_GREY_LOG_H, tableCurves } from "../film/characteristic-curve.ts";
import { monotoneCubic } from "../math/monotone-cubic.ts";
import type { CurveTable, FrameLook, Matrix3, Rgb } from "../types.ts";
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
  /** Filtration, CC units, that belongs to the matrices; green has none. */
  readonly filtration: { readonly cyan: number; readonly yellow: number };
  /** What the chart's own exposure needed, stops; it belongs to the frame, not to the stock. */
  readonly exposure: number;
  /** The film's curve with the bend that the patches show; absent on slides. */
  readonly curve?: CurveTable;
  /** ΔE00 of every patch, with all of them fitted. */
  readonly errors: readonly number[];
  /** ΔE00 of every patch, each while it was not among those fitted. */
  readonly heldOut: readonly number[];
}

/** Why a chart's fit is refused. */
export class ChartError extends Error {
  readonly code = "chart";
}

/** Fewer patches do not fix what is fitted. */
export const MIN_PATCHES = 18;
/** Patches are left out in so many rounds, each patch in one of them. */
const FOLDS = 8;
/** How firmly the matrices are held to what is known already, ΔE00 for a change of 1 in a number: noise must not move them. */
const UNMIX_PENALTY = 1.2;
/** How firmly the film's curve is held to what is known of it, ΔE00 for a bend of 1 (`bent`). */
const BEND_PENALTY = 8;
/**
 * A fit worse than this shows no chart: patches in the wrong order are off by 15 and more. What lies between a good fit
 * and this is used and reported; a person sees in the positive whether it serves.
 */
const MAX_MEAN = 8;
/** Mean ΔE00 up to which a fit is called good: twice what charts differ from one another. */
export const GOOD_MEAN = 3;

/**
 * Six numbers for rows that sum to 1, nine for unmix, then filtration red and blue, exposure, and the bends of the red,
 * green and blue curve.
 */
type Unknowns = readonly number[];
const UNMIX = 6;
const BENDS = 18;

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
  if (patches.length < MIN_PATCHES)
    throw new ChartError(`${patches.length} patches are too few for two matrices: ${MIN_PATCHES} at least.`);
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
    ...(look.film === "slide" ? {} : { curve: bentCurve(look, all) }),
    errors,
    heldOut,
  };
  checkFit(fit, patches);
  return fit;
}

export const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

/** The value that nine tenths of the patches stay below. */
export const ninetieth = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.ceil(0.9 * values.length) - 1)];

function checkFit(fit: ChartFit, patches: readonly ChartPatch[]): void {
  if (mean(fit.errors) <= MAX_MEAN) return;
  throw new ChartError(
    `The chart does not fit: mean ΔE00 ${mean(fit.errors).toFixed(1)}, where ${MAX_MEAN} is the limit ` +
      `(${farthest(fit.errors, patches).join(", ")}). ` +
      "Check that the patches were found where they are, and that film and chart are the ones named.",
  );
}

/** The three patches that are farthest off, with their ΔE00. */
export const farthest = (errors: readonly number[], patches: readonly Pick<ChartPatch, "name">[]): string[] =>
  errors
    .map((e, i) => ({ e, name: patches[i].name }))
    .toSorted((a, b) => b.e - a.e)
    .slice(0, 3)
    .map(({ e, name }) => `${name} ${e.toFixed(1)}`);

function startOf(look: FrameLook): number[] {
  const c = look.colour;
  const u = look.unmix.flat();
  return [c[0][1], c[0][2], c[1][0], c[1][2], c[2][0], c[2][1], ...u, 0, 0, 0, 0, 0, 0];
}

function solve(patches: readonly ChartPatch[], look: FrameLook, start: Unknowns): number[] {
  const known = startOf(look);
  const slide = look.film === "slide";
  // A slide has no unmix and no curve; a film's curve bends only where the patches span enough of it to show that.
  const free = known.map((_, i) => !(slide && ((i >= UNMIX && i < 15) || i >= BENDS)));
  const whole = (x: Unknowns): number[] => {
    let k = 0;
    return known.map((v, i) => (free[i] ? x[k++] : v));
  };
  const held = (x: readonly number[]): number[] =>
    x.flatMap((v, i) => {
      if (!free[i] || (i >= 15 && i < BENDS)) return [];
      return [((i < 15 ? UNMIX_PENALTY : BEND_PENALTY) * (v - known[i])) / Math.sqrt(patches.length / 24)];
    });
  // L*a*b* first, loosened for strong colours, from which ΔE00 itself is near enough to be followed.
  const rough = leastSquares(
    (x) => {
      const all = whole(x);
      return [...patches.flatMap((p) => initialFit(positive(p, look, all), p.lab)), ...held(all)];
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

function initialFit(got: Lab, want: Lab): number[] {
  const initial = 1 + 0.045 * Math.hypot(want[1], want[2]);
  return [got[0] - want[0], (got[1] - want[1]) / initial, (got[2] - want[2]) / initial];
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
  const film = mixed.map((d, c) => gain * bent(back[c](d + filters[c]), x[BENDS + c])) as unknown as Rgb;
  return labOf(apply(TO_XYZ, apply(colourOf(x), film)).map((v) => Math.max(v, 1e-6)) as unknown as Rgb);
}

/** Where a bend ends and goes on straight, log10 exposure from mid-grey. */
const BEND_END = 1.2;
/** A bend stronger than this would turn the curve back within its ends. */
const MAX_BEND = 0.35;

/** log10 exposure h above mid-grey becomes h + bend · h²; mid-grey and the slope there stay. */
function bentLogH(h: number, bend: number): number {
  const b = Math.min(MAX_BEND, Math.max(-MAX_BEND, bend));
  const end = Math.min(BEND_END, Math.max(-BEND_END, h));
  return end + b * end * end + (h - end) * (1 + 2 * b * end);
}

const bent = (exposure: number, bend: number): number =>
  bend === 0 ? exposure : MID_GREY * 10 ** bentLogH(Math.log10(exposure / MID_GREY), bend);

/** Exposures of the table that is written, where the look has a gamma alone. */
const STRAIGHT: readonly number[] = [-MID_GREY_LOG_H, ...Array.from({ length: 18 }, (_, i) => -1.2 + 0.2 * i)];

/** The look's own curve on the axis that the bends give it: density stays, the exposure that it stands for moves. */
function bentCurve(look: FrameLook, x: Unknowns): CurveTable {
  const { logH, red, green, blue } =
    look.curve ??
    ({
      logH: STRAIGHT,
      ...Object.fromEntries(
        (["red", "green", "blue"] as const).map((name, c) => [
          name,
          STRAIGHT.map((h) => look.gamma[c] * (h + MID_GREY_LOG_H)),
        ]),
      ),
    } as CurveTable);
  const [, middle] = tableCurves({ logH, red, green, blue });
  const mid = look.curve ? (look.curve.mid ?? middle.inverse(middle.dmin + MID_GREY_DENSITY)) : 0;
  const moved = [red, green, blue].map((density, c) => {
    const at = strictly(logH.map((h) => bentLogH(h - mid, x[BENDS + c])));
    const cubic = monotoneCubic(at, density);
    return (h: number): number =>
      h <= at[0] ? density[0] : h >= at[at.length - 1] ? density[density.length - 1] : cubic.at(h);
  });
  const axis = logH.map((h) => short(h - mid));
  const channel = (c: number): number[] => {
    let max = -Infinity;
    return axis.map((h) => (max = Math.max(max, short(moved[c](h)))));
  };
  return { logH: axis, red: channel(0), green: channel(1), blue: channel(2), mid: 0 };
}

const short = (v: number): number => Number(v.toFixed(4)) + 0;
const strictly = (values: readonly number[]): number[] => {
  let last = -Infinity;
  return values.map((v) => (last = Math.max(v, last + 1e-6)));
};

const inverses = new WeakMap<FrameLook, readonly ((density: number) => number)[]>();

/** The film's curve backwards, as the plan has it, at exposure 0. */
function inverseOf(look: FrameLook): readonly ((density: number) => number)[] {
  let back = inverses.get(look);
  if (!back) inverses.set(look, (back = chainOf({ ...look, exposure: 0 }, "srgb").exposureOf));
  return back;
}
