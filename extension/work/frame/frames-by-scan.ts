/** The order in which frames are worked on, so that each scan is decoded once for all frames on it. */
import type { ResolvedFrame } from "../../recipe/resolve/resolve.ts";
import { eachLimited } from "../pool/each-limited.ts";
import type { RunOptions } from "../pool/pool.ts";

/** What a frame's job is told of a scan that shows several of the frames at hand; nothing for a scan of its own. */
export interface ScanSharing {
  /** For `RunOptions`: the frames of a scan go to the worker that has unpacked it. */
  readonly run?: Pick<RunOptions, "near" | "inTurn" | "reads">;
  /** For `sharedDecoder`: whether further frames of the scan follow. */
  readonly keepScan?: boolean;
}

/** Jobs of a scan that wait or run at a time: one to work on, and the next, so that its worker need not wait for it. */
const IN_FLIGHT = 2;

/**
 * Runs `work` on every frame, those of one scan one after another, and returns the values in the frames' order.
 * @param workers of the pool that the work is given to
 */
export async function eachByScan<R>(
  frames: readonly ResolvedFrame[],
  workers: number,
  work: (frame: ResolvedFrame, sharing: ScanSharing) => Promise<R>,
): Promise<R[]> {
  const values = new Map<ResolvedFrame, R>();
  // One more than there are workers, so that none waits for the next order.
  await eachLimited(groupsByScan(frames), workers + 1, (group) =>
    eachLimited(group, IN_FLIGHT, async (frame, k) => {
      // Only the first of them reads the file.
      const run = { near: frame.scans[0]?.path, inTurn: true, ...(k > 0 ? { reads: [] } : {}) } as const;
      const sharing = group.length > 1 ? { run, keepScan: k < group.length - 1 } : {};
      values.set(frame, await work(frame, sharing));
    }),
  );
  return frames.map((frame) => values.get(frame) as R);
}

/** Frames in groups that lie on one scan; those of several scans, or of none, are each by themselves. */
function groupsByScan(frames: readonly ResolvedFrame[]): ResolvedFrame[][] {
  const groups: ResolvedFrame[][] = [];
  const byScan = new Map<string, ResolvedFrame[]>();
  for (const frame of frames) {
    const path = frame.scans.length === 1 ? frame.scans[0].path : undefined;
    const known = path === undefined ? undefined : byScan.get(path);
    if (known) known.push(frame);
    else {
      const group = [frame];
      groups.push(group);
      if (path !== undefined) byScan.set(path, group);
    }
  }
  return groups;
}
