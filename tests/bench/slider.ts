/**
 * Time of a slider's move in the preview, in headless Chromium: from a changed look to its picture on the canvas, at 2
 * megapixels on the canvas and at 0.5 (a panel of usual size), by the panel's own CPU and GPU surfaces. The plan alone
 * runs beside them: times in parts of it say the same on a machine that does other things.
 * Run: npx esbuild tests/bench/slider.ts --bundle --platform=node --format=esm --packages=external --outfile=.cache/slider.mjs
 *      && node .cache/slider.mjs [--record]     (--record appends to tests/bench/history.csv)
 * The best of many moves is given beside the median: on a machine that does other things it is the steadier of the two.
 */
import { appendFileSync } from "node:fs";
import { cpus } from "node:os";
import type { FrameLook } from "../../extension/engine/types.ts";
import { bundle, launch, open } from "../browser/chromium.ts";

const MOVES = 24;
const SIZES = [
  ["2 MP", 1732, 1155],
  ["0.5 MP", 866, 577],
] as const;

const looks = Array.from({ length: MOVES }, (_, i): FrameLook => ({
  film: "colour-negative",
  base: [0.31, 0.6, 0.76],
  gamma: [0.53, 0.56, 0.63],
  unmix: [
    [1.21, -0.17, -0.04],
    [-0.13, 1.25, -0.12],
    [-0.02, -0.19, 1.21],
  ],
  colour: [
    [1.1, -0.05, -0.05],
    [-0.05, 1.1, -0.05],
    [0, -0.1, 1.1],
  ],
  exposure: i * 0.05,
  filtration: { cyan: 0, magenta: 4, yellow: 7 },
  tone: { contrast: 1.35, toe: 0.3, shoulder: 0.4, black: 0.5, points: [[25, 23]] },
  saturation: 1.1,
}));

const median = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1];
const [{ script }, worker] = await Promise.all([
  bundle("tests/bench/slider.page.ts"),
  bundle("webview/preview/preview-worker.ts", "iife"),
]);
const browser = await launch();
try {
  const page = await open(browser, {
    "/": { type: "text/html", body: "<!doctype html><body><script type=module src=/page.js></script>" },
    "/page.js": { type: "text/javascript", body: script },
    "/preview-worker.js": { type: "text/javascript", body: worker.script },
  });
  await page.waitForFunction(() => "timeMoves" in window);
  for (const [name, width, height] of SIZES) {
    const { renderer, plan, codes, cpu, viewport, gpu } = await page.evaluate(
      ([w, h, all]) => window.timeMoves(w, h, all),
      [width, height, looks] as const,
    );
    const software = renderer.includes("SwiftShader") ? "software GL" : renderer;
    // The first moves compile what runs.
    const alone = Math.min(...plan.slice(4));
    for (const [path, times] of [
      ["plan alone, plain loop", plan],
      ["plan alone, as the CPU path runs it", codes],
      ["CPU path", cpu],
      ["CPU path, picture moved as well", viewport],
      [`GPU path, ${software}`, gpu],
    ] as const) {
      const moves = times.slice(4);
      const value = Math.min(...moves);
      console.log(
        `${name.padStart(7)}  best ${value.toFixed(1).padStart(6)} ms  median ${median(moves).toFixed(1).padStart(6)} ms  ` +
          `${(value / alone).toFixed(2).padStart(5)} of the plan  ${path}`,
      );
      if (process.argv.includes("--record"))
        appendFileSync(
          "tests/bench/history.csv",
          `${[new Date().toISOString().slice(0, 10), "slider", JSON.stringify(`${name}, ${path}`), value.toFixed(1), "ms", cpus()[0].model, process.versions.node].join(",")}\n`,
        );
    }
  }
} finally {
  await browser.close();
}
