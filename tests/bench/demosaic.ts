/**
 * Compares ways to demosaic on a simulated colour negative: weak blue, orange base, grain, shot noise.
 * Run: npx esbuild tests/bench/demosaic.ts --bundle --platform=node --format=esm --outfile=dist/demosaic.mjs
 *      && node dist/demosaic.mjs   (after npm run build, which puts LibRaw beside it)
 */
import { deltaE2000 } from "../../extension/engine/colour/difference.ts";
import { labOf } from "../../extension/engine/colour/lab.ts";
import { SPACES, toD50 } from "../../extension/engine/colour/spaces.ts";
import { apply } from "../../extension/engine/math/matrix.ts";
import type { Rgb } from "../../extension/engine/types.ts";
import { demosaicBayer } from "../../extension/scans/raw/bayer.ts";
import { type LibRaw, loadLibRaw } from "../../extension/scans/raw/libraw.ts";
import { balanceOf, levelsOf, type Mosaic } from "../../extension/scans/raw/mosaic.ts";
import { demosaicXTrans } from "../../extension/scans/raw/xtrans.ts";
import { type FilterPattern, RGGB, writeDng, XTRANS } from "../witness/raw/dng.ts";
import { writeRaf } from "../witness/raw/raf.ts";
import { bilinear, type Candidate, malvar, malvarUnbalanced } from "./demosaic-candidates.ts";
import { drawFilm, type FilmPicture, GAMMA, recordMosaic } from "./demosaic-film.ts";

const BLACK = 512;
const WHITE = 15000;
const SIZE = [1200, 800] as const;
const SPEED_SIZE = [6000, 4000] as const;

const LEVELS = { black: BLACK, white: WHITE };

function mosaicOf(width: number, height: number, data: Uint16Array, pattern: FilterPattern): Mosaic {
  const { columns: period, colours } = pattern;
  const place = { width, height, stride: width, left: 0, top: 0 };
  return { ...place, data, period, colours, black: colours.map(() => BLACK), white: WHITE, monochrome: false };
}

function ours(balanced: boolean): Candidate {
  return (mosaic) => {
    const { pedestal, scale } = levelsOf(mosaic);
    const balance = balanced ? balanceOf(mosaic) : ([1, 1, 1] as const);
    const data = mosaic.period === 6 ? demosaicXTrans(mosaic, balance) : demosaicBayer(mosaic, balance);
    return Float32Array.from(data, (v) => (v - pedestal) * scale);
  };
}

/** LibRaw's own interpolation, balanced alike and divided out again. */
function libRaw(lib: LibRaw, quality: number): Candidate {
  return (mosaic) => {
    const xtrans = mosaic.period === 6;
    const bytes = xtrans ? writeRaf({ ...mosaic, black: BLACK }) : writeDng({ ...mosaic, ...LEVELS, bits: 14 });
    // A RAF names no saturation: LibRaw takes that of 14 bits.
    const range = xtrans ? (16383 - BLACK) / (WHITE - BLACK) : 1;
    const balance = balanceOf(mosaic);
    const file = new lib.LibRaw();
    file.open(bytes, {
      outputBps: 16,
      outputColor: 0,
      gamm: [1, 1, 0, 0, 0, 0],
      noAutoBright: true,
      useCameraWb: false,
      useCameraMatrix: 0,
      userFlip: 0,
      adjustMaximumThr: 0,
      highlight: 1,
      userQual: quality,
      userMul: [balance[0], 1, balance[2], 1],
    });
    const { data } = file.imageData();
    file.delete();
    const max = Math.max(...balance);
    return Float32Array.from(data, (v, i) => ((v / 65535) * max * range) / balance[i % 3]);
  };
}

/** Density of a signal, kept away from zero. */
const densityOf = (signal: number) => -Math.log10(Math.max(1e-4, signal));

/** The positive's colour: film's slope undone, about mid-grey. */
function positive(densities: readonly number[], grey: readonly number[]): Rgb {
  const linear = densities.map((d, c) => 0.18 * 10 ** ((d - grey[c]) / GAMMA[c])) as unknown as Rgb;
  return linear.map((v) => Math.min(1, v)) as unknown as Rgb;
}

function score({ width, height, truth }: FilmPicture, result: Float32Array) {
  const grey = [0, 1, 2].map((c) => {
    let sum = 0;
    for (let i = c; i < truth.length; i += 3) sum += densityOf(truth[i]);
    return sum / (width * height);
  });
  const toXyz = toD50(SPACES.srgb);
  let square = 0;
  let hue = 0;
  let count = 0;
  const differences: number[] = [];
  for (let y = 4; y < height - 4; y++)
    for (let x = 4; x < width - 4; x++) {
      const i = (y * width + x) * 3;
      const should = [0, 1, 2].map((c) => densityOf(truth[i + c]));
      const is = [0, 1, 2].map((c) => densityOf(result[i + c]));
      const error = is.map((d, c) => d - should[c]);
      square += error.reduce((sum, e) => sum + e * e, 0) / 3;
      hue += ((error[0] - error[1]) ** 2 + (error[2] - error[1]) ** 2) / 2;
      count++;
      if ((x + y) % 3) continue;
      const lab = (densities: readonly number[]) => labOf(apply(toXyz, positive(densities, grey)));
      differences.push(deltaE2000(lab(is), lab(should)));
    }
  differences.sort((a, b) => a - b);
  return {
    psnr: 10 * Math.log10(2 ** 2 / (square / count)), // peak: 2 D
    colourNoise: Math.sqrt(hue / count),
    mean: differences.reduce((a, b) => a + b, 0) / differences.length,
    worst: differences[Math.floor(differences.length * 0.99)],
  };
}

/** Processor time of one run at 24 megapixels, in seconds; the better of two. */
function seconds(act: () => void): number {
  const once = () => {
    const before = process.cpuUsage();
    act();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1e6;
  };
  return Math.min(once(), once());
}

function printTable(
  title: string,
  film: FilmPicture,
  mosaic: Mosaic,
  candidates: readonly [string, Candidate][],
): void {
  console.log(`| ${title} | PSNR of density, dB | colour error, D rms | ΔE00 mean | ΔE00 99 % |`);
  console.log("|---|---|---|---|---|");
  for (const [name, run] of candidates) {
    const s = score(film, run(mosaic));
    const cells = [s.psnr.toFixed(2), s.colourNoise.toFixed(4), s.mean.toFixed(2), s.worst.toFixed(2)];
    console.log(`| ${name} | ${cells.join(" | ")} |`);
  }
  console.log();
}

/** The small mosaic over and over; its size is whole blocks. */
function tiled(mosaic: Mosaic, pattern: FilterPattern): Mosaic {
  const [width, height] = SPEED_SIZE;
  const data = new Uint16Array(width * height);
  for (let i = 0; i < data.length; i++) data[i] = mosaic.data[i % mosaic.data.length];
  return mosaicOf(width, height, data, pattern);
}

const lib = await loadLibRaw();
const film = drawFilm(...SIZE);
const bayer = mosaicOf(...SIZE, recordMosaic(film, RGGB, LEVELS), RGGB);
printTable("Bayer", film, bayer, [
  ["bilinear", bilinear],
  ["gradient-corrected linear 5×5", malvar],
  ["the same, colours not balanced first", malvarUnbalanced],
  ["LibRaw pixel grouping (q2)", libRaw(lib, 2)],
  ["LibRaw homogeneity-directed (q3)", libRaw(lib, 3)],
  ["ours: blended directions", ours(true)],
  ["ours, colours not balanced first", ours(false)],
]);
const xtrans = mosaicOf(...SIZE, recordMosaic(film, XTRANS, LEVELS), XTRANS);
printTable("X-Trans", film, xtrans, [
  ["LibRaw bilinear (q0)", libRaw(lib, 0)],
  ["LibRaw variable gradients (q1)", libRaw(lib, 1)],
  ["LibRaw one pass (q2)", libRaw(lib, 2)],
  ["LibRaw three passes (q3)", libRaw(lib, 3)],
  ["ours: blended directions", ours(true)],
  ["ours, colours not balanced first", ours(false)],
]);
if (process.argv.includes("--speed")) {
  const largeBayer = tiled(bayer, RGGB);
  const largeXTrans = tiled(xtrans, XTRANS);
  console.log(`Bayer, 24 megapixels: ${seconds(() => demosaicBayer(largeBayer)).toFixed(2)} s of one processor`);
  console.log(`X-Trans, 24 megapixels: ${seconds(() => demosaicXTrans(largeXTrans)).toFixed(2)} s of one processor`);
}
