/** A camera's colour matrix: XYZ to camera, as a DNG states it or as LibRaw knows it of the model. */
import type { Matrix3 } from "../../engine/types.ts";
import type { TiffFile } from "../tiff/read.ts";
import { TAG } from "../tiff/tags.ts";
import type { LibRawMetadata } from "./libraw.ts";

/** A DNG may have a matrix for each of two lights. */
const STATED = [
  { matrix: TAG.colourMatrix1, light: TAG.calibrationLight1 },
  { matrix: TAG.colourMatrix2, light: TAG.calibrationLight2 },
];
/**
 * EXIF's codes (LightSource) of daylight, the nearest to D65 first: D65, D55, D50, D75, daylight, fine, cloudy. Writers
 * that name no light (unknown, 0) mean daylight as far as was seen, and a matrix for another light does no harm.
 */
const UNKNOWN = 0;
const DAYLIGHT = [21, 20, 23, 22, 1, 9, 10, UNKNOWN];

/**
 * The matrix for daylight: what a DNG states itself, else what LibRaw knows (its matrices are for D65). Calibrations of
 * the single camera (DNG's CameraCalibration, AnalogBalance) are left out: they are gains of channels.
 * @returns rows red, green, blue; columns X, Y, Z; any scale; undefined where there is none, or no three colours
 */
export function colourMatrixOf(tiff: TiffFile | undefined, metadata: LibRawMetadata): Matrix3 | undefined {
  if (metadata.colors !== 3) return undefined;
  return (metadata.dng_version > 0 ? statedIn(tiff) : undefined) ?? rowsOf(metadata.color_data.cam_xyz?.flat() ?? []);
}

function statedIn(tiff: TiffFile | undefined): Matrix3 | undefined {
  const [root] = tiff?.directories ?? [];
  if (!root) return undefined;
  const rank = ({ light }: (typeof STATED)[number]): number => DAYLIGHT.indexOf(root.number(light) ?? UNKNOWN);
  for (const { matrix } of STATED.filter((s) => rank(s) >= 0).toSorted((a, b) => rank(a) - rank(b))) {
    const numbers = root.numbers(matrix);
    const rows = numbers.length === 9 ? rowsOf(numbers) : undefined;
    if (rows) return rows;
  }
  return undefined;
}

/** The first nine numbers, for LibRaw has a row for a second green; undefined where they say nothing. */
function rowsOf(numbers: readonly number[]): Matrix3 | undefined {
  if (numbers.length < 9) return undefined;
  const [a, b, c, d, e, f, g, h, i] = numbers;
  const nine = [a, b, c, d, e, f, g, h, i];
  if (!nine.every(Number.isFinite) || nine.every((v) => v === 0)) return undefined;
  return [
    [a, b, c],
    [d, e, f],
    [g, h, i],
  ];
}
