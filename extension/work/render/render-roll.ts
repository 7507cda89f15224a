import { describeError } from "../../scans/files/system-errors.ts";
import { JobError, isWorkerLoss, type Failure } from "../../failure.ts";
import { dirname, join, resolve } from "node:path";
import type { ResolvedFrame, ResolvedOutput, ResolvedRoll } from "../../recipe/resolve/resolve.ts";
import { removeAbandonedParts } from "../../scans/files/atomic.ts";
import { makeFolder } from "../../scans/files/make-folder.ts";
import { eachLimited } from "../pool/each-limited.ts";
import { framePath } from "../frame/frame-path.ts";
import { frameSetup, lightTable } from "../frame/frame-setup.ts";
import type { RenderedFrame } from "./render-frame.ts";
import { joinOf } from "../frame/join/frame-join.ts";
import { fileMark } from "../../scans/files/file-mark.ts";
import { claimNames, folderWatch, openJournal } from "./journal.ts";
import { pictureRequest, type PlannedPicture, planPictures, rollAsSeenFrom, stemOf } from "./picture-plan.ts";
import type { Pool } from "../pool/pool.ts";
import { existingFile, targetFolder } from "./overwrite-guard.ts";
import { sourcesOf } from "../files/sources.ts";
import type { Workspace } from "../files/workspace.ts";
import { renderFrameJob } from "./jobs.ts";

/** What is to be rendered, and how to treat what is there already. */
export interface RenderOptions {
  /** Frames by name, in the order in which they are to be done. */
  readonly frames: readonly string[];
  readonly outputs: readonly ResolvedOutput[];
  /** Folder to write into; made when it is not there. */
  readonly directory: string;
  /** Replace files that are not this roll's own, too. Scans and recipes are never replaced. */
  readonly overwrite: boolean;
  /** Leave pictures alone that are there, whole, and made from the same recipe and scans. */
  readonly resume: boolean;
  /** Distinguishes the journals of shares that run at the same time. */
  readonly share?: string;
}

/** What became of a picture. */
export interface PictureReport {
  readonly output: string;
  /** Relative to the folder. */
  readonly file: string;
  readonly status: "written" | "kept";
  readonly width?: number;
  readonly height?: number;
  readonly bytes: number;
  readonly sha256: string;
}

/** What became of a frame. */
export interface FrameReport {
  readonly frame: string;
  readonly status: "written" | "kept" | "failed" | "cancelled";
  readonly pictures: readonly PictureReport[];
  readonly warnings: readonly string[];
  /** Why it failed. */
  readonly failure?: Failure;
}

export interface RenderHooks {
  readonly signal?: AbortSignal;
  /** Called with frames done (in parts) out of all. */
  readonly onProgress?: (done: number, total: number, frame: string) => void;
}

/**
 * Renders frames of a roll. A frame that fails is reported and the others go on. Reports come in the order of
 * `options.frames`, whatever order the workers finish in.
 */
export async function renderRoll(
  roll: ResolvedRoll,
  workspace: Workspace,
  pool: Pool,
  options: RenderOptions,
  hooks: RenderHooks = {},
): Promise<FrameReport[]> {
  const { signal } = hooks;
  const { overwrite } = options;
  const directory = resolve(options.directory);
  const sources = sourcesOf(roll, workspace);
  const stem = stemOf(roll.file);
  makeFolder(directory);
  const journal = openJournal(directory, options.share ? `${stem}.${options.share}` : stem);
  await claimNames(directory, stem, rollAsSeenFrom(directory, roll, workspace), overwrite);
  const inPlace = folderWatch(directory);
  const scans = resolve(workspace.root, roll.scans);
  await Promise.all(options.outputs.map(({ name }) => removeAbandonedParts(join(directory, name))));
  const lights = lightTable(roll, workspace, pool, signal);
  const frames = new Map(roll.frames.map((frame) => [frame.id, frame]));
  const parts = new Map<string, number>();
  const advance = (frame: string, part: number): void => {
    parts.set(frame, part);
    let done = 0;
    for (const p of parts.values()) done += p;
    hooks.onProgress?.(done, options.frames.length, frame);
  };

  async function frameReport(id: string): Promise<FrameReport> {
    try {
      return await render(frames.get(id) as ResolvedFrame);
    } catch (error) {
      const failure = describeError(error);
      const cancelled = failure.code === "cancelled" || (failure.code === "closed" && signal?.aborted);
      return { frame: id, status: cancelled ? "cancelled" : "failed", pictures: [], warnings: [], failure };
    } finally {
      advance(id, 1);
    }
  }

  async function render(frame: ResolvedFrame): Promise<FrameReport> {
    if (signal?.aborted) throw new JobError({ code: "cancelled", message: "The work was cancelled." });
    const joined = joinOf(roll, frame, workspace);
    const path = joined?.join?.scans[0].path ?? framePath(frame, workspace);
    const kept: PictureReport[] = [];
    const wanted: (PlannedPicture & { readonly mark?: string })[] = [];
    inPlace(directory);
    for (const picture of planPictures(roll, frame, workspace, directory, options.outputs)) {
      const { record } = picture;
      const there = await existingFile({ directory, record, sources, scans, overwrite }, journal, pool, signal);
      if (there?.current && options.resume)
        kept.push({
          output: record.output,
          file: record.file,
          status: "kept",
          bytes: there.size,
          sha256: there.sha256,
        });
      else wanted.push({ ...picture, mark: there?.mark });
    }
    if (wanted.length === 0) return { frame: frame.id, status: "kept", pictures: kept, warnings: [] };

    const { light, warnings } = await lights.of(frame);
    const requests = wanted.map((picture) => {
      makeFolder(dirname(picture.path));
      const folder = targetFolder(directory, picture.record.file);
      inPlace(dirname(picture.path), folder);
      journal.add(picture.record);
      return { ...pictureRequest(roll, frame, picture), replace: picture.mark ?? false, folder };
    });
    const request = {
      path,
      setup: { ...frameSetup(frame, light), ...joined },
      locked: roll.fingerprints[frame.scans[0].name],
      pictures: requests,
    };
    let done: RenderedFrame;
    try {
      done = await pool.run(renderFrameJob, request, { signal, onProgress: (part) => advance(frame.id, part) });
    } catch (error) {
      // What is there now where nothing was, and was not written by this frame, stays somebody else's.
      const { code, file } = describeError(error);
      for (const { record, path: target, mark } of wanted)
        if (mark === undefined && (fileMark(target) === undefined || (code === "exists" && file === target)))
          journal.abandon(record);
      throw error;
    }
    const pictures = done.pictures.map(({ output, width, height, size, sha256 }, i): PictureReport => {
      const { record } = wanted[i];
      journal.add({ ...record, done: { bytes: size, sha256 } });
      return { output, file: record.file, status: "written", width, height, bytes: size, sha256 };
    });
    return {
      frame: frame.id,
      status: "written",
      pictures: [...kept, ...pictures],
      warnings: [...warnings, ...done.warnings],
    };
  }

  // One more than there are workers, so that none waits for the next order.
  const reports = await eachLimited(options.frames, pool.workers + 1, frameReport);
  // What ended a worker or the process may have taken other frames with it: each is tried once more, alone.
  for (const [i, report] of reports.entries())
    if (isWorkerLoss(report.failure) && !signal?.aborted) reports[i] = await frameReport(report.frame);
  return reports;
}
