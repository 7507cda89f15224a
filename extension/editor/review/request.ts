/** What a review panel shows, as plain data. */
import type { HistoryOptions } from "../../work/review/history.ts";

/** What a panel shows: kept with its page, so that it comes back after a reload. */
export interface ReviewRequest extends HistoryOptions {
  /** One recipe, absolute; all where not given. */
  readonly file?: string;
  /** The frame to begin with. */
  readonly frame?: string;
}
