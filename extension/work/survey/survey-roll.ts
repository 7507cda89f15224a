/** Surveys a roll: measures its scans and its blank, and collects the findings. */
import { errorText } from "../../scans/files/system-errors.ts";
import { pictureSides } from "../../engine/film/formats.ts";
import { findAll } from "../../engine/survey/catalogue.ts";
import { sensorDustOf, dustOf } from "../../engine/survey/dust.ts";
import type { Finding, Speck, SurveyedRoll } from "../../engine/survey/types.ts";
import type { ResolvedFrame, ResolvedRoll } from "../../recipe/resolve/resolve.ts";
import { eachLimited } from "../pool/each-limited.ts";
import { blanksOf } from "../../recipe/resolve/channels.ts";
import { scanPaths } from "../frame/frame-path.ts";
import { mergedScan, mergeOf } from "../frame/merge/frame-merge.ts";
import type { FrameOnScan, SurveyedScan } from "./survey-scan.ts";
import type { SurveyedBlank } from "./survey-blank.ts";
import type { Pool } from "../pool/pool.ts";
import type { RenderHooks } from "../render/render-roll.ts";
import type { SmallView } from "./small-view.ts";
import type { Workspace } from "../files/workspace.ts";
import { surveyBlankJob, surveyScanJob } from "./jobs.ts";

/** What a survey found out about a roll. */
export interface SurveyReport {
  readonly roll: SurveyedRoll;
  readonly findings: readonly Finding[];
  /** Dust to heal, by frame; frames without any are left out. */
  readonly dust: Readonly<Record<string, readonly Speck[]>>;
  /** Sensor dust to heal in every frame. */
  readonly sensorDust: readonly Speck[];
  /** Small grey pictures by scan. */
  readonly views: Readonly<Record<string, SmallView>>;
  /** Scans that could not be surveyed, and why. */
  readonly failures: readonly { readonly frame?: string; readonly message: string }[];
  /** What was looked at: the path of every scan and of the blank, by name, of the same form as the roll's own. */
  readonly paths: Readonly<Record<string, string>>;
  /** Frames that the recipe mirrored. */
  readonly mirrored: readonly string[];
}

export interface SurveyOptions {
  /** Frames by name; all that are not skipped where absent. */
  readonly frames?: readonly string[];
  /** Width of the camera's sensor in millimetres. */
  readonly sensor?: number;
}

/** Surveys the scans of a roll. A scan that cannot be read is reported and the others go on. */
export async function surveyRoll(
  roll: ResolvedRoll,
  workspace: Workspace,
  pool: Pool,
  options: SurveyOptions = {},
  hooks: RenderHooks = {},
): Promise<SurveyReport> {
  const { signal } = hooks;
  const failures: { frame?: string; message: string }[] = [];
  const blank = await blankOf(roll, workspace, pool, signal).catch((error: unknown) => {
    if (signal?.aborted) throw error;
    failures.push({ message: errorText(error) });
    return undefined;
  });
  const wanted = roll.frames.filter((f) => !f.skip && (options.frames === undefined || options.frames.includes(f.id)));
  const orders = framesByScan(wanted);
  const total = orders.reduce((sum, { frames }) => sum + frames.length, 0);
  let done = 0;
  const made = await eachLimited(orders, pool.workers + 1, async ({ scan, frames }): Promise<SurveyedScan[]> => {
    try {
      const { lens } = frames[0].light;
      const merge = mergeOf({ fingerprints: {} }, frames[0], workspace);
      const order = {
        path: workspace.absolute(scan.path),
        name: scan.name,
        film: roll.film,
        noise: blank?.reading.noise,
        ...(lens ? { lens } : {}),
        ...(merge ? { merge } : {}),
        frames: frames.map((frame) => frameOnScan(roll, frame, scan.path, blank)),
      };
      return await pool.run(surveyScanJob, order, {
        signal,
        reads: merge ? scanPaths(frames[0], workspace) : [order.path],
      });
    } catch (error) {
      if (signal?.aborted) throw error;
      for (const { id } of frames) failures.push({ frame: id, message: errorText(error) });
      return [];
    } finally {
      for (const { id } of frames) hooks.onProgress?.(++done, total, id);
    }
  });
  const scans = made.flat();
  const { light, look } = roll.shared;
  const files = [...wanted.flatMap((frame) => frame.scans), ...blanksOf(light)];
  const picture = roll.format && pictureSides(roll.format);
  const surveyed: SurveyedRoll = {
    film: roll.film,
    flare: light.flare,
    scans: scans.map((s) => s.reading),
    ...(roll.shared.base.read ? { base: look.base } : {}),
    ...(picture ? { picture } : {}),
    ...(blank ? { blank: blank.reading } : {}),
    ...(options.sensor === undefined ? {} : { sensor: options.sensor }),
  };
  const dust = surveyed.scans.map((scan) => [scan.frame ?? scan.name, dustOf(surveyed, scan)] as const);
  return {
    roll: surveyed,
    findings: findAll(surveyed),
    dust: Object.fromEntries(dust.filter(([, specks]) => specks.length > 0)),
    sensorDust: sensorDustOf(surveyed),
    views: Object.fromEntries([...scans, ...(blank ? [blank] : [])].map((s) => [s.reading.name, s.view])),
    failures,
    paths: Object.fromEntries(files.map(({ name, path }) => [name, path])),
    mirrored: wanted.filter(({ mirror }) => mirror).map(({ id }) => id),
  };
}

function blankOf(
  roll: ResolvedRoll,
  workspace: Workspace,
  pool: Pool,
  signal?: AbortSignal,
): Promise<SurveyedBlank | undefined> {
  const { blank, lens } = roll.shared.light;
  if (!blank) return Promise.resolve(undefined);
  return Promise.resolve().then(() => {
    const scans = blanksOf(roll.shared.light).map((place) => mergedScan({ fingerprints: {} }, place, workspace));
    const merge = scans.length > 1 ? { merge: { scans, channels: true as const } } : {};
    return pool.run(surveyBlankJob, { path: scans[0].path, ...merge, name: blank.name, lens }, { signal });
  });
}

interface ScanFrames {
  readonly scan: ResolvedFrame["scans"][number];
  readonly frames: ResolvedFrame[];
}

/** Each scan with its frames, so that it is decoded once; frames for which the lens is corrected otherwise are apart. */
function framesByScan(frames: readonly ResolvedFrame[]): ScanFrames[] {
  const byScan = new Map<string, ScanFrames>();
  for (const frame of frames)
    // What is merged is judged as one scan: of several exposures hardly one is good by itself.
    for (const scan of frame.merged ? frame.scans.slice(0, 1) : frame.scans) {
      const key = JSON.stringify([scan.path, frame.light.lens, frame.merged ? frame.id : ""]);
      const known = byScan.get(key);
      if (known) known.frames.push(frame);
      else byScan.set(key, { scan, frames: [frame] });
    }
  return [...byScan.values()];
}

function frameOnScan(
  roll: ResolvedRoll,
  frame: ResolvedFrame,
  scan: string,
  blank: SurveyedBlank | undefined,
): FrameOnScan {
  const { flare, times, lens, falloff } = frame.light;
  const references = blank?.exposures ? { references: blank.exposures } : {};
  return {
    frame: frame.id,
    area: frame.area,
    mirror: frame.mirror,
    light: blank
      ? { field: blank.field, flare, times, lens, reference: blank.field.exposure, ...references }
      : { flare, lens, ...(falloff ? { falloff } : {}) },
    shared: roll.frames.filter(({ scans }) => scans.some(({ path }) => path === scan)).length > 1,
  };
}
