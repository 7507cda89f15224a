/** A review as a page shows it: pictures have addresses in place of bytes. */
import {
  hasNoVisibleChange,
  type Review,
  type ReviewFrame,
  type ReviewPicture,
  type ReviewRecipe,
} from "../../extension/review-report.ts";
import { t } from "../translate.ts";

export interface ShownPicture extends Omit<ReviewPicture, "bytes"> {
  readonly source: string;
}

export interface ShownFrame extends Omit<ReviewFrame, "before" | "after" | "map"> {
  readonly before?: ShownPicture;
  readonly after?: ShownPicture;
  readonly map?: ShownPicture;
}

export interface ShownRecipe extends Omit<ReviewRecipe, "frames"> {
  readonly frames: readonly ShownFrame[];
}

export interface ShownReview extends Omit<Review, "recipes"> {
  readonly recipes: readonly ShownRecipe[];
}

/** Which kind of recipe it is. */
export const kindText = (kind: ReviewRecipe["kind"]): string => (kind === "roll" ? t("roll") : t("stock"));

/** What can be looked at: a recipe as a whole, one of its frames, or its frames without a visible change together. */
export interface Entry {
  readonly recipe: ShownRecipe;
  readonly frame?: ShownFrame;
  /** Frames of a row that folds them. */
  readonly fold?: readonly ShownFrame[];
}

/** Everything that can be looked at, in the review's order; frames without a visible change last, folded into one row. */
export const entriesOf = (review: ShownReview, unfolded: ReadonlySet<string>): Entry[] =>
  review.recipes.flatMap((recipe): Entry[] => {
    const fold = recipe.frames.filter(hasNoVisibleChange);
    const seen = recipe.frames.filter((frame) => !fold.includes(frame));
    const folded = unfolded.has(recipe.file) ? fold : [];
    return [
      { recipe },
      ...seen.map((frame) => ({ recipe, frame })),
      ...(fold.length > 0 ? [{ recipe, fold }] : []),
      ...folded.map((frame) => ({ recipe, frame })),
    ];
  });

export const keyOf = ({ recipe, frame, fold }: Entry): string =>
  frame ? `${recipe.file}\n${frame.id}` : fold ? `${recipe.file}\n\n` : recipe.file;

/** How many frames are meant. */
export const framesText = (count: number): string => (count === 1 ? t("1 frame") : t("{0} frames", count));
