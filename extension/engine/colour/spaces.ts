/**
 * The output colour spaces, from their primaries and white points. Sources: IEC 61966-2-1:1999 (sRGB);
 * SMPTE EG 432-1 primaries with the sRGB white and curve (Display P3); Adobe RGB (1998) colour image encoding;
 * ISO 22028-2 (ROMM RGB).
 */
import { apply, diagonal, invert, multiply } from "../math/matrix.ts";
import type { Matrix3, OutputSpace, Rgb } from "../types.ts";
import { adaptation, xyzOf } from "./adaptation.ts";

type Chromaticity = readonly [x: number, y: number];

/** An additive RGB space; linear and encoded values run from 0 to 1. */
export interface RgbSpace {
  readonly white: Chromaticity;
  readonly red: Chromaticity;
  readonly green: Chromaticity;
  readonly blue: Chromaticity;
  /** Linear RGB to XYZ under the space's own white (Y of white = 1), and back. */
  readonly toXyz: Matrix3;
  readonly fromXyz: Matrix3;
  /** Linear to encoded; values outside 0 … 1 keep their sign and go on along the same law. */
  readonly encode: (linear: number) => number;
  /** Encoded to linear. */
  readonly decode: (encoded: number) => number;
}

const D65: Chromaticity = [0.3127, 0.329];
const D50: Chromaticity = [0.3457, 0.3585];

/** XYZ of the D50 white that CIELAB and the profile connection space use here (Y = 1). */
export const WHITE_D50: Rgb = xyzOf(D50[0], D50[1]);

/** Power law of a gamma with a straight part below `knee`, odd about 0. */
function transfer(gamma: number, gain: number, knee: number, slope: number) {
  const offset = gain - 1;
  const knot = knee * slope;
  return {
    encode(v: number): number {
      const a = Math.abs(v);
      return Math.sign(v) * (a <= knee ? slope * a : gain * a ** (1 / gamma) - offset);
    },
    decode(v: number): number {
      const a = Math.abs(v);
      return Math.sign(v) * (a <= knot ? a / slope : ((a + offset) / gain) ** gamma);
    },
  };
}

const srgbTransfer = transfer(2.4, 1.055, 0.0031308, 12.92);

function space(
  white: Chromaticity,
  [red, green, blue]: readonly [Chromaticity, Chromaticity, Chromaticity],
  law: Pick<RgbSpace, "encode" | "decode">,
): RgbSpace {
  const [r, g, b] = [xyzOf(...red), xyzOf(...green), xyzOf(...blue)];
  const primaries: Matrix3 = [
    [r[0], g[0], b[0]],
    [r[1], g[1], b[1]],
    [r[2], g[2], b[2]],
  ];
  const toXyz = multiply(primaries, diagonal(apply(invert(primaries), xyzOf(...white))));
  return { white, red, green, blue, toXyz, fromXyz: invert(toXyz), ...law };
}

/** The four spaces that pictures are written in. */
export const SPACES: Readonly<Record<OutputSpace, RgbSpace>> = {
  srgb: space(
    D65,
    [
      [0.64, 0.33],
      [0.3, 0.6],
      [0.15, 0.06],
    ],
    srgbTransfer,
  ),
  p3: space(
    D65,
    [
      [0.68, 0.32],
      [0.265, 0.69],
      [0.15, 0.06],
    ],
    srgbTransfer,
  ),
  adobe: space(
    D65,
    [
      [0.64, 0.33],
      [0.21, 0.71],
      [0.15, 0.06],
    ],
    transfer(563 / 256, 1, 0, 1),
  ),
  romm: space(
    D50,
    [
      [0.7347, 0.2653],
      [0.1596, 0.8404],
      [0.0366, 0.0001],
    ],
    transfer(1.8, 1, 1 / 512, 16),
  ),
};

/** Linear RGB of one space to linear RGB of another, adapted so that white stays white and greys stay equal. */
export function conversion(from: RgbSpace, to: RgbSpace): Matrix3 {
  if (from === to)
    return [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ];
  return multiply(to.fromXyz, multiply(adaptation(xyzOf(...from.white), xyzOf(...to.white)), from.toXyz));
}

/** Linear RGB of a space to XYZ adapted to D50. */
export function toD50(from: RgbSpace): Matrix3 {
  return multiply(adaptation(xyzOf(...from.white), WHITE_D50), from.toXyz);
}
