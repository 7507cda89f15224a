/**
 * What a review found, as plain data: the command prints it, the page of a report and the editor's panel show it. Words
 * are made where the recipes are read; whoever shows them only lays them out.
 */

/** One of the two states that are compared. */
export interface ReviewSide {
  /** "main", "3f2c9a1", "the working tree", "nothing". */
  readonly label: string;
  /** Full id of the commit; absent for the working tree and for the time before the first commit. */
  readonly commit?: string;
  /** First line of the commit's message. */
  readonly subject?: string;
}

/** One value that changed, in words. */
export interface ReviewChange {
  /** Stays the same for the same change while the panel is open. */
  readonly id: string;
  readonly group: string;
  /** The frame it is about; undefined for the roll or stock as a whole. */
  readonly frame?: string;
  readonly name: string;
  readonly kind: "changed" | "added" | "removed" | "renamed" | "restated";
  readonly before?: string;
  readonly after?: string;
  /** The whole change in words, without the subject. */
  readonly text: string;
  /** Whose value it is: "own value; was from the roll". */
  readonly origin?: string;
  /** Frames that follow the roll's value. */
  readonly followers: readonly string[];
  /** Where it is written: line and column from 1. */
  readonly place?: { readonly file: string; readonly line: number; readonly column: number };
}

/** How far two pictures are apart, in ΔE00 (ISO/CIE 11664-6) over all pixels. */
export interface Difference {
  readonly mean: number;
  /** 95 of 100 pixels differ by less. */
  readonly p95: number;
  readonly max: number;
}

/** An encoded picture. */
export interface ReviewPicture {
  readonly width: number;
  readonly height: number;
  readonly type: "jpeg" | "png";
  readonly bytes: Uint8Array;
}

/** A frame that is new, gone, or says something else than before. */
export interface ReviewFrame {
  readonly id: string;
  /** What it was called before. */
  readonly was?: string;
  readonly title?: string;
  readonly status: "added" | "removed" | "changed";
  /** Whether its picture may look different. */
  readonly looksDifferent: boolean;
  /** The recipe was edited since: pictures and difference are those of before, and are being drawn. */
  readonly pending?: boolean;
  /** Whether it shows another piece of the scan, or shows it turned. */
  readonly reframed: boolean;
  readonly difference?: Difference;
  readonly before?: ReviewPicture;
  readonly after?: ReviewPicture;
  /** ΔE00 in colours: `differenceScale` tells which. */
  readonly map?: ReviewPicture;
  /** What a reviewer has to know: a scan that is missing, or is not the file it was. */
  readonly notes: readonly string[];
}

/** A roll or stock that changed, or whose pictures changed. */
export interface ReviewRecipe {
  readonly kind: "roll" | "stock";
  /** Path from the repository's root, as it is called now or was called last. */
  readonly file: string;
  readonly was?: string;
  readonly title?: string;
  /** "affected": its own text is as it was, but its stock's is not. */
  readonly status: "added" | "removed" | "changed" | "renamed" | "affected";
  /** Comments, order or layout changed, and nothing else. */
  readonly formattingOnly: boolean;
  readonly changes: readonly ReviewChange[];
  readonly frames: readonly ReviewFrame[];
  /** How many frames the roll has now. */
  readonly of: number;
  /** Of a stock: the rolls whose pictures its change alters. */
  readonly impact: readonly {
    readonly file: string;
    readonly title?: string;
    readonly frames: number;
    readonly of: number;
  }[];
  /** Errors of the text as it is now, as path:line:column and a sentence. */
  readonly problems: readonly string[];
}

export interface Review {
  readonly before: ReviewSide;
  readonly after: ReviewSide;
  /** Stocks first, then rolls; the greatest impact first. */
  readonly recipes: readonly ReviewRecipe[];
  /** Whether pictures were asked for. */
  readonly rendered: boolean;
}

/** The colours of a difference map: ΔE00, and sRGB codes. Between two of them colours are mixed; beyond the last, the last. */
export const differenceScale: readonly (readonly [deltaE: number, r: number, g: number, b: number])[] = [
  [0, 24, 24, 26],
  [1, 38, 62, 120],
  [2, 44, 122, 142],
  [5, 122, 196, 92],
  [10, 252, 214, 60],
  [20, 240, 96, 40],
];

/** The greatest of a frame's differences decides how far up it stands; what cannot be measured comes first. */
export function impactOf(frame: ReviewFrame): number {
  if (!frame.looksDifferent) return -1;
  return frame.difference ? frame.difference.p95 : Infinity;
}

/**
 * ΔE00 that a change stays below where nobody sees it: 95 of 100 pixels, and every pixel, so that a healed spot counts as
 * seen. About 1 is what a practised eye just tells side by side (common practice, no source).
 */
const INVISIBLE = { p95: 0.5, max: 1 };

/** Whether a frame's picture was measured, and differs by less than anybody sees. New framing and notes are always seen. */
export const hasNoVisibleChange = ({
  status,
  looksDifferent,
  reframed,
  difference,
  notes,
}: Pick<ReviewFrame, "status" | "looksDifferent" | "reframed" | "difference" | "notes">): boolean =>
  status === "changed" &&
  looksDifferent &&
  !reframed &&
  notes.length === 0 &&
  difference !== undefined &&
  difference.p95 < INVISIBLE.p95 &&
  difference.max < INVISIBLE.max;

/** Whether a frame counts as changed in its picture, as far as that was measured. */
export const isVisiblyChanged = (frame: Parameters<typeof hasNoVisibleChange>[0]): boolean =>
  frame.looksDifferent && !hasNoVisibleChange(frame);

/** What the editor sends to the page of its panel. */
export interface ReviewEvents {
  readonly review: { readonly review: Review; readonly frame?: { readonly file: string; readonly id: string } };
  readonly progress: { readonly done: number; readonly total: number; readonly label: string };
  readonly failed: { readonly message: string };
  /** The texts are not what they were when the review was made. */
  readonly stale: null;
  /** A change was written into the working tree, which this review of two revisions does not show. */
  readonly taken: { readonly change: string; readonly side: "before" | "after" };
}

/** What the page wants of the editor. A change is named by its id. */
export interface ReviewPageEvents {
  readonly ready: null;
  readonly again: null;
  /** How the page looks at the review, for a reload of the window. */
  readonly keep: unknown;
  readonly text: { readonly change: string };
  readonly texts: { readonly file: string };
  readonly take: { readonly change: string; readonly side: "before" | "after" };
  /** A note on a roll, a stock or a frame; on one of its values where `about` names it. */
  readonly note: { readonly file: string; readonly frame?: string; readonly about?: string };
}
