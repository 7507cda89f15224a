/** Which frames the sheet shows, and in which order. */
import type { FrameEntry } from "../../../extension/messages.ts";
import { median } from "../../../extension/engine/math/statistics.ts";

export const ORDERS = ["film", "choice", "rank", "exposure", "findings"] as const;
export type Order = (typeof ORDERS)[number];

export const CHOICES = ["any", "keep", "reject", "open", "not-reject"] as const;
export const RANKS = ["any", "none", "1", "2", "3", "4", "5"] as const;
export const EXPOSURES = ["any", "below", "near", "above"] as const;
export const FINDINGS = ["any", "some", "none"] as const;

export interface Filter {
  readonly choice: (typeof CHOICES)[number];
  /** At least this rank. */
  readonly rank: (typeof RANKS)[number];
  /** Against the roll's median exposure. */
  readonly exposure: (typeof EXPOSURES)[number];
  readonly findings: (typeof FINDINGS)[number];
}

export const NO_FILTER: Filter = { choice: "any", rank: "any", exposure: "any", findings: "any" };

export interface Arrangement {
  readonly order: Order;
  readonly filter: Filter;
}

/** Stops from the roll's median within which an exposure counts as near it. */
export const NEAR_STOPS = 0.5;

type Counts = Readonly<Record<string, number>> | undefined;

/**
 * The frames that pass the filter, in order. What is alike keeps the order of the film.
 * @param counts findings of each frame; undefined where the scans were not surveyed: nothing is filtered by them then
 */
export function arranged(
  frames: readonly FrameEntry[],
  { order, filter }: Arrangement,
  counts: Counts,
): readonly FrameEntry[] {
  const middle = frames.length > 0 ? median(frames.map(({ look }) => look.exposure)) : 0;
  const shown = frames.filter((frame) => passes(frame, filter, middle, counts));
  const key = keyOf(order, counts);
  return key ? shown.toSorted((a, b) => key(a) - key(b)) : shown;
}

function keyOf(order: Order, counts: Counts): ((frame: FrameEntry) => number) | undefined {
  if (order === "choice") return ({ choice, skip }) => (choice === "keep" ? 0 : choice === "reject" ? 3 : skip ? 2 : 1);
  if (order === "rank") return ({ rank }) => -(rank ?? 0);
  if (order === "exposure") return ({ look }) => look.exposure;
  if (order === "findings") return ({ id }) => -(counts?.[id] ?? 0);
  return undefined;
}

function passes(frame: FrameEntry, filter: Filter, middle: number, counts: Counts): boolean {
  const { choice, rank, exposure, findings } = filter;
  const difference = frame.look.exposure - middle;
  const found = counts?.[frame.id] ?? 0;
  return (
    (choice === "any" ||
      (choice === "not-reject"
        ? frame.choice !== "reject"
        : choice === "open"
          ? frame.choice === undefined
          : frame.choice === choice)) &&
    (rank === "any" || (rank === "none" ? frame.rank === undefined : (frame.rank ?? 0) >= Number(rank))) &&
    (exposure === "any" ||
      (exposure === "below"
        ? difference < -NEAR_STOPS
        : exposure === "above"
          ? difference > NEAR_STOPS
          : Math.abs(difference) <= NEAR_STOPS)) &&
    (findings === "any" || counts === undefined || (findings === "some" ? found > 0 : found === 0))
  );
}
