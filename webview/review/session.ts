/** What the page shows right now, and who is told when that changes. */
import { type Entry, entriesOf, keyOf, type ShownReview } from "./shown.ts";
import { FIT, type View } from "./view.ts";

export const modes = ["wipe", "side", "blink", "difference"] as const;
export type Mode = (typeof modes)[number];

export interface ReviewState {
  readonly review: ShownReview;
  readonly entry: Entry | undefined;
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
    const entries = entriesOf(review);
    const first = entries.find(({ frame }) => frame?.looksDifferent) ?? entries[0];
    this.#state = {
      review,
      entry: entries.find((entry) => keyOf(entry) === kept.entry) ?? first,
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

  /** A review rebuilt: what was looked at stays, as far as it is still there. */
  replace(review: ShownReview): void {
    const entries = entriesOf(review);
    const key = this.#state.entry && keyOf(this.#state.entry);
    this.set({ review, entry: entries.find((entry) => keyOf(entry) === key) ?? entries[0] });
  }

  /** To the next entry, or back. */
  step(by: number): void {
    const entries = entriesOf(this.#state.review);
    const key = this.#state.entry && keyOf(this.#state.entry);
    const at = entries.findIndex((entry) => keyOf(entry) === key);
    const entry = entries[Math.min(entries.length - 1, Math.max(0, at + by))];
    if (entry) this.set({ entry });
  }
}

export interface Kept {
  readonly entry?: string;
  readonly mode?: Mode;
  readonly wipe?: number;
  readonly view?: View;
}
