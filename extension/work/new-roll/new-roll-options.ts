/** What a new roll is asked to be, and what the steps of creating one share. */
import { resolve } from "node:path";
import type { Film } from "../../engine/types.ts";
import type { FilmFormat } from "../../recipe/generated/types.ts";
import type { Workspace } from "../files/workspace.ts";
import type { Pool } from "../pool/pool.ts";

export interface NewRollOptions {
  /** Absolute folder of the scans. */
  readonly folder: string;
  /** Absolute path of the recipe to be. */
  readonly roll: string;
  /** Absolute path of the stock's recipe; with `filmData`, of the one to be written. */
  readonly stock?: string;
  /** Name of a published film: the stock's recipe is written from its data, for the camera and light of these scans. */
  readonly filmData?: string;
  /** Kind of film, where a person states it. */
  readonly film?: Film;
  readonly title?: string;
  readonly format?: FilmFormat;
  /** Name of the scan of the bare light, where it cannot be told by itself. */
  readonly blank?: string;
  /** First and last scan of the roll, where the folder holds pictures of others too. */
  readonly from?: string;
  readonly to?: string;
  /** Number of the first frame; where absent, numbers on the film's edge count first. */
  readonly first?: number;
  /** Nothing tells these from the scans: they hold for all frames. */
  readonly mirror?: boolean;
  readonly turn?: 0 | 90 | 180 | 270;
}

/** Why a roll cannot be created. */
export class StartError extends Error {
  readonly code = "start";
}

export interface StartHooks {
  readonly signal?: AbortSignal;
  readonly onProgress?: (done: number, total: number, label: string) => void;
}

/** What every step has at hand. */
export interface StartContext {
  readonly options: NewRollOptions;
  readonly workspace: Workspace;
  readonly pool: Pool;
  readonly signal?: AbortSignal;
  /** Absolute path of a scan. */
  readonly pathOf: (name: string) => string;
  /** Reports one more step as done. */
  readonly step: (label: string) => void;
}

/** @param total steps that will be reported */
export function startContext(
  options: NewRollOptions,
  workspace: Workspace,
  pool: Pool,
  { signal, onProgress }: StartHooks,
  total: number,
): StartContext {
  let done = 0;
  return {
    options,
    workspace,
    pool,
    ...(signal ? { signal } : {}),
    pathOf: (name) => workspace.absolute(workspace.inside(resolve(options.folder, name))),
    step: (label) => onProgress?.(++done, total, label),
  };
}
