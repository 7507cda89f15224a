/**
 * Draws the job guide's picture of a bracket: the densest steps of a wedge on simulated film, by one exposure and by
 * three of 1, 4 and 16 times, brightened alike.
 *
 * Usage: node dist/bench.mjs bracket-picture FILE
 */
import sharp from "sharp";
import { startMerge } from "../../extension/engine/merge/merge.ts";
import type { LinearScan } from "../../extension/engine/types.ts";
import { photographFilm } from "../witness/camera/camera.ts";
import { CAMERA_A, PANEL } from "../witness/camera/cameras.ts";
import { GOOD_PLACEMENT, GOOD_SETUP, metered } from "../witness/camera/setup.ts";
import { FORMAT_135 } from "../witness/film/format.ts";
import { stepWedge } from "../witness/scenes/targets.ts";
import { halfScan } from "../unit/engine/survey/rig.ts";

const [width, height] = [1800, 1200];
const { film } = stepWedge(FORMAT_135, 50);
const usual = metered(CAMERA_A, PANEL, GOOD_SETUP, "bare light");
const shots = [1, 4, 16].map((times, i) => {
  const [seconds, of] = usual.shutter;
  const exposure = { ...usual, shutter: [seconds * times, of] as const };
  const [x, y] = GOOD_PLACEMENT.centre;
  const placement = { ...GOOD_PLACEMENT, centre: [x + 0.0005 * i, y - 0.0003 * i] as [number, number] };
  const request = { camera: CAMERA_A, light: PANEL, setup: GOOD_SETUP, film, exposure, placement, width, height };
  return photographFilm(request, 901 + i);
});
const scans = shots.map((shot) => halfScan(shot).scan);
const merge = startMerge(scans[0]!);
for (const scan of scans.slice(1)) merge.add(scan);

/** Steps 13 to 20 of the wedge, a strip high, with the densest one's light at a third of white. */
async function strip(scan: LinearScan): Promise<Buffer> {
  const corner = (u: number, v: number): [number, number] => {
    const [x, y] = shots[0]!.truth.placeOf(u, v);
    return [Math.round(x / 2), Math.round(y / 2)];
  };
  const [[left, top], [right, bottom]] = [corner(13 / 21, 0.3), corner(1, 0.52)];
  const [wide, high] = [right - left, bottom - top];
  const grey = Buffer.alloc(wide * high);
  for (let y = 0; y < high; y++)
    for (let x = 0; x < wide; x++) {
      const signal = (scan.data[((top + y) * scan.width + left + x) * 3 + 1]! - scan.black) * scan.scale;
      grey[y * wide + x] = 255 * Math.min(1, Math.max(0, 55 * signal)) ** (1 / 2.2);
    }
  return sharp(grey, { raw: { width: wide, height: high, channels: 1 } })
    .resize({ width: 900, kernel: "nearest" })
    .png()
    .toBuffer();
}

const strips = [await strip(scans[0]!), await strip(merge.finish())];
const { height: high } = await sharp(strips[0]).metadata();
await sharp({ create: { width: 900, height: 2 * high + 8, channels: 3, background: "white" } })
  .composite(strips.map((input, i) => ({ input, left: 0, top: i * (high + 8) })))
  .greyscale()
  .png({ palette: true, compressionLevel: 9 })
  .toFile(process.argv[3] ?? "bracket.png");
