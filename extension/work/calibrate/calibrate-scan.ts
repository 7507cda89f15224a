/** Reads calibration targets off scans: patches of a chart, steps of a wedge, an even area. */
import { type ChartFit, ChartError, fitChart, MIN_PATCHES } from "../../engine/calibrate/chart-fit.ts";
import { type ChartGrid, findChart, gridBetween, type Point } from "../../engine/calibrate/chart-find.ts";
import { type ChartReading, readChart, type ReferencePatch } from "../../engine/calibrate/chart-read.ts";
import { judgeWedge, readWedge, WedgeError, type WedgeReport, type WedgeSteps } from "../../engine/calibrate/wedge.ts";
import { downsample } from "../../engine/detect/downsampled-scan.ts";
import { readBase, type ReadingArea } from "../../engine/flat-field/densitometer.ts";
import type { Area, FrameLook, Rgb } from "../../engine/types.ts";
import { type FrameLight, lightSetup } from "../frame/develop.ts";
import { openScan } from "../frame/open-scan.ts";

interface OnScan {
  readonly path: string;
  readonly light: FrameLight;
}

export interface CalibrateChart extends OnScan {
  readonly look: FrameLook;
  /** The picture in the scan, where the chart is looked for. */
  readonly area: Area;
  readonly reference: readonly ReferencePatch[];
  /** Corners of the field of patches, first patch's first, clockwise; where the chart is not found by itself. */
  readonly corners?: readonly [Point, Point, Point, Point];
}

export interface CalibratedChart {
  readonly fit: ChartFit;
  readonly reading: Omit<ChartReading, "patches">;
  /** Names of the patches that were fitted, in the order of the fit's errors. */
  readonly patches: readonly string[];
  readonly seen: number;
}

export async function calibrateChart(request: CalibrateChart): Promise<CalibratedChart> {
  const { path, light, look, area, reference, corners } = request;
  const { scan, info } = await openScan(path, light.lens);
  const downsampled = downsample(scan, lightSetup(light, info), 1200);
  const grid: ChartGrid | undefined = corners ? gridBetween(downsampled, corners) : findChart(downsampled, area);
  if (!grid)
    throw new ChartError("No chart of six by four patches was found: give its four corners, or a frame that shows it.");
  const reading = readChart(downsampled, grid, reference, look);
  // What is clipped shows no colour; the others may still be enough.
  const usable = reading.patches.filter(({ name }) => !reading.clipped.includes(name));
  if (usable.length < MIN_PATCHES)
    throw new ChartError(
      `These patches are clipped in the scan: ${reading.clipped.join(", ")}. ${usable.length} are left, and ${MIN_PATCHES} are needed. ` +
        "Photograph the chart again with a shorter shutter time.",
    );
  const { turned, mirrored, clipped, unseen } = reading;
  return {
    fit: fitChart(usable, look),
    reading: { turned, mirrored, clipped, unseen },
    patches: usable.map(({ name }) => name),
    seen: grid.seen,
  };
}

export interface CalibrateWedge extends OnScan {
  /** Densities of the steps, the thinnest first. */
  readonly known: readonly number[];
  readonly area?: Area;
}

const WHOLE: Area = { left: 0.02, top: 0.1, width: 0.96, height: 0.8, tilt: 0 };

export async function calibrateWedge({ path, light, known, area }: CalibrateWedge): Promise<WedgeReport & WedgeSteps> {
  const { scan, info } = await openScan(path, light.lens);
  const downsampled = downsample(scan, { ...lightSetup(light, info), flare: undefined });
  const steps = readWedge(downsampled, area ?? WHOLE, known.length);
  if (!steps)
    throw new WedgeError(`No wedge of ${known.length} even steps was found along the scan: give its area with --area.`);
  return { ...judgeWedge(steps, known), ...steps };
}

export interface ReadGrey extends OnScan {
  readonly area: ReadingArea;
}

/** Median transmittance of an even area. */
export async function readGrey({ path, light, area }: ReadGrey): Promise<{ readonly transmittance: Rgb }> {
  const { scan, info } = await openScan(path, light.lens);
  const { density } = readBase(scan, area, lightSetup(light, info));
  return { transmittance: [10 ** -density[0], 10 ** -density[1], 10 ** -density[2]] };
}
