/** The kind of film over simulated rolls, their single frames, and real files where there are some. */
import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { sampleOf } from "../../../extension/engine/auto/balance.ts";
import { filmKindOf } from "../../../extension/engine/auto/film-kind.ts";
import { downsample } from "../../../extension/engine/detect/downsampled-scan.ts";
import type { Film } from "../../../extension/engine/types.ts";
import { decodeScan } from "../../../extension/scans/decode.ts";
import { seeRoll, type SceneBlocks } from "../../witness/block-rolls.ts";
import { CAMERA_A, CAMERA_B, PANEL, WARM_PANEL } from "../../witness/camera/cameras.ts";
import { STOCKS } from "../../witness/film/stocks.ts";

export interface Counted {
  readonly right: number;
  readonly of: number;
  readonly wrong: readonly string[];
}

const counted = (all: readonly { readonly name: string; readonly right: boolean }[]): Counted => ({
  right: all.filter((one) => one.right).length,
  of: all.length,
  wrong: all.filter((one) => !one.right).map((one) => one.name),
});

/** Rolls of the witness's films: each stock by two cameras, whole and frame by frame, with and without a blank. */
export function simulatedKinds(scenes: readonly SceneBlocks[], seed: number): { rolls: Counted; frames: Counted } {
  const frames = scenes.map((scene) => ({ scene, stops: 0, light: [0, 0] as const }));
  const rolls = [];
  const single = [];
  for (const stock of STOCKS)
    for (const [camera, light] of [
      [CAMERA_A, PANEL],
      [CAMERA_B, WARM_PANEL],
    ] as const) {
      const name = `${stock.name}, ${camera.model}, seed ${seed}`;
      const seen = seeRoll({ stock, camera, light, frames }, seed);
      const is = (some: readonly Float32Array[]): boolean => filmKindOf(some, { against: "blank" }).film === stock.film;
      rolls.push({ name, right: is(seen.frames) });
      single.push(...seen.frames.map((frame, i) => ({ name: `${name}, frame ${i}`, right: is([frame]) })));
    }
  return { rolls: counted(rolls), frames: counted(single) };
}

const REAL = join("..", "shared", "real");
const MIDDLE = { left: 0.2, top: 0.2, width: 0.6, height: 0.6, tilt: 0 };

/** Real files by the kind that they are known to be; undefined where there are none on this machine. */
export async function realKinds(): Promise<Counted | undefined> {
  const folder = join(REAL, "negatives");
  if (!existsSync(folder)) return undefined;
  const files: [string, Film][] = readdirSync(folder)
    .filter((f) => /\.(jpe?g|tiff?)$/i.test(f))
    .map((f) => [join(folder, f), "colour-negative"]);
  const slide = join(REAL, "film", "colour_slide_35mm_a7r4.jpg");
  if (existsSync(slide)) files.push([slide, "slide"]);
  const all = [];
  for (const [file, film] of files) {
    const { scan } = await decodeScan(file);
    const blocks = sampleOf(downsample(scan, { ratio: 1 }, 600), MIDDLE);
    all.push({ name: file, right: filmKindOf([blocks], { against: "display" }).film === film });
  }
  return counted(all);
}
