/** Proxies and readings for the panel, by way of the pool. Nothing is decoded in the editor's own process. */
import { JobError } from "../../failure.ts";
import { statSync } from "node:fs";
import type { Proxy } from "../../messages.ts";
import { referencesOf } from "../../recipe/resolve/channels.ts";
import type { ResolvedFrame, ResolvedRoll } from "../../recipe/resolve/resolve.ts";
import { partsOf } from "../../work/frame/join/frame-join.ts";
import { framePath } from "../../work/frame/frame-path.ts";
import { lightTable, type MeasuredLight } from "../../work/frame/frame-setup.ts";
import { stampOf } from "../../work/files/content-hash.ts";
import type { LinearProxy } from "../../work/frame/preview-proxy.ts";
import type { BaseReport } from "../../work/frame/read-base.ts";
import type { Pool, RunOptions } from "../../work/pool/pool.ts";
import type { Workspace } from "../../work/files/workspace.ts";
import { proofJob } from "../../work/render/jobs.ts";
import { printerRequest } from "../../work/render/picture-plan.ts";
import { linearProxyJob, readBaseJob, reduceScanJob } from "../../work/frame/jobs.ts";

/** A roll with the folder that it may not leave. */
export interface RollPlace {
  readonly roll: ResolvedRoll;
  readonly workspace: Workspace;
}

export interface Pictures {
  /** @param want of a scan; "unhealed" is its picture with every speck in it */
  proxy(
    place: RollPlace,
    frame: string,
    want: LinearProxy["want"] | "unhealed",
    signal: AbortSignal,
  ): Promise<Omit<Proxy, "source">>;
  /** What an output looks like on its paper, as a table for a screen. */
  proof(place: RollPlace, output: string, screen: "srgb" | "p3", signal: AbortSignal): Promise<Uint8Array>;
  base(
    place: RollPlace,
    frame: string,
    area: readonly [number, number, number, number],
    signal: AbortSignal,
  ): Promise<BaseReport & { scan: string }>;
}

/** A frame with the scans that show it. */
interface Found extends Pick<LinearProxy, "path" | "join" | "merge" | "spots"> {
  readonly frame: ResolvedFrame;
}

/** Lights that are kept measured. */
const KEPT_LIGHTS = 12;

export function makePictures(pool: Pool, cache: LinearProxy["cache"]): Pictures {
  const lights = new Map<string, Promise<MeasuredLight>>();
  /** Scans, with their stamps, that were reduced already. */
  const reduced = new Set<string>();

  const keyOfLight = ({ workspace }: RollPlace, { light, base }: ResolvedFrame): string => {
    return JSON.stringify([
      light.blank !== undefined,
      referencesOf({ light, base }).map(({ path }) => [path, stampOf(workspace.absolute(path))]),
      light.flare,
      light.times,
      light.lens,
      light.falloff,
      light.falloff && base.read?.area,
    ]);
  };

  const stateOf = (path: string): string => `${path} ${stampOf(path)}`;

  /** One that failed or was cancelled is reduced again when it is next asked for. */
  async function reduceOnce(path: string, options: RunOptions): Promise<void> {
    const state = stateOf(path);
    reduced.add(state);
    await pool.run(reduceScanJob, { path, cache }, options).catch((error: unknown) => {
      reduced.delete(state);
      throw error;
    });
  }

  /** Light is measured once for each blank, however often the recipe changes. */
  function lightOf(place: RollPlace, frame: ResolvedFrame): Promise<MeasuredLight> {
    const { roll, workspace } = place;
    const key = keyOfLight(place, frame);
    const known = lights.get(key);
    if (known) return known;
    const made = lightTable(roll, workspace, pool).of(frame);
    lights.set(key, made);
    made.catch(() => lights.delete(key));
    for (const oldest of lights.keys()) if (lights.size > KEPT_LIGHTS) lights.delete(oldest);
    return made;
  }

  function find({ roll, workspace }: RollPlace, id: string): Found {
    const frame = roll.frames.find((f) => f.id === id);
    if (!frame)
      throw new JobError({
        code: "no-frame",
        message: `Frame ${id} was not found in the recipe: it was removed or renamed.`,
      });
    const joined = partsOf(roll, frame, workspace);
    const { join, merge } = joined ?? {};
    const all = join ?? (merge?.channels ? merge : undefined);
    const paths = all?.scans.map((s) => s.path) ?? [framePath(frame, workspace)];
    const missing = paths.findIndex((path) => !statSync(path, { throwIfNoEntry: false })?.isFile());
    if (missing >= 0)
      throw new JobError({
        code: "missing-scan",
        message: `The scan ${frame.scans[missing].name} of frame ${frame.id} was not found.`,
        remedy: "Check its name in the recipe, and the folder under scans.",
      });
    const spots = joined?.spots ?? [...frame.light.spots, ...frame.spots];
    return { frame, path: paths[0], spots, ...(join ? { join } : {}), ...(merge ? { merge } : {}) };
  }

  return {
    async proxy(place, id, want, signal) {
      const { frame, ...scans } = find(place, id);
      // Frames of one scan follow one another on one worker: the first decodes it, the others find what was kept.
      const turn = (path: string) => ({ near: path, inTurn: true, signal }) as const;
      // The first picture of a roll: its scan is decoded while the blank is measured; those of a join by all workers at once.
      const isFirst = !lights.has(keyOfLight(place, frame)) && !scans.merge;
      const paths = scans.join?.scans.map(({ path }) => path) ?? (isFirst ? [scans.path] : []);
      const early = typeof want === "string" ? paths.filter((path) => !reduced.has(stateOf(path))) : [];
      const ahead = Promise.all(early.map((path) => reduceOnce(path, turn(path))));
      ahead.catch(() => undefined); // the picture's own job reports it
      const { light, warnings } = await lightOf(place, frame);
      await ahead.catch(() => undefined);
      const wanted = want === "unhealed" ? { want: "picture" as const, spots: [] } : { want };
      const made = await pool.run(linearProxyJob, { ...scans, light, cache, ...wanted }, turn(scans.path));
      const { field, ...proxy } = made;
      return { ...proxy, ...(field ? { light: field } : {}), warnings: [...warnings, ...made.warnings] };
    },
    async proof({ roll, workspace }, output, screen, signal) {
      const print = roll.outputs.find(({ name }) => name === output)?.print;
      const printer = print && printerRequest(print, workspace);
      if (!printer)
        throw new JobError({
          code: "no-profile",
          message: `Output ${output} is not printed by a printer's profile.`,
          remedy: "Choose another output, or name a profile under its print.",
        });
      return await pool.run(proofJob, { ...printer, screen, cache }, { signal });
    },
    async base(place, id, area, signal) {
      const { frame, path, join, merge } = find(place, id);
      // Without a blank the base's own scan is what exposures are compared with, so it is not compared with another.
      const light = frame.light.blank
        ? (await lightOf(place, frame)).light
        : { flare: frame.light.flare, times: frame.light.times, lens: frame.light.lens };
      const joined = join ? { join, cache } : undefined;
      const report = await pool.run(readBaseJob, { path, merge, area, light, joined }, { signal });
      return { ...report, scan: frame.scans[report.index].name };
    },
  };
}
