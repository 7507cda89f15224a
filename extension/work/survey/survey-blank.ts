/** The job that measures a blank. */
import { makeLightField, type LightField } from "../../engine/flat-field/light-field.ts";
import { measureBlank } from "../../engine/survey/measure-blank.ts";
import type { ExposureSettings } from "../../engine/flat-field/exposure.ts";
import type { BlankReading } from "../../engine/survey/types.ts";
import type { LensFaults } from "../../engine/types.ts";
import { ScanError } from "../../scans/errors.ts";
import type { FrameMerge } from "../frame/merge/frame-merge.ts";
import { openBlanks } from "../frame/merge/open-channels.ts";
import { openScan } from "../frame/open-scan.ts";
import { type SmallView, viewOf } from "./small-view.ts";
import type { JobContext } from "../pool/job-context.ts";

export interface SurveyBlank {
  readonly path: string;
  /** Three scans of the bare light in three-colour light, green first; `path` is then green's. */
  readonly merge?: FrameMerge;
  /** Name in the recipe. */
  readonly name: string;
  readonly lens?: LensFaults;
}

export interface SurveyedBlank {
  readonly reading: BlankReading;
  readonly field: LightField;
  /** How each of three was exposed, green, red, blue. */
  readonly exposures?: readonly ExposureSettings[];
  readonly view: SmallView;
}

/** Measures a blank at half size: the light over the field, its sensor dust, and the sensor's noise. */
export async function surveyBlank(order: SurveyBlank, context: JobContext): Promise<SurveyedBlank> {
  const { path, merge, name, lens } = order;
  const blanks = merge && (await openBlanks(merge, lens));
  const { scan, info } = blanks ?? (await openScan(path, lens, { half: true }));
  const more = blanks ? { exposures: blanks.exposures } : {};
  context.checkpoint();
  const { shutter, iso, aperture } = info;
  try {
    const field = makeLightField(scan, { shutter, iso, aperture });
    return { field, ...more, reading: measureBlank(scan, field, info, name), view: await viewOf(scan) };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const remedy = "Photograph the bare light again, with the set-up as it is for the film.";
    throw new ScanError("corrupt", path, "is black and cannot serve as a blank", remedy);
  }
}
