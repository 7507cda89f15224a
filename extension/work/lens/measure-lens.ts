/** Measures the faults of the lens that a roll was photographed with, on the roll's own scans. */
import { errorText } from "../../scans/files/system-errors.ts";
import { fitLateralColour, lateralFaults } from "../../engine/lens/lateral-colour.ts";
import type { Area } from "../../engine/types.ts";
import type { ValueEdit } from "../../recipe/edit/edit.ts";
import type { ResolvedFrame, ResolvedRoll } from "../../recipe/resolve/resolve.ts";
import type { Workspace } from "../files/workspace.ts";
import { lightTable } from "../frame/frame-setup.ts";
import { eachLimited } from "../pool/each-limited.ts";
import type { Pool } from "../pool/pool.ts";
import { readLensJob } from "./jobs.ts";
import type { LensReading } from "./read-lens.ts";

/** A fault in the corner of the scan, in pixels of the full scan, and its standard error. */
export interface CornerShift {
  readonly shift: number;
  readonly error: number;
  /** Patches of all scans that it was measured on. */
  readonly patches: number;
}

export interface LensReport {
  /** Scans that were measured. */
  readonly scans: readonly string[];
  readonly failures: readonly { readonly frame: string; readonly message: string }[];
  /** Absent where the scans show too little that is common to the three colours. */
  readonly lateral?: {
    readonly red: CornerShift;
    readonly blue: CornerShift;
    /** As the recipe states it. */
    readonly value: ReturnType<typeof lateralFaults>;
    /** Whether both shifts are known to a tenth of a pixel or better. */
    readonly sure: boolean;
  };
}

export interface LensHooks {
  readonly signal?: AbortSignal;
  readonly onProgress?: (done: number, total: number, frame: string) => void;
}

/** More scans than these make the measurement no better than the model is. */
const MAX_SCANS = 10;
/** Standard error of a corner's shift that a measurement may have, pixels. */
const SURE = 0.1;
/** The film of a frame that is joined from several scans fills each of them: all but their borders. */
const PART: Area = { left: 0.04, top: 0.04, width: 0.92, height: 0.92, tilt: 0 };

/**
 * Measures the lens on up to ten scans, evenly spread over the roll, all of the camera's size that most have. A scan that
 * cannot be read is reported and the others go on. What the recipe corrects already makes no difference.
 */
export async function measureLens(
  roll: ResolvedRoll,
  workspace: Workspace,
  pool: Pool,
  { signal, onProgress }: LensHooks = {},
): Promise<LensReport> {
  const lights = lightTable(roll, workspace, pool, signal);
  const orders = evenlySpread(roll.frames.filter(({ skip }) => !skip).flatMap(scansOf), MAX_SCANS);
  const failures: { frame: string; message: string }[] = [];
  let done = 0;
  const made = await eachLimited(orders, pool.workers + 1, async ({ frame, scan, area }) => {
    try {
      const { lens: _, ...uncorrected } = frame.light;
      const { light } = await lights.of({ light: uncorrected, base: frame.base });
      const reading = await pool.run(readLensJob, { path: workspace.absolute(scan.path), area, light }, { signal });
      return { name: scan.name, reading };
    } catch (error) {
      if (signal?.aborted) throw error;
      failures.push({ frame: frame.id, message: errorText(error) });
      return undefined;
    } finally {
      onProgress?.(++done, orders.length, frame.id);
    }
  });
  const read = ofOneSize(made.filter((one) => one !== undefined));
  return { scans: read.map(({ name }) => name), failures, ...lateralOf(read.map(({ reading }) => reading)) };
}

const scansOf = (frame: ResolvedFrame) =>
  frame.scans.map((scan) => ({ frame, scan, area: frame.scans.length === 1 ? frame.area : PART }));

function evenlySpread<T>(all: readonly T[], most: number): readonly T[] {
  if (all.length <= most) return all;
  return Array.from({ length: most }, (_, i) => all[Math.floor(((i + 0.5) * all.length) / most)]!);
}

/** The scans of the size that most have: another size is another camera or crop. */
function ofOneSize<T extends { readonly reading: LensReading }>(scans: readonly T[]): readonly T[] {
  const groups = new Map<string, T[]>();
  for (const scan of scans) {
    const size = `${scan.reading.width} ${scan.reading.height}`;
    groups.set(size, [...(groups.get(size) ?? []), scan]);
  }
  return [...groups.values()].reduce((most, group) => (group.length > most.length ? group : most), []);
}

function lateralOf(readings: readonly LensReading[]): Pick<LensReport, "lateral"> {
  const fit = fitLateralColour(readings.map(({ lateral }) => lateral));
  const [first] = readings;
  if (!fit || !first) return {};
  const unit = Math.hypot(first.width, first.height) / 2;
  const [red, blue] = [fit.red, fit.blue].map(({ corner, error, patches }) => ({
    shift: corner * unit,
    error: error * unit,
    patches,
  })) as [CornerShift, CornerShift];
  return { lateral: { red, blue, value: lateralFaults(fit), sure: Math.max(red.error, blue.error) <= SURE } };
}

/** What writes the measured faults into the recipe: only what was measured surely. */
export const lensEdits = ({ lateral }: LensReport): ValueEdit[] =>
  lateral?.sure ? [{ path: ["light", "lens", "lateral"], value: lateral.value }] : [];
