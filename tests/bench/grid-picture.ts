/**
 * Draws the job guide's picture of a grid: six scans of one sheet in the order in which they were taken, and the positive of
 * the frame that they are joined into.
 *
 * Usage: node dist/bench.mjs grid-picture FILE
 */
import sharp from "sharp";
import { layingOrder, startJoin } from "../../extension/engine/image/join/lay.ts";
import { measureJoin } from "../../extension/engine/image/join/measure.ts";
import { joinFrame } from "../../extension/engine/image/join/place.ts";
import { joinPlane } from "../../extension/engine/image/join/plane.ts";
import type { LinearScan } from "../../extension/engine/types.ts";
import { drawPictures, type FrameLight } from "../../extension/work/frame/develop.ts";
import { CAMERA_A, PANEL } from "../witness/camera/cameras.ts";
import { GOOD_FLARE, RIG } from "../unit/engine/survey/rig.ts";
import { field, photographGrid } from "../unit/engine/image/join/grid.ts";
import { lookOf, sheetOf } from "../unit/work/new-roll/rolls.ts";

const WIDTH = 1000;
const shots = photographGrid({
  subject: "regatta",
  rows: 2,
  columns: 3,
  overlap: 0.28,
  turned: 0.5,
  moved: 0.02,
  stops: 0.2,
  distortion: [0.012, 0],
  seed: 5,
});
const { places, overlaps, residual } = measureJoin(shots.map(({ scan, light }) => joinPlane(scan, light)));
const parts = shots.map(({ scan, light }, i) => ({ scan, light, place: places[i]! }));
const join = startJoin(joinFrame(parts), 1, () => {});
for (const i of layingOrder(parts.map(({ place }) => place))) join.add(parts[i]!);
const joined = join.finish();

const look = { ...lookOf(sheetOf(RIG.stock, CAMERA_A, PANEL)), exposure: 0.2 };
const WHOLE = { left: 0, top: 0, width: 1, height: 1, tilt: 0 };

/** A scan's positive as an sRGB picture of `width` pixels. */
async function positive(
  scan: LinearScan,
  { ratio, ...light }: FrameLight & { readonly ratio: number },
  area: typeof WHOLE,
  width: number,
): Promise<Buffer> {
  const known = { iso: 100, aperture: 8 };
  const lit = { ...light, reference: { ...known, shutter: 1 } };
  const setup = { look, light: lit, framing: { area, turn: 0, mirror: false }, spots: [] } as const;
  const long = Math.max(width, Math.round((width * scan.height) / scan.width));
  const [drawn] = drawPictures(
    scan,
    { ...known, shutter: ratio },
    setup,
    [{ space: "srgb", long, sharpen: 0 }],
    () => {},
  );
  const codes = Buffer.alloc(drawn!.data.length);
  for (let k = 0; k < codes.length; k++) codes[k] = drawn!.data[k]! >> 8;
  const size = { width: drawn!.width, height: drawn!.height, channels: 3 } as const;
  return sharp(codes, { raw: size }).resize({ width }).png().toBuffer();
}

const gap = 8;
const small = Math.floor((WIDTH - 5 * gap) / 6);
const tops = await Promise.all(
  shots.map(({ scan, light: { ratio } }) => positive(scan, { field, flare: GOOD_FLARE, ratio }, WHOLE, small)),
);
const crop = { left: 0.018, top: 0.028, width: 0.968, height: 0.945, tilt: -0.25 };
const large = await positive(joined, { flare: [0, 0, 0], ratio: 1 }, crop, WIDTH);
const [{ height: high }, { height: deep }] = [await sharp(tops[0]).metadata(), await sharp(large).metadata()];
await sharp({ create: { width: WIDTH, height: high + gap + deep, channels: 3, background: "white" } })
  .composite([
    ...tops.map((input, i) => ({ input, left: i * (small + gap), top: 0 })),
    { input: large, left: 0, top: high + gap },
  ])
  .jpeg({ quality: 86, mozjpeg: true })
  .toFile(process.argv[3] ?? "grid.jpg");
console.log(`${overlaps.length} overlaps, the worst off by ${residual.toFixed(2)} px`);
