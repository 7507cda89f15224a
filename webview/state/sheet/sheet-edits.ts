/** Gestures on several frames as edits of the recipe: each function gives everything that one gesture changes. */
import type { Turn } from "../../../extension/engine/image/geometry.ts";
import type { Area, FrameLook } from "../../../extension/engine/types.ts";
import type { FrameEntry, RecipePath, ValueEdit } from "../../../extension/messages.ts";
import { allowed, type Control, rounded } from "../controls.ts";
import { setArea } from "../edits.ts";

const below = (frame: string, path: RecipePath): RecipePath => ["frames", frame, ...path];

/** The look of a frame with a control moved by an amount, held to what the recipe allows. */
export const changedBy = (look: FrameLook, control: Control, amount: number): FrameLook =>
  control.with(look, allowed(control, control.of(look) + amount));

/**
 * One value of several frames. A frame that states the value itself keeps stating it. Frames that inherit it share one
 * edit of the roll where all of them are meant and come to the same value; otherwise each gets its own.
 *
 * @param roll all frames of the roll
 * @param frames those that are meant
 * @param valueOf the new value of a frame
 */
export function setOnFrames(
  roll: readonly FrameEntry[],
  frames: readonly FrameEntry[],
  path: RecipePath,
  valueOf: (frame: FrameEntry) => number,
): ValueEdit[] {
  const key = path.join(".");
  const inherits = (frame: FrameEntry): boolean => !frame.own.includes(key);
  const meant = new Set(frames.map(({ id }) => id));
  const heirs = roll.filter(inherits);
  const shared = new Set(heirs.map(valueOf));
  const together = heirs.length > 1 && shared.size === 1 && heirs.every(({ id }) => meant.has(id));
  return [
    ...(together ? [{ path, value: valueOf(heirs[0]!) }] : []),
    ...frames
      .filter((frame) => !together || !inherits(frame))
      .map((frame) => ({ path: below(frame.id, path), value: valueOf(frame) })),
  ];
}

/** A relative change: each frame keeps what tells it from the others. */
export const changeBy = (
  roll: readonly FrameEntry[],
  frames: readonly FrameEntry[],
  control: Control,
  amount: number,
): ValueEdit[] => setOnFrames(roll, frames, control.path, ({ look }) => allowed(control, control.of(look) + amount));

/** The same value for all. */
export const setTo = (
  roll: readonly FrameEntry[],
  frames: readonly FrameEntry[],
  control: Control,
  value: number,
): ValueEdit[] => setOnFrames(roll, frames, control.path, () => allowed(control, value));

/** Clockwise by quarter turns. */
export const turnBy = (frames: readonly FrameEntry[], quarters: number): ValueEdit[] =>
  frames.map(({ id, turn }) => {
    const next = ((((turn / 90 + quarters) % 4) + 4) % 4) * 90;
    return { path: below(id, ["turn"]), value: next === 0 ? undefined : (next as Turn) };
  });

/** Each frame's own mirror is turned over. */
export const mirrorEach = (frames: readonly FrameEntry[]): ValueEdit[] =>
  frames.map(({ id, mirror }) => ({ path: below(id, ["mirror"]), value: mirror ? undefined : true }));

/** Sets a key of its own on frames, or takes it out where all of them have it already. */
function switched<T>(
  frames: readonly FrameEntry[],
  key: string,
  value: T,
  of: (frame: FrameEntry) => T | undefined,
): ValueEdit[] {
  const has = frames.every((frame) => of(frame) === value);
  return frames
    .filter((frame) => has || of(frame) !== value)
    .map(({ id }) => ({ path: below(id, [key]), value: has ? undefined : value }));
}

export const switchSkip = (frames: readonly FrameEntry[]): ValueEdit[] =>
  switched(frames, "skip", true, ({ skip }) => skip || undefined);

export const switchChoice = (frames: readonly FrameEntry[], choice: "keep" | "reject"): ValueEdit[] =>
  switched(frames, "choice", choice, (frame) => frame.choice);

/** @param rank 1 … 5, or undefined for none */
export const setRank = (frames: readonly FrameEntry[], rank: number | undefined): ValueEdit[] =>
  frames.filter((frame) => frame.rank !== rank).map(({ id }) => ({ path: below(id, ["rank"]), value: rank }));

/** Each frame's rank a step up or down; below 1 there is none. */
export const rankBy = (frames: readonly FrameEntry[], by: 1 | -1): ValueEdit[] =>
  frames.flatMap((frame) => setRank([frame], Math.min(5, Math.max(0, (frame.rank ?? 0) + by)) || undefined));

/** A crop for several frames, and what would be lost by it. */
export interface SharedCrop {
  readonly edits: readonly ValueEdit[];
  /** Frames that get another crop. */
  readonly frames: readonly string[];
  /** How many of them state another crop of their own, and of how many of those it was measured on the scan. */
  readonly replaced: number;
  readonly measured: number;
}

/** The crop of one frame for others; frames that have it already are left alone. */
export function shareCrop(from: FrameEntry, frames: readonly FrameEntry[]): SharedCrop {
  const others = frames.filter((frame) => frame.id !== from.id && !isSame(frame.area, from.area));
  const own = others.filter((frame) => frame.own.some((path) => path === "area" || path.startsWith("area.")));
  const ids = others.map(({ id }) => id);
  return {
    edits: setArea(ids, from.area),
    frames: ids,
    replaced: own.length,
    measured: own.filter(({ measured }) => measured).length,
  };
}

const isSame = (a: Area, b: Area): boolean =>
  (["left", "top", "width", "height", "tilt"] as const).every((key) => rounded(a[key], 4) === rounded(b[key], 4));
