/** Merges scans that lie on each other into one, band by band: the weighted mean of what agrees and is well exposed. */
import { clamp } from "../math/clamp.ts";
import type { LinearScan } from "../types.ts";
import { agreementOf, type BandRows, type Candidate } from "./agreement.ts";

/** Rows of a band, and rows around it that its agreement is judged by. Even numbers: cells have two rows. */
const [BAND, MARGIN] = [32, 4];
/** The merged scan's black, and its highest sample: noise around zero and above the limit keeps its room. */
const [BLACK, TOP] = [512, 64_000];
/** Share of what stands alone where no scan has a share of its own. */
const LAST_RESORT = 1e-3;
/** Usable share from which the scan that stays may stand alone. */
const WELL_EXPOSED = 0.3;
/** Standard deviations of reading noise below which a sample counts less, where a longer exposure counts. */
const NEAR_BLACK = 4;

/**
 * @param candidates the scan that stays first; all of its size and channels. Signals are in units of the shortest.
 * @param top signal that the highest sample stands for
 */
export function combine(candidates: readonly Candidate[], top: number, checkpoint: () => void): LinearScan {
  const [{ width, height, channels }] = candidates as readonly [Candidate];
  const data = new Uint16Array(width * height * channels);
  const scale = top / TOP;
  const row = width * channels;
  const agreement = agreementOf(candidates, BAND + 2 * MARGIN);
  const band = bandOf(candidates, agreement.shares);
  const sums = { sum: new Float32Array(row), total: new Float32Array(row), level: new Float32Array(row) };
  for (let y0 = 0; y0 < height; y0 += BAND) {
    checkpoint();
    const [from, to] = [Math.max(0, y0 - MARGIN), Math.min(height, y0 + BAND + MARGIN)];
    band.fill(from, to);
    const rows = to - from;
    agreement.judge(band, rows);
    for (let y = y0; y < Math.min(height, y0 + BAND); y++) {
      const line = y - from;
      meanRow(candidates, band, { at: line * row, cell: (line >> 1) * ((width + 1) >> 1), width, channels }, sums);
      const { sum, total } = sums;
      for (let k = 0, o = y * row; k < row; k++, o++)
        data[o] = clamp(Math.round(BLACK + sum[k]! / (total[k]! * scale)), 0, 65535);
    }
  }
  return { width, height, channels, data, black: BLACK, scale };
}

/** Rows of all candidates. */
interface Band extends BandRows {
  /** How far each candidate agrees, by cells. */
  readonly agrees: readonly Float32Array[];
  /** A row of shares for each candidate. */
  readonly row: readonly Float32Array[];
  fill(from: number, to: number): void;
}

function bandOf(candidates: readonly Candidate[], agrees: readonly Float32Array[]): Band {
  const [{ width, channels }] = candidates as readonly [Candidate];
  const row = width * channels;
  const buffers = () => candidates.map(() => new Float32Array(row * (BAND + 2 * MARGIN)));
  const [signals, usable] = [buffers(), buffers()];
  return {
    signals,
    usable,
    agrees,
    row: candidates.map(() => new Float32Array(row)),
    fill(from, to) {
      candidates.forEach((candidate, i) => {
        for (let y = from; y < to; y++) {
          const [start, end] = [(y - from) * row, (y - from + 1) * row];
          candidate.row(y, signals[i]!.subarray(start, end), usable[i]!.subarray(start, end));
        }
      });
    },
  };
}

/** Means of a row: what its candidates are summed into. */
interface RowSums {
  readonly sum: Float32Array;
  readonly total: Float32Array;
  readonly level: Float32Array;
}

/** A row's samples in a band, and their cells in the agreement's planes. */
interface RowPlace {
  /** First sample of the row. */
  readonly at: number;
  /** First cell of the row. */
  readonly cell: number;
  readonly width: number;
  readonly channels: number;
}

/**
 * One row of the result. With the level that all candidates together tell, a candidate's weight is its inverse variance
 * there: weights that followed from a sample's own noise would favour low samples.
 */
function meanRow(candidates: readonly Candidate[], band: Band, place: RowPlace, row: RowSums): void {
  const { sum, total, level } = row;
  const shares = sharesOf(candidates, band, place);
  sum.fill(0);
  total.fill(0);
  candidates.forEach(({ noise }, i) => {
    const [signals, share] = [band.signals[i]!, shares[i]!];
    for (let c = 0; c < place.channels; c++) {
      const weight = 1 / noise.photon[c]!;
      for (let k = c; k < sum.length; k += place.channels) {
        const w = share[k]! * weight;
        sum[k]! += w * signals[place.at + k]!;
        total[k]! += w;
      }
    }
  });
  for (let k = 0; k < sum.length; k++) level[k] = total[k]! > 0 ? Math.max(0, sum[k]! / total[k]!) : 0;
  sum.fill(0);
  total.fill(0);
  const longest = Math.max(...candidates.map(({ exposure }) => exposure));
  candidates.forEach(({ noise, exposure }, i) => {
    const [signals, share] = [band.signals[i]!, shares[i]!];
    for (let c = 0; c < place.channels; c++) {
      const [read, photon] = [noise.read[c]!, noise.photon[c]!];
      const dark = exposure < longest ? NEAR_BLACK * Math.sqrt(read) : 0;
      for (let k = c; k < sum.length; k += place.channels) {
        const u = level[k]!;
        let w = share[k]! / (read + photon * u);
        if (u < dark) w *= 0.02 + 0.98 * (u / dark) ** 2 * (3 - (2 * u) / dark);
        sum[k]! += w * signals[place.at + k]!;
        total[k]! += w;
      }
    }
  });
}

/**
 * Shares of a row's samples: well exposed, and in agreement. Where nothing agrees, the scan that stays; where nothing is
 * well exposed, the shortest exposure that shows it.
 */
function sharesOf(
  candidates: readonly Candidate[],
  band: Band,
  { at, cell, width, channels }: RowPlace,
): Float32Array[] {
  const shares = candidates.map((_, i) => {
    const [usable, agrees, share] = [band.usable[i]!, band.agrees[i]!, band.row[i]!];
    for (let x = 0, k = 0; x < width; x++) {
      const agreed = agrees[cell + (x >> 1)]!;
      for (let c = 0; c < channels; c++, k++) share[k] = Math.max(0, usable[at + k]!) * agreed;
    }
    return share;
  });
  const order = candidates.map((_, i) => i).sort((a, b) => candidates[a]!.exposure - candidates[b]!.exposure);
  const [shortest] = order as [number];
  const [share, usable] = [shares[shortest]!, band.usable[shortest]!];
  for (let k = 0; k < width * channels; k++) {
    if (share[k]! >= LAST_RESORT) continue;
    if (band.usable[0]![at + k]! >= WELL_EXPOSED) shares[0]![k] = Math.max(shares[0]![k]!, LAST_RESORT);
    else if (usable[at + k]! >= 0) share[k] = LAST_RESORT;
    else {
      const next = order.find((i) => band.usable[i]![at + k]! >= 0);
      if (next !== undefined) shares[next]![k] = Math.max(shares[next]![k]!, LAST_RESORT);
    }
  }
  return shares;
}
