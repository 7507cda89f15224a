/** Which frames a command is about. */
import type { ResolvedFrame, ResolvedRoll } from "../../recipe/resolve/resolve.ts";

/** A wish that fits no frame; the message says which and what there is. */
export class SelectionError extends Error {
  readonly code = "selection";
}

/** Part `index` (from 1) of `count`. */
export interface Shard {
  readonly index: number;
  readonly count: number;
}

/**
 * Picks frames by a list such as "1-12,14A". Numbers are compared as numbers ("1" is frame "01"); a range follows the
 * order on the film, where 12A comes between 12 and 13. Keeps the recipe's order.
 *
 * @throws SelectionError when a part cannot be read or fits no frame.
 */
export function selectFrames(ids: readonly string[], options: string): string[] {
  const chosen = new Set<string>();
  for (const part of options.split(",").map((p) => p.trim())) {
    const found = /^(\d{1,3}[A-Za-z]?)(?:-(\d{1,3}[A-Za-z]?))?$/.exec(part);
    if (!found) throw new SelectionError(`"${part}" is not a frame or a range of frames such as 1-12 or 14A.`);
    const from = sortKeyOf(found[1]);
    const to = sortKeyOf(found[2] ?? found[1]);
    const hits = ids.filter((id) => sortKeyOf(id) >= from && sortKeyOf(id) <= to);
    if (hits.length === 0) {
      const all = ids.length > 1 ? `${ids[0]} to ${ids.at(-1)}` : (ids[0] ?? "none");
      throw new SelectionError(`There is no frame ${part} in this roll; its frames are ${all}.`);
    }
    for (const id of hits) chosen.add(id);
  }
  return ids.filter((id) => chosen.has(id));
}

/** Frames that pictures are written of: those that are not skipped, and on demand without those whose choice is reject. */
export const framesToWrite = (
  { frames }: Pick<ResolvedRoll, "frames">,
  { withoutRejected = false }: { readonly withoutRejected?: boolean } = {},
): readonly ResolvedFrame[] => frames.filter(({ skip, choice }) => !skip && !(withoutRejected && choice === "reject"));

/** Place on the film: 12, 12A, 13 are 24, 25 … 26 in steps that leave room for the letters. */
function sortKeyOf(id: string): number {
  const letter = /[A-Za-z]$/.exec(id)?.[0].toUpperCase();
  return parseInt(id, 10) * 32 + (letter ? letter.charCodeAt(0) - 64 : 0);
}

/** @throws SelectionError for anything but i/n with 1 ≤ i ≤ n. */
export function parseShard(text: string): Shard {
  const found = /^(\d{1,6})\/(\d{1,6})$/.exec(text);
  const shard = { index: Number(found?.[1]), count: Number(found?.[2]) };
  if (!found || shard.index < 1 || shard.index > shard.count)
    throw new SelectionError(`"${text}" is not a share such as 1/4: the first of four.`);
  return shard;
}

/** Every n-th frame, so that shares are of like size; the shares together are the whole, without overlap. */
export function shardOf<T>(frames: readonly T[], { index, count }: Shard): T[] {
  return frames.filter((_, i) => i % count === index - 1);
}
