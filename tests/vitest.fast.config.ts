/** Every test file that is quick, in under a minute on two cores: for while one works. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { defineConfig, mergeConfig } from "vitest/config";
import whole from "./vitest.config.ts";

const root = fileURLToPath(new URL("..", import.meta.url));
/** Drawing a film, photographing it, starting a browser or the command itself takes seconds: so do files that import these. */
const SLOW = new Set([
  "tests/witness/film/film.ts",
  "tests/witness/camera/camera.ts",
  "tests/browser/chromium.ts",
  "tests/unit/cli/command.ts",
]);
/** Suites of their own that start programs, fill disks or try thousands of texts. */
const SUITES = [
  "tests/e2e/**",
  "tests/fuzz/**",
  "tests/faults/**",
  "tests/trust/**",
  "tests/unit/cli/**",
  "tests/install/**",
];
/** Single files that take more than some seconds of processor time, theirs and that of the processes they start. */
const LONG = {
  "start git, shells, decoders or worker processes by the dozen": [
    "tests/external/decoder-memory.test.ts",
    "tests/unit/docs/library.test.ts",
    "tests/unit/docs/pull-requests.test.ts",
    "tests/unit/scans/codec.test.ts",
    "tests/unit/work/pool/pool.test.ts",
    "tests/unit/work/review/drivers.test.ts",
    "tests/unit/work/review/repository.test.ts",
  ],
  "wait for a folder to be polled": ["tests/unit/work/copy-stand/watch/watch-folder.test.ts"],
  "run rules that npm run lint runs as well": ["tests/unit/imports.test.ts", "tests/unit/words.test.ts"],
  "try hundreds of cases": [
    "tests/unit/recipe/edit/edit.property.test.ts",
    "tests/unit/recipe/hostile.test.ts",
    "tests/unit/work/frame/scan-region.test.ts",
  ],
  "merge exposures of one picture": [
    "tests/external/bracket.test.ts",
    "tests/unit/engine/merge/merge.test.ts",
    "tests/unit/work/frame/merged-frame.test.ts",
    "tests/external/three-colour.test.ts",
  ],
  "draw the demo's pictures, or fit tables that are made once": [
    "tests/external/colour-matrix-unmix.test.ts",
    "tests/external/film-library.test.ts",
    "tests/unit/recipes-examples/scenes.test.ts",
  ],
};
const long = Object.values(LONG).flat();
for (const file of long)
  if (!existsSync(join(root, file)))
    throw new Error(`${file} was not found: correct the list in vitest.fast.config.ts.`);

const known = new Map<string, boolean>();
/** Whether a file of the tests reaches a slow one, through whatever it imports. */
function isSlow(file: string): boolean {
  if (SLOW.has(file)) return true;
  const before = known.get(file);
  if (before !== undefined) return before;
  known.set(file, false);
  const text = readFileSync(join(root, file), "utf8");
  const slow = [...text.matchAll(/^(?:import|export|\}).*from "(\.[^"]+\.ts)"/gm)]
    .map(([, name]) => relative(root, join(root, dirname(file), name)))
    .some((name) => name.startsWith("tests/") && isSlow(name));
  known.set(file, slow);
  return slow;
}
const slow = readdirSync(join(root, "tests"), { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".test.ts"))
  .map((name) => `tests/${name}`)
  .filter(isSlow);

export default mergeConfig(
  whole,
  defineConfig({
    test: {
      exclude: [...SUITES, ...long, ...slow],
      // Files share two processes: what they import is loaded twice, and not once for each of a hundred files.
      isolate: false,
    },
  }),
);
