/** Scenes that rolls of the automatic start's bench show: real photographs where there are some, else drawn ones. */
import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import sharp from "sharp";
import { blocksOf, drawnScenes } from "../../external/auto-rolls.ts";
import type { SceneBlocks } from "../../witness/block-rolls.ts";

/** Photographs of real scenes that are no part of the project; the bench works without them. */
export const PHOTOGRAPHS = join("..", "shared", "real", "scenes");

export interface SceneSource {
  readonly name: string;
  /** Seven or more scenes of a roll, by its seed. */
  readonly scenes: (seed: number) => readonly SceneBlocks[];
}

/** Every source of scenes on this machine. Rolls take them in turns. */
export async function sceneSources(): Promise<SceneSource[]> {
  const drawn: SceneSource[] = [
    { name: "drawn subjects", scenes: (seed) => drawnScenes(100 * seed, "subjects") },
    { name: "drawn families", scenes: (seed) => drawnScenes(100 * seed, "families") },
  ];
  if (!existsSync(PHOTOGRAPHS)) return drawn;
  const files = readdirSync(PHOTOGRAPHS).filter((f) => /\.jpe?g$/i.test(f));
  const photographs = await Promise.all(files.sort().map((f) => readPhotograph(join(PHOTOGRAPHS, f))));
  return [{ name: "photographs", scenes: () => photographs }, ...drawn];
}

const linear = Float32Array.from({ length: 256 }, (_, v) => {
  const e = v / 255;
  return e <= 0.04045 ? e / 12.92 : ((e + 0.055) / 1.055) ** 2.4;
});

/** A photograph's block means, linear Rec.709: its rendering is taken for the scene, mid-grey at 0.18. */
async function readPhotograph(file: string): Promise<SceneBlocks> {
  const [width, height] = [480, 320];
  const { data, info } = await sharp(file)
    .resize(width, height, { fit: "cover" })
    .toColourspace("srgb")
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  if (info.channels !== 3) throw new Error(`${file} has ${info.channels} channels; the bench wants colour pictures.`);
  // Black cloth in the deepest shade returns a little: a scene has no 0.
  return blocksOf({ width, height, data: Float32Array.from(data, (v) => Math.max(1e-3, linear[v])) });
}
