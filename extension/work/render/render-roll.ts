/** Renders the frames of a roll into a folder. */
import { describeError } from "../../scans/files/system-errors.ts";
import { JobError, isWorkerLoss, type Failure } from "../../failure.ts";
import { dirname, join, resolve } from "node:path";
import { recipeStem } from "../../recipe/resolve/picture-name.ts";
import type { ResolvedFrame, ResolvedOutput, ResolvedRoll } from "../../recipe/resolve/resolve.ts";
import { removeAbandonedParts } from "../../scans/files/atomic.ts";
import { makeFolder } from "../../scans/files/make-folder.ts";
import { framePath, scanPaths } from "../frame/frame-path.ts";
import { eachByScan, type ScanSharing } from "../frame/frames-by-scan.ts";
import { frameSetup, lightTable } from "../frame/frame-setup.ts";
import type { RenderedFrame } from "./render-frame.ts";
import { partsOf } from "../frame/join/frame-join.ts";
import { fileMark } from "../../scans/files/file-mark.ts";
import { claimNames, folderWatch, openJournal } from "./journal.ts";
import { pictureRequest, type PlannedPicture, planPictures, printerRequest, rollAsSeenFrom } from "./picture-plan.ts";
import type { Pool } from "../pool/pool.ts";
import { existingFile, targetFolder } from "./overwrite-guard.ts";
import { sourcesOf } from "../files/sources.ts";
import type { Workspace } from "../files/workspace.ts";
import { checkProfileJob, renderFrameJob } from "./jobs.ts";

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

/** What every frame of a render shares. */
interface RenderJob {
  readonly roll: ResolvedRoll;
  readonly workspace: Workspace;
  readonly pool: Pool;
  readonly options: RenderOptions;
  readonly signal: AbortSignal | undefined;
  /** Absolute folder of the pictures. */
  readonly directory: string;
  /** Absolute folder of the scans. */
  readonly scans: string;
  readonly sources: ReturnType<typeof sourcesOf>;
  readonly lights: ReturnType<typeof lightTable>;
  readonly journal: ReturnType<typeof openJournal>;
  /** Throws where a folder was replaced while the roll is rendered. */
  readonly inPlace: ReturnType<typeof folderWatch>;
}

type WantedPicture = PlannedPicture & { readonly mark?: string };

/**
 * Renders frames of a roll, those of one scan one after another, so that it is decoded once. Nothing is written where a
 * printer's profile cannot be used. A frame that fails is reported and the others go on. Reports come in the order of
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
  const job = await openRender(roll, workspace, pool, options, signal);
  const byId = new Map(roll.frames.map((frame) => [frame.id, frame]));
  const frames = options.frames.map((id) => byId.get(id) as ResolvedFrame);
  const advance = progressOf(options.frames.length, hooks);

  async function frameReport(frame: ResolvedFrame, sharing: ScanSharing = {}): Promise<FrameReport> {
    const { id } = frame;
    try {
      return await renderPictures(job, frame, sharing, (part) => advance(id, part));
    } catch (error) {
      const failure = describeError(error);
      const cancelled = failure.code === "cancelled" || (failure.code === "closed" && signal?.aborted);
      return { frame: id, status: cancelled ? "cancelled" : "failed", pictures: [], warnings: [], failure };
    } finally {
      advance(id, 1);
    }
  }

  const reports = await eachByScan(frames, pool.workers, frameReport);
  // What ended a worker or the process may have taken other frames with it: each is tried once more, alone.
  for (const [i, report] of reports.entries())
    if (isWorkerLoss(report.failure) && !signal?.aborted) reports[i] = await frameReport(frames[i]);
  return reports;
}

/** Tries each printer's profile: one that cannot be used would fail every frame, after the work of drawing it. */
async function checkPrinters(
  outputs: readonly ResolvedOutput[],
  workspace: Workspace,
  pool: Pool,
  signal: AbortSignal | undefined,
): Promise<void> {
  const requests = outputs.flatMap(({ print }) => (print ? (printerRequest(print, workspace) ?? []) : []));
  for (const request of requests) await pool.run(checkProfileJob, request, { signal });
}

/** Makes the folder, claims the names in it, and removes what an interrupted render has left. */
async function openRender(
  roll: ResolvedRoll,
  workspace: Workspace,
  pool: Pool,
  options: RenderOptions,
  signal: AbortSignal | undefined,
): Promise<RenderJob> {
  await checkPrinters(options.outputs, workspace, pool, signal);
  const directory = resolve(options.directory);
  const sources = sourcesOf(roll, workspace);
  const stem = recipeStem(roll.file);
  makeFolder(directory);
  const journal = openJournal(directory, options.share ? `${stem}.${options.share}` : stem);
  await claimNames(directory, stem, rollAsSeenFrom(directory, roll, workspace), options.overwrite);
  const inPlace = folderWatch(directory);
  const scans = resolve(workspace.root, roll.scans);
  await Promise.all(options.outputs.map(({ name }) => removeAbandonedParts(join(directory, name))));
  const lights = lightTable(roll, workspace, pool, signal);
  return { roll, workspace, pool, options, signal, directory, scans, sources, lights, journal, inPlace };
}

/** Returns a function that adds up the parts of the frames, 0 … 1 each, and reports their sum. */
function progressOf(total: number, { onProgress }: RenderHooks): (frame: string, part: number) => void {
  const parts = new Map<string, number>();
  return (frame, part) => {
    parts.set(frame, part);
    let done = 0;
    for (const p of parts.values()) done += p;
    onProgress?.(done, total, frame);
  };
}

/** Renders the pictures of a frame that are not there yet. */
async function renderPictures(
  job: RenderJob,
  frame: ResolvedFrame,
  { run, keepScan }: ScanSharing,
  onProgress: (part: number) => void,
): Promise<FrameReport> {
  const { roll, workspace, pool, signal, journal } = job;
  if (signal?.aborted) throw new JobError({ code: "cancelled", message: "The work was cancelled." });
  const joined = partsOf(roll, frame, workspace);
  const path = joined?.join?.scans[0].path ?? framePath(frame, workspace);
  const { kept, wanted } = await sortPictures(job, frame);
  if (wanted.length === 0) return { frame: frame.id, status: "kept", pictures: kept, warnings: [] };

  const { light, warnings } = await job.lights.of(frame);
  const request = {
    path,
    setup: { ...frameSetup(frame, light), ...joined },
    keepScan,
    // Of several exposures each is checked as it is opened: one that is missing is left out.
    locked: joined?.merge ? undefined : roll.fingerprints[frame.scans[0].name],
    pictures: wanted.map((picture) => preparePicture(job, frame, picture)),
  };
  let done: RenderedFrame;
  try {
    const reads = scanPaths(frame, workspace);
    done = await pool.run(renderFrameJob, request, { reads, ...run, signal, onProgress });
  } catch (error) {
    abandonUnwritten(job, wanted, error);
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

/** Tells pictures that can be left as they are from those to be written. */
async function sortPictures(
  { roll, workspace, pool, options, signal, directory, scans, sources, journal, inPlace }: RenderJob,
  frame: ResolvedFrame,
): Promise<{ readonly kept: readonly PictureReport[]; readonly wanted: readonly WantedPicture[] }> {
  const kept: PictureReport[] = [];
  const wanted: WantedPicture[] = [];
  inPlace(directory);
  for (const picture of planPictures(roll, frame, workspace, directory, options.outputs)) {
    const { record } = picture;
    const target = { directory, record, sources, scans, overwrite: options.overwrite };
    const there = await existingFile(target, journal, pool, signal);
    if (there?.current && options.resume)
      kept.push({ output: record.output, file: record.file, status: "kept", bytes: there.size, sha256: there.sha256 });
    else wanted.push({ ...picture, mark: there?.mark });
  }
  return { kept, wanted };
}

/** Makes a picture's folder, enters the picture into the journal, and returns the worker's request. */
function preparePicture(
  { roll, workspace, directory, journal, inPlace }: RenderJob,
  frame: ResolvedFrame,
  picture: WantedPicture,
) {
  makeFolder(dirname(picture.path));
  const folder = targetFolder(directory, picture.record.file);
  inPlace(dirname(picture.path), folder);
  journal.add(picture.record);
  return { ...pictureRequest(roll, frame, picture, workspace), replace: picture.mark ?? false, folder };
}

/** What is there now where nothing was, and was not written by this frame, stays somebody else's. */
function abandonUnwritten({ journal }: RenderJob, wanted: readonly WantedPicture[], error: unknown): void {
  const { code, file } = describeError(error);
  for (const { record, path, mark } of wanted)
    if (mark === undefined && (fileMark(path) === undefined || (code === "exists" && file === path)))
      journal.abandon(record);
}
