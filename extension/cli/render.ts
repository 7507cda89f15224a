/** `rollbook render`: writes a roll's pictures. */
import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { nearest } from "../recipe/problems/nearest.ts";
import { pointerText } from "../recipe/resolve/pointer.ts";
import type { ResolvedFrame, ResolvedRoll } from "../recipe/resolve/resolve.ts";
import type { Workspace } from "../work/files/workspace.ts";
import { framesToWrite, parseShard, selectFrames, shardOf } from "../work/frame/select-frames.ts";
import { planPictures } from "../work/render/picture-plan.ts";
import { type FrameReport, renderRoll, type RenderOptions } from "../work/render/render-roll.ts";
import { JobError } from "../failure.ts";
import { commandErrorText } from "./option-hints.ts";
import { DRY_RUN_OPTION, isDryRun } from "./dry-run.ts";
import { loadValid, ROOT_OPTION, type ValidRecipe } from "./load.ts";
import { withPool } from "./programs.ts";
import { type Call, EXIT, flag, text, UsageError, type Verb, whole } from "./verb.ts";

export const render: Verb = {
  name: "render",
  summary: "write a roll's pictures",
  usage:
    "ROLL -o FOLDER [--frames LIST] [--output NAME] [--workers N] [--shard i/n] [--without-rejected] [--resume] [--overwrite]",
  details:
    "Writes every frame in every form that the recipe's output names, to FOLDER/OUTPUT/ROLL-FRAME, or by the name that\n" +
    "the output's file states. A frame whose scan is missing or damaged is skipped and named at the end; the exit code\n" +
    "is then 1. Pictures of an earlier run of the same roll are replaced; any other file in their place is only replaced\n" +
    "with --overwrite, and scans and recipes never are. When the recipe is locked, scans that have changed since are\n" +
    "refused.",
  example: "rollbook render harbour.roll.yaml -o pictures --frames 1-12,14A --output web",
  options: {
    out: { value: "FOLDER", short: "o", help: "folder to write into" },
    frames: { value: "LIST", help: "frames and ranges, such as 1-12,14A" },
    output: { value: "NAME", help: "only the output of this name" },
    workers: { value: "N", help: "worker threads (default: one per processor core, at most 8)" },
    shard: { value: "i/n", help: "only every n-th frame from the i-th on, to spread a roll over machines" },
    resume: { help: "skip pictures that are complete and up to date" },
    "without-rejected": { help: "leave out frames whose choice is reject" },
    overwrite: { help: "replace files that are not this roll's own, too" },
    ...DRY_RUN_OPTION,
    ...ROOT_OPTION,
  },
  files: [1, 1],
  async run(call) {
    const { terminal, signal } = call;
    const out = text(call, "out");
    if (!out) throw new UsageError("Give the destination with -o FOLDER.");
    const workers = whole(call, "workers", 1, 64);
    const recipe = await loadValid(call);
    if (!recipe) return EXIT.problems;
    const { resolved, workspace } = recipe;
    const options = renderOptionsOf(call, resolved, resolve(out));
    if (options.frames.length === 0) terminal.printError("There is no frame to render.");

    if (isDryRun(call)) return dryRender(call, recipe, options);
    const reports = await withPool(workers, (pool) =>
      renderRoll(resolved, workspace, pool, options, {
        signal,
        onProgress: (done, total, frame) => terminal.progress(done, total, `frame ${frame}`),
      }),
    );
    terminal.clear();
    printReports(call, reports);
    const failed = reports.filter((r) => r.status === "failed");
    terminal.result({ ok: failed.length === 0 && !signal.aborted, recipe: recipe.shown, folder: out, frames: reports });
    if (signal.aborted) return EXIT.interrupted;
    return failed.length > 0 ? EXIT.problems : EXIT.good;
  },
};

/** Names every picture that would be written. */
async function dryRender({ terminal }: Call, recipe: ValidRecipe, options: RenderOptions): Promise<number> {
  const { resolved, workspace } = recipe;
  const pictures: { frame: string; file: string; exists: boolean }[] = [];
  for (const frame of resolved.frames.filter(({ id }) => options.frames.includes(id))) {
    const reason = await reasonToSkip(frame, workspace);
    if (reason !== undefined) terminal.printError(`frame ${frame.id} would be skipped: ${reason}`);
    else
      for (const { path, record } of planPictures(resolved, frame, workspace, options.directory, options.outputs))
        pictures.push({ frame: record.frame, file: record.file, exists: existsSync(path) });
  }
  for (const { file, exists } of pictures) terminal.print(`Would ${exists ? "replace" : "write"} ${file}.`);
  terminal.print(`${counted(pictures.length, "picture")} in ${options.directory}; nothing was written.`);
  terminal.result({ ok: true, recipe: recipe.shown, folder: options.directory, pictures, dryRun: true });
  return EXIT.good;
}

/** Why a frame cannot be rendered, as far as its scans' names tell; undefined where nothing speaks against it. */
async function reasonToSkip({ scans }: ResolvedFrame, workspace: Workspace): Promise<string | undefined> {
  for (const { path } of scans) {
    const pointer = await workspace.pointer(path);
    if (pointer) return `${path} ${pointerText(path, pointer).what}.`;
    if (!existsSync(workspace.absolute(path))) return `there is no ${path}.`;
  }
  return undefined;
}

const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? "" : "s"}`;

function renderOptionsOf(call: Call, roll: ResolvedRoll, directory: string): RenderOptions {
  const list = text(call, "frames");
  const ids = framesToWrite(roll, { withoutRejected: flag(call, "without-rejected") }).map(({ id }) => id);
  const selected = list === undefined ? ids : selectFrames(ids, list);
  const share = text(call, "shard");
  const shard = share === undefined ? undefined : parseShard(share);
  const name = text(call, "output");
  const outputs = roll.outputs.filter((output) => name === undefined || output.name === name);
  if (outputs.length === 0) {
    const names = roll.outputs.map((output) => output.name);
    const suggestion = nearest(name ?? "", names);
    throw new UsageError(
      `The recipe has no output "${name}". ${suggestion ? `Did you mean "${suggestion}"?` : `It has ${names.join(", ")}.`}`,
    );
  }
  return {
    frames: shard ? shardOf(selected, shard) : selected,
    outputs,
    directory,
    overwrite: flag(call, "overwrite"),
    resume: flag(call, "resume"),
    share: shard && `${shard.index}-of-${shard.count}`,
  };
}

function printReports({ terminal, signal }: Call, reports: readonly FrameReport[]): void {
  for (const report of reports) {
    for (const warning of report.warnings) terminal.printError(`frame ${report.frame}: ${warning}`);
    if (report.status !== "failed" || !report.failure) continue;
    const { message, ...rest } = report.failure;
    const why = commandErrorText(new JobError({ message, ...rest }));
    terminal.printError(`frame ${report.frame} was skipped: ${why}`);
  }
  const pictures = reports.flatMap((r) => r.pictures);
  const count = (status: string): number => pictures.filter((p) => p.status === status).length;
  const failed = reports.filter((r) => r.status === "failed").length;
  const parts = [`${counted(count("written"), "picture")} written`];
  if (count("kept") > 0) parts.push(`${count("kept")} kept`);
  if (failed > 0) parts.push(`${failed} of ${reports.length} frames skipped`);
  terminal.print(`${signal.aborted ? "Interrupted: " : ""}${parts.join(", ")}.`);
}
