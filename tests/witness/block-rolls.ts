/**
 * Rolls as block means, without files: scenes exposed on a published film, seen by a camera under a light, with grain and
 * noise that blocks keep. What a scan's block means are to the automatic start, with the truth beside them.
 */
import { atH } from "./film/curve.ts";
import { developed, emulsionOf } from "./film/emulsion.ts";
import type { Camera, Light } from "./camera/cameras.ts";
import { cameraDensity, densityTable, lookUp } from "./camera/negative.ts";
import { random, type Random } from "./random.ts";
import { nodeMix } from "./spectra/upsample.ts";
import type { Triple } from "./spectra/colour.ts";
import type { Stock } from "./film/stocks.ts";

/** A scene's block means: linear Rec.709 under daylight, 0.18 mid-grey as metered. */
export type SceneBlocks = Float32Array;

export interface BlockFrame {
  readonly scene: SceneBlocks;
  /** Stops more or less than metered. */
  readonly stops: number;
  /** log10 exposure that the light's colour adds to red and blue. */
  readonly light: readonly [red: number, blue: number];
}

export interface BlockRoll {
  readonly stock: Stock;
  readonly camera: Camera;
  readonly light: Light;
  readonly frames: readonly BlockFrame[];
  /** Standard deviation of a block's density. */
  readonly noise?: number;
  /** Part of the bare light that veils every scan. */
  readonly flare?: number;
}

export interface SeenRoll {
  /** Transmittance of each frame's blocks. */
  readonly frames: readonly Float32Array[];
  readonly base: Triple;
}

export function seeRoll(roll: BlockRoll, seed: number): SeenRoll {
  const table = densityTable(roll.camera, roll.light, roll.stock);
  const frames = roll.frames.map((frame, i) => seeFrame(roll, frame, table, random(seed, `frame ${i}`)));
  return { frames, base: cameraDensity(roll.camera, roll.light, roll.stock, [0, 0, 0]) };
}

function seeFrame(
  { stock, noise = 0.006, flare = 0 }: BlockRoll,
  { scene, stops, light }: BlockFrame,
  table: ReturnType<typeof densityTable>,
  r: Random,
): Float32Array {
  const emulsion = emulsionOf(stock);
  const tables = emulsion.exposures;
  const layers = stock.layers.length;
  const gain = [2 ** stops * 10 ** light[0], 2 ** stops, 2 ** stops * 10 ** light[1]];
  const out = new Float32Array(scene.length);
  const amounts = new Float32Array(layers);
  for (let i = 0; i < scene.length; i += 3) {
    const mix = nodeMix([scene[i], scene[i + 1], scene[i + 2]]);
    const e = Array.from({ length: layers }, () => 0);
    if (mix)
      for (const [node, weight] of mix.nodes)
        for (let k = 0; k < layers; k++)
          e[k] += weight * gain[layers === 1 ? 1 : k] * tables[mix.face][node * layers + k];
    amounts.set(developed(emulsion, e));
    lookUp(table, amounts, 0, out, i);
    for (let c = 0; c < 3; c++) out[i + c] = 10 ** -(out[i + c] + noise * r.normal() * (c === 2 ? 1.5 : 1)) + flare;
  }
  return out;
}

/** Camera densities of neutrals at log10 exposures above mid-grey, base included. */
export function neutralDensities({ stock, camera, light }: BlockRoll, logH: readonly number[]): Triple[] {
  const { amounts } = emulsionOf(stock);
  return logH.map((h) =>
    cameraDensity(
      camera,
      light,
      stock,
      amounts.map((t) => atH(t, h)),
    ),
  );
}
