/**
 * Main-thread work of the roll sheet while a grid of 200 frames scrolls, in headless Chromium: every task of the page's main
 * thread between two display frames, from the browser's own trace (category devtools.timeline), pictures fetched and
 * painted on the way. The made-up host works in a worker, as
 * the editor's host is another process. On a second pass tiles and small pictures are there already.
 * Run: npx esbuild tests/bench/sheet.ts --bundle --platform=node --format=esm --packages=external --outfile=.cache/sheet.mjs
 *      && node .cache/sheet.mjs [--record]     (--record appends to tests/bench/history.csv)
 * Between two frames other programs may run: CPU time (tdur) is counted, not time on the clock.
 */
import { appendFileSync } from "node:fs";
import { cpus } from "node:os";
import type { Page } from "playwright-core";
import { launch } from "../browser/chromium.ts";
import { openSheet } from "../browser/open-sheet.ts";
import { rollText } from "../browser/open-panel.ts";
import type { TraceEvent } from "./trace.ts";

const FRAMES = 200;
/** Pixels a display frame: a quick flick of a wheel goes 100 px in 3 frames. */
const STEP = 40;

const quantile = (values: readonly number[], p: number): number =>
  values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.floor(p * values.length))];

const browser = await launch();
try {
  for (const size of ["contact", "small", "four"] as const) {
    const viewport = { width: 1500, height: 950 };
    const { page } = await openSheet(browser, { text: rollText(FRAMES), viewport, hostInWorker: true });
    await page.waitForFunction(() => document.querySelectorAll(".sheet-tile.pictured").length > 8);
    await page.evaluate((to) => window.sheet.session.ui({ size: to }), size);
    await page.waitForTimeout(1500);
    for (const pass of ["first pass", "second pass"]) {
      const work = await scrolled(page);
      const [middle, most, over] = [quantile(work, 0.5), quantile(work, 0.95), work.filter((ms) => ms > 8).length];
      console.log(
        `${size.padEnd(8)} ${pass}: ${work.length} display frames: median ${middle.toFixed(1)} ms, 95 % within ${most.toFixed(1)} ms, ` +
          `${over} over 8 ms, longest ${Math.max(...work).toFixed(1)} ms of main-thread work a display frame`,
      );
      if (process.argv.includes("--record"))
        appendFileSync(
          "tests/bench/history.csv",
          `${[new Date().toISOString().slice(0, 10), "sheet", JSON.stringify(`scrolling ${FRAMES} frames, ${size}, ${pass}, 95 %`), most.toFixed(1), "ms", cpus()[0].model, process.versions.node].join(",")}\n`,
        );
    }
    await page.close();
  }
} finally {
  await browser.close();
}

/** Scrolls from the top to the bottom. @returns the main thread's work of each display frame, in ms */
async function scrolled(page: Page): Promise<readonly number[]> {
  await page.evaluate(() => document.querySelector(".grid")?.scrollTo(0, 0));
  await page.waitForTimeout(1500);
  await browser.startTracing(page, { categories: ["toplevel", "devtools.timeline", "__metadata"] });
  await page.evaluate(
    async (step) =>
      await new Promise<void>((done) => {
        const grid = document.querySelector(".grid");
        if (!grid) throw new Error("The page has no grid.");
        const next = (): void => {
          grid.scrollTop += step;
          if (grid.scrollTop + grid.clientHeight < grid.scrollHeight - 1) requestAnimationFrame(next);
          else done();
        };
        requestAnimationFrame(next);
      }),
    STEP,
  );
  const trace = JSON.parse((await browser.stopTracing()).toString()) as { traceEvents: readonly TraceEvent[] };
  return workOfFrames(trace.traceEvents);
}

/** CPU milliseconds of the main thread from each display frame to the next. */
function workOfFrames(events: readonly TraceEvent[]): readonly number[] {
  // The page's renderer is the one whose main thread ran animation callbacks.
  const callbacks = events.filter(({ name }) => name === "FireAnimationFrame");
  const { pid, tid } = callbacks[0] ?? {};
  const onMain = events.filter((event) => event.pid === pid && event.tid === tid && event.ph === "X");
  const tasks = onMain.filter(({ name }) => name === "ThreadControllerImpl::RunTask").toSorted((a, b) => a.ts - b.ts);
  if (tasks.length === 0) throw new Error("The trace has no tasks of the page's main thread.");
  const work: number[] = [];
  let next = 0;
  const times = callbacks.map(({ ts }) => ts).toSorted((a, b) => a - b);
  for (const { ts, dur = 0, tdur = dur } of tasks) {
    // All callbacks of one display frame run in one task, and a frame begins with it.
    const begins = next < times.length && times[next] <= ts + dur;
    while (next < times.length && times[next] <= ts + dur) next++;
    if (begins) work.push(0);
    if (work.length > 0) work[work.length - 1] += tdur / 1000;
  }
  return work.slice(0, -1);
}
