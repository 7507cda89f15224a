import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { makeScan, piecesOf, scanName } from "../../../recipes-examples/make-scan.ts";
import { ROLLS } from "../../../recipes-examples/roll-plan.ts";

const root = resolve(import.meta.dirname, "../../..");
const demo = join(root, "recipes-examples/harbour");
const small = join(root, ".cache/e2e-scans");

/** Frames of the demo roll that the tests use. */
export const FRAMES = 3;

export const rollFile = "harbour/harbour.roll.yaml";
const stockFile = "stocks/northlight-400.stock.yaml";

/** The demo's recipe as far as its first frames, and its stock. */
export const recipe = firstFrames(readFileSync(join(demo, "harbour.roll.yaml"), "utf8"), FRAMES);
export const files: Record<string, string> = {
  [rollFile]: recipe,
  [stockFile]: readFileSync(join(root, "recipes-examples", stockFile), "utf8"),
};

function firstFrames(text: string, count: number): string {
  const at = text.indexOf(`  "${String(count + 1).padStart(2, "0")}":\n`);
  return at < 0 ? text : text.slice(0, at);
}

/**
 * Puts the demo roll's scans into a folder: the demo's own where it has been made, else small ones, which are drawn once.
 */
export function putScans(folder: string): void {
  const scans = join(folder, "harbour/scans");
  mkdirSync(scans, { recursive: true });
  const [plan] = ROLLS;
  const names = [plan.blank, plan.leader, ...plan.shots.slice(0, FRAMES).map((shot) => shot.scan)];
  const full = join(demo, "scans");
  const from = names.every((name) => existsSync(join(full, name))) ? full : drawn(names);
  for (const name of readdirSync(from).filter((n) => names.includes(n)))
    copyFileSync(join(from, name), join(scans, name));
}

function drawn(names: readonly string[]): string {
  mkdirSync(small, { recursive: true });
  const [plan] = ROLLS;
  for (const piece of piecesOf(plan)) {
    const name = scanName(plan, piece);
    if (names.includes(name) && !existsSync(join(small, name)))
      writeFileSync(join(small, name), makeScan(plan, piece, { scene: [720, 480], scan: [960, 640] }));
  }
  return small;
}
