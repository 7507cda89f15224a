/** The job that reads the base off a scan. */
import { JobError } from "../../failure.ts";
import { type BaseReading, readBase, type ReadingArea, ReadingError } from "../../engine/flat-field/densitometer.ts";
import { folderCache } from "../../scans/files/cache.ts";
import type { DecodedScan } from "../../scans/decode.ts";
import { readProxy } from "../../scans/proxy.ts";
import { type FrameLight, lightSetup } from "./develop.ts";
import type { FrameJoin } from "./join/frame-join.ts";
import { onOneScan } from "./join/joined-area.ts";
import type { FrameMerge } from "./merge/frame-merge.ts";
import { openMerged } from "./merge/open-merged.ts";
import { openScan } from "./open-scan.ts";
import type { LinearProxy } from "./preview-proxy.ts";
import { exposureWarnings } from "./warnings.ts";
import type { JobContext } from "../pool/job-context.ts";

export interface ReadBase {
  readonly path: string;
  /** The scans that the frame is merged from, where it is. */
  readonly merge?: FrameMerge;
  readonly area: ReadingArea;
  readonly light: FrameLight;
  /** Where the area is one of a joined frame: its scans, and where they are kept small. */
  readonly joined?: { readonly join: FrameJoin; readonly cache: LinearProxy["cache"] };
}

export interface BaseReport extends BaseReading {
  /** Number of the scan that was read, from 0: of several, one holds the area; and the area in fractions of it. */
  readonly index: number;
  readonly area: ReadingArea;
  readonly warnings: readonly string[];
}

/** Reads the base off a scan, at full size: half size would average the grain that the scatter tells of. */
export async function readBaseOfScan(request: ReadBase, context?: JobContext): Promise<BaseReport> {
  const { path: first, merge, area: wanted, light, joined } = request;
  const { index, path, area } = joined
    ? await onOneScan(joined.join, wanted, reducer(joined.cache))
    : { index: 0, path: first, area: wanted };
  const { scan, info, warnings } = merge
    ? await openMerged(merge, light, { checkpoint: () => context?.checkpoint() })
    : await openScan(path, light.lens);
  // The place that is read becomes the measure of the light: its falloff is left as it is.
  const setup = lightSetup({ ...light, falloff: undefined }, info);
  try {
    const reading = readBase(scan, area, setup);
    const messages = [...warnings.map((w) => w.message), ...exposureWarnings(setup)];
    return { ...reading, index, area, warnings: messages };
  } catch (error) {
    if (!(error instanceof ReadingError)) throw error;
    throw new JobError({ code: error.code, message: error.message, file: path });
  }
}

/** The preview has just shown the frame, so its scans are there. */
function reducer({ folder, maxBytes }: LinearProxy["cache"]): (path: string) => Promise<DecodedScan> {
  const kept = folderCache(folder, maxBytes);
  return async (path) => await readProxy(path, 4, kept);
}
