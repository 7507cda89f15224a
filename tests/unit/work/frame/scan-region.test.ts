/** Pictures made from the part of a scan that they need are those made from the whole, sample by sample. */
import { describe, expect, it } from "vitest";
import type { Turn } from "../../../../extension/engine/image/geometry.ts";
import { heal } from "../../../../extension/engine/image/heal.ts";
import type { LinearScan } from "../../../../extension/engine/types.ts";
import type { Mosaic } from "../../../../extension/scans/raw/mosaic.ts";
import { type FullSize, scanOfMosaic } from "../../../../extension/scans/raw/to-scan.ts";
import { drawPictures, type FrameSetup, type PictureForm } from "../../../../extension/work/frame/develop.ts";
import { scanRegion } from "../../../../extension/work/frame/scan-region.ts";
import fc from "../../../properties.ts";
import { RGGB, XTRANS } from "../../../witness/raw/dng.ts";
import { random } from "../../engine/simulated.ts";
import { between, plainLook } from "../../engine/looks.ts";

const [WIDTH, HEIGHT] = [260, 190];

function mosaic({ colours, period }: { colours: readonly number[]; period: number }): Mosaic {
  const { uniform } = random(8);
  const data = Uint16Array.from({ length: (WIDTH + 8) * (HEIGHT + 6) }, () => 600 + Math.floor(uniform() * 14_000));
  const black = colours.map(() => 500);
  const size = { width: WIDTH, height: HEIGHT, stride: WIDTH + 8, left: 6, top: 6 };
  return { ...size, data, period, colours, black, white: 15_000, monochrome: false };
}

/** What the last scan left there must not matter. */
const used = (samples: number): Uint16Array => {
  const { uniform } = random(samples);
  return Uint16Array.from({ length: samples }, () => Math.floor(uniform() * 65_536));
};

const setups = fc.record({
  framing: fc.record({
    area: fc.record({
      left: between(-0.05, 0.5),
      top: between(-0.05, 0.5),
      width: between(0.2, 0.5),
      height: between(0.2, 0.5),
      tilt: fc.oneof(fc.constant(0), between(-8, 8)),
    }),
    turn: fc.constantFrom<Turn>(0, 90, 180, 270),
    mirror: fc.boolean(),
  }),
  spots: fc.array(fc.tuple(between(0, 1), between(0, 0.73), between(0.002, 0.06)), { maxLength: 8 }),
});
const forms = fc.array(fc.record({ long: fc.constantFrom(undefined, 30, 70), sharpen: fc.constantFrom(0, 0.5) }), {
  minLength: 1,
  maxLength: 2,
});

describe.each([
  ["Bayer", mosaic({ colours: RGGB.colours, period: 2 })],
  ["X-Trans", mosaic({ colours: XTRANS.colours, period: 6 })],
])("%s", (_, recorded) => {
  it("gives the same pictures from the part that they need", () => {
    const whole = scanOfMosaic(recorded, false);
    let spared = 0;
    fc.assert(
      fc.property(setups, forms, (how, sizes) => {
        const setup: FrameSetup = { look: plainLook, light: { flare: [0, 0, 0] }, ...how };
        const requests = sizes.map((size): PictureForm => ({ space: "srgb", ...size }));
        const draw = (wanted: FullSize, from?: LinearScan): Uint16Array[] => {
          const scan = from ? { ...from, data: from.data.slice() } : scanOfMosaic(recorded, false, wanted);
          heal(scan, setup.spots);
          return drawPictures(scan, {}, setup, requests, () => {}).map(({ data }) => data);
        };
        const part = scanRegion({ width: WIDTH, height: HEIGHT }, setup, requests);
        spared += WIDTH * HEIGHT - part.width * part.height;
        expect(draw({ memory: used, part: () => part })).toEqual(draw({}, whole));
      }),
      { numRuns: 60 },
    );
    expect(spared).toBeGreaterThan(20 * WIDTH * HEIGHT); // not one of them, in all but name
  });
});
