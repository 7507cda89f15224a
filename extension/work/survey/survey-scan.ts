/** The job that measures a scan. */
import { measureScan } from "../../engine/survey/measure-scan.ts";
import type { ScanReading, SensorNoise } from "../../engine/survey/types.ts";
import type { Area, Film, LensFaults } from "../../engine/types.ts";
import { type FrameLight, lightSetup } from "../frame/develop.ts";
import type { FrameMerge } from "../frame/merge/frame-merge.ts";
import { openMerged } from "../frame/merge/open-merged.ts";
import { openScan } from "../frame/open-scan.ts";
import { type SmallView, viewOf } from "./small-view.ts";
import type { JobContext } from "../pool/job-context.ts";

export interface SurveyScan {
  readonly path: string;
  /** The scans that the frame is merged from, where it is. */
  readonly merge?: FrameMerge;
  /** Name in the recipe. */
  readonly name: string;
  readonly film: Film;
  readonly noise?: SensorNoise;
  /** Faults of the lens, which its frames share. */
  readonly lens?: LensFaults;
  /** Frames on the scan: most scans have one. */
  readonly frames: readonly FrameOnScan[];
}

/** A frame, as far as its scan's survey is concerned. */
export interface FrameOnScan {
  readonly frame: string;
  readonly area: Area;
  readonly mirror: boolean;
  readonly light: FrameLight;
  /** Whether other frames of the roll lie on the scan, looked at or not. */
  readonly shared: boolean;
}

export interface SurveyedScan {
  readonly reading: ScanReading;
  readonly view: SmallView;
}

/** Measures the frames of a scan, which is decoded once at half size, in less time than its rendering to a full JPEG takes (tests/bench/survey.ts). */
export async function surveyScan(order: SurveyScan, context: JobContext): Promise<SurveyedScan[]> {
  const { path, merge, lens, frames, ...rest } = order;
  const { scan, info } = merge
    ? await openMerged(merge, { ...frames[0]?.light, lens }, { half: true, checkpoint: () => context.checkpoint() })
    : await openScan(path, lens, { half: true });
  const view = await viewOf(scan);
  return frames.map(({ light, ...frame }) => {
    context.checkpoint();
    const reading = measureScan(scan, { ...rest, ...frame, info, light: lightSetup(light, info), lateral: true });
    return { reading, view };
  });
}
