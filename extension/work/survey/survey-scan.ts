/** The job that measures a scan. */
import { measureScan } from "../../engine/survey/measure-scan.ts";
import type { ScanReading, SensorNoise } from "../../engine/survey/types.ts";
import type { Area, Film } from "../../engine/types.ts";
import { type FrameLight, lightSetup } from "../frame/develop.ts";
import type { FrameMerge } from "../frame/merge/frame-merge.ts";
import { openMerged } from "../frame/merge/open-merged.ts";
import { openScan } from "../frame/open-scan.ts";
import { type SmallView, viewOf } from "./small-view.ts";
import type { JobContext } from "../pool/job-context.ts";

export interface SurveyScan {
  readonly path: string;
  /** The exposures that the frame is merged from, where it is. */
  readonly merge?: FrameMerge;
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

/** Measures a scan at half size, in less time than its rendering to a full JPEG takes (tests/bench/survey.ts). */
export async function surveyScan(order: SurveyScan, context: JobContext): Promise<SurveyedScan> {
  const { path, merge, light, ...rest } = order;
  const { scan, info } = merge
    ? await openMerged(merge, light.lens, { half: true, checkpoint: () => context.checkpoint() })
    : await openScan(path, light.lens, { half: true });
  context.checkpoint();
  const reading = measureScan(scan, { ...rest, info, light: lightSetup(light, info), lateral: true });
  return { reading, view: await viewOf(scan) };
}
