/** Which frame is which: by name, or by scan where the name changed. */
import type { ResolvedFrame, ResolvedRoll } from "../resolve/resolve.ts";

/** A frame before and after; one of them may be missing. */
export interface FramePair {
  /** Its name now, or its last. */
  readonly id: string;
  readonly before?: ResolvedFrame;
  readonly after?: ResolvedFrame;
}

/** Frames in the order of `after`, then those that are gone. A frame that kept its scan under a new name is the same. */
export function pairFrames(before: ResolvedRoll | undefined, after: ResolvedRoll | undefined): FramePair[] {
  const old = new Map((before?.frames ?? []).map((frame) => [frame.id, frame]));
  const now = after?.frames ?? [];
  const kept = new Set(now.map((frame) => frame.id));
  const gone = new Map<string, ResolvedFrame>();
  for (const frame of old.values()) if (!kept.has(frame.id) && frame.scans.length > 0) gone.set(scansOf(frame), frame);
  const used = new Set<string>();
  const pairs = now.map((frame): FramePair => {
    const same = old.get(frame.id) ?? (frame.scans.length > 0 ? gone.get(scansOf(frame)) : undefined);
    if (!same || used.has(same.id)) return { id: frame.id, after: frame };
    used.add(same.id);
    return { id: frame.id, before: same, after: frame };
  });
  const lost = [...old.values()].filter((frame) => !used.has(frame.id));
  return [...pairs, ...lost.map((frame) => ({ id: frame.id, before: frame }))];
}

const scansOf = (frame: ResolvedFrame): string => frame.scans.map((scan) => scan.name).join("\n");
