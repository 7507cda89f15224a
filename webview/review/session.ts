/** What the page shows right now, and who is told when that changes. */
import { clamp } from "../../extension/engine/math/clamp.ts";
import { hasNoVisibleChange } from "../../extension/review-report.ts";
import { type Entry, entriesOf, keyOf, type ShownRecipe, type ShownReview } from "./shown.ts";
import { FIT, type View } from "./view.ts";

export const modes = ["wipe", "side", "blink", "difference"] as const;
export type Mode = (typeof modes)[number];

export interface ReviewState {
  readonly review: ShownReview;
  readonly entry: Entry | undefined;
  /** Recipes, by file, whose frames without a visible change are listed one by one. */
  readonly unfolded: ReadonlySet<string>;
  /** What is said where nothing is looked at. */
  readonly message?: string;
  /** Changes that were written into the working tree from a review of two revisions. */
  readonly taken: ReadonlyMap<string, "before" | "after">;
  readonly mode: Mode;
  /** Place of the wipe's line, 0 … 1. */
  readonly wipe: number;
  readonly view: View;
  /** Whether the earlier picture is shown for as long as a key is held. */
  readonly showsBefore: boolean;
  /** Which of the two a blink shows, and whether it goes on by itself. */
  readonly blink: { readonly side: "before" | "after"; readonly running: boolean };
}

/** What only the editor's panel can do with a change; a report on its own has none of it. */
export interface Actions {
  /** Whether the later state is a revision, which the text need not say already. */
  readonly canAccept: boolean;
  /** Goes to a change's line in the comparison of the texts. */
  showText(change: string): void;
  /** Puts the value into the recipe as it was before, or as it is in the later state. */
  take(change: string, side: "before" | "after"): void;
  /** Asks for a remark, on one value where `about` names it, and writes it as the frame's or the roll's `note`. */
  note(file: string, frame: string | undefined, about?: string): void;
  /** Opens the comparison of a recipe's texts. */
  compareTexts(file: string): void;
}

export class Session {
  readonly actions: Actions | undefined;
  #state: ReviewState;
  readonly #listeners: ((state: ReviewState) => void)[] = [];

  constructor(review: ShownReview, kept: Kept = {}, actions?: Actions) {
    this.actions = actions;
    const entries = entriesOf(review, new Set());
    const first = entries.find(({ frame }) => frame?.looksDifferent) ?? entries[0];
    const wanted = kept.entry === undefined ? undefined : found(review, kept.entry);
    this.#state = {
      review,
      entry: wanted ?? first,
      unfolded: wanted?.frame && hasNoVisibleChange(wanted.frame) ? new Set([wanted.recipe.file]) : new Set(),
      taken: new Map(),
      mode: kept.mode ?? "wipe",
      wipe: kept.wipe ?? 0.5,
      view: kept.view ?? FIT,
      showsBefore: false,
      blink: { side: "before", running: !matchMedia("(prefers-reduced-motion: reduce)").matches },
    };
  }

  get state(): ReviewState {
    return this.#state;
  }

  /** What is worth keeping over a reload. */
  get kept(): Kept {
    const { entry, mode, wipe, view } = this.#state;
    return { entry: entry && keyOf(entry), mode, wipe, view };
  }

  on(listener: (state: ReviewState) => void): void {
    this.#listeners.push(listener);
    listener(this.#state);
  }

  set(change: Partial<ReviewState>): void {
    this.#state = { ...this.#state, ...change };
    for (const listener of this.#listeners) listener(this.#state);
  }

  /** Looks at something else. */
  look(entry: Entry): void {
    this.set({ entry, message: undefined });
  }

  /** A review rebuilt: what was looked at stays, as far as it is still there; else what stands in its place. */
  replace(review: ShownReview): void {
    const { entry, unfolded } = this.#state;
    const at = this.#entries.findIndex((one) => entry && keyOf(one) === keyOf(entry));
    const entries = entriesOf(review, unfolded);
    const next = entry && entries.find((one) => keyOf(one) === keyOf(entry));
    this.set({
      review,
      entry: next ?? (entry && found(review, keyOf(entry))) ?? entries[clamp(at, 0, Math.max(0, entries.length - 1))],
      message: undefined,
      taken: new Map(),
    });
    this.#reveal();
  }

  /** Lists a recipe's frames without a visible change one by one, or folds them into one row again. */
  toggleFold(recipe: ShownRecipe): void {
    const { unfolded, entry } = this.#state;
    const next = new Set(unfolded);
    const folds = next.delete(recipe.file);
    if (!folds) next.add(recipe.file);
    const row = entriesOf(this.#state.review, next).find((one) => one.recipe === recipe && one.fold);
    const vanishes = folds && entry?.recipe === recipe && entry.frame && hasNoVisibleChange(entry.frame);
    this.set({ unfolded: next, ...(vanishes ? { entry: row } : {}) });
  }

  /** Looks at a frame, wherever it is listed. @returns whether the review has it */
  lookAt(key: string): boolean {
    const entry = found(this.#state.review, key);
    if (!entry) return false;
    this.look(entry);
    this.#reveal();
    return true;
  }

  get #entries(): Entry[] {
    return entriesOf(this.#state.review, this.#state.unfolded);
  }

  /** Unfolds the row that hides what is looked at. */
  #reveal(): void {
    const { entry, unfolded } = this.#state;
    if (entry?.frame && hasNoVisibleChange(entry.frame) && !unfolded.has(entry.recipe.file))
      this.toggleFold(entry.recipe);
  }

  /** To the next entry, or back. */
  step(by: number): void {
    const entries = this.#entries;
    const key = this.#state.entry && keyOf(this.#state.entry);
    const at = entries.findIndex((entry) => keyOf(entry) === key);
    const entry = entries[Math.min(entries.length - 1, Math.max(0, at + by))];
    if (entry) this.look(entry);
  }
}

/** What a key names, folded or not. */
const found = (review: ShownReview, key: string): Entry | undefined =>
  entriesOf(review, new Set(review.recipes.map(({ file }) => file))).find((entry) => keyOf(entry) === key);

export interface Kept {
  readonly entry?: string;
  readonly mode?: Mode;
  readonly wipe?: number;
  readonly view?: View;
}
