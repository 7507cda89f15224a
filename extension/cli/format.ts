import { readFile } from "node:fs/promises";
import { formatRecipe } from "../recipe/edit/format.ts";
import { migrateRecipe } from "../recipe/edit/versions.ts";
import { replaceRecipe } from "./change.ts";
import { EXIT, flag, UsageError, type Verb } from "./verb.ts";

export const format: Verb = {
  name: "format",
  summary: "bring recipes into the one canonical order and layout",
  usage: "RECIPE… [--check]",
  details:
    "Rewrites recipes in canonical order and layout; comments and values stay. A recipe of an older version of the\n" +
    "format is brought to the current one, with the same meaning. A recipe that cannot be read as YAML\n" +
    "is left as it is. With --check nothing is written, and the exit code is 1 when a recipe would change.",
  example: "rollbook format --check rolls/*.roll.yaml",
  options: { check: { help: "only say which recipes are not formatted" } },
  files: [1, Infinity],
  async run(call) {
    const { terminal } = call;
    const only = flag(call, "check");
    const changed: string[] = [];
    for (const file of call.files) {
      const text = await readFile(file, "utf8").catch(() => {
        throw new UsageError(`There is no recipe ${file}.`);
      });
      const formatted = formatRecipe(migrateRecipe(text, { file }), { file });
      if (formatted === text) continue;
      changed.push(file);
      if (!only) await replaceRecipe(file, text, formatted);
      terminal.print(only ? `${file} is not formatted.` : `${file} formatted.`);
    }
    if (changed.length === 0) terminal.print("Every recipe is formatted.");
    terminal.result({ ok: !only || changed.length === 0, changed });
    return only && changed.length > 0 ? EXIT.problems : EXIT.good;
  },
};
