/** From a resolved frame to what the workers need: plain data, paths made absolute, the light measured. */
import type { ResolvedFrame, ResolvedRoll, ScanPlace } from "../recipe/resolve.ts";
import type { FrameLight, FrameSetup } from "./develop.ts";
import type { LightReading } from "./jobs/read-light.ts";
import { sentence } from "./job-error.ts";
import type { Pool } from "./pool.ts";
import type { Workspace } from "./workspace.ts";

/** A frame's light, and what is to be said about it. */
export interface MeasuredLight {
  readonly light: FrameLight;
  readonly warnings: readonly string[];
}

/** Measures the lights of a roll, each blank once. */
export interface LightTable {
  /** Rejects with a JobError when the frame's blank cannot be used. */
  of(frame: Pick<ResolvedFrame, "light" | "base">): Promise<MeasuredLight>;
}

export function lightTable(
  roll: Pick<ResolvedRoll, "fingerprints">,
  workspace: Workspace,
  pool: Pool,
  signal?: AbortSignal,
): LightTable {
  const made = new Map<string, Promise<LightReading>>();
  const read = ({ name, path }: ScanPlace, field: boolean): Promise<LightReading> => {
    const key = `${field} ${path}`;
    const known = made.get(key);
    if (known) return known;
    // The path is looked at within the promise, so that one leading out fails like one that is missing.
    const reading = Promise.resolve().then(() =>
      pool.run("read-light", { path: workspace.absolute(path), field, locked: roll.fingerprints[name] }, { signal }),
    );
    made.set(key, reading);
    return reading;
  };

  return {
    async of({ light, base }) {
      const { flare } = light;
      if (light.blank) {
        const { field, exposure, warnings } = await read(light.blank, true);
        return { light: { field, flare, reference: exposure }, warnings };
      }
      // Without a blank, the scan that the base was read from is the measure of every other scan's exposure.
      if (!base.read) return { light: { flare }, warnings: [] };
      try {
        const { exposure } = await read(base.read.scan, false);
        return { light: { flare, reference: exposure }, warnings: [] };
      } catch (error) {
        const reason = sentence(error);
        return {
          light: { flare },
          warnings: [`The exposure of the base's scan is not known, so exposures are not compared: ${reason}`],
        };
      }
    },
  };
}

/** What draws a frame's picture. */
export function frameSetup(frame: ResolvedFrame, light: FrameLight): FrameSetup {
  const { look, area, turn, mirror } = frame;
  return { look, framing: { area, turn, mirror }, light, spots: [...frame.light.spots, ...frame.spots] };
}
