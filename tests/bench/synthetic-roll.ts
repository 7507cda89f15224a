/**
 * Makes a roll of synthetic DNG scans with its recipe in a folder: quick to compute at any size, with grain, noise, an
 * uneven light and an orange base. For tests and benches of the machinery, not of colour: that is the witness's part.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { type DngOptions, RGGB, writeDng } from "../witness/raw/dng.ts";

export interface RollOptions {
  readonly width: number;
  readonly height: number;
  readonly frames: number;
  /** Scans that the frames share in turns; as many as frames where not given. */
  readonly scans?: number;
  readonly compression?: DngOptions["compression"];
  /** Text of the recipe's `output` list, indented by two. */
  readonly output?: string;
  /** Extra lines for every frame, such as "turn: 90". */
  readonly frameKeys?: readonly string[];
  /** Transmittance of the film at a pixel of a frame's scan, for one channel, grain and all; waves where not given. */
  readonly film?: (x: number, y: number, channel: number, scan: number) => number;
}

export const BASE = [0.31, 0.6, 0.76] as const;
const BLACK = 600;
const WHITE = 15_871;
const GAMMA = 0.58;
/** Mosaic sites of RGGB. */
const CHANNELS = [0, 1, 1, 2];

/** Writes `<folder>/<name>.roll.yaml` and its scans; returns the recipe's path. */
export function makeRoll(folder: string, name: string, options: RollOptions): string {
  const scans = join(folder, "scans");
  mkdirSync(scans, { recursive: true });
  const shutters: (readonly [number, number])[] = [
    [1, 60],
    [1, 30],
    [1, 45],
    [1, 90],
  ];
  const write = (file: string, kind: Piece, shutter: readonly [number, number]): void =>
    writeFileSync(join(scans, file), scan(kind, shutter, options));
  write("LIGHT.dng", "light", [1, 250]);
  write("LEADER.dng", "leader", [1, 60]);
  const ids = Array.from({ length: options.frames }, (_, k) => String(k + 1).padStart(2, "0"));
  const count = Math.min(options.scans ?? options.frames, options.frames);
  ids.slice(0, count).forEach((id, k) => write(`F${id}.dng`, k, shutters[k % 4]));
  const recipe = join(folder, `${name}.roll.yaml`);
  writeFileSync(recipe, recipeText(name, ids, count, options));
  return recipe;
}

function recipeText(
  name: string,
  ids: readonly string[],
  scans: number,
  { output, frameKeys = [] }: RollOptions,
): string {
  const keys = frameKeys.map((line) => `    ${line}\n`).join("");
  return `version: 1
title: ${name}
scans: scans
light: { blank: LIGHT.dng, flare: 0.004 }
negative:
  base: { density: [${BASE.join(", ")}], read: { scan: LEADER.dng, area: [0.3, 0.3, 0.4, 0.4] } }
  gamma: ${GAMMA}
output:
${output ?? "  - { name: web, type: jpeg, quality: 90, long: 100 }"}
frames:
${ids.map((id, k) => `  "${id}":\n    scan: F${ids[k % scans]}.dng\n    title: Picture ${id}\n${keys}`).join("")}`;
}

type Piece = "light" | "leader" | number;

function scan(piece: Piece, shutter: readonly [number, number], options: RollOptions): Uint8Array {
  const { width, height } = options;
  const data = new Uint16Array(width * height);
  const exposure = (shutter[0] / shutter[1]) * 60;
  let state = typeof piece === "number" ? 77 + piece : piece === "light" ? 5 : 6;
  for (let y = 0; y < height; y++) {
    const fy = (y + 0.5) / height - 0.5;
    for (let x = 0; x < width; x++) {
      const fx = (x + 0.5) / width - 0.5;
      const c = CHANNELS[(y & 1) * 2 + (x & 1)];
      // xorshift32: two bytes of it for grain, two for photon noise.
      state ^= state << 13;
      state ^= state >>> 17;
      state ^= state << 5;
      const bare = [0.7, 0.95, 0.62][c] * (1 - 0.5 * (fx * fx + fy * fy)) * exposure;
      const density = piece === "light" ? 0 : BASE[c] + (piece === "leader" ? 0 : picture(fx, fy, c, piece));
      const grain = piece === "light" ? 0 : 0.02 * (((state & 0xffff) / 65536 - 0.5) * 2);
      const given = typeof piece === "number" ? options.film?.(x, y, c, piece) : undefined;
      const clean = bare * ((given ?? 10 ** -(density + grain)) * 0.996 + 0.004);
      const noisy = clean * WHITE + ((state >>> 16) / 65536 - 0.5) * 2 * Math.sqrt(clean * WHITE) * 0.6;
      data[y * width + x] = Math.max(0, Math.min(WHITE + BLACK, Math.round(noisy + BLACK)));
    }
  }
  return writeDng({
    width,
    height,
    data,
    pattern: RGGB,
    bits: 16,
    compression: options.compression ?? "none",
    black: BLACK,
    white: WHITE + BLACK,
    make: "Testbench",
    model: "Copy One",
    exif: { shutter, aperture: 8, iso: 100, time: "2026:05:02 10:00:00", lens: "Macro" },
  });
}

/** A landscape of waves within a clear margin: density above base. */
function picture(fx: number, fy: number, c: number, index: number): number {
  if (Math.abs(fx) > 0.46 || Math.abs(fy) > 0.45) return 0;
  const wave = Math.sin(fx * 23 + index) * Math.cos(fy * 17 - c) + 0.5 * Math.sin((fx + fy) * 140 + index);
  return GAMMA * (1.25 + 0.5 * wave + 0.2 * Math.sin(c + index));
}
