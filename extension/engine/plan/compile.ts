/** The plan: what a look compiles to for one frame. Plain numbers and typed arrays, so that it can cross to any executor. */
import { chainOf } from "../film/look-steps.ts";
import { SPACES } from "../colour/spaces.ts";
import { FILM_SAMPLES, filmAxis, PRINT_SAMPLES, printAxis } from "./table-axes.ts";
import { localGrid, type LocalGrid, type PicturePlace } from "../local/grid.ts";
import { toneCurve } from "../film/print-curve.ts";
import { printColour } from "../film/toning.ts";
import type { FrameLook, Matrix3, OutputSpace, Rgb } from "../types.ts";

/**
 * −log10 → matrix → film table → matrix → print table.
 *
 * With three channels: D = unmix·(−log10 T) + offset; H_c = film table c at D_c; output = print table at (colour·H).
 * With one (`mono`): D = −log10(Σ weights·T) + offset[0]; H = film table at D; output = print table at H, or each channel
 * of the output its own print table where the print is toned.
 * T, D and H are held to the limits in film/look-steps.ts; the tables' axes are in table-axes.ts.
 */
export interface Plan {
  /** Channels of the positive. The scan's transmittance always has three. */
  readonly channels: 1 | 3;
  /** Whether the film has one channel: a toned print of it has three. */
  readonly mono: boolean;
  readonly space: OutputSpace;
  readonly weights: Rgb;
  /** 3×3, row by row. */
  readonly unmix: Float64Array;
  readonly offset: Rgb;
  /** H over density above base: FILM_SAMPLES values a channel, one channel after the other. */
  readonly film: Float32Array;
  /** 3×3, row by row. */
  readonly colour: Float64Array;
  /**
   * Encoded output, 0 … 1, over H: PRINT_SAMPLES values, the same for every channel; or as many for each of three
   * channels, one after the other.
   */
  readonly print: Float32Array;
  /** Areas that are printed otherwise, laid out over the scan; absent where there are none. See run-local.ts. */
  readonly local?: LocalGrid;
}

/**
 * Compiles a look for an output space.
 * @param weights of the channels of a one-channel film, summing to 1; a third each where left out
 * @param at where the picture lies, for looks with local areas; without it they are left out
 * @throws RangeError where the look's curve or gamma cannot be inverted
 */
export function compilePlan(look: FrameLook, space: OutputSpace, weights?: Rgb, at?: PicturePlace): Plan {
  const chain = chainOf(look, space, weights);
  const film = new Float32Array(chain.channels * FILM_SAMPLES);
  chain.exposureOf.forEach((exposureOf, c) => {
    for (let i = 0; i < FILM_SAMPLES; i++) film[c * FILM_SAMPLES + i] = exposureOf(filmAxis(i));
  });
  const tone = toneCurve(look.tone);
  const { encode } = SPACES[space];
  const colour = printColour(look, space);
  const print = new Float32Array(PRINT_SAMPLES * (colour ? 3 : 1));
  for (let k = 0; k < PRINT_SAMPLES; k++) {
    const y = tone(printAxis(k));
    if (colour) for (const c of [0, 1, 2] as const) print[c * PRINT_SAMPLES + k] = encode(colour(c, y));
    else print[k] = encode(y);
  }
  const local = at && localGrid(look.local, at);
  return {
    channels: colour ? 3 : chain.channels,
    mono: chain.channels === 1,
    space,
    weights: chain.weights,
    unmix: flat(chain.unmix),
    offset: chain.offset,
    film,
    colour: flat(chain.colour),
    print,
    ...(local ? { local } : {}),
  };
}

function flat(m: Matrix3): Float64Array {
  return Float64Array.from(m.flat());
}
