/** `rollbook lock`: writes the scans' fingerprints into the recipe. */
import { changeRecipe } from "./change.ts";
import { DRY_RUN_OPTION } from "./dry-run.ts";
import { loadValid, ROOT_OPTION } from "./load.ts";
import { withPool } from "./programs.ts";
import { EXIT, type Verb } from "./verb.ts";
import { fingerprintScans } from "../work/files/fingerprint-scans.ts";

export const lock: Verb = {
  name: "lock",
  summary: "write the scans' fingerprints into a recipe",
  usage: "ROLL",
  details:
    "Writes size and SHA-256 of every scan, blank and base scan into the recipe's fingerprints. From then on, rendering\n" +
    "refuses a scan that is not the same file: the same recipe means the same picture.",
  example: "rollbook lock harbour.roll.yaml",
  options: { ...DRY_RUN_OPTION, ...ROOT_OPTION },
  files: [1, 1],
  async run(call) {
    const { terminal, signal } = call;
    const recipe = await loadValid(call);
    if (!recipe) return EXIT.problems;
    const { resolved, workspace, document } = recipe;
    const { fingerprints, missing, total } = await withPool(undefined, (pool) =>
      fingerprintScans(resolved, workspace, pool, {
        signal,
        onProgress: (done, all, scan) => terminal.progress(done, all, scan),
      }),
    );
    for (const { message } of missing) terminal.printError(message);
    // A lock with holes would look like a promise about every scan.
    if (missing.length === 0) {
      const edit = { path: ["fingerprints"], value: fingerprints };
      if (await changeRecipe(call, workspace.absolute(document.file), document.text, [edit]))
        terminal.print(`${recipe.shown}: ${total} scans locked.`);
    } else terminal.printError(`${recipe.shown} was not locked: ${missing.length} of ${total} scans cannot be read.`);
    terminal.result({
      ok: missing.length === 0,
      recipe: recipe.shown,
      fingerprints,
      missing,
    });
    return missing.length > 0 ? EXIT.problems : EXIT.good;
  },
};
