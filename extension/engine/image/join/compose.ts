/**
 * Lays scans of one frame together whose places in the recipe state no exposures: each is matched to those before it, as it
 * was before joins were measured all at once. Places with exposures are laid by `lay.ts`.
 */
import { readTransmittance } from "../../flat-field/transmittance.ts";
import type { LinearScan } from "../../types.ts";
import { clamp } from "../../math/clamp.ts";
import { JOIN_BLACK as BLACK, JOIN_LEVEL as LEVEL } from "./lay.ts";
import type { JoinPart } from "./moved-rows.ts";
import { type JoinFrame, joinFrame } from "./place.ts";

/** Rows and columns of the overlap that are compared to match exposures and to lead the seam. */
const STEP = 4;
/** Half the width over which one scan fades into the other, in pixels of the full scan. */
const FADE = 12;

/**
 * Joins scans into one of transmittance (three channels, light already divided out): its signal is T times LEVEL, so it
 * is read with no field and a ratio of 1. Its top left is that of the smallest rectangle around all scans.
 */
export function composeJoin(parts: readonly JoinPart[]): LinearScan {
  const frame = joinFrame(parts);
  const { width, height } = frame;
  const data = new Uint16Array(width * height * 3);
  const filled = new Uint8Array(width * height);
  for (const part of parts) addPart(data, filled, frame, part);
  return { width, height, channels: 3, data, black: BLACK, scale: 1 / LEVEL };
}

/** A scan laid on the frame's grid, row by row: its samples there, 0 where it does not reach. */
interface CompositeLayer {
  readonly x0: number;
  readonly y0: number;
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
  readonly covered: Uint8Array;
}

function addPart(data: Uint16Array, filled: Uint8Array, frame: JoinFrame, part: JoinPart): void {
  const layer = composite(part, frame);
  const gain = gainOf(data, filled, frame, layer);
  const share = shares(data, filled, frame, layer, gain);
  for (let y = 0; y < layer.height; y++)
    for (let x = 0; x < layer.width; x++) {
      const k = y * layer.width + x;
      if (!layer.covered[k]) continue;
      const o = (y + layer.y0) * frame.width + x + layer.x0;
      const own = filled[o] ? share[k] : 1;
      if (own === 0) continue;
      for (let c = 0; c < 3; c++) {
        const value = BLACK + LEVEL * layer.data[k * 3 + c] * gain[c];
        const mixed = own === 1 ? value : data[o * 3 + c] + own * (value - data[o * 3 + c]);
        data[o * 3 + c] = clamp(Math.round(mixed), 0, 65535);
      }
      filled[o] = 1;
    }
}

/** Transmittance on the frame's pixels: Catmull–Rom between the scan's own, copied where the place is a whole pixel. */
function composite({ scan, light, place: [px, py, degrees] }: JoinPart, frame: JoinFrame): CompositeLayer {
  const angle = (degrees * Math.PI) / 180;
  const own = joinFrame([{ scan, place: [px, py, degrees] }]);
  const [x0, y0] = [own.left - frame.left, own.top - frame.top];
  const source = new Float32Array(scan.width * scan.height * 3);
  const reader = readTransmittance(scan, light);
  for (let y = 0; y < scan.height; y++) reader.row(y, source.subarray(y * scan.width * 3, (y + 1) * scan.width * 3));
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const out = new Float32Array(own.width * own.height * 3);
  const covered = new Uint8Array(own.width * own.height);
  const weights = (t: number): number[] => [
    ((2 - t) * t - 1) * t * 0.5,
    ((3 * t - 5) * t * t + 2) * 0.5,
    ((4 - 3 * t) * t + 1) * t * 0.5,
    (t - 1) * t * t * 0.5,
  ];
  for (let y = 0; y < own.height; y++)
    for (let x = 0; x < own.width; x++) {
      const [dx, dy] = [x + own.left - px, y + own.top - py];
      const [u, v] = [c * dx + s * dy, -s * dx + c * dy];
      const [i, j] = [Math.floor(u + 1e-9), Math.floor(v + 1e-9)];
      if (i < 1 || j < 1 || i > scan.width - 3 || j > scan.height - 3) continue;
      const k = y * own.width + x;
      covered[k] = 1;
      const [wx, wy] = [weights(Math.max(0, u - i)), weights(Math.max(0, v - j))];
      for (let ch = 0; ch < 3; ch++) {
        let sum = 0;
        for (let b = 0; b < 4; b++) {
          const row = ((j - 1 + b) * scan.width + i - 1) * 3 + ch;
          sum +=
            wy[b] * (wx[0] * source[row] + wx[1] * source[row + 3] + wx[2] * source[row + 6] + wx[3] * source[row + 9]);
        }
        out[k * 3 + ch] = sum;
      }
    }
  return { x0, y0, width: own.width, height: own.height, data: out, covered };
}

/** Brings the new scan to what is there: the median ratio per channel over the overlap, a line's worth of time apart. */
function gainOf(
  data: Uint16Array,
  filled: Uint8Array,
  frame: JoinFrame,
  layer: CompositeLayer,
): [number, number, number] {
  const ratios: [number[], number[], number[]] = [[], [], []];
  for (let y = 0; y < layer.height; y += STEP)
    for (let x = 0; x < layer.width; x += STEP) {
      const k = y * layer.width + x;
      const o = (y + layer.y0) * frame.width + x + layer.x0;
      if (!layer.covered[k] || !filled[o]) continue;
      for (let c = 0; c < 3; c++) {
        const [there, here] = [(data[o * 3 + c] - BLACK) / LEVEL, layer.data[k * 3 + c]];
        if (there > 0.004 && here > 0.004 && there < 1.2 && here < 1.2) ratios[c].push(there / here);
      }
    }
  return ratios.map((list) => (list.length < 100 ? 1 : list.sort((a, b) => a - b)[list.length >> 1])) as [
    number,
    number,
    number,
  ];
}

/**
 * The new scan's share of each of its pixels: 1 on its side of the seam, 0 on the other. The seam runs through the
 * overlap from end to end, along the way where the two differ least (by dynamic programming), so that dust, movement or
 * a slight mismatch does not cross it.
 */
function shares(
  data: Uint16Array,
  filled: Uint8Array,
  frame: JoinFrame,
  layer: CompositeLayer,
  gain: readonly [number, number, number],
): Float32Array {
  const { width, height, covered } = layer;
  const share = new Float32Array(width * height).fill(1);
  let [x0, y0, x1, y1] = [width, height, -1, -1];
  const shared = (x: number, y: number): boolean =>
    covered[y * width + x] === 1 && filled[(y + layer.y0) * frame.width + x + layer.x0] === 1;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      if (shared(x, y)) [x0, y0, x1, y1] = [Math.min(x0, x), Math.min(y0, y), Math.max(x1, x), Math.max(y1, y)];
  if (x1 < 0) return share;
  const upright = y1 - y0 >= x1 - x0;
  const [length, depth] = upright ? [y1 - y0 + 1, x1 - x0 + 1] : [x1 - x0 + 1, y1 - y0 + 1];
  const place = (l: number, d: number): [number, number] => (upright ? [x0 + d, y0 + l] : [x0 + l, y0 + d]);
  const cost = (l: number, d: number): number => {
    const [x, y] = place(l, d);
    if (!shared(x, y)) return 4;
    const [k, o] = [y * width + x, (y + layer.y0) * frame.width + x + layer.x0];
    let sum = 0.002;
    for (let c = 0; c < 3; c++) {
      const there = Math.max(0.002, (data[o * 3 + c] - BLACK) / LEVEL);
      sum += Math.abs(Math.log(Math.max(0.002, layer.data[k * 3 + c] * gain[c]) / there));
    }
    // Near either end of the overlap there is no room to fade.
    return sum + (Math.min(d, depth - 1 - d) < FADE ? 1 : 0);
  };
  const seam = cheapestWay(length, depth, cost);
  // Which side is the new scan's: the one farther from what was there, told by the overlap's place in it.
  const newAfter = upright ? x0 + x1 < width : y0 + y1 < height;
  for (let l = 0; l < length; l++)
    for (let d = 0; d < depth; d++) {
      const [x, y] = place(l, d);
      const away = (newAfter ? d - seam[l] : seam[l] - d) / FADE;
      const t = clamp(0.5 + away / 2, 0, 1);
      share[y * width + x] = t * t * (3 - 2 * t);
    }
  return share;
}

function cheapestWay(length: number, depth: number, cost: (l: number, d: number) => number): Int32Array {
  let sums = Float64Array.from({ length: depth }, (_, d) => cost(0, d));
  const from: Int8Array[] = [];
  for (let l = 1; l < length; l++) {
    const next = new Float64Array(depth);
    const steps = new Int8Array(depth);
    for (let d = 0; d < depth; d++) {
      let best = 0;
      for (const step of [-1, 1])
        if (sums[d + step] !== undefined && sums[d + step] + 0.001 < sums[d + best]) best = step;
      steps[d] = best;
      next[d] = sums[d + best] + cost(l, d);
    }
    from.push(steps);
    sums = next;
  }
  const way = new Int32Array(length);
  way[length - 1] = sums.indexOf(sums.reduce((a, b) => Math.min(a, b)));
  for (let l = length - 1; l > 0; l--) way[l - 1] = way[l] + from[l - 1][way[l]];
  return way;
}
