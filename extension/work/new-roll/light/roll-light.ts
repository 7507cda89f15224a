/** The bare light of a roll: the blank's field. */
import { readLightJob } from "../../frame/jobs.ts";
import type { FrameLight } from "../../frame/develop.ts";
import type { LensFaults } from "../../../engine/types.ts";
import type { StartContext } from "../new-roll-options.ts";
import type { FirstPassScan } from "../../../engine/auto/roll/first-pass.ts";

/** The light field of the blank; without one, only the exposure that the scans are compared with. */
export async function lightOf(
  blank: FirstPassScan | undefined,
  reference: FirstPassScan,
  { pathOf, pool, signal }: StartContext,
  lens?: LensFaults,
): Promise<FrameLight> {
  const corrected = lens ? { lens } : {};
  const { shutter, iso, aperture } = reference.info;
  if (!blank) return { flare: [0, 0, 0], reference: { shutter, iso, aperture }, ...corrected };
  const { field, exposure } = await pool.run(readLightJob, { path: pathOf(blank.name), field: true, lens }, { signal });
  return { field, flare: [0, 0, 0], reference: exposure, ...corrected };
}
