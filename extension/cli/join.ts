/** `rollbook join`: measures the relative positions of the scans of large frames. */
import { changeRecipe } from "./change.ts";
import { DRY_RUN_OPTION, isDryRun } from "./dry-run.ts";
import { loadValid, ROOT_OPTION } from "./load.ts";
import { withPool } from "./programs.ts";
import { EXIT, flag, type Verb, whole } from "./verb.ts";
import type { JoinPlace } from "../engine/image/join/place.ts";
import { joinEdits, joinFrames } from "../work/frame/join/join-frames.ts";

export const join: Verb = {
  name: "join",
  summary: "measure the relative positions of the scans of a joined frame",
  usage: "ROLL [--again] [--write]",
  details:
    "For every frame that names several scans: finds where each lies on the first, in pixels and degrees, and the exposure in\n" +
    "EV that it needs, from what they show in common. Neighbouring scans overlap by a quarter or more; they lie in a row or in\n" +
    "rows and columns, and are listed in any order. Frames that have a join already are left alone unless --again is given.\n" +
    "With --write the numbers go into the recipe; rendering then needs no search.",
  example: "rollbook join sheets.roll.yaml --write",
  options: {
    again: { help: "measure frames that have a join already, too" },
    write: { help: "write the positions into the recipe" },
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
    const frames = await withPool(workers, (pool) =>
      joinFrames(
        resolved,
        workspace,
        pool,
        { again: flag(call, "again") },
        {
          signal,
          onProgress: (done, total, frame) => terminal.progress(done, total, `frame ${frame}`),
          onFrame: ({ frame, join: places, residual, overlaps, problem }) =>
            places
              ? terminal.print(
                  `frame ${frame}: ${places.map(placeText).join("; ")} (${overlaps?.length} overlap${overlaps?.length === 1 ? "" : "s"}, ±${residual?.toFixed(2)} px)`,
                )
              : terminal.printError(`frame ${frame}: ${problem}`),
        },
      ),
    );
    const edits = joinEdits(frames);
    if (frames.length === 0) terminal.print("No frame has scans to be joined.");
    const write = flag(call, "write") && edits.length > 0;
    if (write) {
      if (await changeRecipe(call, workspace.absolute(document.file), document.text, edits))
        terminal.print(`Written to ${recipe.shown}.`);
    }
    const bad = frames.some((f) => f.problem !== undefined);
    terminal.result({ ok: !bad, recipe: recipe.shown, frames, written: write && !isDryRun(call) });
    return bad ? EXIT.problems : EXIT.good;
  },
};

const placeText = ([x, y, angle, exposure = 0]: JoinPlace): string =>
  `${x}, ${y}, ${angle}° (${[exposure].flat().join(", ")} EV)`;
