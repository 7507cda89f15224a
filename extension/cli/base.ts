/** `rollbook base`: reads the density of the film's base. */
import { existsSync } from "node:fs";
import { relative, resolve, sep } from "node:path";
import type { ReadingArea } from "../engine/flat-field/densitometer.ts";
import type { ResolvedRoll, ScanPlace } from "../recipe/resolve/resolve.ts";
import { lightTable } from "../work/frame/frame-setup.ts";
import { mergeOf } from "../work/frame/merge/frame-merge.ts";
import type { Workspace } from "../work/files/workspace.ts";
import { changeRecipe } from "./change.ts";
import { DRY_RUN_OPTION, isDryRun } from "./dry-run.ts";
import { loadValid, ROOT_OPTION } from "./load.ts";
import { withPool } from "./programs.ts";
import { type Call, EXIT, flag, text, UsageError, type Verb } from "./verb.ts";
import { readBaseJob } from "../work/frame/jobs.ts";

export const base: Verb = {
  name: "base",
  summary: "read the density of the film's base",
  usage: "ROLL [--scan FILE --area x,y,w,h] [--write]",
  details:
    "Reads the median density of an area of a scan that shows unexposed, developed film (leader or rebate), per\n" +
    "channel, after blank and exposure normalisation. Scan and area default to those in the recipe's negative.base.read.\n" +
    "With --write the reading goes into the recipe, with its scan, area and standard deviation.",
  example: "rollbook base harbour.roll.yaml --scan LEADER.dng --area 0.4,0.4,0.2,0.2 --write",
  options: {
    scan: { value: "FILE", help: "scan to read, by its name in the recipe's scans folder" },
    area: { value: "x,y,w,h", help: "left, top, width, height in fractions of the scan's sides" },
    write: { help: "write the reading into the recipe" },
    ...DRY_RUN_OPTION,
    ...ROOT_OPTION,
  },
  files: [1, 1],
  async run(call) {
    const { terminal, signal } = call;
    const recipe = await loadValid(call);
    if (!recipe) return EXIT.problems;
    const { resolved, workspace, document } = recipe;
    const place = scanOf(call, resolved, workspace);
    const area = areaOf(call, resolved);
    const { density, scatter, pixels, warnings } = await withPool(1, async (pool) => {
      const { light } = await lightTable(resolved, workspace, pool, signal).of({
        light: resolved.shared.light,
        base: { read: { scan: place } },
      });
      const frame = resolved.frames.find(({ scans }) => scans.some(({ path }) => path === place.path));
      const merge = frame && mergeOf(resolved, frame, workspace);
      return pool.run(readBaseJob, { path: workspace.absolute(place.path), merge, area, light }, { signal });
    });
    for (const warning of warnings) terminal.printError(warning);
    const rounded = density.map((d) => round(d, 4));
    const spread = scatter.map((d) => round(d, 3));
    terminal.print(`base  red ${fixed(density[0])}  green ${fixed(density[1])}  blue ${fixed(density[2])}`);
    terminal.print(`standard deviation ${spread.join(", ")} over ${pixels} pixels of ${place.name}`);
    const write = flag(call, "write");
    if (write) {
      const value = { density: rounded, read: { scan: place.name, area, scatter: spread } };
      const edits = [{ path: ["negative", "base"], value }];
      if (await changeRecipe(call, workspace.absolute(document.file), document.text, edits))
        terminal.print(`Written to ${recipe.shown}.`);
    }
    const reading = { density: rounded, scatter: spread, pixels, scan: place.name, area };
    terminal.result({ ok: true, recipe: recipe.shown, ...reading, warnings, written: write && !isDryRun(call) });
    return EXIT.good;
  },
};

/** The scan by its name in the scans folder; a path from the current folder is understood too. */
function scanOf(call: Call, roll: ResolvedRoll, workspace: Workspace): ScanPlace {
  const wanted = text(call, "scan");
  if (wanted === undefined) {
    const read = roll.shared.base.read;
    if (read) return read.scan;
    throw new UsageError("The recipe states no scan to read the base from. Give one with --scan FILE.");
  }
  const folder = resolve(workspace.root, roll.scans);
  const from = existsSync(resolve(folder, wanted)) || !existsSync(wanted) ? resolve(folder, wanted) : resolve(wanted);
  const posix = (path: string): string => path.split(sep).join("/");
  return { name: posix(relative(folder, from)), path: posix(relative(workspace.root, from)) };
}

function areaOf(call: Call, roll: ResolvedRoll): ReadingArea {
  const wanted = text(call, "area");
  if (wanted === undefined) {
    const area = roll.shared.base.read?.area;
    if (area) return area;
    throw new UsageError("The recipe states no area to read the base from. Give one with --area x,y,w,h.");
  }
  const numbers = wanted.split(",").map((part) => (part.trim() === "" ? NaN : Number(part)));
  if (numbers.length !== 4 || !numbers.every(Number.isFinite))
    throw new UsageError(`--area takes four numbers such as 0.4,0.4,0.2,0.2, not "${wanted}".`);
  return [numbers[0], numbers[1], numbers[2], numbers[3]];
}

const round = (value: number, digits: number): number => Number(value.toFixed(digits));
const fixed = (value: number): string => value.toFixed(3);
