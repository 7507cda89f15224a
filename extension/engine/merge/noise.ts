/**
 * The sensor's noise from the differences of the scans themselves: variance against level (photon transfer; J. R.
 * Janesick, Photon Transfer, SPIE 2007). Film grain is the same in all of them and so no part of it.
 */
import { median } from "../math/statistics.ts";
import type { LinearScan, Rgb } from "../types.ts";
import type { Displacement } from "./displacement.ts";
import { rowResampler } from "./resample-row.ts";

/** Variance of a sample of signal s is read + photon · s, by channel. */
export interface NoiseModel {
  readonly read: Rgb;
  readonly photon: Rgb;
}

/** What is usual of a sensor of 40 000 electrons with 5 of reading noise; common practice, no source. */
export const USUAL_NOISE: NoiseModel = {
  read: [1.6e-8, 1.6e-8, 1.6e-8],
  photon: [2.5e-5, 2.5e-5, 2.5e-5],
};

/** A scan that was laid on the first: `exposure` is its own over the first's. */
export interface LaidScan {
  readonly scan: LinearScan;
  readonly displacement: Displacement;
  readonly exposure: number;
}

/** Side of a block, and rows of blocks that are looked at. */
const [BLOCK, BANDS] = [8, 48];
/** Signal that a block may have on either scan. */
const [DARKEST, BRIGHTEST] = [5e-4, 0.75];
/** Steps of level, an octave each, and blocks that one needs. */
const [LEVELS, MIN_BLOCKS] = [12, 24];

interface Block {
  readonly level: number;
  readonly variance: number;
  /** What one unit of reading noise, and of photon noise, adds to the variance of the difference. */
  readonly read: number;
  readonly photon: number;
  /** Standard deviation of the picture in it: even blocks tell the noise. */
  readonly texture: number;
}

/** The noise of a scan as it was decoded, measured against the scans that are laid on it; the usual where that fails. */
export function measureNoise(first: LinearScan, others: readonly LaidScan[]): NoiseModel {
  const blocks: Block[][] = [[], [], []];
  for (const other of others) collectBlocks(first, other, blocks);
  const read: number[] = [];
  const photon: number[] = [];
  for (let c = 0; c < 3; c++) {
    const fit = fitChannel(blocks[first.channels === 3 ? c : 0]!);
    read.push(fit?.read ?? USUAL_NOISE.read[c]!);
    photon.push(fit?.photon ?? USUAL_NOISE.photon[c]!);
  }
  return { read: read as unknown as Rgb, photon: photon as unknown as Rgb };
}

function collectBlocks(first: LinearScan, { scan, displacement, exposure }: LaidScan, blocks: Block[][]): void {
  const { width, height, channels } = first;
  const [own, other] = [rowResampler(first), rowResampler(scan, displacement)];
  const a = Array.from({ length: BLOCK }, () => new Float32Array(width * channels));
  const b = Array.from({ length: BLOCK }, () => new Float32Array(width * channels));
  for (let band = 0; band < BANDS; band++) {
    const top = Math.floor(((band + 0.5) * (height - BLOCK)) / BANDS);
    let left = 0;
    for (let j = 0; j < BLOCK; j++) {
      own.row(top + j, a[j]!);
      left += other.row(top + j, b[j]!) / BLOCK;
    }
    for (let x = BLOCK; x + 2 * BLOCK <= width; x += BLOCK)
      for (let c = 0; c < channels; c++) {
        const block = blockAt(a, b, { x, c, channels, exposure });
        if (!block) continue;
        const noise = { read: 1 + left / exposure ** 2, photon: 1 + left / exposure };
        blocks[c]!.push({ ...block, ...noise });
      }
  }
}

function blockAt(
  a: readonly Float32Array[],
  b: readonly Float32Array[],
  {
    x,
    c,
    channels,
    exposure,
  }: { readonly x: number; readonly c: number; readonly channels: number; readonly exposure: number },
): Pick<Block, "level" | "variance" | "texture"> | undefined {
  let [sum, squares, own, ownSquares, highest] = [0, 0, 0, 0, 0];
  for (let j = 0; j < BLOCK; j++)
    for (let i = 0; i < BLOCK; i++) {
      const k = (x + i) * channels + c;
      const [p, q] = [a[j]![k]!, b[j]![k]!];
      const d = p - q / exposure;
      sum += d;
      squares += d * d;
      own += p;
      ownSquares += p * p;
      if (p > highest) highest = p;
      if (q > highest) highest = q;
    }
  const n = BLOCK * BLOCK;
  const level = own / n;
  // NaN, where the other scan does not reach, fails as well.
  if (!(level > DARKEST && level * exposure > DARKEST && highest < BRIGHTEST && !Number.isNaN(sum))) return undefined;
  const variance = (squares - sum ** 2 / n) / (n - 1);
  return { level, variance, texture: Math.sqrt(Math.max(0, ownSquares / n - level ** 2)) / level };
}

/** Medians over even blocks by octave of level, then a straight line through them, each by its own size. */
function fitChannel(blocks: readonly Block[]): { readonly read: number; readonly photon: number } | undefined {
  const points: { level: number; variance: number; read: number; photon: number; weight: number }[] = [];
  for (let octave = 0; octave < LEVELS; octave++) {
    const [low, high] = [2 ** (-octave - 1), 2 ** -octave];
    const all = blocks.filter(({ level }) => level >= low && level < high);
    if (all.length < 2 * MIN_BLOCKS) continue;
    const limit = median(all.map(({ texture }) => texture));
    const even = all.filter(({ texture }) => texture <= limit);
    const of = (key: keyof Block): number => median(even.map((block) => block[key]));
    const variance = of("variance");
    if (!(variance > 0)) continue;
    points.push({
      level: of("level"),
      variance,
      read: of("read"),
      photon: of("photon"),
      weight: even.length / variance ** 2,
    });
  }
  if (points.length === 0) return undefined;
  let [rr, rp, pp, rv, pv] = [0, 0, 0, 0, 0];
  for (const { level, variance, read, photon, weight } of points) {
    const p = photon * level;
    rr += weight * read * read;
    rp += weight * read * p;
    pp += weight * p * p;
    rv += weight * read * variance;
    pv += weight * p * variance;
  }
  const determinant = rr * pp - rp * rp;
  const read = points.length > 1 && determinant > 0 ? (rv * pp - pv * rp) / determinant : 0;
  const photon = points.length > 1 && determinant > 0 ? (pv * rr - rv * rp) / determinant : pv / pp;
  if (photon > 0 && read > 0) return { read, photon };
  // One of the two alone; a trace of the other keeps weights finite.
  return photon > 0 ? { read: 1e-10, photon: pv / pp } : { read: rv / rr, photon: 1e-9 };
}
