import { sampleOf } from "../../engine/balance.ts";
import type { FoundBase } from "../../engine/find/base.ts";
import type { FoundFrame } from "../../engine/find/frame.ts";
import { findOnScan } from "../../engine/find/index.ts";
import { type DensityMap, densityMapOf } from "../../engine/find/overlap.ts";
import type { Area, Rgb } from "../../engine/types.ts";
import { decodeScan } from "../../scans/decode.ts";
import { type FrameLight, lightSetup } from "../develop.ts";
import { unknownExposure } from "../warnings.ts";

export interface FindFrame {
  readonly path: string;
  readonly light: FrameLight;
  /** Longer over shorter side of the format. */
  readonly ratio?: number;
  /** What is known from the roll's other scans. */
  readonly known?: { readonly base?: Rgb; readonly flare?: Rgb };
}

export interface FoundPicture {
  readonly flare?: Rgb;
  readonly base?: FoundBase;
  readonly frame?: FoundFrame;
  /** Transmittance of the picture's squares (balance.ts), of the whole scan where no picture was found. */
  readonly sample: Float32Array;
  readonly map: DensityMap;
  readonly warnings: readonly string[];
}

const LEAST_WIDTH = 1200;
const WHOLE: Area = { left: 0, top: 0, width: 1, height: 1, tilt: 0 };

/** Finds flare, base and the picture on one scan, and keeps of it what balancing the roll needs. */
export async function findFrame({ path, light, ratio, known }: FindFrame): Promise<FoundPicture> {
  const half = await decodeScan(path, { half: true });
  // Edges of a small scan need every pixel.
  const { scan, info, warnings } = half.scan.width < LEAST_WIDTH ? await decodeScan(path) : half;
  const setup = lightSetup(light, info);
  const { overview, flare, base, frame } = findOnScan(scan, setup, { ratio, ...known });
  return {
    ...(flare ? { flare } : {}),
    ...(base ? { base } : {}),
    ...(frame ? { frame } : {}),
    sample: sampleOf(overview, frame?.area ?? WHOLE),
    map: densityMapOf(overview),
    warnings: [...warnings.map((w) => w.message), ...unknownExposure(setup.unknown)],
  };
}
