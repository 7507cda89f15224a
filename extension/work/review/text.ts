/** A review as text for a terminal. */
import { hasNoVisibleChange, type Review, type ReviewChange, type ReviewRecipe } from "../../review-report.ts";
import { followerText, frameText, recipeHead, recipeNote, summaryOf, textInGroup } from "./report-text.ts";

/** A review for a terminal, line by line. */
export function textOf(review: Review): string[] {
  const { before, after, recipes } = review;
  const lines = [`${before.label}  →  ${after.label}`];
  for (const recipe of recipes) lines.push("", ...recipeLines(recipe, review.rendered));
  return [...lines, "", summaryOf(review)];
}

function recipeLines(recipe: ReviewRecipe, rendered: boolean): string[] {
  const note = recipeNote(recipe);
  return [
    recipeHead(recipe),
    ...(note ? [`  ${note}`] : []),
    ...recipe.problems.map((problem) => `  error: ${problem}`),
    ...recipe.impact.map(
      ({ file, title, frames, of }) => `  impact: ${frames} of ${of} frames of ${title ?? file} look different`,
    ),
    ...recipe.changes.filter(({ frame }) => frame === undefined).map((change) => `  ${line(change, recipe.of)}`),
    ...frameOrder(recipe).flatMap((id) => {
      const frame = recipe.frames.find((one) => one.id === id);
      const words = frame ? frameText(frame, rendered) : "";
      return [
        `  frame ${id}${frame?.title ? ` · ${frame.title}` : ""}${words ? `: ${words}` : ""}`,
        ...recipe.changes.filter((change) => change.frame === id).map((change) => `    ${line(change, recipe.of)}`),
        ...(frame?.notes ?? []).map((note) => `    ${note}`),
      ];
    }),
    ...unseenLine(recipe),
  ];
}

/** Frames that follow others and whose pictures nobody sees a change in, in one line. */
function unseenLine(recipe: ReviewRecipe): string[] {
  const ids = foldedFrames(recipe);
  return ids.length === 0 ? [] : [`  no visible change: ${ids.length === 1 ? "frame" : "frames"} ${ids.join(", ")}`];
}

/** Frames without a value of their own that changed, and without a visible change. */
export const foldedFrames = ({ frames, changes }: ReviewRecipe): string[] =>
  frames
    .filter((frame) => hasNoVisibleChange(frame) && !changes.some((change) => change.frame === frame.id))
    .map(({ id }) => id)
    .toSorted((a, b) => a.localeCompare(b, "en", { numeric: true }));

const line = (change: ReviewChange, of: number): string => {
  const reach = followerText(change.followers, of);
  return `${change.group.padEnd(7)} ${textInGroup(change)}${reach ? `; ${reach}` : ""}`;
};

/** Frames with pictures first, as the review sorts them; then those that only say something else. Without folded ones. */
export function frameOrder(recipe: ReviewRecipe): string[] {
  const { frames, changes } = recipe;
  const folded = new Set(foldedFrames(recipe));
  const all = new Set([...frames.map(({ id }) => id), ...changes.flatMap(({ frame }) => frame ?? [])]);
  return [...all].filter((id) => !folded.has(id));
}
