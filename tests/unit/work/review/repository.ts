/** Temporary git repositories with recipes and small synthetic scans, and a pool that works in the test's own process. */
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { runHere } from "../run-here.ts";
import type { Pool } from "../../../../extension/work/pool/pool.ts";
import { RGGB, writeDng } from "../../../witness/raw/dng.ts";

export class Repository {
  readonly root = mkdtempSync(join(tmpdir(), "review-"));
  #time = 1_780_000_000;

  constructor(init = true) {
    if (init) this.git("init", "-q", "-b", "main");
  }

  git(...args: readonly string[]): string {
    const date = `${(this.#time += 60)} +0000`;
    return execFileSync("git", ["-c", "user.name=Test", "-c", "user.email=test@example.org", ...args], {
      cwd: this.root,
      encoding: "utf8",
      stdio: ["ignore", "pipe", "pipe"],
      env: {
        ...process.env,
        GIT_CONFIG_GLOBAL: "/dev/null",
        GIT_CONFIG_SYSTEM: "/dev/null",
        GIT_AUTHOR_DATE: date,
        GIT_COMMITTER_DATE: date,
      },
    });
  }

  write(file: string, content: string | Uint8Array): void {
    const path = join(this.root, file);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, content);
  }

  read(file: string): string {
    return readFileSync(join(this.root, file), "utf8");
  }

  /** Changes a text, which must hold `from`. */
  swap(file: string, from: string, to: string): void {
    const text = this.read(file);
    if (!text.includes(from)) throw new Error(`${file} does not hold "${from}".`);
    this.write(file, text.replace(from, to));
  }

  /** @returns the commit's id */
  commit(message: string): string {
    this.git("add", "-A");
    this.git("commit", "-q", "-m", message);
    return this.git("rev-parse", "HEAD").trim();
  }

  /** Scans of a tiny camera, with a light and one picture a name; the same seed gives the same file. */
  scans(folder: string, names: readonly string[]): void {
    this.write(`${folder}/LIGHT.dng`, scan(undefined));
    for (const [i, name] of names.entries()) this.write(`${folder}/${name}`, scan(i));
  }

  remove(): void {
    rmSync(this.root, { recursive: true, force: true });
  }
}

const WIDTH = 72;
const HEIGHT = 48;
const WHITE = 16_000;

/** The bare light, or a negative of soft stripes whose place depends on the index. */
export function scan(index: number | undefined): Uint8Array {
  const data = new Uint16Array(WIDTH * HEIGHT);
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++) {
      const c = RGGB.colours[(y & 1) * 2 + (x & 1)]!;
      // No lit area is perfectly even, and one that is counts as damaged.
      const bare = [0.75, 0.95, 0.7][c]! * (1 - (0.02 * x) / WIDTH);
      const density =
        index === undefined ? 0 : [0.3, 0.6, 0.75][c]! + 0.45 + 0.3 * Math.sin(x / 9 + index) * Math.cos(y / 7 - c);
      data[y * WIDTH + x] = Math.round(bare * WHITE * 10 ** -density);
    }
  const exif = { shutter: [1, 60], aperture: 8, iso: 100, time: "2026:05:02 10:00:00" } as const;
  return writeDng({
    width: WIDTH,
    height: HEIGHT,
    data,
    bits: 16,
    black: 0,
    white: WHITE,
    make: "Test",
    model: "One",
    exif,
  });
}

export const stockText = (contrast: number, title = "Northlight 400"): string => `version: 1
title: ${title}
negative:
  base: { density: [0.3, 0.6, 0.75] }
  gamma: 0.55
positive:
  contrast: ${contrast}
`;

export const rollText = (
  title: string,
  frames: number,
  stock = "../stocks/northlight.stock.yaml",
): string => `version: 1
title: ${title}
stock: ${stock}
scans: scans
light: { blank: LIGHT.dng }
frames:
${names(frames)
  .map((name) => `  "${name.slice(1, 3)}":\n    scan: ${name}\n`)
  .join("")}`;

/** F01.dng, F02.dng … */
export const names = (frames: number): string[] =>
  Array.from({ length: frames }, (_, i) => `F${String(i + 1).padStart(2, "0")}.dng`);

/** A pool without processes, and how often each job was run. */
export function countingPool(): Pool & { readonly counts: Map<string, number> } {
  const counts = new Map<string, number>();
  return {
    counts,
    workers: 2,
    run(job, payload) {
      counts.set(job.name, (counts.get(job.name) ?? 0) + 1);
      return runHere(job, payload);
    },
    memory: () => Promise.reject(new Error("This pool has no process to measure.")),
    close: () => Promise.resolve(),
  };
}
