/** Whether a reading of the base looks like one: its area may hold picture. Noticed before it is written. */
import { densityOf } from "../../extension/engine/colour/density.ts";
import { codeTable } from "../../extension/engine/plan/log-code.ts";
import type { Rgb } from "../../extension/engine/types.ts";
import type { Source } from "../render/source.ts";

export type BaseDoubt =
  /** The area is uneven: standard deviation of density, the greatest of the channels. */
  | { readonly kind: "uneven"; readonly deviation: number }
  /** Far from the base that the stock or the roll states: greatest difference of density, with its sign. */
  | { readonly kind: "far"; readonly difference: number }
  /** Clearer film lies elsewhere in the scan: by so much density, on such a part of it. */
  | { readonly kind: "clearer"; readonly difference: number; readonly part: number };

// Common practice, no source: grain of clear film read at full size stays below 0.02 D, bases of one stock within 0.1 D.
const MAX_DEVIATION = 0.04;
const MAX_DIFFERENCE = 0.15;
/** Film that is clearer than the reading by this in every channel, on at least this part of the scan. */
const CLEARER = 0.05;
const MIN_PART = 0.002;
/** Clear film has at least this mean density; what has less is the bare light, in perforations or beside the film. */
const BARE = 0.15;

interface BaseReading {
  readonly density: Rgb;
  /** Standard deviation of density in the area. */
  readonly scatter: Rgb;
}

/** @param stated the base's density as stock or roll state it */
export function baseDoubts(reading: BaseReading, stated: Rgb | undefined, source: Source | undefined): BaseDoubt[] {
  const doubts: BaseDoubt[] = [];
  const deviation = Math.max(...reading.scatter);
  if (deviation > MAX_DEVIATION) doubts.push({ kind: "uneven", deviation });
  const differences = stated ? reading.density.map((d, c) => d - stated[c]) : [];
  const difference = differences.toSorted((a, b) => Math.abs(b) - Math.abs(a))[0] ?? 0;
  if (Math.abs(difference) > MAX_DIFFERENCE) doubts.push({ kind: "far", difference });
  const clearer = source && clearerFilm(reading.density, source);
  if (clearer && clearer.part >= MIN_PART) doubts.push({ kind: "clearer", ...clearer });
  return doubts;
}

/** Film in the scan that is clearer than a reading: its part of the scan, and how much clearer it is on average. */
function clearerFilm(density: Rgb, source: Source): { readonly part: number; readonly difference: number } {
  const { codes } = source.levels.at(-1)!;
  const table = codeTable();
  let [count, sum] = [0, 0];
  for (let i = 0; i < codes.length; i += 3) {
    const d: Rgb = [densityOf(table[codes[i]]), densityOf(table[codes[i + 1]]), densityOf(table[codes[i + 2]])];
    const mean = (d[0] + d[1] + d[2]) / 3;
    if (mean < BARE || d.some((v, c) => v > density[c] - CLEARER)) continue;
    count++;
    sum += (density[0] + density[1] + density[2]) / 3 - mean;
  }
  return { part: (3 * count) / codes.length, difference: count ? sum / count : 0 };
}
