/** A made-up scan for panel tests: rebate around a picture of patches whose densities are known exactly. */
import { codeOf } from "../../extension/engine/plan/log-code.ts";
import type { Rgb } from "../../extension/engine/types.ts";
import type { Proxy } from "../../extension/messages.ts";
import type { Want } from "./fake-host.ts";

export const BASE: Rgb = [0.31, 0.6, 0.76];
export const SCAN = { width: 3000, height: 2000 };
/** The picture lies in 5 … 95 % of the scan, as 6 × 4 patches. */
export const PICTURE = { left: 0.05, top: 0.05, width: 0.9, height: 0.9 };
const [COLUMNS, ROWS] = [6, 4];

/** Density above base of a patch: a neutral scale in the first two rows, colours below. */
export function patchDensity(column: number, row: number): Rgb {
  const neutral = 0.15 + (row * COLUMNS + column) * 0.12;
  if (row < 2) return [neutral * 0.96, neutral, neutral * 1.1];
  const swing = 0.25 * Math.sin(column * 1.3 + row);
  return [0.7 + swing, 0.75 - swing * 0.6, 0.85 + 0.2 * Math.cos(column + row * 2)];
}

/** Middle of a patch, in fractions of the scan. */
export function patchAt(column: number, row: number): [number, number] {
  return [
    PICTURE.left + ((column + 0.5) / COLUMNS) * PICTURE.width,
    PICTURE.top + ((row + 0.5) / ROWS) * PICTURE.height,
  ];
}

/** Density, base included, at a place of the scan; `shift` makes frames different from one another. */
function densityAt(x: number, y: number, shift: number): Rgb {
  const u = (x - PICTURE.left) / PICTURE.width;
  const v = (y - PICTURE.top) / PICTURE.height;
  // The holder lets nothing through.
  if (x < 0.015 || x > 0.985) return [4, 4, 4];
  // Half of its shadow, seen out of focus, with a colour of its own.
  if (x < 0.0175 || x > 0.9825) return [1.3, 1.4, 1.9];
  if (u < 0 || v < 0 || u >= 1 || v >= 1) return BASE;
  const above = patchDensity((Math.floor(u * COLUMNS) + shift) % COLUMNS, Math.floor(v * ROWS));
  return [BASE[0] + above[0], BASE[1] + above[1], BASE[2] + above[2]];
}

export function wedgeProxy(source: string, want: Want, shift = 0): Proxy {
  const whole = { left: 0, top: 0, width: 1, height: 1 };
  const part = typeof want === "object" ? want : whole;
  const long =
    want === "thumbnail" ? 150 : want === "tile" ? 450 : want === "picture" ? 900 : Math.round(part.width * SCAN.width);
  const width = long;
  const height = Math.max(1, Math.round((long * part.height * SCAN.height) / (part.width * SCAN.width)));
  const codes = new Uint16Array(width * height * 3);
  for (let y = 0, k = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const d = densityAt(
        part.left + ((x + 0.5) / width) * part.width,
        part.top + ((y + 0.5) / height) * part.height,
        shift,
      );
      for (const c of d) codes[k++] = codeOf(10 ** -c);
    }
  return {
    source,
    scanWidth: SCAN.width,
    scanHeight: SCAN.height,
    part,
    width,
    height,
    codes: new Uint8Array(codes.buffer),
    weights: [1 / 3, 1 / 3, 1 / 3],
    light: {
      columns: 2,
      rows: 2,
      channels: 3,
      level: Array.from({ length: 12 }, () => 0.8),
      flare: [0, 0, 0],
      ratio: 1,
    },
    warnings: [],
  };
}

/** The wedge repeats after a few frames: drawing it again and again would be work that no host has. */
const drawn = new Map<string, Proxy>();

/** The same, drawn once for each size and shift; its codes are the caller's. */
export function drawnOnce(source: string, want: Want, shift: number): Proxy {
  const key = `${JSON.stringify(want)} ${shift}`;
  const known = drawn.get(key) ?? wedgeProxy(source, want, shift);
  drawn.set(key, known);
  return { ...known, codes: known.codes.slice(), source };
}
