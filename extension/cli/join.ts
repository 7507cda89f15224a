import { errorText } from "../scans/files/system-errors.ts";
import type { ValueEdit } from "../recipe/edit/edit.ts";
import { lightTable } from "../work/frame/frame-setup.ts";
import { changeRecipe } from "./change.ts";
import { loadValid, ROOT_OPTION } from "./load.ts";
import { withPool } from "./programs.ts";
import { EXIT, flag, type Verb, whole } from "./verb.ts";
import { measureJoinJob } from "../work/frame/jobs.ts";

export const join: Verb = {
  name: "join",
  summary: "measure how the scans of large frames lie to one another",
  usage: "ROLL [--again] [--write]",
  details:
    "For every frame that names several scans: finds where each lies on the first, in pixels and degrees, from what both\n" +
    "show. Neighbouring scans overlap by a quarter or more and are listed in order. Frames that have a join already are\n" +
    "left alone unless --again is given. With --write the numbers go into the recipe; rendering then needs no search.",
  example: "rollbook join sheets.roll.yaml --write",
  options: {
    again: { help: "measure frames that have a join already, too" },
    write: { help: "write the places into the recipe" },
    workers: { value: "N", help: "worker threads (default: one a processor core, 8 at most)" },
    ...ROOT_OPTION,
  },
  files: [1, 1],
  async run(call) {
    const { terminal, signal } = call;
    const workers = whole(call, "workers", 1, 64);
    const recipe = await loadValid(call);
    if (!recipe) return EXIT.problems;
    const { resolved, workspace, document } = recipe;
    const wanted = resolved.frames.filter((f) => f.scans.length > 1 && !f.skip && (!f.join || flag(call, "again")));
    const edits: ValueEdit[] = [];
    const frames: { frame: string; join?: number[][]; residual?: number; problem?: string }[] = [];
    await withPool(workers, async (pool) => {
      const lights = lightTable(resolved, workspace, pool, signal);
      for (const [i, frame] of wanted.entries()) {
        terminal.progress(i, wanted.length, `frame ${frame.id}`);
        try {
          const { light } = await lights.of(frame);
          const paths = frame.scans.map((s) => workspace.absolute(s.path));
          const { places, residual } = await pool.run(measureJoinJob, { paths, light }, { signal });
          const value = places.map(([x, y, a]) => [round(x, 2), round(y, 2), round(a, 4)]);
          edits.push({ path: ["frames", frame.id, "join"], value });
          frames.push({ frame: frame.id, join: value, residual: round(residual, 3) });
          terminal.print(
            `frame ${frame.id}: ${value.map((p) => p.join(", ")).join("; ")} (±${residual.toFixed(2)} px)`,
          );
        } catch (error) {
          if (signal.aborted) throw error;
          frames.push({ frame: frame.id, problem: errorText(error) });
          terminal.printError(`frame ${frame.id}: ${errorText(error)}`);
        }
      }
    });
    if (wanted.length === 0) terminal.print("No frame has scans to be joined.");
    const write = flag(call, "write") && edits.length > 0;
    if (write) {
      await changeRecipe(workspace.absolute(document.file), document.text, edits);
      terminal.print(`Written to ${recipe.shown}.`);
    }
    const bad = frames.some((f) => f.problem !== undefined);
    terminal.result({ ok: !bad, recipe: recipe.shown, frames, written: write });
    return bad ? EXIT.problems : EXIT.good;
  },
};

const round = (value: number, digits: number): number => Number(value.toFixed(digits));
