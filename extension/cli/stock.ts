/** `rollbook stock`: writes a roll's negative and look as a stock's recipe. */
import { resolve } from "node:path";
import { openOutput, STOCK_ENDINGS } from "../work/files/output-file.ts";
import { stockText } from "../work/new-roll/film/stock-text.ts";
import { DRY_RUN_OPTION, writeOutput } from "./dry-run.ts";
import { loadValid, ROOT_OPTION } from "./load.ts";
import { EXIT, flag, text, UsageError, type Verb } from "./verb.ts";

export const stock: Verb = {
  name: "stock",
  summary: "write a roll's negative and look as a stock",
  usage: "ROLL -o STOCK",
  details:
    "Writes a stock's recipe from what applies to a roll: curve or gamma, matrices, look, and the roll's base as the\n" +
    "reference that later rolls are compared with. Left out: scans, frames, light, exposures, where the base was read.",
  example: "rollbook stock harbour.roll.yaml -o stocks/northlight-400.stock.yaml",
  options: {
    out: { value: "STOCK", short: "o", help: "the recipe to write, NAME.stock.yaml" },
    title: { value: "TEXT", help: "the stock's title (default: the old stock's, or the roll's)" },
    overwrite: { help: "replace the recipe if it is there already" },
    ...DRY_RUN_OPTION,
    ...ROOT_OPTION,
  },
  files: [1, 1],
  async run(call) {
    const out = text(call, "out");
    if (out === undefined) throw new UsageError('"rollbook stock" needs the recipe to write: -o NAME.stock.yaml.');
    const path = resolve(out);
    const output = openOutput({ file: out, endings: STOCK_ENDINGS, overwrite: flag(call, "overwrite") });
    const recipe = await loadValid(call);
    if (!recipe) return EXIT.problems;
    const { resolved, workspace, document } = recipe;
    workspace.absolute(workspace.inside(path));
    const kept = await stockText(document, resolved, workspace, text(call, "title"));
    if (await writeOutput(call, output, out, kept)) call.terminal.print(`Written to ${out}.`);
    call.terminal.result({ ok: true, recipe: recipe.shown, stock: out });
    return EXIT.good;
  },
};
