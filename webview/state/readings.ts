/** The densitometer: what a place of the scan reads. */
import { STOP } from "../../extension/engine/colour/density.ts";
import { evaluator, type Reading } from "../../extension/engine/film/reference-pixel.ts";
import { codeTable } from "../../extension/engine/plan/log-code.ts";
import type { FrameLook, OutputSpace, Rgb } from "../../extension/engine/types.ts";
import type { Framing } from "../../extension/engine/image/geometry.ts";
import { adjustmentsIn } from "../../extension/engine/local/grid.ts";
import { placeIn, type Source } from "../render/source.ts";
import { signalOf } from "../render/surface.ts";
import type { Point } from "./affine.ts";

export interface PlaceReading {
  /** The camera's signal, 1 at saturation; absent where the light is not known. */
  readonly camera?: Rgb;
  readonly transmittance: Rgb;
  /** Above base. */
  readonly density: Rgb;
  /** Exposure of the film in stops from mid-grey, exposure of the print included. */
  readonly stops: Rgb;
  readonly lab: Reading["lab"];
  /** Output as 0 … 255. */
  readonly output: Rgb;
}

const three = (f: (c: number) => number): Rgb => [f(0), f(1), f(2)];

/**
 * Mean transmittance of the proxy's pixels within `radius` of a place (fractions of the scan), and the mean camera signal;
 * undefined outside of the source.
 */
export function lightAt(source: Source, [x, y]: Point, radius = 1): { transmittance: Rgb; camera?: Rgb } | undefined {
  const { part } = source;
  const [{ width, height, codes }] = source.levels;
  const u = (x - part.left) / part.width;
  const v = (y - part.top) / part.height;
  if (!(u >= 0 && u < 1 && v >= 0 && v < 1)) return undefined;
  const [cx, cy] = [Math.floor(u * width), Math.floor(v * height)];
  const table = codeTable();
  const signal = signalOf(source);
  const sum = [0, 0, 0];
  const light = [0, 0, 0];
  let n = 0;
  for (let j = Math.max(0, cy - radius); j <= Math.min(height - 1, cy + radius); j++)
    for (let i = Math.max(0, cx - radius); i <= Math.min(width - 1, cx + radius); i++, n++) {
      const k = (j * width + i) * 3;
      const here = codes.subarray(k, k + 3);
      const camera = signal?.((i + 0.5) / width, (j + 0.5) / height, here);
      for (let c = 0; c < 3; c++) {
        sum[c] += table[here[c]];
        if (camera) light[c] += camera[c];
      }
    }
  return { transmittance: three((c) => sum[c] / n), ...(signal ? { camera: three((c) => light[c] / n) } : {}) };
}

/** Makes the function that reads places of a source with a look. */
export function reader(
  source: Source,
  look: FrameLook,
  space: OutputSpace,
  framing: Framing,
): (at: Point) => PlaceReading | undefined {
  const local = adjustmentsIn(look.local, placeIn(source, framing));
  const evaluate = evaluator(look, space, source.weights);
  return (at) => {
    const light = lightAt(source, at);
    if (!light) return undefined;
    const r = evaluate(light.transmittance, local?.(at));
    return {
      ...light,
      density: r.density,
      stops: three((c) => r.logExposure[c] / STOP),
      lab: r.lab,
      output: three((c) => Math.round(255 * Math.min(1, Math.max(0, r.encoded[c])))),
    };
  };
}
