/** `rollbook lens`: measures the faults of the copy lens on a roll's own scans. */
import { changeRecipe } from "./change.ts";
import { DRY_RUN_OPTION, isDryRun } from "./dry-run.ts";
import { loadValid, ROOT_OPTION } from "./load.ts";
import { withPool } from "./programs.ts";
import { type Call, EXIT, flag, type Verb, whole } from "./verb.ts";
import { type CornerShift, lensEdits, type LensReport, measureLens } from "../work/lens/measure-lens.ts";

export const lens: Verb = {
  name: "lens",
  summary: "measure the faults of the copy lens",
  usage: "ROLL [--write]",
  details:
    "Measures, on up to ten scans of the roll: lateral colour, the shift of red and blue against green, on detail and grain;\n" +
    "distortion, on the straight edges of the pictures, where rebate is in view around them; and, on rolls without a blank,\n" +
    "the falloff of light and lens, on the film's base around and between the pictures and on the leader. With --write it\n" +
    "goes into the recipe's light.lens, and every scan is corrected by it. What is not sure to 0.1 px (lateral colour) or\n" +
    "0.05 % (distortion) in the corner, or to 0.05 EV (falloff), is reported and not written. After a change of the distortion,\n" +
    "joins have to be measured again; after one of the falloff, exposures: rollbook new --update ROLL --only exposure.",
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
    printReport(report, terminal);
    const edits = lensEdits(report);
    const write = flag(call, "write") && edits.length > 0;
    if (write && (await changeRecipe(call, workspace.absolute(document.file), document.text, edits)))
      terminal.print(`Written to ${recipe.shown}.`);
    const ok = report.failures.length === 0;
    terminal.result({ ok, recipe: recipe.shown, ...report, written: write && !isDryRun(call) });
    return ok ? EXIT.good : EXIT.problems;
  },
};

const TOO_SMALL = "That is too small to be corrected, and is not written.";

function printReport(
  { lateral, distortion, falloff, blank, scans, joins }: LensReport,
  terminal: Call["terminal"],
): void {
  terminal.print(`measured on ${scans.length} scans`);
  if (!lateral)
    terminal.print("Lateral colour cannot be measured: the scans show too little detail that all colours share.");
  else {
    const { red, blue, sure, needed } = lateral;
    terminal.print(`lateral colour in the corner  red ${inPixels(red)}  blue ${inPixels(blue)}`);
    if (!sure)
      terminal.print("That is not sure enough to be written: more frames, or frames with more detail, are needed.");
    else if (!needed) terminal.print(TOO_SMALL);
  }
  if (!distortion)
    terminal.print(
      "Distortion cannot be measured: too little of the pictures' edges, with rebate around them, is in view.",
    );
  else {
    const { corner, error, places, edges, sure, needed } = distortion;
    const percent = (part: number): string => `${(100 * part).toFixed(3)} %`;
    terminal.print(
      `distortion in the corner  ${percent(corner)} ±${percent(error)}, on ${places} places of ${edges} edges`,
    );
    if (!sure)
      terminal.print("That is not sure enough to be written: more frames with all four edges in view are needed.");
    else if (!needed) terminal.print(TOO_SMALL);
  }
  if (!blank) printFalloff(falloff, terminal);
  if (joins.length > 0)
    terminal.print(
      `Joins were measured without this distortion (frames ${joins.join(", ")}): measure them again with rollbook join.`,
    );
}

const inPixels = ({ shift, error }: CornerShift): string => `${shift.toFixed(2)} px ±${error.toFixed(2)}`;

function printFalloff(falloff: LensReport["falloff"], terminal: Call["terminal"]): void {
  if (!falloff)
    return terminal.print(
      "Falloff cannot be measured: too little of the film's base is in view, or the recipe states no base.",
    );
  const { span, error, cells, scans, sure, needed } = falloff;
  terminal.print(
    `falloff  ${span.toFixed(3)} EV ±${error.toFixed(3)}, on ${cells} places of clear film in ${scans} scans`,
  );
  if (!sure)
    terminal.print(
      "That is not sure enough to be written: rebate along all sides of the pictures, or a leader, is needed; or a blank.",
    );
  else if (!needed) terminal.print(TOO_SMALL);
}
