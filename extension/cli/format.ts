/** `rollbook format`: puts recipes into canonical order and layout. */
import { existsSync } from "node:fs";
import { decodeRecipe } from "../recipe/yaml/encoding.ts";
import { tryFormat } from "../recipe/edit/layout/format.ts";
import { type Upgrade, upgradeRecipe } from "../recipe/edit/upgrade.ts";
import { loadRoll } from "../recipe/resolve/workspace.ts";
import { CURRENT_VERSION } from "../recipe/version.ts";
import type { Workspace } from "../work/files/workspace.ts";
import { readPlainFile } from "../work/files/read-plain-file.ts";
import { replaceRecipe } from "./change.ts";
import { DRY_RUN_OPTION } from "./dry-run.ts";
import { ROOT_OPTION, workspaceFor } from "./load.ts";
import { EXIT, flag, UsageError, type Verb } from "./verb.ts";

export const format: Verb = {
  name: "format",
  summary: "format recipes in their canonical order and layout",
  usage: "RECIPE… [--check] [--upgrade]",
  details:
    "Rewrites recipes in canonical order and layout; comments and values stay. With --upgrade a recipe of an\n" +
    "older version of the format is brought to the current one; mid-grey stays, and the largest colour difference (ΔE00)\n" +
    "of its prints is reported. A recipe that cannot be read as YAML is left as it is, and so is one that uses anchors,\n" +
    "aliases, tags, ? keys or --- lines. With --check nothing is written, and the exit code is 1 when a recipe would change.",
  example: "rollbook format --check rolls/*.roll.yaml",
  options: {
    check: { help: "only list the recipes that are not formatted" },
    upgrade: { help: "bring recipes of an older version of the format to the current one" },
    ...DRY_RUN_OPTION,
    ...ROOT_OPTION,
  },
  files: [1, Infinity],
  async run(call) {
    const { terminal } = call;
    const only = flag(call, "check");
    const changed: string[] = [];
    const upgraded: { file: string; difference: number }[] = [];
    const left: { file: string; reason: string }[] = [];
    let hasRefused = false;
    for (const file of call.files) {
      const workspace = workspaceFor(call, file);
      const path = workspace.absolute(workspace.inside(file));
      if (!existsSync(path)) throw new UsageError(`There is no recipe ${file}.`);
      const text = decodeRecipe(readPlainFile(path));
      const upgrade = flag(call, "upgrade") ? await upgradeOf(workspace, file) : undefined;
      const { text: formatted, left: reason, isOddity } = tryFormat(upgrade?.text ?? text, { file });
      if (reason !== undefined) {
        terminal.printError(`${file} was left as it is. ${reason}`);
        left.push({ file, reason });
        hasRefused ||= !isOddity;
      }
      if (formatted === text) continue;
      changed.push(file);
      if (upgrade) {
        upgraded.push({ file, difference: Number(upgrade.difference.toFixed(2)) });
        terminal.report(
          `${file}: version ${CURRENT_VERSION}, mid-grey stays, prints change by ΔE00 ${upgrade.difference.toFixed(2)} at most.`,
        );
      }
      if (only) terminal.report(`${file} is not formatted.`);
      else if (await replaceRecipe(call, path, text, formatted)) terminal.print(`${file} formatted.`);
    }
    if (changed.length === 0 && left.length === 0) terminal.print("Every recipe is formatted.");
    const ok = !hasRefused && (!only || changed.length === 0);
    terminal.result({ ok, changed, upgraded, left });
    return ok ? EXIT.good : EXIT.problems;
  },
};

/** The recipe in the current version; undefined where it is of that version already, or cannot be read. */
async function upgradeOf(workspace: Workspace, file: string): Promise<Upgrade | undefined> {
  const loaded = await loadRoll(workspace.inside(file), workspace);
  return loaded && upgradeRecipe(loaded.roll, loaded.stock);
}
