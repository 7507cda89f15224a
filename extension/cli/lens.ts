/** `rollbook lens`: measures the faults of the copy lens on a roll's own scans. */
import { changeRecipe } from "./change.ts";
import { DRY_RUN_OPTION, isDryRun } from "./dry-run.ts";
import { loadValid, ROOT_OPTION } from "./load.ts";
import { withPool } from "./programs.ts";
import { EXIT, flag, type Verb, whole } from "./verb.ts";
import { type CornerShift, lensEdits, measureLens } from "../work/lens/measure-lens.ts";

export const lens: Verb = {
  name: "lens",
  summary: "measure the faults of the copy lens",
  usage: "ROLL [--write]",
  details:
    "Measures lateral colour, the shift of red and blue against green that grows towards the corners, on up to ten scans of\n" +
    "the roll: on the picture's edges and the film's grain. With --write it goes into the recipe's light.lens, and every scan\n" +
    "is corrected by it. What is not sure to 0.1 px in the corner is reported and not written.",
  example: "rollbook lens harbour.roll.yaml --write",
  options: {
    write: { help: "write what was measured into the recipe" },
    workers: { value: "N", help: "worker threads (default: one per processor core, at most 8)" },
    ...DRY_RUN_OPTION,
    ...ROOT_OPTION,
  },
  files: [1, 1],
  async run(call) {
    const { terminal, signal } = call;
    const workers = whole(call, "workers", 1, 64);
    const recipe = await loadValid(call);
    if (!recipe) return EXIT.problems;
    const { resolved, workspace, document } = recipe;
    const report = await withPool(workers, (pool) =>
      measureLens(resolved, workspace, pool, {
        signal,
        onProgress: (done, total, frame) => terminal.progress(done, total, `frame ${frame}`),
      }),
    );
    for (const { frame, message } of report.failures) terminal.printError(`frame ${frame}: ${message}`);
    const { lateral, scans } = report;
    if (!lateral)
      terminal.print("Lateral colour cannot be measured: the scans show too little detail that all colours share.");
    else {
      terminal.print(`lateral colour in the corner  red ${inPixels(lateral.red)}  blue ${inPixels(lateral.blue)}`);
      terminal.print(`measured on ${lateral.red.patches} and ${lateral.blue.patches} patches of ${scans.length} scans`);
      if (!lateral.sure)
        terminal.print("Not sure enough to be written: more frames, or frames with more detail, are needed.");
    }
    const edits = lensEdits(report);
    const write = flag(call, "write") && edits.length > 0;
    if (write && (await changeRecipe(call, workspace.absolute(document.file), document.text, edits)))
      terminal.print(`Written to ${recipe.shown}.`);
    const ok = report.failures.length === 0;
    terminal.result({ ok, recipe: recipe.shown, ...report, written: write && !isDryRun(call) });
    return ok ? EXIT.good : EXIT.problems;
  },
};

const inPixels = ({ shift, error }: CornerShift): string => `${shift.toFixed(2)} px ±${error.toFixed(2)}`;
