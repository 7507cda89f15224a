/**
 * The npm package: what is in it, and that it works alone in an empty folder. Installing needs npm's cache, as `npm ci`
 * fills it, or a registry.
 */
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import sharp from "sharp";
import { pack, type Packed, root, run } from "./packed.ts";

const project = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as {
  name: string;
  version: string;
  scripts: Record<string, string>;
};

let folder = "";
let packed: Packed;
let names: readonly string[] = [];
const shell = process.platform === "win32";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "package-"));
  ({ packed } = pack(folder));
  names = packed.files.map(({ path }) => path);
}, 300_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("the npm package", () => {
  test("has command, pool, worker, decoders, schemas and docs", () => {
    for (const name of [
      "dist/rollbook.mjs",
      "dist/pool.mjs",
      "dist/worker.mjs",
      "dist/lcms.js",
      "dist/lcms.wasm",
      "dist/libraw.js",
      "dist/libraw.wasm",
      "dist/zxing_reader.wasm",
      "dist/edge-codes/film-names.csv",
      "dist/review.js",
      "dist/review.css",
      "dist/rollbook.1",
      "dist/engine.mjs",
      "dist/recipe.mjs",
      "dist/types/engine/index.d.ts",
      "dist/types/recipe/index.d.ts",
      "schemas/roll.schema.json",
      "schemas/stock.schema.json",
      "docs/recipe-reference.md",
      "docs/third-party-notices.md",
      "docs/licences/LGPL-2.1.txt",
      "LICENSE",
      "README.md",
    ])
      expect(names).toContain(name);
    for (const script of ["extension/build.mjs", "extension/packaging/prepack.mjs"])
      expect(project.scripts.prepack).toContain(script);
  });

  test("has no sources, source maps, artwork, benches or tests, and is small", () => {
    const places = new Set(names.map((name) => dirname(name).split("/")[0]));
    expect([...places].toSorted()).toEqual([".", "dist", "docs", "schemas"]);
    expect(names.filter((name) => /\.map$|(?<!\.d)\.ts$|(^|\/)(demo|bench)|\.(png|jpe?g|svg|dng)$/.test(name))).toEqual(
      [],
    );
    // The editor's panels are no use without the extension.
    expect(
      names.filter((name) => /^dist\/(preview|sheet|tile|copy-stand|review-panel|survey-panel)/.test(name)),
    ).toEqual([]);
    expect(packed.size).toBeLessThan(3e6);
    expect(packed.unpackedSize).toBeLessThan(10e6);
  });

  test("installed alone in an empty folder, it renders a scan", { timeout: 300_000 }, async () => {
    const home = join(folder, "home");
    mkdirSync(home);
    writeFileSync(join(home, "package.json"), '{ "private": true }\n');
    const installed = run(
      "npm",
      ["install", "--prefer-offline", "--no-audit", "--no-fund", join(folder, packed.filename)],
      home,
    );
    expect([installed.code, installed.err.replaceAll(/^npm warn.*\n/gm, "")]).toEqual([0, ""]);
    // Everything but the image library is in the bundles.
    const lock = JSON.parse(readFileSync(join(home, "package-lock.json"), "utf8")) as { packages: object };
    const carried = Object.keys(lock.packages).filter((path) => existsSync(join(home, path, "package.json")));
    const known = /^$|node_modules\/(rollbook|sharp|semver|detect-libc|tslib|@img\/[\w-]+|@emnapi\/runtime)$/;
    expect(carried.filter((path) => !known.test(path))).toEqual([]);

    const bin = join(home, "node_modules", ".bin", shell ? "rollbook.cmd" : "rollbook");
    expect(run(bin, ["--version"], home).out).toBe(`${project.version}\n`);
    mkdirSync(join(home, "rolls/scans"), { recursive: true });
    await writeScan(join(home, "rolls/scans/H0001.tif"));
    writeFileSync(join(home, "rolls/harbour.roll.yaml"), RECIPE);
    const rendered = run(bin, ["render", "rolls/harbour.roll.yaml", "-o", "pictures"], home);
    expect([rendered.code, rendered.out]).toEqual([0, "1 picture written.\n"]);
    const picture = sharp(join(home, "pictures/web/harbour-01.png"));
    expect(await picture.metadata()).toMatchObject({ width: 240, height: 160, format: "png" });
    // The scan is thinnest on its left: the positive is darkest there.
    const { data, info } = await picture.raw().toBuffer({ resolveWithObject: true });
    const at = (x: number): number => data[(80 * info.width + x) * info.channels + 1];
    expect(at(20)).toBeLessThan(at(120) - 20);
    expect(at(120)).toBeLessThan(at(220) - 20);

    // The modules have types that a strict compiler reads, and refuses a wrong call by.
    writeFileSync(join(home, "use.mts"), USE);
    for (const settings of [
      ["--module", "nodenext"],
      ["--module", "node16", "--moduleResolution", "node16"],
      ["--module", "esnext", "--moduleResolution", "bundler"],
    ]) {
      const compiled = run(
        "node",
        [join(root, "node_modules/typescript/bin/tsc"), "--noEmit", "--strict", ...settings, "use.mts"],
        home,
      );
      expect([settings, compiled.code, compiled.out]).toEqual([settings, 0, ""]);
    }
    // They run in plain Node, and what is not exported stays closed.
    const imported = (text: string) => run("node", ["--input-type=module", "-e", text], home);
    const ask = 'import { densityOf } from "rollbook/engine"; import { parseRecipe } from "rollbook/recipe";';
    const used = imported(`${ask} console.log(densityOf(0.1), parseRecipe("", { file: "a.roll.yaml" }).kind)`);
    expect([used.err, used.out]).toEqual(["", "1 roll\n"]);
    expect(imported('import "rollbook/dist/pool.mjs"').err).toContain("ERR_PACKAGE_PATH_NOT_EXPORTED");
  });
});

const USE = `import { compilePlan, densityOf, type FrameLook, type Plan } from "rollbook/engine";
import { parseRecipe, type Problem } from "rollbook/recipe";
export const density: number = densityOf(0.5);
export const plan = (look: FrameLook): Plan => compilePlan(look, "srgb");
export const problems: readonly Problem[] = parseRecipe("version: 1", { file: "a.roll.yaml" }).problems;
// @ts-expect-error there is no such colour space
export const wrong = (look: FrameLook): Plan => compilePlan(look, "rgb");
`;

const RECIPE = `version: 1
film: black-and-white-negative
scans: scans
negative:
  base: { density: [0.1, 0.1, 0.1] }
  gamma: 0.6
output:
  - { name: web, type: png, depth: 8, space: srgb }
frames:
  "01":
    scan: H0001.tif
`;

/** A negative of 240 × 160 pixels, 16 bit and linear: density rises from 0.2 on the left to 1.4 on the right. */
async function writeScan(path: string): Promise<void> {
  const [width, height] = [240, 160];
  const samples = Uint16Array.from({ length: width * height * 3 }, (_, i) => {
    const x = Math.floor(i / 3) % width;
    return Math.round(65_535 * 10 ** -(0.2 + (1.2 * x) / (width - 1)));
  });
  await sharp(samples, { raw: { width, height, channels: 3 } })
    .toColourspace("rgb16")
    .tiff({ compression: "none" })
    .toFile(path);
}
