/** What rendering says of a picture that cannot be right though nothing failed. */
import { expect, it } from "vitest";
import { exposureWarnings } from "../../../../extension/work/frame/warnings.ts";
import { renderFrame } from "../../../../extension/work/render/render-frame.ts";
import type { ExposureSettings } from "../../../../extension/engine/flat-field/exposure.ts";
import { writeDng } from "../../../witness/raw/dng.ts";
import { plainLook } from "../../engine/looks.ts";
import { drawMosaic, temporaryFolder } from "../../scans/files.ts";
import { folderMark } from "../../../../extension/scans/files/file-mark.ts";

const [WIDTH, HEIGHT] = [120, 80];
const folder = temporaryFolder();
const context = { report() {}, checkpoint() {} };

/** Warnings of one small frame, exposed for so many seconds beside a reference of 1/60 s. */
async function warningsOf(name: string, shutter: number, reference: ExposureSettings = { shutter: 1 / 60, iso: 100 }) {
  const data = drawMosaic(WIDTH, HEIGHT);
  const exif = { shutter: [Math.round(shutter * 4800), 4800], aperture: 8, iso: 100 } as const;
  const path = folder.put(
    `${name}.dng`,
    writeDng({ width: WIDTH, height: HEIGHT, data, black: 512, white: 15000, exif }),
  );
  const area = { left: 0.1, top: 0.1, width: 0.8, height: 0.8, tilt: 0 };
  const setup = {
    look: plainLook,
    framing: { area, turn: 0 as const, mirror: false },
    light: { flare: [0, 0, 0] as const, reference },
    spots: [],
  };
  const form = { space: "srgb", long: 60, sharpen: 0 } as const;
  const spec = { type: "png", depth: 8, space: "srgb" } as const;
  const place = { path: `${folder.path}/${name}.png`, replace: false, folder: folderMark(folder.path)! };
  const pictures = [{ output: "web", ...place, form, spec, metadata: {} }];
  return (await renderFrame({ path, setup, pictures }, context)).warnings;
}

it("an ordinary frame is rendered without a word", async () => {
  expect(await warningsOf("ordinary", 1 / 30)).toEqual([]);
});

it("exposures more than ten stops apart are told, and so is a picture of one colour", async () => {
  const warnings = await warningsOf("apart", 4e5);
  expect(warnings[0]).toMatch(/exposed 24\.5 EV apart.*Check shutter time, ISO and f-number/);
  expect(warnings[1]).toMatch(/of one colour throughout/);
  expect(warnings).toHaveLength(2);
});

it.each([
  [1024, 0],
  [1025, 1],
  [1 / 1024, 0],
  [1 / 1025, 1],
  [4e9, 1],
  [Infinity, 1],
  [0, 1],
])("a ratio of %d is told %i times", (ratio, count) => {
  expect(exposureWarnings({ ratio, unknown: ["aperture"] })).toHaveLength(count);
});
