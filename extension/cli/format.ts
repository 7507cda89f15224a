/** `rollbook format`: puts recipes into canonical order and layout. */
import { existsSync } from "node:fs";
import { decodeRecipe } from "../recipe/yaml/encoding.ts";
import { tryFormat } from "../recipe/edit/layout/format.ts";
import { migrateRecipe } from "../recipe/edit/versions.ts";
import { readPlainFile } from "../work/files/read-plain-file.ts";
import { replaceRecipe } from "./change.ts";
import { DRY_RUN_OPTION } from "./dry-run.ts";
import { ROOT_OPTION, workspaceFor } from "./load.ts";
import { EXIT, flag, UsageError, type Verb } from "./verb.ts";

export const format: Verb = {
  name: "format",
  summary: "format recipes in their canonical order and layout",
  usage: "RECIPE… [--check]",
  details:
    "Rewrites recipes in canonical order and layout; comments and values stay. A recipe of an older version of the\n" +
    "format is brought to the current one, with the same meaning. A recipe that cannot be read as YAML\n" +
    "is left as it is, and so is one that uses anchors, aliases, tags, ? keys or --- lines. With --check nothing is written, and the exit code is 1 when a recipe would change.",
  example: "rollbook format --check rolls/*.roll.yaml",
  options: { check: { help: "only list the recipes that are not formatted" }, ...DRY_RUN_OPTION, ...ROOT_OPTION },
  files: [1, Infinity],
  async run(call) {
    const { terminal } = call;
    const only = flag(call, "check");
    const changed: string[] = [];
    const left: { file: string; reason: string }[] = [];
    let hasRefused = false;
    for (const file of call.files) {
      const workspace = workspaceFor(call, file);
      const path = workspace.absolute(workspace.inside(file));
      if (!existsSync(path)) throw new UsageError(`There is no recipe ${file}.`);
      const text = decodeRecipe(readPlainFile(path));
      const { text: formatted, left: reason, isOddity } = tryFormat(migrateRecipe(text, { file }), { file });
      if (reason !== undefined) {
        terminal.printError(`${file} was left as it is. ${reason}`);
        left.push({ file, reason });
        hasRefused ||= !isOddity;
      }
      if (formatted === text) continue;
      changed.push(file);
      if (only) terminal.report(`${file} is not formatted.`);
      else if (await replaceRecipe(call, path, text, formatted)) terminal.print(`${file} formatted.`);
    }
    if (changed.length === 0 && left.length === 0) terminal.print("Every recipe is formatted.");
    const ok = !hasRefused && (!only || changed.length === 0);
    terminal.result({ ok, changed, left });
    return ok ? EXIT.good : EXIT.problems;
  },
};
