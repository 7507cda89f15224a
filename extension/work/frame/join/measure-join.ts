/** The job that measures how a frame's scans lie to one another. */
import { measureJoin } from "../../../engine/image/join/measure.ts";
import type { JoinPlace } from "../../../engine/image/join/place.ts";
import { type JoinPlane, joinPlane } from "../../../engine/image/join/plane.ts";
import { JobError } from "../../../failure.ts";
import { type FrameLight, lightSetup } from "../develop.ts";
import { openScan } from "../open-scan.ts";
import type { JobContext } from "../../pool/job-context.ts";

export interface MeasureJoin {
  /** Absolute paths of a frame's scans, in any order. */
  readonly paths: readonly string[];
  readonly light: FrameLight;
  /** Scans that overlap no other are reported as such; otherwise the work fails and names them. */
  readonly partly?: boolean;
}

export interface MeasuredJoin {
  /** By scan, in pixels of the full scans and EV; the first that is placed is 0, 0, 0. Null: it overlaps no other. */
  readonly places: readonly (JoinPlace | null)[];
  /** Overlaps that hold the scans together: which scans, how many patches agree, and what they are off by in pixels. */
  readonly overlaps: readonly {
    readonly scans: readonly [number, number];
    readonly patches: number;
    readonly agreeing: number;
    readonly residual: number;
  }[];
  /** The worst overlap's, in pixels of the full scan. */
  readonly residual: number;
}

/** Small scans are measured at full size: at half size they have too few pixels for 0.3 px of the full scan. */
const MIN_SIDE = 1200;

/**
 * Measures how a frame's scans lie to one another: at half size, whose patches tell a tenth of a full pixel.
 * @throws JobError that names the scans that overlap no other
 */
export async function measureJoinOfScans(
  { paths, light, partly = false }: MeasureJoin,
  context: JobContext,
): Promise<MeasuredJoin> {
  const planes: JoinPlane[] = [];
  let times = 2;
  for (const [i, path] of paths.entries()) {
    let { scan, info } = await openScan(path, light.lens, { half: true });
    if (i === 0 && Math.max(scan.width, scan.height) < MIN_SIDE) times = 1;
    if (times === 1) ({ scan, info } = await openScan(path, light.lens));
    context.checkpoint();
    planes.push(joinPlane(scan, lightSetup(light, info)));
    context.report((0.5 * (i + 1)) / paths.length);
  }
  const { places, apart, overlaps, residual } = measureJoin(planes, (done) => {
    context.checkpoint();
    context.report(0.5 + done / 2);
  });
  if (apart.length > 0 && (!partly || apart.length >= paths.length - 1)) throw nothingShared(paths, apart);
  return {
    places: places.map((place) => (place ? [times * place[0], times * place[1], place[2], place[3] ?? 0] : null)),
    overlaps: overlaps.map((overlap) => ({ ...overlap, residual: times * overlap.residual })),
    residual: times * residual,
  };
}

function nothingShared(paths: readonly string[], apart: readonly number[]): JobError {
  const remedy =
    "Photograph the film again so that neighbouring scans overlap by a quarter, or remove from the frame what is no part of it.";
  if (apart.length >= paths.length - 1)
    return new JobError({
      code: "join",
      message: `The ${paths.length === 2 ? "two" : paths.length} scans show nothing in common, so they cannot be joined.`,
      remedy,
    });
  const names = apart.map((scan) => paths[scan]!.split(/[\\/]/).at(-1)).join(", ");
  return new JobError({
    code: "join",
    message: `${names} ${apart.length === 1 ? "overlaps" : "overlap"} none of the frame’s other scans.`,
    remedy,
  });
}
