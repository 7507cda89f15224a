// Makes table.ts: the prior of the automatic start, from published films, cameras and lights.
//
//   node extension/engine/auto/make.mjs            rewrites the table from tests/reference
//
// Method: extension/engine/calibrate/neutral-prior.ts, neutral-table.ts and docs/automatic-start.md. Sources and licences
// of the inputs: tests/reference/README.md.
import { build } from "esbuild";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const root = fileURLToPath(new URL("../../..", import.meta.url));

// Bundled beside the tests' readers, which look for tests/reference next to their own folder.
const folder = mkdtempSync(join(root, "tests", "made-"));
try {
  const outfile = join(folder, "made.mjs");
  await build({
    stdin: {
      contents: `
        export { drawNeutrals, tableOf } from "./extension/engine/calibrate/neutral-table.ts";
        export { tableInputs } from "./tests/external/published-negatives.ts";
      `,
      resolveDir: root,
      loader: "ts",
    },
    bundle: true,
    platform: "node",
    format: "esm",
    outfile,
    logLevel: "warning",
  });
  const { drawNeutrals, tableOf, tableInputs } = await import(pathToFileURL(outfile).href);
  const inputs = tableInputs();
  const draws = drawNeutrals(inputs);
  writeFileSync(join(root, "extension/engine/auto/table.ts"), textOf(tableOf(draws, inputs)));
  console.log(`${draws.length} neutral curves of ${inputs.films.length} films`);
} finally {
  rmSync(folder, { recursive: true });
}

function textOf({ raw, display, mask, crosstalk, byCamera, colour }) {
  const list = (v) => `[${v.map((x) => Number(x.toFixed(4)) + 0).join(", ")}]`;
  const rows = (m) => `[${m.map(list).join(", ")}]`;
  const pair = ({ red, blue }) => `{ red: ${list(red)}, blue: ${list(blue)} }`;
  const prior = (p) => `{
  green: ${list(p.green)},
  red: ${list(p.red)},
  blue: ${list(p.blue)},
  components: [
${p.components.map((c) => `    ${pair(c)},`).join("\n")}
  ],
  logH: ${list(p.logH)},
}`;
  return `// Made by make.mjs from published spectra; do not edit. Films: spectral_film_lut, MIT; sensitivities: rawtoaces-data,
// Apache-2.0; lights: colour-science, BSD-3-Clause; all named in docs/third-party-notices.md.
import type { Matrix3, Rgb } from "../types.ts";
import type { NeutralPrior } from "./prior.ts";

/** Neutrals in linear camera densities. */
// oxfmt-ignore
export const RAW: NeutralPrior = ${prior(raw)};

/** Neutrals in files that were developed for display. */
// oxfmt-ignore
export const DISPLAY: NeutralPrior = ${prior(display)};

/** Density of masked base through a camera, with a blank. */
// oxfmt-ignore
export const MASK: { readonly mean: Rgb; readonly spread: Rgb } = { mean: ${list(mask.mean)}, spread: ${list(mask.spread)} };

/** Log exposure that camera channels see of the film's layers: rows sum to 1. */
// oxfmt-ignore
export const CROSSTALK: Matrix3 = ${rows(crosstalk)};

/** The same by camera model. */
// oxfmt-ignore
export const CROSSTALK_BY_CAMERA: Readonly<Record<string, Matrix3>> = {
${Object.entries(byCamera)
  .sort(([a], [b]) => (a < b ? -1 : 1))
  .map(([name, m]) => `  ${JSON.stringify(name)}: ${rows(m)},`)
  .join("\n")}
};

/** Exposures of the film's layers to linear sRGB: rows sum to 1. */
// oxfmt-ignore
export const COLOUR: Matrix3 = ${rows(colour)};
`;
}
