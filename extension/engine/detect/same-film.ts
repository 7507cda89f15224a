/**
 * Whether two scans show the same piece of film. Two pictures of one subject may look alike, but each piece of film has
 * grain of its own: where the grain agrees, it is one piece of film that was photographed twice.
 */
import { type Complex, fft2 } from "../math/fft.ts";
import type { FilmPlane } from "../flat-field/film-plane.ts";
import type { Area } from "../types.ts";

/** What is kept of a scan to recognise its film again. */
export interface GrainPrint {
  /** Pixels of the scan that it was taken from: prints of other sizes cannot be compared. */
  readonly width: number;
  readonly height: number;
  /** Side of a patch in pixels, a power of two. */
  readonly side: number;
  readonly patches: readonly GrainPatch[];
}

interface GrainPatch {
  /** Detail finer than about eight pixels, in steps of a quarter of its own local standard deviation. */
  readonly detail: Int8Array;
  /** 1 where the film is so even that the detail is grain. */
  readonly even: Uint8Array;
}

/** Patches across and down the picture. */
const [COLUMNS, ROWS] = [4, 4];
/** Sides of a patch: the largest that leaves the picture room for its grid. */
const SIDES = [128, 64, 32];
/** Half the side of the square whose mean is taken off, and of the one that the deviation is taken over; pixels. */
const [FINE, LOCAL] = [3, 8];
const STEPS = 4;
/** Detail beyond this many standard deviations is an edge or dust, and no grain. */
const MAX_DEVIATIONS = 3;
/** Coarser detail over fine, as standard deviations, up to which film is even: white grain alone shows 0.13, blurred 0.3. */
const EVEN = 0.34;

/** @param area where the picture lies: patches are laid out from its middle, so that film that moved is found again */
export function grainPrint(plane: FilmPlane, area: Area): GrainPrint | undefined {
  const { width, height } = plane;
  const [wide, high] = [area.width * width, area.height * height];
  const side = SIDES.find((s) => wide >= s * (COLUMNS - 0.5) && high >= s * (ROWS - 1));
  if (side === undefined) return undefined;
  const margin = LOCAL + FINE;
  const patches: GrainPatch[] = [];
  for (let r = 0; r < ROWS; r++)
    for (let q = 0; q < COLUMNS; q++) {
      const place = (first: number, length: number, k: number, n: number, all: number): number => {
        const at = Math.round(first * all + length * (0.06 + (0.88 * (k + 0.5)) / n) - side / 2);
        return Math.min(all - side - margin, Math.max(margin, at));
      };
      const x = place(area.left, wide, q, COLUMNS, width);
      const y = place(area.top, high, r, ROWS, height);
      patches.push(patchAt(plane, x, y, side));
    }
  return { width, height, side, patches };
}

const MIN_TRANSMITTANCE = 1e-3;

function patchAt({ width, data }: FilmPlane, x0: number, y0: number, side: number): GrainPatch {
  const margin = LOCAL + FINE;
  const all = side + 2 * margin;
  const density = new Float64Array(all * all);
  for (let y = 0; y < all; y++)
    for (let x = 0; x < all; x++) {
      const i = ((y0 - margin + y) * width + x0 - margin + x) * 3 + 1;
      density[y * all + x] = -Math.log10(Math.max(MIN_TRANSMITTANCE, data[i]));
    }
  const mean = boxMean(density, all, FINE);
  const fine = density.map((v, i) => v - mean[i]);
  const square = (values: Float64Array): Float64Array =>
    boxMean(
      values.map((v) => v * v),
      all,
      LOCAL,
    );
  const power = square(fine);
  const coarse = square(boxMean(density, all, LOCAL).map((v, i) => mean[i] - v));
  const detail = new Int8Array(side * side);
  const even = new Uint8Array(side * side);
  for (let y = 0; y < side; y++)
    for (let x = 0; x < side; x++) {
      const i = (y + margin) * all + x + margin;
      const v = fine[i] / Math.sqrt(power[i] + 1e-12);
      detail[y * side + x] = Math.round(STEPS * Math.min(MAX_DEVIATIONS, Math.max(-MAX_DEVIATIONS, v)));
      even[y * side + x] = coarse[i] < EVEN ** 2 * power[i] ? 1 : 0;
    }
  return { detail, even };
}

/** Means over squares of 2 `half` + 1; at the border over what there is of them. */
function boxMean(values: Float64Array, side: number, half: number): Float64Array {
  const across = new Float64Array(values.length);
  const out = new Float64Array(values.length);
  const pass = (from: Float64Array, to: Float64Array, step: number, line: number): void => {
    for (let k = 0; k < side; k++) {
      let [sum, n] = [0, 0];
      const at = (i: number): number => from[k * line + i * step];
      for (let i = 0; i < Math.min(half, side); i++, n++) sum += at(i);
      for (let i = 0; i < side; i++) {
        if (i + half < side) [sum, n] = [sum + at(i + half), n + 1];
        if (i - half - 1 >= 0) [sum, n] = [sum - at(i - half - 1), n - 1];
        to[k * line + i * step] = sum / n;
      }
    }
  };
  pass(values, across, 1, side);
  pass(across, out, side, 1);
  return out;
}

export interface FilmAgreement {
  /** Correlation of the grain at the shift where it is highest, 0 … 1. */
  readonly agreement: number;
  /** The same over what chance alone brings about, in standard deviations. */
  readonly certainty: number;
  /** Part of the patches that is even film, 0 … 1. */
  readonly even: number;
  /** Pixels by which the second print lies to the right of and below the first. */
  readonly x: number;
  readonly y: number;
}

/** @returns undefined where the prints cannot be compared */
export function filmAgreement(first: GrainPrint, second: GrainPrint): FilmAgreement | undefined {
  const { side } = first;
  if (first.width !== second.width || first.height !== second.height || side !== second.side) return undefined;
  // Blur makes grain look like structure: the sharper print tells better where the film is even.
  const swap = evenPart(second) > evenPart(first);
  const [by, other] = swap ? [second, first] : [first, second];
  const sum = new Float64Array(side * side);
  let [powerBy, powerOther] = [0, 0];
  by.patches.forEach(({ detail, even }, i) => {
    const count = even.reduce((n, v) => n + v, 0);
    if (count === 0) return;
    const whole = other.patches[i].detail;
    const masked = detail.map((v, k) => v * even[k]);
    correlate(sum, masked, whole, side);
    powerBy += energy(masked);
    powerOther += (energy(whole) * count) / even.length;
  });
  const scale = 1 / Math.max(1e-9, Math.sqrt(powerBy * powerOther));
  let [best, squares] = [0, 0];
  for (let k = 0; k < sum.length; k++) {
    if (sum[k] > sum[best]) best = k;
    squares += sum[k] ** 2;
  }
  const scatter = Math.sqrt((squares - sum[best] ** 2) / (sum.length - 1));
  const signed = (k: number): number => (k > side / 2 ? k - side : k) * (swap ? 1 : -1) + 0;
  return {
    agreement: Math.max(0, sum[best] * scale),
    certainty: sum[best] / Math.max(scatter, 1e-9),
    even: evenPart(by),
    x: signed(best % side),
    y: signed(Math.floor(best / side)),
  };
}

function evenPart({ patches, side }: GrainPrint): number {
  return patches.reduce((n, { even }) => n + even.reduce((m, v) => m + v, 0), 0) / (patches.length * side * side);
}

const energy = (detail: Int8Array): number => detail.reduce((sum, v) => sum + v * v, 0);

/** Adds the correlation of two patches at every shift. */
function correlate(sum: Float64Array, a: Int8Array, b: Int8Array, side: number): void {
  const [p, q] = [spectrumOf(a, side), spectrumOf(b, side)];
  const product: Complex = {
    re: p.re.map((v, i) => v * q.re[i] + p.im[i] * q.im[i]),
    im: p.re.map((v, i) => p.im[i] * q.re[i] - v * q.im[i]),
  };
  fft2(product, side, side, true);
  for (let k = 0; k < sum.length; k++) sum[k] += product.re[k];
}

function spectrumOf(detail: Int8Array, side: number): Complex {
  const made: Complex = { re: Float64Array.from(detail), im: new Float64Array(detail.length) };
  fft2(made, side, side);
  return made;
}
