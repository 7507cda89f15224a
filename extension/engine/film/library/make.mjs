// Makes films.ts, spectra.ts (dyes, lights, cameras) from the published tables of tests/reference, whose README names
// sources and licences.
//
//   node extension/engine/film/library/make.mjs            writes both files
//   node extension/engine/film/library/make.mjs --check    fails where they are not what the tables give
import { build } from "esbuild";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const root = fileURLToPath(new URL("../../../..", import.meta.url));
// Bundled beside the tests' readers, which look for tests/reference next to their own folder.
const folder = mkdtempSync(join(root, "tests", "made-"));
try {
  const entry = `
    export { DYES, filmOf, INDEX } from "./tests/external/published-films.ts";
    export { COPY_LIGHTS } from "./tests/external/copy-lights.ts";
    export { CAMERAS, OBSERVER, scanningSet } from "./tests/external/spectral-data.ts";
    export { publishedMatrix } from "./tests/external/colour-matrices.ts";
    export { SPACES } from "./extension/engine/colour/spaces.ts";
    export { shapeOf } from "./extension/engine/calibrate/camera-unmix/prediction.ts";
  `;
  const outfile = join(folder, "made.mjs");
  const stdin = { contents: entry, resolveDir: root, loader: "ts" };
  await build({ stdin, bundle: true, platform: "node", format: "esm", outfile, logLevel: "warning" });
  const made = await import(pathToFileURL(outfile).href);
  const films = made.INDEX.map(made.filmOf);
  const kept = films.filter((f) => typeof f !== "string");
  const texts = { "films.ts": filmsText(kept), "spectra.ts": await spectraText(made, kept) };
  for (const [name, text] of Object.entries(texts)) {
    const file = join(root, "extension/engine/film/library", name);
    if (!process.argv.includes("--check")) writeFileSync(file, text);
    else if (readFileSync(file, "utf8") !== text)
      throw new Error(`${name} is out of date: run make.mjs without --check.`);
  }
  if (!process.argv.includes("--check")) {
    made.INDEX.forEach(
      ({ film }, i) => typeof films[i] === "string" && console.log(`${film} is left out: ${films[i]}`),
    );
    console.log(`${kept.length} films`);
  }
} finally {
  rmSync(folder, { recursive: true });
}

function filmsText(films) {
  return `// Made by make.mjs; do not edit. Characteristic curves, base spectra, dyes and sensitivities: spectral_film_lut 02ecafd7,
// MIT License (c) 2026 Jan Lohse, digitised from the makers' data sheets; surfaces: rawtoaces-data, Apache-2.0.
// Both are named in docs/third-party-notices.md.
import type { PublishedFilm } from "./types.ts";

// oxfmt-ignore
export const FILMS: readonly PublishedFilm[] = [
${films.map((f) => `  ${JSON.stringify(f)},`).join("\n")}
];
`;
}

async function spectraText(
  { DYES, COPY_LIGHTS, CAMERAS, scanningSet, publishedMatrix, shapeOf, OBSERVER, SPACES },
  films,
) {
  const display = SPACES.srgb.fromXyz.map((row) =>
    OBSERVER[0].map((_, i) => row.reduce((sum, v, k) => sum + v * OBSERVER[k][i], 0)),
  );
  const shapes = await Promise.all(CAMERAS.map(async (name) => shapeOf(await publishedMatrix(name))));
  const used = new Set(films.flatMap((f) => f.colour?.dyes.map(([name]) => name) ?? []));
  const rounded = (spectrum, digits) => `[${spectrum.map((v) => Number(v.toPrecision(digits)) + 0).join(",")}]`;
  const sets = [...DYES].filter(([name]) => used.has(name));
  return `// Made by make.mjs; do not edit. 400 to 700 nm in steps of 5. Dyes: spectral_film_lut 02ecafd7, MIT License (c) 2026 Jan
// Lohse; lights: CIE and NIST, carried by colour-science v0.4.6, BSD-3-Clause; cameras: rawtoaces-data v1.1.0, Apache-2.0.
// All are named in docs/third-party-notices.md.
import type { DyeSet, Spectrum } from "./types.ts";

/** Cyan, magenta and yellow image dye, by the film that they are published of; spectral density. */
// oxfmt-ignore
export const DYES: Readonly<Record<string, DyeSet>> = {
${sets.map(([name, dyes]) => `  ${JSON.stringify(name)}: [${dyes.map((d) => rounded(d, 4)).join(", ")}],`).join("\n")}
};

/** Lights that film is copied on; relative power. */
// oxfmt-ignore
export const LIGHTS: Readonly<Record<string, Spectrum>> = {
${[...COPY_LIGHTS].map(([name, power]) => `  ${JSON.stringify(name)}: ${rounded(power, 4)},`).join("\n")}
};

/** Stands among the cameras for files that were developed for display: the CIE 1931 observer through sRGB's primaries. */
export const DISPLAY = "display-referred";

/** Red, green and blue sensitivity of cameras by EXIF model; relative to each camera's greatest. */
// oxfmt-ignore
export const CAMERAS: Readonly<Record<string, readonly [Spectrum, Spectrum, Spectrum]>> = {
  [DISPLAY]: [${display.map((s) => rounded(s, 4)).join(", ")}],
${CAMERAS.map(
  (name) =>
    `  ${JSON.stringify(name)}: [${scanningSet(name, "D50")
      .sensitivity.map((s) => rounded(s, 4))
      .join(", ")}],`,
).join("\n")}
};

/** What the colour matrix of each camera says of its sensitivities' shape (\`shapeOf\`); matrices as LibRaw knows them. */
// oxfmt-ignore
export const SHAPES: Readonly<Record<string, readonly number[]>> = {
${CAMERAS.map((name, i) => `  ${JSON.stringify(name)}: ${rounded(shapes[i], 4)},`).join("\n")}
};
`;
}
