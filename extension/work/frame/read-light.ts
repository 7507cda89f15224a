/** The job that measures the bare light on a blank. */
import type { ExposureSettings } from "../../engine/flat-field/exposure.ts";
import { type LightField, makeLightField } from "../../engine/flat-field/light-field.ts";
import type { LensFaults } from "../../engine/types.ts";
import { ScanError } from "../../scans/errors.ts";
import type { Fingerprint } from "../../scans/files/fingerprint.ts";
import { checkLock } from "./check-lock.ts";
import type { FrameMerge } from "./merge/frame-merge.ts";
import { openBlanks } from "./merge/open-channels.ts";
import { openScan } from "./open-scan.ts";

export interface ReadLight {
  /** Three scans of the bare light in three-colour light, green first; `path` is then green's. */
  readonly merge?: FrameMerge;
  /** Absolute path of the blank, or of the scan whose exposure is the reference. */
  readonly path: string;
  /** Whether the bare light itself is wanted, and not only how the scan was exposed. */
  readonly field: boolean;
  /** What the recipe was locked to. */
  readonly locked?: Fingerprint;
  /** Faults of the lens: the field is that of scans which are freed of them. */
  readonly lens?: LensFaults;
}

export interface LightReading {
  readonly exposure: ExposureSettings;
  /** Of three scans, green, red, blue. */
  readonly exposures?: readonly ExposureSettings[];
  readonly field?: LightField;
  readonly warnings: readonly string[];
}

/**
 * Measures the bare light on a blank. Half size is enough: the field is smooth, and the blank's own detail is only
 * sensor dust.
 */
export async function readLight({ path, merge, field, locked, lens }: ReadLight): Promise<LightReading> {
  if (!merge) await checkLock(path, locked);
  const blanks = merge && (await openBlanks(merge, lens));
  const { scan, info, warnings } = blanks ?? (await openScan(path, field ? lens : undefined, { half: true }));
  const { shutter, iso, aperture } = info;
  const exposure = { shutter, iso, aperture };
  const more = blanks ? { exposures: blanks.exposures } : {};
  const sentences = warnings.map((w) => w.message);
  if (!field) return { exposure, warnings: sentences };
  try {
    return { exposure, ...more, field: makeLightField(scan, exposure), warnings: sentences };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const remedy = "Photograph the bare light again, with the set-up as it is for the film.";
    throw new ScanError("corrupt", path, "is black and cannot serve as a blank", remedy);
  }
}
