/** The job that measures how a frame's scans lie to one another. */
import { type JoinPlace, measureJoin, onFirst } from "../../../engine/image/join/measure.ts";
import { type FrameLight, lightSetup } from "../develop.ts";
import { openScan } from "../open-scan.ts";
import type { JobContext } from "../../pool/job-context.ts";

export interface MeasureJoin {
  /** Absolute paths of a frame's scans, each overlapping the one before it. */
  readonly paths: readonly string[];
  readonly light: FrameLight;
}

export interface MeasuredJoin {
  /** In pixels of the full scans; the first is 0, 0, 0. */
  readonly places: readonly JoinPlace[];
  /** Worst residual of all pairs, in pixels of the full scan. */
  readonly residual: number;
}

/** Measures how a frame's scans lie to one another: at half size, whose patches tell a tenth of a full pixel. */
export async function measureJoinOfScans({ paths, light }: MeasureJoin, context: JobContext): Promise<MeasuredJoin> {
  const open = async (path: string) => {
    const { scan, info } = await openScan(path, light.lens, { half: true });
    context.checkpoint();
    return { scan, light: lightSetup(light, info) };
  };
  const places: JoinPlace[] = [[0, 0, 0]];
  let residual = 0;
  let before = await open(paths[0]);
  for (const [i, path] of paths.slice(1).entries()) {
    const next = await open(path);
    const reading = measureJoin(before, next);
    residual = Math.max(residual, 2 * reading.residual);
    const [px, py, turned] = places[i];
    const [dx, dy] = onFirst(2 * reading.place[0], 2 * reading.place[1], 0, 0, (turned * Math.PI) / 180);
    places.push([px + dx, py + dy, turned + reading.place[2]]);
    before = next;
    context.report((i + 1) / (paths.length - 1));
  }
  return { places, residual };
}
