/** From a resolved frame to what the workers need: plain data, paths made absolute, the light measured. */
import { describeError } from "../../scans/files/system-errors.ts";
import { JobError, isWorkerLoss } from "../../failure.ts";
import type { ResolvedFrame, ResolvedRoll, ScanPlace } from "../../recipe/resolve/resolve.ts";
import type { ReadingArea } from "../../engine/flat-field/densitometer.ts";
import type { LensFaults } from "../../engine/types.ts";
import { blanksOf } from "../../recipe/resolve/channels.ts";
import type { FrameLight, FrameSetup } from "./develop.ts";
import { mergedScan } from "./merge/frame-merge.ts";
import { hashOf, stampOf } from "../files/content-hash.ts";
import type { LightReading, ReadLight } from "./read-light.ts";
import type { Pool } from "../pool/pool.ts";
import type { Workspace } from "../files/workspace.ts";
import { readLightJob } from "./jobs.ts";

/** A frame's light, and what is to be said about it. */
export interface MeasuredLight {
  readonly light: FrameLight;
  readonly warnings: readonly string[];
}

/** Measures the lights of a roll, each blank once. */
export interface LightTable {
  /**
   * Rejects with a JobError when the frame's blank, or without one the scan that its base was read from, cannot be read.
   * A failure is not kept: the next frame that needs the scan reads it again.
   */
  of(frame: Pick<ResolvedFrame, "light" | "base">): Promise<MeasuredLight>;
}

/** A scan that ended its worker or process so often is not opened again: it, and not chance, is the cause. */
const MAX_DEATHS = 3;

export function lightTable(
  roll: Pick<ResolvedRoll, "fingerprints">,
  workspace: Workspace,
  pool: Pool,
  signal?: AbortSignal,
): LightTable {
  const readings = new Map<string, Promise<LightReading>>();
  const deaths = new Map<string, number>();

  async function measure(request: ReadLight, key: string): Promise<LightReading> {
    for (;;)
      try {
        return await pool.run(readLightJob, request, { signal });
      } catch (error) {
        if (!isWorkerLoss(error) || signal?.aborted) throw error;
        const count = (deaths.get(key) ?? 0) + 1;
        deaths.set(key, count);
        if (count >= MAX_DEATHS) throw error;
      }
  }

  async function read(places: readonly ScanPlace[], field: boolean, lens?: LensFaults): Promise<LightReading> {
    const scans = places.map((place) => mergedScan(roll, place, workspace));
    const [{ path, locked }] = scans as [(typeof scans)[number]];
    // A scan that is replaced while a roll is rendered is read again, as the pictures' records say.
    const stamps = scans.map((scan) => `${stampOf(scan.path)} ${scan.path}`).join(" ");
    const key = `${field} ${stamps} ${lens ? hashOf(lens) : ""}`;
    const known = readings.get(key);
    if (known) return known;
    const merge = scans.length > 1 ? { merge: { scans, channels: true as const } } : {};
    const reading = measure({ path, ...merge, field, locked, lens }, key);
    readings.set(key, reading);
    reading.catch(() => {
      if ((deaths.get(key) ?? 0) < MAX_DEATHS) readings.delete(key);
    });
    return reading;
  }

  return {
    async of({ light, base }) {
      const { flare, times, lens } = light;
      const falloff = placedFalloff(light, base);
      const about = { flare, ...(times === undefined ? {} : { times }), ...(lens ? { lens } : {}) };
      if (light.blank) {
        const { field, exposure, exposures, warnings } = await read(blanksOf(light), true, lens);
        const references = exposures ? { references: exposures } : {};
        return { light: { field, ...about, reference: exposure, ...references }, warnings };
      }
      // Without a blank, the scan that the base was read from is the measure of every other scan's exposure.
      if (!base.read) return { light: { ...about, ...falloff }, warnings: [] };
      const { scan } = base.read;
      const { exposure } = await read([scan], false).catch((error: unknown) => {
        throw baseUnread(error, scan.name);
      });
      return { light: { ...about, ...falloff, reference: exposure }, warnings: [] };
    },
  };
}

/** Without a blank, the place where the base was read is the measure of the light: the base keeps its density. */
export function placedFalloff(
  { falloff }: Pick<ResolvedFrame["light"], "falloff">,
  { read }: { readonly read?: { readonly area?: ReadingArea } },
): Pick<FrameLight, "falloff"> {
  if (!falloff) return {};
  if (!read?.area) return { falloff };
  const [left, top, width, height] = read.area;
  return { falloff: { ...falloff, at: [left + width / 2, top + height / 2] } };
}

/** Without its exposure every other scan would come out differently exposed, so no picture is made. */
function baseUnread(error: unknown, name: string): JobError {
  const { code, message, file, remedy } = describeError(error);
  const last = `Exposures are compared with the scan that the base was read from (negative.base.read): put ${name} back, read the base from another scan, or name a blank.`;
  return new JobError({ code, message, file, remedy: isWorkerLoss(error) ? remedy : last });
}

/** What draws a frame's picture. */
export function frameSetup(frame: ResolvedFrame, light: FrameLight): FrameSetup {
  const { look, area, turn, mirror } = frame;
  return { look, framing: { area, turn, mirror }, light, spots: [...frame.light.spots, ...frame.spots] };
}
