/**
 * Time from Page Down to the next frame's picture on the canvas, in headless Chromium, over scans of 24 megapixels that the
 * preview's host decodes for it: to a neighbour of a frame that was looked at (fetched ahead), and beside it, in the same
 * run, to a frame far away, which is decoded when it is asked for.
 * Run: npm run build && npx esbuild tests/bench/frame-step.ts --bundle --platform=node --format=esm --packages=external --outfile=.cache/frame-step.mjs
 *      && node .cache/frame-step.mjs [--record]     (--record appends to tests/bench/history.csv)
 */
import { appendFileSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { join, resolve } from "node:path";
import type { Page } from "playwright-core";
import { makePictures } from "../../extension/editor/preview/pictures.ts";
import { loadRoll } from "../../extension/recipe/resolve/workspace.ts";
import { openWorkspace } from "../../extension/work/files/workspace.ts";
import { openPool } from "../../extension/work/pool/pool.ts";
import { launch } from "../browser/chromium.ts";
import { openPanel, STOCK } from "../browser/open-panel.ts";
import { makeRoll } from "./synthetic-roll.ts";

const FRAMES = 16;
/** Milliseconds that somebody looks at a frame before the next step. */
const LOOK = 6000;

const folder = mkdtempSync(join(tmpdir(), "bench-step-"));
const pool = openPool({ workers: 2, programs: resolve("dist") });
const browser = await launch();

/** Steps to a frame and waits until its own picture is drawn. */
const timeTo = (page: Page, id: string): Promise<number> =>
  page.evaluate(async (frame) => {
    const start = performance.now();
    window.panel.session.select(frame);
    const { session, picture } = window.panel;
    const isDrawn = (): boolean => {
      const { current, source } = session.store.get();
      return current && picture.drawn() === source?.key;
    };
    while (!isDrawn()) await new Promise((done) => setTimeout(done, 1));
    // What the worker drew stands on the screen with the next frame of the display.
    await new Promise((done) => requestAnimationFrame(done));
    return performance.now() - start;
  }, id);

const median = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1]!;

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
  const [near, far]: [number[], number[]] = [[], []];
  for (let k = 0; k < 7; k++) {
    await page.waitForTimeout(LOOK);
    near.push(await timeTo(page, ids[k + 1]!));
  }
  for (const k of [11, 13, 15]) {
    await page.waitForTimeout(LOOK);
    far.push(await timeTo(page, ids[k]!));
    await page.evaluate((id) => window.panel.session.select(id), ids[0]!);
  }
  report("to a neighbour of the frame in view", near);
  report("to a frame far away", far);
} finally {
  await browser.close();
  await pool.close();
  rmSync(folder, { recursive: true, force: true });
}
