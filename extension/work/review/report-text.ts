/** What every printed form of a review says in the same words. */
import {
  hasNoVisibleChange,
  isVisiblyChanged,
  type Difference,
  type Review,
  type ReviewChange,
  type ReviewFrame,
  type ReviewRecipe,
} from "../../review-report.ts";

export const countText = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** "mean 1.24, 95 % below 3.10, at most 8.75" */
export const differenceText = ({ mean, p95, max }: Difference): string =>
  `mean ${mean.toFixed(2)}, 95 % below ${p95.toFixed(2)}, at most ${max.toFixed(2)}`;

/** What is to be said of a frame beside its values. */
export function frameText(frame: ReviewFrame, rendered: boolean): string {
  const parts: string[] = [];
  if (frame.status !== "changed") parts.push(frame.status === "added" ? "new" : "removed");
  if (frame.reframed) parts.push("recropped");
  if (frame.reframed && frame.difference?.max === 0) parts.push("colours as they were");
  else if (frame.difference)
    parts.push(`${hasNoVisibleChange(frame) ? "no visible change, " : ""}ΔE00 ${differenceText(frame.difference)}`);
  else if (!frame.looksDifferent) parts.push("looks the same");
  else if (frame.status === "changed") parts.push(rendered ? "not measured" : "looks different");
  return parts.join(", ");
}

/** The change in words where its group is told beside it: "output web …" under "output" loses the word. */
export const textInGroup = ({ group, text }: ReviewChange): string =>
  text.startsWith(`${group} `) ? text.slice(group.length + 1) : text;

const statusText: Readonly<Record<ReviewRecipe["status"], string>> = {
  added: "new",
  removed: "removed",
  changed: "",
  renamed: "renamed",
  affected: "its own text is as it was",
};

/** "harbour.roll.yaml · Harbour, first light (renamed from quay.roll.yaml)" */
export function recipeHead({ file, title, status, was }: ReviewRecipe): string {
  const state = was ? `renamed from ${was}` : statusText[status];
  return `${file}${title ? ` · ${title}` : ""}${state ? ` (${state})` : ""}`;
}

/** One sentence for a recipe that has no changes to list. */
export function recipeNote({
  formattingOnly,
  kind,
  status,
  frames,
  changes,
  problems,
  of,
}: ReviewRecipe): string | undefined {
  if (formattingOnly) return "Only comments, order or layout changed; every value is as it was.";
  if (status === "added" && kind === "roll") return `A new roll with ${countText(of, "frame")}.`;
  if (status === "removed" && kind === "roll")
    return `The roll was deleted, with ${countText(frames.length, "frame")}.`;
  if (status === "added" || status === "removed") return `The stock is ${status === "added" ? "new" : "gone"}.`;
  return changes.length === 0 && problems.length === 0 ? "Every value is as it was." : undefined;
}

/** Whom a roll's change reaches: "7 frames follow", or nothing. */
export const followerText = (followers: readonly string[], of: number): string =>
  followers.length === 0
    ? ""
    : followers.length === of
      ? of === 1
        ? "its one frame follows"
        : `all ${of} frames follow`
      : `${followers.length} of ${of} frames follow`;

/** The whole review in one sentence. */
export function summaryOf(review: Review): string {
  if (review.recipes.length === 0) return "No recipe changed.";
  const frames = review.recipes.flatMap((recipe) => recipe.frames.filter(isVisiblyChanged));
  const rolls = review.recipes.filter((recipe) => recipe.frames.some(isVisiblyChanged)).length;
  const unseen = review.recipes.flatMap((recipe) => recipe.frames.filter(hasNoVisibleChange)).length;
  const rest = unseen > 0 ? ` No visible change in ${countText(unseen, "frame")}.` : "";
  if (frames.length === 0) {
    const changed = `${countText(review.recipes.length, "recipe")} changed`;
    return unseen > 0 ? `${changed}.${rest}` : `${changed}; every picture looks as it did.`;
  }
  const measured = frames.flatMap((frame) => (frame.difference ? [frame.difference.p95] : []));
  const summary =
    measured.length > 0 ? ` Largest difference: 95 % of a frame below ΔE00 ${Math.max(...measured).toFixed(2)}.` : "";
  const verb = frames.length === 1 ? "looks" : "look";
  return `${countText(frames.length, "frame")} in ${countText(rolls, "roll")} ${verb} different.${summary}${rest}`;
}
