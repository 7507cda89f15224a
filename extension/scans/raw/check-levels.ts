/** Whether a raw file's black and white levels can be those of its samples. */
import { checkVariation, emptyPart, type SampleGrid } from "../picture/check-samples.ts";
import { ScanError, type ScanWarning } from "../errors.ts";
import type { TiffDirectory } from "../tiff/read.ts";
import { TAG } from "../tiff/tags.ts";
import type { Mosaic } from "./mosaic.ts";
import type { LinearPicture } from "./read-raw.ts";

const REMEDY = "Write it again with the camera maker's own converter, or make the scan again.";
/** From this black level on, a sensor does not record zeros side by side. */
const MIN_BLACK = 16;
/** Above this part of a picture without data there is no picture left. */
const MAX_EMPTY = 0.5;
/** With less than this part of its samples above black, a scan is dark all over. */
const MIN_LIT = 0.01;
/** Samples that are looked at for that. */
const PROBES = 65_536;

/** Black levels, in the order of the samples' kinds, and the white level of a picture. */
interface Levels {
  readonly black: readonly number[];
  readonly white: number;
}

/**
 * The levels that a DNG states itself; where it leaves one out there is nothing to check.
 * @throws ScanError "corrupt" where white is not above black
 */
export function checkStatedLevels(file: string, image: TiffDirectory): void {
  const black = image.numbers(TAG.blackLevel);
  const white = image.numbers(TAG.whiteLevel);
  if (black.some((level) => !Number.isFinite(level)))
    throw new ScanError("corrupt", file, "states a black level that is no number", REMEDY);
  if (white.length > 0) refuseOrder(file, { black, white: Math.min(...white) });
}

/**
 * @returns warnings to show at the frame
 * @throws ScanError "corrupt" where levels and samples leave no picture
 */
export function checkMosaic(file: string, mosaic: Mosaic): ScanWarning[] {
  const { width, height, stride, left, top, data, period, black, white } = mosaic;
  const grid = { width, height, stride, start: top * stride + left, data, period: [period, period] } as const;
  return checkGrid(file, grid, { black, white });
}

/** @param levels black as `Mosaic.black`: one level, or one a channel */
export function checkLinear(file: string, picture: LinearPicture, levels: Levels): ScanWarning[] {
  const { width, height, channels, data } = picture;
  const black = Array.from({ length: channels }, (_, c) => levels.black[Math.min(c, levels.black.length - 1)]);
  const row = width * channels;
  const grid = { width: row, height, stride: row, start: 0, data, period: [channels, 1] } as const;
  return checkGrid(file, grid, { black, white: levels.white });
}

function checkGrid(file: string, grid: SampleGrid, levels: Levels): ScanWarning[] {
  refuseOrder(file, levels);
  const warnings = checkVariation(file, grid);
  return [...warnings, ...checkEmpty(file, grid, levels), ...checkLit(file, grid, levels)];
}

function refuseOrder(file: string, { black, white }: Levels): void {
  const maxBlack = Math.max(0, ...black);
  if (white <= maxBlack)
    throw new ScanError(
      "corrupt",
      file,
      `states a white level of ${white}, which is not above its black level of ${maxBlack}`,
      REMEDY,
    );
}

/** Where data are missing, decoders leave zeros. */
function checkEmpty(file: string, grid: SampleGrid, { black }: Levels): ScanWarning[] {
  if (Math.min(...black) < MIN_BLACK) return [];
  const part = emptyPart(grid);
  if (part === 0) return [];
  if (part > MAX_EMPTY)
    throw new ScanError("corrupt", file, "holds zeros in most of its area: data are missing", "Copy it again.");
  const percent = Math.max(0.1, 100 * part).toFixed(1);
  const message = `Data are missing from this scan: ${percent} % of its area hold zeros. Copy it from the camera's card again.`;
  return [{ code: "incomplete", message }];
}

/** A black level that lies above the samples leaves a black picture. */
function checkLit(file: string, grid: SampleGrid, { black }: Levels): ScanWarning[] {
  if (litPart(grid, black, PROBES) >= MIN_LIT) return [];
  if (litPart(grid, black, Infinity) === 0)
    throw new ScanError(
      "corrupt",
      file,
      `states a black level of ${Math.max(...black)}, and no sample lies above it`,
      "Take the lens cap off and make the scan again; if there was light, write the file again with another converter.",
    );
  const message = "Hardly any sample of this scan lies above its black level: it shows no light.";
  return [{ code: "dark", message }];
}

/** Part of the samples above black, of about so many spread evenly. */
function litPart({ width, height, stride, start, data, period }: SampleGrid, black: readonly number[], probes: number) {
  const [across, down] = period;
  // Odd steps meet every kind of sample.
  const step = Math.max(1, Math.floor(Math.sqrt((width * height) / probes))) | 1;
  let [lit, all] = [0, 0];
  for (let y = 0; y < height; y += step)
    for (let x = 0; x < width; x += step, all++)
      if (data[start + y * stride + x] > black[(y % down) * across + (x % across)]) lit++;
  return lit / all;
}
