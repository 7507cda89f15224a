/** Where scans of one picture show the same: dust that moved, things that moved and edges that do not lie on each other are left out. */
import type { LinearScan } from "../types.ts";
import type { Displacement } from "./displacement.ts";
import type { NoiseModel } from "./noise.ts";
import { rowResampler } from "./resample-row.ts";
import type { WellExposed } from "./well-exposed.ts";

/** A scan that takes part in a merge. */
export interface Candidate extends Pick<LinearScan, "width" | "height" | "channels"> {
  /** Light that it got, the shortest exposure's being 1. */
  readonly exposure: number;
  /** Of its signals in units of the shortest exposure. */
  readonly noise: NoiseModel;
  /** Writes a row of what `BandRows` has. */
  row(y: number, signals: Float32Array, usable: Float32Array): void;
}

/** Rows of all candidates. */
export interface BandRows {
  /** In units of the shortest exposure. */
  readonly signals: readonly Float32Array[];
  /** How far each sample can be used, 0 … 1; −1 where the candidate does not show it. */
  readonly usable: readonly Float32Array[];
}

/** @param displacement absent for the scan that stays */
export function candidateOf(
  scan: LinearScan,
  exposed: WellExposed,
  {
    exposure,
    noise,
    displacement,
  }: { readonly exposure: number; readonly noise: NoiseModel; readonly displacement?: Displacement },
): Candidate {
  const { width, height, channels } = scan;
  const resampler = rowResampler(scan, displacement);
  const { shares, width: cells, height: lines } = exposed;
  function row(y: number, signals: Float32Array, usable: Float32Array): void {
    resampler.row(y, signals);
    for (let x = 0, k = 0; x < width; x++) {
      let cell = 0;
      if (shares) {
        resampler.place(x, y);
        const i = Math.min(cells - 1, Math.max(0, Math.round(resampler.at.x) >> 1));
        const j = Math.min(lines - 1, Math.max(0, Math.round(resampler.at.y) >> 1));
        cell = (j * cells + i) * channels;
      }
      for (let c = 0; c < channels; c++, k++) {
        const value = signals[k]! / exposure;
        const isSeen = value === value; // not NaN
        signals[k] = isSeen ? value : 0;
        usable[k] = isSeen ? (shares ? shares[cell + c]! / 255 : 1) : -1;
      }
    }
  }
  return { width, height, channels, exposure, noise, row };
}

/** Mean square of the deviations, each over what noise and resampling explain, up to which a candidate counts, and from which not. */
const [AGREES, DIFFERS] = [3, 7];
/** Part of the local contrast that resampling and registration may leave, as a standard deviation. */
const EDGE = 0.12;
/** Usable share from which a candidate counts among those that the others are compared with. */
const MIN_SHARE = 0.3;
/** Green has the least noise and is clipped between the others. */
const GREEN_FIRST = [1, 0, 2] as const;
/** A deviation counts no more than this, squared. */
const MAX_SQUARE = 64;

export interface Agreement {
  /** How far each candidate agrees, 0 … 1, a value for each 2 × 2 pixels of the band. */
  readonly shares: readonly Float32Array[];
  judge(band: BandRows, rows: number): void;
}

/**
 * Judges cells of 2 × 2 pixels. What they are compared with is the median of those that are well exposed, where there
 * are three or more; of two, the scan that stays, so that nothing of the other that differs gets in.
 */
export function agreementOf(candidates: readonly Candidate[], most: number): Agreement {
  const [{ width, channels }] = candidates as readonly [Candidate];
  const count = candidates.length;
  const cells = (width + 1) >> 1;
  const size = cells * ((most + 1) >> 1);
  const planes = () => candidates.map(() => new Float32Array(size));
  const [means, usable, deviations, shares] = [planes(), planes(), planes(), planes()];
  const centre = new Float32Array(size);
  const [chosen, leading] = [new Int8Array(size), new Int8Array(size)];
  function judge(band: BandRows, rows: number): void {
    const lines = (rows + 1) >> 1;
    for (const plane of deviations) plane.fill(0);
    for (const [turn, c] of (channels === 3 ? GREEN_FIRST : [0]).entries()) {
      for (let i = 0; i < count; i++) cellMeans(band, { i, c, width, channels, rows }, means[i]!, usable[i]!);
      if (turn === 1) leading.set(chosen);
      centres(means, usable, { centre, chosen, ...(turn > 0 ? { leading } : {}) }, cells * lines);
      addDeviations(candidates, { c, cells, lines, channels }, { means, usable, centre, chosen, deviations });
    }
    for (let i = 0; i < count; i++) smoothShares(deviations[i]!, shares[i]!, cells, lines);
  }
  return { shares, judge };
}

function cellMeans(
  { signals, usable: shares }: BandRows,
  {
    i,
    c,
    width,
    channels,
    rows,
  }: {
    readonly i: number;
    readonly c: number;
    readonly width: number;
    readonly channels: number;
    readonly rows: number;
  },
  means: Float32Array,
  usable: Float32Array,
): void {
  const [values, uses] = [signals[i]!, shares[i]!];
  const stride = width * channels;
  for (let y = 0, o = 0; y < rows; y += 2) {
    const below = y + 1 < rows ? stride : 0;
    for (let x = 0; x < width; x += 2, o++) {
      const k = y * stride + x * channels + c;
      const beside = x + 1 < width ? channels : 0;
      means[o] = (values[k]! + values[k + beside]! + values[k + below]! + values[k + below + beside]!) / 4;
      usable[o] = Math.min(uses[k]!, uses[k + beside]!, uses[k + below]!, uses[k + below + beside]!);
    }
  }
}

/** What a cell's candidates are compared with, and which of them that is; −1 where there is nothing to compare. */
function centres(
  means: readonly Float32Array[],
  usable: readonly Float32Array[],
  {
    centre,
    chosen,
    leading,
  }: { readonly centre: Float32Array; readonly chosen: Int8Array; readonly leading?: Int8Array },
  length: number,
): void {
  const count = means.length;
  const order = new Int8Array(count);
  for (let k = 0; k < length; k++) {
    let n = 0;
    for (let i = 0; i < count; i++) {
      if (!(usable[i]![k]! >= MIN_SHARE)) continue;
      const value = means[i]![k]!;
      let at = n++;
      for (; at > 0 && means[order[at - 1]!]![k]! > value; at--) order[at] = order[at - 1]!;
      order[at] = i;
    }
    if (n < 2) {
      chosen[k] = -1;
      continue;
    }
    // Of two the scan that stays, or else the one that was listed first.
    const own = n === 2 ? Math.min(order[0]!, order[1]!) : order[(n - 1) >> 1]!;
    const common = leading ? leading[k]! : -1;
    // What moved is of one scan in all channels: of several it would have colours that none of them shows.
    const pick = common >= 0 && usable[common]![k]! >= MIN_SHARE ? common : own;
    chosen[k] = pick;
    centre[k] = means[pick]![k]!;
  }
}

interface Planes {
  readonly means: readonly Float32Array[];
  readonly usable: readonly Float32Array[];
  readonly centre: Float32Array;
  readonly chosen: Int8Array;
  readonly deviations: readonly Float32Array[];
}

function addDeviations(
  candidates: readonly Candidate[],
  {
    c,
    cells,
    lines,
    channels,
  }: { readonly c: number; readonly cells: number; readonly lines: number; readonly channels: number },
  { means, usable, centre, chosen, deviations }: Planes,
): void {
  // A cell's mean has a quarter of its samples' variance, if they were independent; demosaicing leaves them less so.
  const read = candidates.map(({ noise }) => noise.read[c]! / 2);
  const photon = candidates.map(({ noise }) => noise.photon[c]! / 2);
  for (let y = 0; y < lines; y++)
    for (let x = 0; x < cells; x++) {
      const k = y * cells + x;
      const pick = chosen[k]!;
      if (pick < 0) continue;
      const value = centre[k]!;
      const level = Math.max(0, value);
      const own = means[pick]!;
      const [l, r] = [x > 0 ? -1 : 0, x < cells - 1 ? 1 : 0];
      const [t, b] = [y > 0 ? -cells : 0, y < lines - 1 ? cells : 0];
      const contrast =
        Math.max(Math.abs(own[k + l]! - value), Math.abs(own[k + r]! - value)) +
        Math.max(Math.abs(own[k + t]! - value), Math.abs(own[k + b]! - value));
      const noise = read[pick]! + photon[pick]! * level + (EDGE * contrast) ** 2;
      for (let i = 0; i < candidates.length; i++) {
        const share = usable[i]![k]!;
        if (i === pick || !(share > 0)) continue;
        const d = means[i]![k]! - value;
        const square = (d * d) / (noise + read[i]! + photon[i]! * level);
        deviations[i]![k]! += (share * (square > MAX_SQUARE ? MAX_SQUARE : square)) / channels;
      }
    }
}

/** Means over 3 × 3 cells, then the share. */
function smoothShares(deviations: Float32Array, shares: Float32Array, cells: number, lines: number): void {
  for (let y = 0; y < lines; y++) {
    const [above, below] = [y > 0 ? -cells : 0, y < lines - 1 ? cells : 0];
    for (let x = 0; x < cells; x++) {
      const k = y * cells + x;
      const [l, r] = [x > 0 ? -1 : 0, x < cells - 1 ? 1 : 0];
      let sum = 0;
      for (const row of [k + above, k, k + below])
        sum += deviations[row + l]! + deviations[row]! + deviations[row + r]!;
      const s = (sum / 9 - AGREES) / (DIFFERS - AGREES);
      shares[k] = s <= 0 ? 1 : s >= 1 ? 0 : 1 - s * s * (3 - 2 * s);
    }
  }
}
