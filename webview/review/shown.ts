/** A review as a page shows it: pictures have addresses in place of bytes. */
import type { Review, ReviewFrame, ReviewPicture, ReviewRecipe } from "../../extension/review-report.ts";
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

/** What can be looked at: a recipe as a whole, or one of its frames. */
export interface Entry {
  readonly recipe: ShownRecipe;
  readonly frame?: ShownFrame;
}

/** Everything that can be looked at, in the review's order. */
export const entriesOf = (review: ShownReview): Entry[] =>
  review.recipes.flatMap((recipe) => [{ recipe }, ...recipe.frames.map((frame) => ({ recipe, frame }))]);

export const keyOf = ({ recipe, frame }: Entry): string => (frame ? `${recipe.file}\n${frame.id}` : recipe.file);
