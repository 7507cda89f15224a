/**
 * Time from Page Down to the next frame's picture on the canvas, in headless Chromium, over scans of 24 megapixels that the
 * preview's host decodes for it: to a neighbour of a frame that was looked at (once it was fetched ahead, and how long that
 * took), and beside it, in the same run, to a frame far away, which is decoded when it is asked for.
 * Run: npm run build && npx esbuild tests/bench/frame-step.ts --bundle --platform=node --format=esm --packages=external --outfile=.cache/frame-step.mjs
 *      && node .cache/frame-step.mjs [--record] [--software-gl]     (--record appends to tests/bench/history.csv)
 * The page is put together by the browser's own processor path, as VS Code does without a graphics processor.
 * --software-gl has it put together through an imitated one instead, as the browser tests do: that alone takes about
 * 90 ms for each change of a picture of this size on two cores.
 */
import { appendFileSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { join, resolve } from "node:path";
import type { Page } from "playwright-core";
import { makePictures } from "../../extension/editor/preview/pictures.ts";
import { loadRoll } from "../../extension/recipe/resolve/workspace.ts";
import { openWorkspace } from "../../extension/work/files/workspace.ts";
import { openPool } from "../../extension/work/pool/pool.ts";
import { chromium } from "playwright-core";
import { launch } from "../browser/chromium.ts";
import { CHROMIUM } from "../browser/chromium-path.ts";
import { openPanel, STOCK } from "../browser/open-panel.ts";
import { makeRoll } from "./synthetic-roll.ts";
import type { TraceEvent } from "./trace.ts";

const FRAMES = 16;
/** Milliseconds that somebody looks at a frame before the next step, its neighbour being there. */
const LOOK = 6000;
/** Milliseconds that a neighbour may take to be fetched ahead. */
const AHEAD_LIMIT = 120_000;

const folder = mkdtempSync(join(tmpdir(), "bench-step-"));
const pool = openPool({ workers: 2, programs: resolve("dist") });
const browser = process.argv.includes("--software-gl")
  ? await launch()
  : await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox", "--disable-gpu"] });

/** Steps to a frame and waits until its own picture is drawn. */
async function timeTo(page: Page, id: string): Promise<StepTime> {
  await browser.startTracing(page, { categories: ["toplevel", "blink.user_timing", "__metadata"] });
  const wall = await page.evaluate(async (frame) => {
    const start = performance.now();
    performance.mark("step-begins");
    window.panel.session.select(frame);
    const { session, picture } = window.panel;
    const isDrawn = (): boolean => {
      const { current, source } = session.store.get();
      return current && picture.drawn() === source?.key;
    };
    while (!isDrawn()) await new Promise((done) => setTimeout(done, 1));
    // What the worker drew stands on the screen with the next frame of the display.
    await new Promise((done) => requestAnimationFrame(done));
    performance.mark("step-ends");
    return performance.now() - start;
  }, id);
  const { traceEvents } = JSON.parse((await browser.stopTracing()).toString()) as {
    traceEvents: readonly TraceEvent[];
  };
  return { wall, cpu: pageWork(traceEvents) };
}

/** Milliseconds on the clock, and of the processor. */
interface StepTime {
  readonly wall: number;
  readonly cpu: number;
}

/** Processor milliseconds of the page's thread and its workers' between the marks of a step. */
function pageWork(events: readonly TraceEvent[]): number {
  const markOf = (name: string): TraceEvent => {
    const found = events.find((event) => event.name === name);
    if (!found) throw new Error(`The trace has no mark "${name}".`);
    return found;
  };
  const [from, to] = [markOf("step-begins"), markOf("step-ends")];
  const threads = new Set(
    events
      .filter(({ name, args }) => name === "thread_name" && /CrRendererMain|DedicatedWorker/.test(args?.name ?? ""))
      .filter(({ pid }) => pid === from.pid)
      .map(({ tid }) => tid),
  );
  return (
    events
      .filter(({ name, ph, pid }) => name === "ThreadControllerImpl::RunTask" && ph === "X" && pid === from.pid)
      // The first task holds the mark within it.
      .filter(({ tid, ts, tdur = 0 }) => threads.has(tid) && ts + 1000 * tdur >= from.ts && ts < to.ts)
      .reduce((sum, { tdur = 0 }) => sum + tdur / 1000, 0)
  );
}

const median = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1]!;

/** On a machine that does other things the processor's time is the steadier of the two. */
function reportSteps(name: string, steps: readonly StepTime[]): void {
  report(
    name,
    steps.map(({ wall }) => wall),
  );
  report(
    `${name}, processor time of the page and its workers`,
    steps.map(({ cpu }) => cpu),
  );
}

function report(name: string, values: readonly number[]): void {
  const ms = median(values).toFixed(0);
  console.log(`${ms.padStart(7)} ms  ${name} (${values.map((v) => v.toFixed(0)).join(", ")})`);
  if (process.argv.includes("--record"))
    appendFileSync(
      "tests/bench/history.csv",
      `${[new Date().toISOString().slice(0, 10), "frame-step", JSON.stringify(name), ms, "ms", cpus()[0]!.model, process.versions.node].join(",")}\n`,
    );
}

try {
  const path = makeRoll(folder, "roll", { width: 6000, height: 4000, frames: FRAMES, compression: "jpeg" });
  const workspace = openWorkspace(folder);
  const roll = (await loadRoll(workspace.inside(path), workspace))?.resolved;
  if (!roll) throw new Error("The bench's own roll cannot be read.");
  const pictures = makePictures(pool, { folder: join(folder, "cache"), maxBytes: 1e9 });
  const { signal } = new AbortController();
  const codes = new Map<string, Buffer>();
  const makeProxy = async (name: string): Promise<{ type: string; body: string | Buffer }> => {
    const [scan, ending] = [name.replace(/\.(?:picture|thumbnail)\.(?:json|bin)$/, ""), name.split(".").at(-1)];
    const want = name.includes(".thumbnail.") ? "thumbnail" : "picture";
    const key = `${scan} ${want}`;
    if (ending === "bin") return { type: "application/octet-stream", body: codes.get(key)! };
    const frame = roll.frames.find(({ scans }) => scans[0]!.name === scan)!;
    const made = await pictures.proxy({ roll, workspace }, frame.id, want, signal).catch(() => undefined);
    // What is fetched ahead when the bench ends has no answer.
    if (!made) return { type: "application/json", body: "{}" };
    const { codes: bytes, ...about } = made;
    codes.set(key, Buffer.from(bytes));
    return { type: "application/json", body: JSON.stringify(about) };
  };
  const text = readFileSync(path, "utf8");
  const viewport = { width: 1100, height: 860 };
  const { page } = await openPanel(browser, {
    text,
    stock: STOCK,
    proxies: true,
    worker: true,
    gpu: "real",
    viewport,
    makeProxy,
  });
  await page.waitForFunction(() => window.panel.session.store.get().current, undefined, { timeout: 120_000 });
  const ids = roll.frames.map(({ id }) => id);
  const fetching: number[] = [];
  const [near, far]: [StepTime[], StepTime[]] = [[], []];
  for (let k = 0; k < 7; k++) {
    const start = performance.now();
    await page.waitForFunction(
      (id) => window.panel.session.neighbours().some(({ entry }) => entry.id === id),
      ids[k + 1]!,
      { timeout: AHEAD_LIMIT },
    );
    const took = performance.now() - start;
    fetching.push(took);
    await page.waitForTimeout(LOOK);
    near.push(await timeTo(page, ids[k + 1]!));
  }
  for (const k of [11, 13, 15]) {
    await page.waitForTimeout(LOOK);
    far.push(await timeTo(page, ids[k]!));
    await page.evaluate((id) => window.panel.session.select(id), ids[0]!);
  }
  reportSteps("to a neighbour that was fetched ahead", near);
  report("until the next neighbour is fetched ahead", fetching);
  reportSteps("to a frame far away", far);
} finally {
  await browser.close();
  await pool.close();
  rmSync(folder, { recursive: true, force: true });
}
