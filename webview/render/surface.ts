/** What shows pictures: a WebGL2 surface, or one that runs plans on the CPU. */
import { transmittanceOfCode } from "../../extension/engine/plan/log-code.ts";
import type { Plan } from "../../extension/engine/plan/compile.ts";
import type { Affine } from "../state/affine.ts";
import type { Warn } from "./clipping.ts";
import type { HolderMask } from "./holder.ts";
import type { Proof } from "./proof.ts";
import type { Source } from "./source.ts";
import { clamp } from "../../extension/engine/math/clamp.ts";

/** One picture on the canvas. All lengths are device pixels of the canvas, y downwards. */
export interface Pane {
  /** Part of the canvas that the pane may paint. */
  readonly box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  readonly plan: Plan;
  /** From the scan (pixels of the whole scan) to the canvas. */
  readonly toCanvas: Affine;
  /** From the canvas to the picture: 0 … 1 in both directions inside; outside nothing is painted. */
  readonly toPicture: Affine;
  readonly warn: Warn;
  /** Shows the print as it looks on paper; the plan is one for PROOF_SPACE then. */
  readonly proof?: Proof;
  /** Where the whole scan is shown: the holder outside of the crop, which is black. */
  readonly holder?: HolderMask;
}

export interface Scene {
  readonly width: number;
  readonly height: number;
  /** Device pixels a CSS pixel: hatching is drawn as broad on every screen. */
  readonly ratio?: number;
  /** Encoded grey around the pictures, 0 … 1. */
  readonly surround: number;
  /** Coarse first: a layer covers those before it. */
  readonly layers: readonly Source[];
  readonly panes: readonly Pane[];
}

export interface Surface {
  readonly kind: "gpu" | "cpu";
  /** Space that plans are to be compiled for. */
  readonly space: "srgb" | "p3";
  /** Shows a scene; resolves when it is on the canvas, or has been overtaken by a newer one. */
  draw(scene: Scene): Promise<void>;
  /** Does ahead what takes time when one of these scenes is drawn; the last few stay ready. */
  prepare?(scenes: readonly Scene[]): void;
  dispose(): void;
}

/** The smallest level whose pixels are not larger than the canvas's. */
export function levelFor(source: Source, growth: number): number {
  const [first] = source.levels;
  const pixels = (source.part.width * source.scanWidth * growth) / first.width;
  let level = 0;
  while (level + 1 < source.levels.length && source.levels[level + 1].width / first.width >= pixels * 0.999) level++;
  return level;
}

/** Pixels whose scan was at the sensor's limit, one byte each; all 0 where nothing is known of the light. */
export function saturatedPixels(source: Source, level: number): Uint8Array {
  const { width, height, codes } = source.levels[level];
  const lost = new Uint8Array(width * height);
  const signal = signalOf(source);
  if (!signal) return lost;
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i++) {
      const s = signal((x + 0.5) / width, (y + 0.5) / height, codes.subarray(3 * i, 3 * i + 3));
      if (Math.max(s[0], s[1], s[2]) >= LIMIT) lost[i] = 1;
    }
  return lost;
}

/** Demosaicing and averaging mix neighbours, so a saturated area ends a little below 1. */
const LIMIT = 0.985;

/** The camera's signal (1 is saturation) of codes at a place in the source's part; undefined without a light. */
export function signalOf(
  source: Source,
): ((x: number, y: number, codes: ArrayLike<number>) => [number, number, number]) | undefined {
  const { light, part } = source;
  if (!light) return undefined;
  const { columns, rows, channels, level, flare, ratio } = light;
  const near = (v: number, count: number): number => clamp(v, 0, count - 1);
  return (x, y, codes) => {
    const gx = near((part.left + x * part.width) * columns - 0.5, columns);
    const gy = near((part.top + y * part.height) * rows - 0.5, rows);
    const [x0, y0] = [Math.floor(gx), Math.floor(gy)];
    const [x1, y1] = [near(x0 + 1, columns), near(y0 + 1, rows)];
    const [u, v] = [gx - x0, gy - y0];
    const one = (c: number): number => {
      const at = (q: number, r: number): number => level[(r * columns + q) * channels + (channels === 3 ? c : 0)];
      const bare = (at(x0, y0) * (1 - u) + at(x1, y0) * u) * (1 - v) + (at(x0, y1) * (1 - u) + at(x1, y1) * u) * v;
      return (transmittanceOfCode(codes[c]) * (1 - flare[c]) + flare[c]) * bare * ratio;
    };
    return [one(0), one(1), one(2)];
  };
}
