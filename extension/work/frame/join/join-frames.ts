/** Measures the joins of a roll's large frames, and makes edits of them. */
import type { JoinPlace } from "../../../engine/image/join/place.ts";
import { errorText } from "../../../scans/files/system-errors.ts";
import type { ValueEdit } from "../../../recipe/edit/edit.ts";
import type { ResolvedRoll } from "../../../recipe/resolve/resolve.ts";
import type { Pool } from "../../pool/pool.ts";
import type { Workspace } from "../../files/workspace.ts";
import { lightTable } from "../frame-setup.ts";
import { measureJoinJob } from "../jobs.ts";

/** How the scans of a frame lie to one another, or why that could not be measured. */
export interface JoinedFrame {
  readonly frame: string;
  /** For each scan, its place on the first, as the recipe writes it. */
  readonly join?: JoinPlace[];
  /** Worst residual of all overlaps, in pixels of the full scan. */
  readonly residual?: number;
  /** Scans that overlap, patches that agree, and what they are off by, in pixels of the full scan. */
  readonly overlaps?: { scans: [string, string]; patches: number; residual: number }[];
  readonly problem?: string;
}

export interface JoinHooks {
  readonly signal?: AbortSignal;
  readonly onProgress?: (done: number, total: number, frame: string) => void;
  /** Called as each frame is measured. */
  readonly onFrame?: (frame: JoinedFrame) => void;
}

/**
 * Measures the joins of a roll's frames that name several scans, one after the other. Frames that have a join already are
 * left out unless `again`; a frame that fails is reported and the others go on.
 */
export async function joinFrames(
  roll: ResolvedRoll,
  workspace: Workspace,
  pool: Pool,
  { again }: { readonly again: boolean },
  { signal, onProgress, onFrame }: JoinHooks = {},
): Promise<JoinedFrame[]> {
  const wanted = roll.frames.filter(
    ({ scans, merged, skip, join }) => scans.length > 1 && !merged && !skip && (!join || again),
  );
  const lights = lightTable(roll, workspace, pool, signal);
  const joined: JoinedFrame[] = [];
  for (const [i, frame] of wanted.entries()) {
    onProgress?.(i, wanted.length, frame.id);
    try {
      const { light } = await lights.of(frame);
      const paths = frame.scans.map((scan) => workspace.absolute(scan.path));
      const { places, overlaps, residual } = await pool.run(measureJoinJob, { paths, light }, { signal });
      const join = places.flatMap((place) => (place ? [writtenPlace(place)] : []));
      joined.push({
        frame: frame.id,
        join,
        residual: round(residual, 3),
        overlaps: overlaps.map(({ scans: [a, b], patches, residual: off }) => ({
          scans: [frame.scans[a]!.name, frame.scans[b]!.name],
          patches,
          residual: round(off, 3),
        })),
      });
    } catch (error) {
      if (signal?.aborted) throw error;
      joined.push({ frame: frame.id, problem: errorText(error) });
    }
    onFrame?.(joined.at(-1)!);
  }
  return joined;
}

/** What writes the measured joins into the recipe. */
export const joinEdits = (frames: readonly JoinedFrame[]): ValueEdit[] =>
  frames.flatMap(({ frame, join }) => (join ? [{ path: ["frames", frame, "join"], value: join }] : []));

/** A place as the recipe writes it: x, y, rotation, and the exposure of each channel. */
export function writtenPlace([x, y, angle, exposure = 0]: JoinPlace): JoinPlace {
  const [r, g, b] = typeof exposure === "number" ? [exposure, exposure, exposure] : exposure;
  return [round(x, 2), round(y, 2), round(angle, 4), [round(r, 4), round(g, 4), round(b, 4)]];
}

const round = (value: number, digits: number): number => Number(value.toFixed(digits)) + 0;
