/** Runs the program that decodes files in turn. */
import { build } from "esbuild";
import { execFile } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { afterAll } from "vitest";
import type { Turn } from "./programs/decode-in-turn.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));

let folder: string | undefined;
let program: Promise<string> | undefined;
afterAll(() => folder && rmSync(folder, { recursive: true, force: true }));

/** Bundled once, below the project, so that it finds the project's packages. */
async function bundle(): Promise<string> {
  mkdirSync(join(root, ".cache"), { recursive: true });
  folder = mkdtempSync(join(root, ".cache", "in-turn-"));
  const outfile = join(folder, "decode-in-turn.mjs");
  const entryPoints = [join(root, "tests/external/programs/decode-in-turn.ts")];
  await build({ entryPoints, outfile, bundle: true, platform: "node", format: "esm", external: ["sharp"] });
  return outfile;
}

/**
 * @param orders lists of paths, decoded one after the other in one thread
 * @param limit milliseconds after which the program is ended
 * @throws Error where it does not end, or dies
 */
export async function decodeInTurn(orders: readonly (readonly string[])[], limit: number): Promise<Turn[]> {
  program ??= bundle();
  const path = await program;
  const list = path.replace(/\.mjs$/, ".json");
  writeFileSync(list, JSON.stringify(orders));
  const options = { timeout: limit, killSignal: "SIGKILL", maxBuffer: 1e8 } as const;
  const { stdout } = await promisify(execFile)(process.execPath, [path, list], options);
  const lines = stdout.trim().split("\n");
  return lines.map((line) => JSON.parse(line) as Turn);
}

/**
 * Orders in which every damaged file comes directly before every valid one once, each order mixed anew from the seed.
 */
export function mixed(valid: readonly string[], damaged: readonly string[], random: () => number): string[][] {
  return damaged.map((_, shift) => {
    const order = valid.toSorted().map((path) => ({ path, at: random() }));
    order.sort((a, b) => a.at - b.at);
    // By the file's own number, not by its place, so that no pair is left out.
    return order.flatMap(({ path }) => [damaged[(valid.indexOf(path) + shift) % damaged.length], path]);
  });
}

/**
 * A short set of orders, to be decoded in one thread: every light damaged file directly before every light valid one,
 * as in `mixed`, with the heavy damaged ones first; then every heavy valid file once, directly behind one of the
 * damaged, when all of those have been decoded in that thread.
 * @param isHeavy whether a file takes long to decode
 */
export function shortened(
  valid: readonly string[],
  damaged: readonly string[],
  random: () => number,
  isHeavy: (path: string) => boolean,
): string[][] {
  const isLight = (path: string): boolean => !isHeavy(path);
  const heavyLast = valid.filter(isHeavy).flatMap((path, i) => [damaged[i % damaged.length], path]);
  return [damaged.filter(isHeavy), ...mixed(valid.filter(isLight), damaged.filter(isLight), random), heavyLast];
}
