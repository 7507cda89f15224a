import { errorText } from "../scans/files/system-errors.ts";
import { eachLimited } from "../work/pool/each-limited.ts";
import type { ScanPlace } from "../recipe/resolve/resolve.ts";
import { changeRecipe } from "./change.ts";
import { loadValid, ROOT_OPTION } from "./load.ts";
import { withPool } from "./programs.ts";
import { EXIT, type Verb } from "./verb.ts";
import { fingerprintJob } from "../work/files/jobs.ts";

export const lock: Verb = {
  name: "lock",
  summary: "write the scans' fingerprints into a recipe",
  usage: "ROLL",
  details:
    "Writes size and SHA-256 of every scan, blank and base scan into the recipe's fingerprints. From then on, rendering\n" +
    "refuses a scan that is not the same file: the same recipe means the same picture.",
  example: "rollbook lock harbour.roll.yaml",
  options: ROOT_OPTION,
  files: [1, 1],
  async run(call) {
    const { terminal, signal } = call;
    const recipe = await loadValid(call);
    if (!recipe) return EXIT.problems;
    const { resolved, workspace, document } = recipe;
    const places = new Map<string, ScanPlace>();
    for (const { scans, light, base } of resolved.frames)
      for (const place of [...scans, light.blank, base.read?.scan]) if (place) places.set(place.name, place);

    let done = 0;
    const missing: { scan: string; message: string }[] = [];
    const entries = await withPool(undefined, (pool) =>
      eachLimited([...places.values()].toSorted(byName), pool.workers + 1, async ({ name, path }) => {
        try {
          return [name, await pool.run(fingerprintJob, { path: workspace.absolute(path) }, { signal })] as const;
        } catch (error) {
          if (signal.aborted) throw error;
          missing.push({ scan: name, message: errorText(error) });
          return undefined;
        } finally {
          terminal.progress(++done, places.size, name);
        }
      }),
    );
    for (const { message } of missing) terminal.printError(message);
    const found = entries.filter((entry) => entry !== undefined);
    // A lock with holes would look like a promise about every scan.
    if (missing.length === 0) {
      const value = Object.fromEntries(found.map(([name, { size, sha256 }]) => [name, { size, sha256 }]));
      await changeRecipe(workspace.absolute(document.file), document.text, [{ path: ["fingerprints"], value }]);
      terminal.print(`${recipe.shown}: ${found.length} scans locked.`);
    } else
      terminal.printError(`${recipe.shown} was not locked: ${missing.length} of ${places.size} scans cannot be read.`);
    terminal.result({
      ok: missing.length === 0,
      recipe: recipe.shown,
      fingerprints: Object.fromEntries(found),
      missing,
    });
    return missing.length > 0 ? EXIT.problems : EXIT.good;
  },
};

const byName = (a: ScanPlace, b: ScanPlace): number => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0);
