import { measureScan } from "../../engine/survey/measure-scan.ts";
import type { ScanReading, SensorNoise } from "../../engine/survey/types.ts";
import type { Area, Film, LinearScan } from "../../engine/types.ts";
import { decodeScan } from "../../scans/decode.ts";
import { encodePicture } from "../../scans/encode.ts";
import { type FrameLight, lightSetup } from "../develop.ts";
import type { JobContext } from "./context.ts";

export interface SurveyScan {
  readonly path: string;
  /** Name in the recipe. */
  readonly name: string;
  readonly frame: string;
  readonly area: Area;
  readonly film: Film;
  readonly mirror: boolean;
  readonly light: FrameLight;
  readonly noise?: SensorNoise;
}

export interface SurveyedScan {
  readonly reading: ScanReading;
  readonly view: SmallView;
}

/** A small picture of a scan for the report, as the camera saw it: grey, a JPEG file's bytes. */
export interface SmallView {
  readonly width: number;
  readonly height: number;
  readonly bytes: Uint8Array;
}

const VIEW_WIDTH = 360;

/** Measures a scan at half size: a fraction of the time that rendering it takes. */
export async function surveyScan(order: SurveyScan, context: JobContext): Promise<SurveyedScan> {
  const { path, light, ...rest } = order;
  const { scan, info } = await decodeScan(path, { half: true });
  context.checkpoint();
  const reading = measureScan(scan, { ...rest, info, light: lightSetup(light, info) });
  return { reading, view: await viewOf(scan) };
}

async function viewOf({ width, height, channels, data, black, scale }: LinearScan): Promise<SmallView> {
  const step = Math.max(1, Math.ceil(width / VIEW_WIDTH));
  const [w, h] = [Math.floor(width / step), Math.floor(height / step)];
  const view = new Uint8Array(w * h);
  const green = channels === 3 ? 1 : 0;
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) {
      const signal = (data[(y * step * width + x * step) * channels + green] - black) * scale;
      view[y * w + x] = 255 * Math.min(1, Math.max(0, signal)) ** (1 / 2.4);
    }
  const picture = { width: w, height: h, channels: 1, data: view } as const;
  const bytes = await encodePicture(picture, { type: "jpeg", depth: 8, space: "srgb", quality: 78 }, {});
  return { width: w, height: h, bytes };
}
