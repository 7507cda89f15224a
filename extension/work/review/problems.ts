/** The errors of a recipe, as a review lists them. */
import type { RecipeDocument } from "../../recipe/problems/document.ts";
import type { Problem } from "../../recipe/problems.ts";

/** The errors of a recipe, one line each, as compilers print them. */
export const errorsOf = ({ roll }: { readonly roll: RecipeDocument }, problems: readonly Problem[]): string[] =>
  problems
    .filter((problem) => problem.severity === "error")
    .map((problem) => {
      const { line, column } = roll.positionOf(problem.range[0]);
      return `${roll.file}:${line}:${column} ${problem.message}`;
    });
