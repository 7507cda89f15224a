/**
 * Falloff without a blank: what is left of known light on the witness's rolls, and the picture of the docs.
 *
 * Usage: node dist/bench.mjs falloff [--picture FOLDER]; with a picture to draw the rolls are left out
 */
import { join } from "node:path";
import { parseArgs } from "node:util";
import sharp from "sharp";
import { filmPlane } from "../../extension/engine/flat-field/film-plane.ts";
import { readBaseCells } from "../../extension/engine/lens/base-cells.ts";
import { falloffTerms, fitFalloff } from "../../extension/engine/lens/fit-falloff.ts";
import { parseRecipe } from "../../extension/recipe/problems/document.ts";
import { resolveRoll } from "../../extension/recipe/resolve/resolve.ts";
import { drawPictures } from "../../extension/work/frame/develop.ts";
import {
  EVEN,
  FALLOFF_ROLLS,
  falloffError,
  type FalloffRoll,
  falloffScans,
  measuredFalloff,
} from "../unit/engine/lens/falloff-rolls.ts";

const { values } = parseArgs({ args: process.argv.slice(3), options: { picture: { type: "string" } } });

console.log("falloff, EV; errors are the largest anywhere on the scan");
for (const roll of values.picture ? [] : FALLOFF_ROLLS) {
  const fit = measuredFalloff(roll);
  if (!fit) continue;
  const before = falloffError({ radial: [0], gradient: [0, 0] }, roll.falloff);
  const after = falloffError(falloffTerms(fit), roll.falloff);
  console.log(
    `${roll.name}: uncorrected ${before.toFixed(3)}; measured span ${fit.span.toFixed(3)} ±${fit.error.toFixed(3)}; left after correction ${after.toFixed(3)}`,
  );
}
if (values.picture) await drawFalloff(join(values.picture, "lens-falloff.jpg"));

/** A positive as photographed, and with its falloff corrected, each fitted to the same mean. */
async function drawFalloff(file: string): Promise<void> {
  const roll: FalloffRoll = {
    name: "picture",
    subjects: ["mist", "gulls", "quay"],
    falloff: { ...EVEN, corners: 0.4, slope: [0.05, -0.08] },
    seed: 7900,
    wide: 0.86,
  };
  const { scans, area, base } = falloffScans(roll);
  const cells = scans.map(({ scan }) => readBaseCells(filmPlane(scan, { ratio: 1 }), [area], base));
  const fit = fitFalloff(cells, 1.5)!;
  const recipe = `version: 2\nnegative: { base: { density: [${base.join(", ")}] } }\npositive: { saturation: 0, contrast: 1.8 }\nframes:\n  "1": { scan: a.dng }\n`;
  const { look } = resolveRoll(parseRecipe(recipe, { file: "r.roll.yaml" })).frames[0];
  const at = [0.5, area.top / 2] as const;
  const drawn = [undefined, { ...falloffTerms(fit), at }].map((falloff) => {
    const light = { flare: [0, 0, 0] as const, ...(falloff ? { falloff } : {}) };
    const framing = { area, turn: 0 as const, mirror: false };
    const [picture] = drawPictures(
      scans[0].scan,
      {},
      { look, light, framing, spots: [] },
      [{ space: "srgb", long: 640, sharpen: 0 }],
      () => undefined,
    );
    return picture;
  });
  const [{ width, height }] = drawn;
  const sides = drawn.map(({ data }) => Buffer.from(Uint8Array.from(data, (v) => v >> 8)));
  await sharp({ create: { width: 2 * width + 8, height, channels: 3, background: "#ffffff" } })
    .composite(sides.map((input, k) => ({ input, raw: { width, height, channels: 3 }, left: k * (width + 8), top: 0 })))
    .jpeg({ quality: 86 })
    .toFile(file);
}
