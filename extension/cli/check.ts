/** `rollbook check`: prints the problems of recipes. */
import { DRY_RUN_OPTION } from "./dry-run.ts";
import { loadRecipe, ROOT_OPTION } from "./load.ts";
import { printProblems, countText, type LocatedProblem } from "./problems.ts";
import { SARIF_OPTION, writeSarif } from "./sarif.ts";
import { EXIT, type Verb } from "./verb.ts";

export const check: Verb = {
  name: "check",
  summary: "check recipes; problems as path:line:column",
  usage: "RECIPE… [--sarif FILE] [--root FOLDER]",
  details:
    "Reads recipes of rolls and stocks, checks every key and value, and whether stocks and scans are there.\n" +
    "Exit code 1 when any recipe has an error; warnings alone leave it at 0.",
  example: "rollbook check rolls/*.roll.yaml",
  options: { ...SARIF_OPTION, ...DRY_RUN_OPTION, ...ROOT_OPTION },
  files: [1, Infinity],
  async run(call) {
    const { terminal } = call;
    const recipes: { file: string; frames: number; problems: readonly LocatedProblem[] }[] = [];
    let broken = false;
    for (const file of call.files) {
      const recipe = await loadRecipe(call, file);
      broken ||= recipe.broken;
      recipes.push({ file: recipe.shown, frames: recipe.resolved?.frames.length ?? 0, problems: recipe.problems });
      printProblems(terminal, recipe.problems, "out");
    }
    const all = recipes.flatMap((recipe) => recipe.problems);
    terminal.print(`${recipes.length === 1 ? "1 recipe" : `${recipes.length} recipes`}: ${countText(all)}.`);
    await writeSarif(call, all);
    terminal.result({ ok: !broken, recipes });
    return broken ? EXIT.problems : EXIT.good;
  },
};
