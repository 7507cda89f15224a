/** A review as Markdown, for pull requests. */
import type { Review, ReviewRecipe } from "../../review-report.ts";
import { markdown as md } from "../../recipe/plain-text.ts";
import { foldedFrames, frameOrder } from "./text.ts";
import {
  differenceText,
  followerText,
  frameText,
  recipeHead,
  recipeNote,
  summaryOf,
  textInGroup,
} from "./report-text.ts";

/** A review as Markdown, for a pull request's description or comment. Pictures are in the HTML report. */
export function markdownOf(review: Review): string {
  const { before, after, recipes } = review;
  const lines = ["## Review of recipes", "", `${md(before.label)} → ${md(after.label)}. **${md(summaryOf(review))}**`];
  for (const recipe of recipes) lines.push("", ...recipeLines(recipe, review.rendered));
  return `${lines.join("\n")}\n`;
}

function recipeLines(recipe: ReviewRecipe, rendered: boolean): string[] {
  const note = recipeNote(recipe);
  const lines = [`### ${md(recipeHead(recipe))}`];
  if (note) lines.push("", md(note));
  for (const problem of recipe.problems) lines.push("", `**Error** ${md(problem)}`);
  if (recipe.impact.length > 0)
    lines.push(
      "",
      "| roll | frames that look different |",
      "| --- | --- |",
      ...recipe.impact.map(({ file, title, frames, of }) => `| ${md(title ?? file)} | ${frames} of ${of} |`),
    );
  const shared = recipe.changes.filter(({ frame }) => frame === undefined);
  const ids = frameOrder(recipe);
  const folded = foldedFrames(recipe);
  if (shared.length + ids.length + folded.length === 0) return lines;
  lines.push("", "| | what | change | ΔE00 |", "| --- | --- | --- | --- |");
  for (const change of shared) {
    const reach = followerText(change.followers, recipe.of);
    lines.push(`| ${recipe.kind} | ${change.group} | ${md(textInGroup(change))}${reach ? `; ${reach}` : ""} | |`);
  }
  for (const id of ids) {
    const frame = recipe.frames.find((one) => one.id === id);
    const own = recipe.changes.filter((change) => change.frame === id);
    const words = frame && !frame.difference ? frameText(frame, rendered) : "";
    const measured = frame?.difference ? differenceText(frame.difference) : words;
    const what = [...new Set(own.map(({ group }) => group))].join(", ");
    const texts = [...own.map(({ text }) => md(text)), ...(frame?.notes ?? []).map((note) => `*${md(note)}*`)];
    const inherited = own.length === 0 && frame?.status === "changed" ? ["follows the roll"] : [];
    lines.push(`| frame ${md(id)} | ${what} | ${[...texts, ...inherited].join("<br>")} | ${measured} |`);
  }
  if (folded.length > 0)
    lines.push(
      `| ${folded.length === 1 ? "frame" : "frames"} ${md(folded.join(", "))} | | follows the roll | no visible change |`,
    );
  return lines;
}
