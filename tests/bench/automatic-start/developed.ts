/**
 * Rolls as 16-bit TIFF that a raw developer wrote: white balance, the camera's matrix, a colour space, clipped to what it
 * holds. The scan's own door takes the profile's curve off again, so blocks are linear in the space's primaries.
 */
import { startValues } from "../../../extension/engine/auto/start-values.ts";
import { adaptation } from "../../../extension/engine/colour/adaptation.ts";
import { SPACES } from "../../../extension/engine/colour/spaces.ts";
import { evaluator } from "../../../extension/engine/film/reference-pixel.ts";
import { apply, diagonal, invert, multiply } from "../../../extension/engine/math/matrix.ts";
import type { FrameLook, Matrix3, OutputSpace, Rgb } from "../../../extension/engine/types.ts";
import { type AutoRoll, GREYS, lookOf, PLAIN, priorsWithout } from "../../external/auto-rolls.ts";
import { neutralDensities, seeRoll } from "../../witness/block-rolls.ts";
import { colourMatrixOf } from "../../witness/camera/colour-matrix.ts";

export interface Development {
  readonly space: OutputSpace;
  /** White balance in log density between the bare light (0) and the film's base (1). */
  readonly balance: number;
  /** Strength of an S curve in the encoded picture, 0 … 1. */
  readonly curve: number;
}

export interface JudgedDevelopment {
  /** C*ab of the grey scale. */
  readonly chroma: readonly number[];
  /** Mean C*ab of the pictures. */
  readonly colour: number;
  /** Part of the blocks with a channel below the space's gamut. */
  readonly outside: number;
}

/** Light that a base sends to a developed file's brightest channel. */
const BRIGHT = 0.8;

/** Camera signals over those of a neutral to the space's linear RGB. */
function developer(roll: AutoRoll, space: OutputSpace): Matrix3 {
  const toCamera = colourMatrixOf(roll.camera) as unknown as Matrix3;
  const white = SPACES.srgb.toXyz.map((row) => row[0] + row[1] + row[2]) as unknown as Rgb;
  const seen = apply(toCamera, white);
  const toXyz = multiply(invert(toCamera), diagonal(seen));
  const own = SPACES[space];
  const ownWhite = own.toXyz.map((row) => row[0] + row[1] + row[2]) as unknown as Rgb;
  return multiply(own.fromXyz, multiply(adaptation(white, ownWhite), toXyz));
}

/** Begins a roll of developed files, and reads its grey scale and colours. */
export function judgeDeveloped(
  roll: AutoRoll,
  seed: number,
  { space, balance, curve }: Development,
): JudgedDevelopment {
  const seen = seeRoll(roll, seed);
  const matrix = developer(roll, space);
  const neutral = seen.base.map((d) => 10 ** (balance * d)) as unknown as Rgb;
  const bare = (t: readonly number[]): Rgb => apply(matrix, t.map((v, c) => v * neutral[c]) as unknown as Rgb);
  const gain = BRIGHT / Math.max(...bare(seen.base.map((d) => 10 ** -d)));
  const { encode, decode } = SPACES[space];
  let outside = 0;
  const shown = (t: readonly number[]): Rgb => {
    const linear = bare(t).map((v) => gain * v);
    if (Math.min(...linear) < 0) outside++;
    return linear.map((v) => {
      const e = encode(Math.min(1, Math.max(0, v)));
      const bent = (1 - curve) * e + curve * e * e * (3 - 2 * e);
      return decode(Math.round(65_535 * bent) / 65_535);
    }) as unknown as Rgb;
  };
  const frames = seen.frames.map((f) => {
    const out = new Float32Array(f.length);
    for (let i = 0; i < f.length; i += 3) out.set(shown([...f.subarray(i, i + 3)]), i);
    return out;
  });
  const count = frames.reduce((s, f) => s + f.length / 3, 0);
  const beyond = outside / count;
  const request = { frames, source: "display", blank: false, film: "colour-negative", look: PLAIN } as const;
  const values = startValues(request, priorsWithout(roll));
  const look = lookOf(values);
  const read = evaluator(look, "srgb");
  const lab = neutralDensities(roll, GREYS).map((d) => read(shown(d.map((v) => 10 ** -v))).lab);
  return { chroma: lab.map(chromaOf), colour: meanChroma(frames, look, values.exposure), outside: beyond };
}

const chromaOf = (lab: readonly number[]): number => Math.hypot(lab[1], lab[2]);

/** Mean C*ab of pictures as they are begun. */
export function meanChroma(frames: readonly Float32Array[], look: FrameLook, exposure: readonly number[]): number {
  let [sum, n] = [0, 0];
  for (const [i, frame] of frames.entries()) {
    const read = evaluator({ ...look, exposure: exposure[i] }, "srgb");
    for (let k = 0; k < frame.length; k += 21, n++)
      sum += chromaOf(read([...frame.subarray(k, k + 3)] as unknown as Rgb).lab);
  }
  return sum / n;
}
