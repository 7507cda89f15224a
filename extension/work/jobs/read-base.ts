import { type BaseReading, readBase, type ReadingArea, ReadingError } from "../../engine/measure.ts";
import { decodeScan } from "../../scans/decode.ts";
import { type FrameLight, lightSetup } from "../develop.ts";
import { JobError } from "../job-error.ts";
import { unknownExposure } from "../warnings.ts";

export interface ReadBase {
  readonly path: string;
  readonly area: ReadingArea;
  readonly light: FrameLight;
}

export interface BaseReport extends BaseReading {
  readonly warnings: readonly string[];
}

/** Reads the base off a scan, at full size: half size would average the grain that the scatter tells of. */
export async function readBaseJob({ path, area, light }: ReadBase): Promise<BaseReport> {
  const { scan, info, warnings } = await decodeScan(path);
  const setup = lightSetup(light, info);
  try {
    const reading = readBase(scan, area, setup);
    return { ...reading, warnings: [...warnings.map((w) => w.message), ...unknownExposure(setup.unknown)] };
  } catch (error) {
    if (!(error instanceof ReadingError)) throw error;
    throw new JobError({ name: error.name, code: error.fault, message: error.message, file: path });
  }
}
