/** A roll in short, for lists: title, stock, frames, problems. */
import type { Problem } from "../problems.ts";
import { problemsByFrame } from "./lenses.ts";
import type { Choice } from "../resolve/resolve.ts";
import type { Reading } from "./document-cache.ts";
import { type Range, rangeIn } from "./types.ts";

/** A roll as a list shows it. */
export interface RollSummary {
  readonly file: string;
  readonly title?: string;
  readonly errors: number;
  readonly warnings: number;
  readonly frames: readonly FrameSummary[];
}

export interface FrameSummary {
  readonly id: string;
  readonly title?: string;
  /** Names of its scans. */
  readonly scans: readonly string[];
  /** Those that are not there. */
  readonly missing: readonly string[];
  readonly skip: boolean;
  readonly choice?: Choice;
  readonly rank?: number;
  readonly errors: number;
  readonly warnings: number;
  /** Its id in the text. */
  readonly range: Range;
}

/** A roll's frames with their state, for lists. */
export function rollSummary({ document, resolved, problems, missing }: Reading): RollSummary {
  const byFrame = problemsByFrame(problems);
  return {
    file: document.file,
    title: resolved.title,
    ...count(problems),
    frames: resolved.frames.map((frame) => ({
      id: frame.id,
      title: frame.title,
      scans: frame.scans.map(({ name }) => name),
      missing: frame.scans.filter(({ path }) => missing.has(path)).map(({ name }) => name),
      skip: frame.skip,
      choice: frame.choice,
      rank: frame.rank,
      ...count(byFrame.get(frame.id) ?? []),
      range: rangeIn(document, document.rangeOf(["frames", frame.id], "key") ?? [0, 0]),
    })),
  };
}

function count(problems: readonly Problem[]): { errors: number; warnings: number } {
  const errors = problems.filter(({ severity }) => severity === "error").length;
  const warnings = problems.filter(({ severity }) => severity === "warning").length;
  return { errors, warnings };
}
