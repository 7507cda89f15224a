/** Proxies as the panel keeps them: codes, and the smaller levels made from them. */
import { codeOf, codeTable } from "../../extension/engine/plan/log-code.ts";
import type { Framing } from "../../extension/engine/image/geometry.ts";
import type { PicturePlace } from "../../extension/engine/local/grid.ts";
import type { Rgb } from "../../extension/engine/types.ts";
import type { Proxy, ProxyLight } from "../../extension/messages.ts";

/** One grid of log-coded transmittance over a part of a scan. */
export interface Grid {
  readonly width: number;
  readonly height: number;
  readonly codes: Uint16Array;
}

/** A proxy with its smaller levels, each half of the one before; level 0 is the proxy itself. */
export interface Source {
  readonly key: string;
  readonly scanWidth: number;
  readonly scanHeight: number;
  /** Fractions of the scan. */
  readonly part: Proxy["part"];
  readonly weights: Rgb;
  readonly light?: ProxyLight;
  readonly warnings: readonly string[];
  readonly levels: readonly Grid[];
}

/** A level shorter than this on its long side is not worth keeping. */
const SMALLEST_LEVEL = 480;

/** @throws RangeError where the proxy's bytes do not match its size */
export function sourceOf(proxy: Proxy): Source {
  const { width, height, codes } = proxy;
  if (codes.byteLength !== width * height * 6)
    throw new RangeError(
      `A proxy of ${width} × ${height} pixels came with ${codes.byteLength} bytes: it cannot be shown.`,
    );
  const levels = [{ width, height, codes: wordsOf(codes) }];
  for (let last = levels[0]; Math.max(last.width, last.height) >= 2 * SMALLEST_LEVEL; last = levels[levels.length - 1])
    levels.push(halved(last));
  return { ...proxy, key: proxy.source, levels };
}

/** Where a frame's picture lies in its scan. */
export const placeIn = (
  { scanWidth, scanHeight }: Pick<Source, "scanWidth" | "scanHeight">,
  { area, turn, mirror }: Framing,
): PicturePlace => ({ scanWidth, scanHeight, framing: { area, turn, mirror } });

/** Bytes as 16-bit words; a view that is not aligned is copied. */
function wordsOf(bytes: Uint8Array): Uint16Array {
  const aligned = bytes.byteOffset % 2 === 0 ? bytes : bytes.slice();
  return new Uint16Array(aligned.buffer, aligned.byteOffset, aligned.byteLength / 2);
}

/** Means of 2 × 2 transmittances: light adds up, densities do not. An odd last row or column is left out. */
export function halved(grid: Grid): Grid {
  const table = codeTable();
  const [width, height] = [Math.max(1, grid.width >> 1), Math.max(1, grid.height >> 1)];
  const codes = new Uint16Array(width * height * 3);
  const [right, down] = [grid.width > 1 ? 3 : 0, grid.height > 1 ? grid.width * 3 : 0];
  const from = grid.codes;
  let k = 0;
  for (let y = 0; y < height; y++)
    for (let x = 0, i = 2 * y * grid.width * 3; x < width; x++, i += 6)
      for (let j = i; j < i + 3; j++) {
        const a = from[j];
        const b = from[j + right];
        const c = from[j + down];
        const d = from[j + down + right];
        // Neighbours within a hundredth of a stop need no logarithm: there both means are one.
        const near = Math.abs(a - b) < 27 && Math.abs(a - c) < 27 && Math.abs(a - d) < 27;
        codes[k++] = near ? (a + b + c + d + 2) >> 2 : codeOf((table[a] + table[b] + table[c] + table[d]) / 4);
      }
  return { width, height, codes };
}

/** Transmittance of a whole grid, for the executor that writes files. */
export function transmittanceOf(grid: Grid): Float32Array {
  const table = codeTable();
  const t = new Float32Array(grid.codes.length);
  for (let i = 0; i < t.length; i++) t[i] = table[grid.codes[i]];
  return t;
}
