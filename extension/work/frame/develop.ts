/** From a decoded scan to a finished picture in memory: the way of the data between decoding and encoding. */
import type { Spot } from "../../engine/image/spot.ts";
import { type ExposureSettings, type RelativeExposure, relativeExposure } from "../../engine/flat-field/exposure.ts";
import { markedTime, type ShutterTimes } from "../../engine/flat-field/shutter-times.ts";
import { type Framing, place, type Placement } from "../../engine/image/geometry.ts";
import { layOnSheet, type PaperForm, type Sheet } from "../../engine/image/paper.ts";
import type { PlacedFalloff } from "../../engine/flat-field/falloff.ts";
import { heal } from "../../engine/image/heal.ts";
import { channelWeights, type LightField } from "../../engine/flat-field/light-field.ts";
import { compilePlan } from "../../engine/plan/compile.ts";
import { startDrawing } from "../../engine/image/resample.ts";
import { rowMaker } from "../../engine/plan/row-maker.ts";
import { sharpen } from "../../engine/image/sharpen.ts";
import type { LightSetup } from "../../engine/flat-field/transmittance.ts";
import type { FrameJoin } from "./join/frame-join.ts";
import type { FrameMerge } from "./merge/frame-merge.ts";
import type { Area, FrameLook, LensFaults, LinearScan, OutputSpace, Raster, Rgb } from "../../engine/types.ts";

/** The bare light that a frame is compared with. */
export interface FrameLight {
  /** Absent where the recipe names no blank. */
  readonly field?: LightField;
  readonly flare: Rgb;
  /** How the blank (or, without one, the scan that the base was read from) was exposed; absent when neither is known. */
  readonly reference?: ExposureSettings;
  /** How each of three blanks was exposed, green, red, blue: for frames in three-colour light. */
  readonly references?: readonly ExposureSettings[];
  /** What the files' shutter times are; as written where absent. */
  readonly times?: ShutterTimes;
  /** Weights of the channels for film that has one; the field's own where absent. */
  readonly weights?: Rgb;
  /** Faults of the lens, which every scan is freed of as it is opened. */
  readonly lens?: LensFaults;
  /** Falloff of the light, where no blank takes it out. */
  readonly falloff?: PlacedFalloff;
}

/** What decides a frame's picture, apart from the scan. Plain data: it crosses to the workers. */
export interface FrameSetup {
  readonly look: FrameLook;
  readonly framing: Framing;
  readonly light: FrameLight;
  /** Specks on the film and on sensor or lens. */
  readonly spots: readonly Spot[];
  /** The scans that a frame is joined from, where it has several. */
  readonly join?: FrameJoin;
  /** The scans that it is merged from. */
  readonly merge?: FrameMerge;
}

/** What decides a picture's form. */
export interface PictureForm {
  readonly space: OutputSpace;
  /** Longest side in pixels; absent for the picture's own size. */
  readonly long?: number;
  /** Output sharpening, 0 … 1. */
  readonly sharpen: number;
  /** The paper, for a sheet to print; `long` does not count then. */
  readonly paper?: PaperForm;
}

/** A finished picture and, for one to print, its place on its sheet. */
export interface DrawnPicture extends Raster<Uint16Array> {
  readonly sheet?: Sheet;
}

/** Where a picture of this form lies on its scan, and on its sheet. */
export function placeForm(
  size: { readonly width: number; readonly height: number },
  framing: Framing,
  { long, paper }: Pick<PictureForm, "long" | "paper">,
): { readonly placement: Placement; readonly sheet?: Sheet } {
  if (!paper) return { placement: place(size, framing, long) };
  const { area, turn } = framing;
  const upright = [area.width * size.width, area.height * size.height] as const;
  const turned = <T>([a, b]: readonly [T, T]): readonly [T, T] => (turn === 90 || turn === 270 ? [b, a] : [a, b]);
  const { picture, shares, ...sheet } = layOnSheet(paper, ...turned(upright));
  return { placement: place(size, { ...framing, area: middleOf(area, turned(shares)) }, picture), sheet };
}

/** The middle of an area, which keeps its centre and tilt. */
const middleOf = (area: Area, [across, down]: readonly [number, number]): Area => ({
  left: area.left + (area.width * (1 - across)) / 2,
  top: area.top + (area.height * (1 - down)) / 2,
  width: area.width * across,
  height: area.height * down,
  tilt: area.tilt,
});

/** How to read a scan's transmittance, and what its exposure could not be compared by. */
export function lightSetup(light: FrameLight, scan: ExposureSettings): LightSetup & RelativeExposure {
  const { field, falloff, flare, reference, times } = light;
  if (!reference) return { field, falloff, flare, ratio: 1, unknown: [] };
  const { ratio, unknown } = relativeExposure(exposedAs(scan, times), exposedAs(reference, times));
  return { field, falloff, flare, ratio, unknown };
}

/** Settings as the marks of the camera mean them. */
export const exposedAs = (settings: ExposureSettings, times: ShutterTimes | undefined): ExposureSettings =>
  times === "nominal" && settings.shutter !== undefined
    ? { ...settings, shutter: markedTime(settings.shutter) }
    : settings;

/** Heals a scan's specks, in place. Done once, before the first picture is drawn. */
export function prepareScan(scan: LinearScan, setup: FrameSetup): void {
  heal(scan, setup.spots);
}

/** Rows between two looks at whether the work is still wanted. */
const CHECK_ROWS = 128;

/**
 * Draws a frame's pictures in one pass over the scan: transmittance, plan and placing, row by row, so that beside the
 * scan and the pictures only a few rows are held; then sharpening.
 *
 * @param overScan whether the largest picture may be laid over the scan, which is lost then: memory that need not be
 *   asked for is the cheapest
 */
export function drawPictures(
  scan: LinearScan,
  exposure: ExposureSettings,
  { light, look, framing }: FrameSetup,
  forms: readonly PictureForm[],
  checkpoint: () => void,
  { overScan = false }: { overScan?: boolean } = {},
): DrawnPicture[] {
  const spaces = [...new Set(forms.map((form) => form.space))];
  const weights = light.weights ?? (light.field && channelWeights(light.field));
  const plans = spaces.map((space) =>
    compilePlan(look, space, weights, { scanWidth: scan.width, scanHeight: scan.height, framing }),
  );
  const { channels } = plans[0];
  const rows = rowMaker(scan, lightSetup(light, exposure), plans);
  const placed = forms.map((form) => placeForm(scan, framing, form));
  const places = placed.map(({ placement }) => placement);
  const largest = overScan ? largestOf(places, scan) : -1;
  const drawings = places.map((p, k) => startDrawing(p, channels, k === largest ? scan : undefined));
  const spans = drawings.map((drawing) => drawing.span);
  const from = Math.min(...spans.map((span) => span.from));
  const to = Math.max(...spans.map((span) => span.to));
  const last = Math.max(...spans.map((span) => span.lastRow));
  for (let y = Math.min(...spans.map((span) => span.firstRow)); y <= last; y++) {
    if (y % CHECK_ROWS === 0) checkpoint();
    const made = rows.row(y, from, to);
    drawings.forEach((drawing, k) => {
      const { span } = drawing;
      if (y < span.firstRow || y > span.lastRow) return;
      const row = made[spaces.indexOf(forms[k].space)];
      drawing.row(y, row.subarray((span.from - from) * channels, (span.to - from) * channels));
    });
  }
  return drawings.map((drawing, k) => {
    const picture = drawing.finish();
    checkpoint();
    sharpen(picture, forms[k].sharpen);
    const { sheet } = placed[k];
    return sheet ? { ...picture, sheet } : picture;
  });
}

/** The largest picture; none where even it would keep a scan's memory for far less than a scan. */
function largestOf(places: readonly Placement[], scan: LinearScan): number {
  const sizes = places.map((p) => p.width * p.height);
  const max = Math.max(...sizes);
  return max * 2 > scan.width * scan.height ? sizes.indexOf(max) : -1;
}
