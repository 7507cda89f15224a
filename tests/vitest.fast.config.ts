/** Everything but the tests that draw films with the witness's model or open a browser: for while one works. */
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { defineConfig, mergeConfig } from "vitest/config";
import whole from "./vitest.config.ts";

const root = fileURLToPath(new URL("..", import.meta.url));
/** Drawing a film or photographing it takes seconds; so does starting a browser. */
const SLOW = new Set(["tests/witness/film/film.ts", "tests/witness/camera/camera.ts", "tests/browser/chromium.ts"]);
/** Suites of their own that start programs, fill disks or try thousands of texts. */
const SUITES = [
  "tests/e2e/**",
  "tests/fuzz/**",
  "tests/faults/**",
  "tests/trust/**",
  "tests/unit/cli/**",
  "tests/install/**",
];

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

export default mergeConfig(whole, defineConfig({ test: { exclude: [...SUITES, ...slow] } }));
