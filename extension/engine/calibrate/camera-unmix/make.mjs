// Makes table.ts: unmix matrices by camera model, from published sensitivities, dyes and reflectances; and what predicts
// them from a colour matrix, learnt from those cameras' published colour matrices (as LibRaw knows them) and fitted ones.
//
//   node extension/engine/calibrate/camera-unmix/make.mjs              writes the table again from tests/reference
//   node extension/engine/calibrate/camera-unmix/make.mjs --camera F   prints the matrix of a camera of yours: a CSV with the
//                                                            columns nm,R,G,B, 400 to 700 nm in steps of 5
//   node extension/engine/calibrate/camera-unmix/make.mjs --left-out   prints how far off cameras are that were not learnt from
//
// Method and choices: extension/engine/calibrate/spectra.ts, fit-table.ts, fit-prediction.ts and docs/calibration.md. Sources and licences
// of the inputs: tests/reference/README.md.
import { build } from "esbuild";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const root = fileURLToPath(new URL("../../../..", import.meta.url));
/** The light behind the film: CIE D50, which panels of high colour rendering come nearest to. */
const LIGHTS = ["D50"];

// Bundled beside the tests' readers, which look for tests/reference next to their own folder.
const folder = mkdtempSync(join(root, "tests", "made-"));
try {
  const entry = `
    export { fitCameras } from "./extension/engine/calibrate/camera-unmix/fit-table.ts";
    export { fitPrediction } from "./extension/engine/calibrate/camera-unmix/fit-prediction.ts";
    export { LED_RGB1, narrowSet } from "./tests/external/narrow-lights.ts";
    export { fittedMatrix, knownCameras } from "./tests/external/colour-matrices.ts";
    ${process.argv.includes("--left-out") ? 'export * from "./tests/external/left-out.ts";' : ""}
    export { CAMERAS, DYE_FILMS, filmData, GRID, lightSpectrum, REFLECTANCES, scanningSet } from "./tests/external/spectral-data.ts";
  `;
  const outfile = join(folder, "made.mjs");
  await build({
    stdin: { contents: entry, resolveDir: root, loader: "ts" },
    bundle: true,
    platform: "node",
    format: "esm",
    outfile,
    logLevel: "warning",
  });
  const made = await import(pathToFileURL(outfile).href);
  const films = made.DYE_FILMS.map(made.filmData);
  const own = process.argv.indexOf("--camera");
  if (made.leftOut) printLeftOut(made);
  else if (own > 0) {
    const [fit] = made.fitCameras(films, made.REFLECTANCES, [
      setsOf(made, readCamera(made.GRID, process.argv[own + 1])),
    ]);
    const text = fit.unmix.map((row) => `    - [${row.map((v) => v.toFixed(4)).join(", ")}]`).join("\n");
    console.log(`negative:\n  unmix:\n${text}`);
    console.log(`# rms ${fit.rms.toFixed(4)} D, greys ${fit.grey.toFixed(4)} D, noise × ${fit.noise.toFixed(2)}`);
  } else {
    const cameras = made.CAMERAS.map((camera) => LIGHTS.map((light) => made.scanningSet(camera, light)));
    const fits = made.fitCameras(films, made.REFLECTANCES, cameras);
    // Narrow bands see nearly the same through every camera: one matrix for all.
    const [narrow] = made.fitCameras(films, made.REFLECTANCES, [
      made.CAMERAS.map((camera) => made.narrowSet(camera, made.LED_RGB1)),
    ]);
    const kept = fits.map((f) => f.unmix.map((row) => row.map(short)));
    const prediction = made.fitPrediction(await made.knownCameras(kept));
    writeFileSync(
      join(root, "extension/engine/calibrate/camera-unmix/table.ts"),
      tableText(made.CAMERAS, fits, prediction, narrow),
    );
    const [rms, grey, noise] = ["rms", "grey", "noise"].map((k) => fits.map((f) => f[k]).sort((a, b) => a - b));
    const summary = (v, n) => `${v[v.length >> 1].toFixed(n)} (at most ${v.at(-1).toFixed(n)})`;
    console.log(
      `three-colour light: rms ${narrow.rms.toFixed(4)} D, greys ${narrow.grey.toFixed(4)} D, noise × ${narrow.noise.toFixed(2)}`,
    );
    console.log(
      `${fits.length} cameras: rms ${summary(rms, 4)} D, greys ${summary(grey, 4)} D, noise × ${summary(noise, 2)}`,
    );
  }
} finally {
  rmSync(folder, { recursive: true });
}

function setsOf({ lightSpectrum }, sensitivity) {
  return LIGHTS.map((light) => ({ sensitivity, light: lightSpectrum(light) }));
}

function readCamera(grid, file) {
  const rows = readFileSync(file, "utf8")
    .split(/\r?\n/)
    .filter((l) => /^\s*\d/.test(l))
    .map((l) => l.split(",").map(Number));
  const at = new Map(rows.map(([nm, ...rgb]) => [nm, rgb]));
  const missing = grid.filter((nm) => !at.get(nm)?.slice(0, 3).every(Number.isFinite));
  if (missing.length > 0)
    throw new Error(`${file} has no three numbers at ${missing[0]} nm: give 400 to 700 nm in steps of 5.`);
  return [0, 1, 2].map((c) => grid.map((nm) => at.get(nm)[c]));
}

function printLeftOut({ CAMERAS, PUBLISHED, GROUPS, fittedMatrix, leftOut, spread }) {
  const given = { "published matrix": PUBLISHED, "fitted matrix": CAMERAS.map((camera) => fittedMatrix(camera)) };
  const summary = (all) =>
    ["colours", "greys"]
      .map(
        (of) =>
          `${of} ${spread(all, of)
            .map((v) => v.toFixed(4))
            .join(", ")}`,
      )
      .join("; ");
  console.log("Median, nine tenths and worst of the cameras, D");
  for (const group of Object.keys(GROUPS)) {
    const all = leftOut(group, PUBLISHED);
    console.log(`${group} left out, median of the others: ${summary(all.map((one) => one.median))}`);
    for (const [name, matrices] of Object.entries(given))
      console.log(`${group} left out, ${name}: ${summary(leftOut(group, matrices).map((one) => one.predicted))}`);
  }
}

/** Digits that the table keeps. */
function short(v) {
  return Number(v.toFixed(4)) + 0;
}

function tableText(names, fits, prediction, narrow) {
  const line = (nine) => `[${nine.map(short).join(", ")}]`;
  const nines = fits.map((f) => f.unmix.flat());
  const middle = (k) => nines.map((n) => n[k]).sort((a, b) => a - b)[nines.length >> 1];
  const generic = line(Array.from({ length: 9 }, (_, k) => middle(k)));
  const rows = names.map((name, i) => `  ${JSON.stringify(name)}: ${line(nines[i])},`);
  return `// Made by make.mjs from published spectra; do not edit. Sensitivities: rawtoaces-data, Apache-2.0; dyes: spectral_film_lut,
// MIT; both named in docs/third-party-notices.md. The cameras' colour matrices: LibRaw.
import type { Prediction } from "./prediction.ts";

/** Camera densities above base to ISO 5-3 Status M densities above base: nine numbers, row by row, by EXIF model. */
// oxfmt-ignore
export const TABLE: Readonly<Record<string, readonly number[]>> = {
${rows.join("\n")}
};

/** For cameras that nobody has measured: the median of those above, number by number. */
// oxfmt-ignore
export const GENERIC: readonly number[] = ${generic};

/** For scans in three-colour light, by any camera: densities by the peaks of CIE LED-RGB1 to Status M. */
// oxfmt-ignore
export const NARROW: readonly number[] = ${line(narrow.unmix.flat())};

/** For cameras of which no more than a colour matrix is known. */
// oxfmt-ignore
export const PREDICTION: Prediction = {
  lowest: ${line(prediction.lowest)},
  greatest: ${line(prediction.greatest)},
  middle: ${line(prediction.middle)},
  unmix: ${line(prediction.unmix)},
  slopes: [
${prediction.slopes.map((row) => `    ${line(row)},`).join("\n")}
  ],
};
`;
}
