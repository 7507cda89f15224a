/** The three calibrations that are read off a frame of a roll: chart, grey card, step wedge. */
import { resolve } from "node:path";
import { CHART_24 } from "../../engine/calibrate/chart-24.ts";
import { GOOD_MEAN, mean, ninetieth } from "../../engine/calibrate/chart-fit.ts";
import type { Point } from "../../engine/calibrate/chart-find.ts";
import type { ReferencePatch } from "../../engine/calibrate/chart-read.ts";
import { neutralise } from "../../engine/calibrate/grey.ts";
import type { ReadingArea } from "../../engine/flat-field/densitometer.ts";
import type { ResolvedFrame } from "../../recipe/resolve/resolve.ts";
import { chartValues, exposureEdit, greyValues, rounded } from "../../work/calibrate/calibration-values.ts";
import { lightTable } from "../../work/frame/frame-setup.ts";
import type { Pool } from "../../work/pool/pool.ts";
import { selectFrames } from "../../work/frame/select-frames.ts";
import { loadValid, type ValidRecipe } from "../load.ts";
import { withPool } from "../programs.ts";
import { readPlainFile } from "../../work/files/read-plain-file.ts";
import { type Call, EXIT, text, UsageError } from "../verb.ts";
import { writeValues } from "./write.ts";
import { calibrateChartJob, calibrateWedgeJob, readGreyJob } from "../../work/calibrate/jobs.ts";

/** A list of numbers from an option. */
function numbers(call: Call, name: string, count: number): number[] | undefined {
  const given = text(call, name);
  if (given === undefined) return undefined;
  const values = given.split(",").map((v) => (v.trim() === "" ? NaN : Number(v)));
  if (values.length !== count || !values.every(Number.isFinite))
    throw new UsageError(`--${name} takes ${count} numbers with commas between them, not "${given}".`);
  return values;
}

/** Loads the roll, picks the frame, measures its light, and hands both to `work`. */
async function onFrame(
  call: Call,
  file: string,
  work: (recipe: ValidRecipe, frame: ResolvedFrame, on: ScanOptions) => Promise<number>,
): Promise<number> {
  const recipe = await loadValid({ ...call, files: [file] });
  if (!recipe) return EXIT.problems;
  const { resolved, workspace } = recipe;
  const options = text(call, "frame");
  if (options === undefined) throw new UsageError("Which frame shows the target? Name it with --frame.");
  const [id] = selectFrames(
    resolved.frames.map((f) => f.id),
    options,
  );
  const frame = resolved.frames.find((f) => f.id === id)!;
  if (frame.scans.length !== 1)
    throw new UsageError(`Frame ${id} has ${frame.scans.length} scans; a target needs one.`);
  const path = workspace.absolute(frame.scans[0].path);
  return withPool(1, async (pool) => {
    const { light } = await lightTable(resolved, workspace, pool, call.signal).of(frame);
    return work(recipe, frame, { pool, path, light });
  });
}

interface ScanOptions {
  readonly pool: Pool;
  readonly path: string;
  readonly light: Awaited<ReturnType<ReturnType<typeof lightTable>["of"]>>["light"];
}

export const calibrateChart = (call: Call, file: string): Promise<number> =>
  onFrame(call, file, async (recipe, frame, { pool, path, light }) => {
    const flat = numbers(call, "corners", 8);
    const corners = flat && ([0, 2, 4, 6].map((i): Point => [flat[i], flat[i + 1]]) as [Point, Point, Point, Point]);
    const reference = await referenceOf(text(call, "reference"));
    const request = { path, light, look: frame.look, area: frame.area, reference, corners };
    const { fit, reading, patches, seen } = await pool.run(calibrateChartJob, request, { signal: call.signal });
    const { terminal } = call;
    const printed = {
      fit: { mean: rounded(mean(fit.errors), 2), ninetieth: rounded(ninetieth(fit.errors), 2) },
      heldOut: { mean: rounded(mean(fit.heldOut), 2), ninetieth: rounded(ninetieth(fit.heldOut), 2) },
    };
    const where = `${reading.turned ? `, turned by ${reading.turned}°` : ""}${reading.mirrored ? ", mirrored" : ""}`;
    terminal.print(`chart     ${seen} of ${reference.length} patches seen${where}`);
    if (reading.unseen.length > 0)
      terminal.print(`          not seen, placed by the other patches: ${reading.unseen.join(", ")}`);
    if (reading.clipped.length > 0) terminal.print(`          clipped and left out: ${reading.clipped.join(", ")}`);
    terminal.print(`fitted    mean ΔE00 ${printed.fit.mean}, nine tenths below ${printed.fit.ninetieth}`);
    terminal.print(`left out  mean ΔE00 ${printed.heldOut.mean}, nine tenths below ${printed.heldOut.ninetieth}`);
    fit.errors.forEach((e, i) => {
      if (e > 4) terminal.print(`          ${patches[i]}: ΔE00 ${e.toFixed(1)}`);
    });
    if (printed.fit.mean > GOOD_MEAN || printed.heldOut.mean > 1.5 * GOOD_MEAN)
      terminal.printError(
        `The chart fits less well than charts usually do (mean ΔE00 ${GOOD_MEAN}); look at the positive before you keep it. ` +
          "Uneven light, reflections on the chart, a wrong base or film, or noise do this.",
      );
    const { unmix, colour, filtration, exposure, edits } = chartValues(fit, recipe.resolved.film);
    for (const [name, rows] of Object.entries({ unmix, colour }))
      terminal.print(`${name.padEnd(8)}  ${rows.map((r) => `[${r.join(", ")}]`).join(", ")}`);
    const slide = recipe.resolved.film === "slide";
    if (!slide)
      terminal.print(
        `filtration  cyan ${filtration.cyan}  magenta 0  yellow ${filtration.yellow}, belongs to the matrices`,
      );
    terminal.print(`exposure    ${exposure}, for frame ${frame.id}`);
    const ofFrame = isThisRoll(call, file) ? [exposureEdit(frame.id, exposure)] : [];
    const written = await writeValues(call, [...edits, ...ofFrame]);
    terminal.result({
      ok: true,
      frame: frame.id,
      seen,
      ...reading,
      ...printed,
      unmix,
      colour,
      ...(slide ? {} : { filtration, curve: fit.curve }),
      exposure,
      patches,
      errors: fit.errors,
      written,
    });
    return EXIT.good;
  });

/** Whether --write names the roll whose frame shows the chart: then the frame's own exposure is written too. */
const isThisRoll = (call: Call, file: string): boolean => {
  const written = text(call, "write");
  return written !== undefined && resolve(written) === resolve(file);
};

/** Names and L*a*b* (D50) of a chart that was measured: a CSV with the columns name, L, a, b. */
async function referenceOf(file: string | undefined): Promise<readonly ReferencePatch[]> {
  if (file === undefined) return CHART_24;
  const lines = readPlainFile(file)
    .toString("utf8")
    .split(/\r?\n/)
    .filter((l) => l.trim() !== "" && !l.startsWith("#"));
  const names = (lines[0] ?? "").split(",").map((n) => n.trim());
  const [l, a, b] = ["L", "a", "b"].map((n) => names.indexOf(n));
  if (l < 0 || a < 0 || b < 0 || lines.length !== 25)
    throw new UsageError(`${file} must have the columns name, L, a, b and 24 rows, as the chart's rows run.`);
  return lines.slice(1).map((line, i) => {
    const cells = line.split(",");
    const lab = [Number(cells[l]), Number(cells[a]), Number(cells[b])] as const;
    if (!lab.every(Number.isFinite)) throw new UsageError(`${file}: row ${i + 1} has no three numbers L, a, b.`);
    return { name: cells[0], lab };
  });
}

export const calibrateGrey = (call: Call, file: string): Promise<number> =>
  onFrame(call, file, async (_recipe, frame, { pool, path, light }) => {
    const area = numbers(call, "area", 4) as ReadingArea | undefined;
    if (!area) throw new UsageError("Where is the grey card? Give --area x,y,w,h in fractions of the scan's sides.");
    const { transmittance } = await pool.run(readGreyJob, { path, light, area }, { signal: call.signal });
    const { filtration: set, exposure: stops } = greyValues(neutralise(frame.look, transmittance));
    call.terminal.print(`filtration  cyan ${set.cyan}  magenta ${set.magenta}  yellow ${set.yellow}, for the roll`);
    call.terminal.print(`exposure    ${stops}, for frame ${frame.id}`);
    const written = await writeValues(call, [
      { path: ["positive", "filtration"], value: set },
      exposureEdit(frame.id, stops),
    ]);
    call.terminal.result({ ok: true, frame: frame.id, filtration: set, exposure: stops, written });
    return EXIT.good;
  });

/** The usual wedge of 21 steps of 0.15 D; its ends are from memory, and each differs by a few hundredths. */
const DEFAULT_STEPS = Array.from({ length: 21 }, (_, k) => rounded(0.05 + 0.15 * k, 2));

export const calibrateWedge = (call: Call, file: string): Promise<number> =>
  onFrame(call, file, async (_recipe, frame, { pool, path, light }) => {
    const known = await knownSteps(text(call, "densities"));
    const [left, top, width, height] = numbers(call, "area", 4) ?? [];
    const area = left === undefined ? undefined : { left, top, width, height, tilt: frame.area.tilt };
    const wedge = await pool.run(calibrateWedgeJob, { path, light, known, area }, { signal: call.signal });
    const { terminal } = call;
    terminal.print(`steps     ${known.length}, from ${known[0]} to ${known.at(-1)} D`);
    terminal.print(
      `flare     ${wedge.flare.toFixed(4)} of the bare light; unseen, it spoils what is denser than ${wedge.flareLimit} D`,
    );
    terminal.print(`slope     ${wedge.slope.toFixed(3)}; off by ${wedge.worst.toFixed(3)} D at most`);
    terminal.print(`usable    ${wedge.usable[0]} to ${wedge.usable[1]} D`);
    const written = await writeValues(call, [{ path: ["light", "flare"], value: rounded(wedge.flare, 4) }]);
    terminal.result({ ok: true, frame: frame.id, ...wedge, written });
    return EXIT.good;
  });

async function knownSteps(file: string | undefined): Promise<number[]> {
  if (file === undefined) return DEFAULT_STEPS;
  const values = readPlainFile(file)
    .toString("utf8")
    .split(/[\s,;]+/)
    .filter((v) => v !== "" && !Number.isNaN(Number(v)))
    .map(Number);
  if (values.length < 5) throw new UsageError(`${file} must list the wedge's densities, five at least.`);
  return values.toSorted((a, b) => a - b);
}
