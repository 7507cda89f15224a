/** What the bench reads of a roll that was begun: greys, brightness, one subject at several exposures. */
import { likelyCameras } from "../../../extension/engine/calibrate/likely-cameras.ts";
import { publishedNumbers } from "../../../extension/engine/calibrate/published-film.ts";
import { STOP } from "../../../extension/engine/colour/density.ts";
import { deltaE2000 } from "../../../extension/engine/colour/difference.ts";
import { publishedFilm } from "../../../extension/engine/film/library/index.ts";
import { CAMERAS, DYES, LIGHTS, SHAPES } from "../../../extension/engine/film/library/spectra.ts";
import type { Lab } from "../../../extension/engine/colour/lab.ts";
import { evaluator } from "../../../extension/engine/film/reference-pixel.ts";
import type { FrameLook, Rgb } from "../../../extension/engine/types.ts";
import { type AutoRoll, beginRoll, type Begun, judgeBegun } from "../../external/auto-rolls.ts";
import { neutralDensities, seeRoll } from "../../witness/block-rolls.ts";
import { colourMatrixOf } from "../../witness/camera/colour-matrix.ts";
import { channelWeights } from "../../witness/camera/negative.ts";
import { integral } from "../../witness/spectra/spectrum.ts";

/** EV by which an 18 % grey in each frame, as it was exposed, comes out too light with the frame's own exposure. */
export function brightnessErrors(roll: AutoRoll, { values, look, gain }: Begun): number[] {
  const read = evaluator(look, "srgb");
  return roll.frames.map(({ stops }, i) => {
    const [d] = neutralDensities(roll, [stops * STOP]);
    const [r, g, b] = read(d.map((v, c) => gain[c] * 10 ** -v) as unknown as Rgb).exposure;
    return Math.log2((0.2126 * r + 0.7152 * g + 0.0722 * b) / 0.18) + values.exposure[i];
  });
}

/** The same roll with one of its scenes three times more, at −1, +1 and +3 stops of the first. */
export function bracketed(roll: AutoRoll): AutoRoll {
  const [first] = roll.frames;
  const more = [-1, 1, 3].map((stops) => ({ ...first, stops: first.stops + stops }));
  return { ...roll, frames: [...roll.frames, ...more] };
}

/** The roll's pictures as film without grain through a camera without noise: what remains is what the start did. */
export const noiseless = (roll: AutoRoll, seed: number): readonly Float32Array[] =>
  seeRoll({ ...roll, noise: 0 }, seed).frames;

/**
 * Mean ΔE00 between the positives of one subject, each against the first's.
 * @param frames noiseless, one for each that was begun, measured against a blank
 */
export function subjectDifference(
  { values, look }: Begun,
  frames: readonly Float32Array[],
  first: number,
  others: readonly number[],
): number[] {
  const positive = (i: number): Lab[] => {
    const tone = { ...look.tone, ...values.frameTones[i] };
    const own: FrameLook = { ...look, tone, exposure: values.exposure[i] };
    const read = evaluator(own, "srgb");
    const frame = frames[i];
    // Every third block is enough for a mean.
    return Array.from(
      { length: frame.length / 9 },
      (_, k) => read([frame[9 * k], frame[9 * k + 1], frame[9 * k + 2]]).lab,
    );
  };
  const reference = positive(first);
  return others.map((i) => {
    const lab = positive(i);
    return lab.reduce((s, v, k) => s + deltaE2000(v, reference[k]), 0) / lab.length;
  });
}

/** Chroma of the grey scale where the film is named from the library, whose light is not the roll's; undefined without. */
export function namedChroma(roll: AutoRoll, seed: number): readonly number[] | undefined {
  const film = publishedFilm(/^(.*) with dyes of /.exec(roll.stock.name)![1]);
  if (!film) return undefined;
  const lights = Object.fromEntries(Object.entries(LIGHTS).filter(([light]) => light !== roll.lightName));
  const blank = channelWeights(roll.camera, roll.light).map((w) => integral(w)) as unknown as Rgb;
  const base = seeRoll({ ...roll, frames: [] }, seed).base as Rgb;
  const { cameras, from } = likelyCameras(SHAPES, roll.camera.model, colourMatrixOf(roll.camera));
  const evidence = { cameras, blank, base };
  const numbers = publishedNumbers(film, evidence, { dyes: DYES, lights, cameras: CAMERAS });
  return judgeBegun(
    roll,
    beginRoll(roll, seed, { published: { ...numbers, from: from === "model" ? "model" : "mean" } }),
  ).chroma;
}
