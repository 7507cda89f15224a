/** Marked shutter times, and whether a roll's scans carry those or the true ones: the base of one film tells it. */
import { median } from "../math/statistics.ts";
import type { Rgb } from "../types.ts";

/** What a file's shutter time is: as written, or the mark of the usual series. */
export type ShutterTimes = "written" | "nominal";

/**
 * Marks by thirds (and 1/45 and 1/90 by halves) of a stop from 1 s down, as engraved and displayed. The times themselves
 * are powers of two: 1/30 stands for 1/32 s. Common practice, from memory, no source.
 */
// oxfmt-ignore
const MARKS: readonly (readonly [mark: number, stops: number])[] = [
  ...[30, 25, 20, 15, 13, 10, 8, 6, 5, 4, 3.2, 2.5, 2, 1.6, 1.3].map((t, k) => [t, 5 - k / 3] as const),
  ...[1, 1.25, 1.6, 2, 2.5, 3, 4, 5, 6, 8, 10, 13, 15, 20, 25, 30, 40, 50, 60, 80, 100, 125, 160, 200, 250, 320, 400,
    500, 640, 800, 1000, 1250, 1600, 2000, 2500, 3200, 4000, 5000, 6400, 8000].map((n, k) => [1 / n, -k / 3] as const),
  // Displayed with one decimal.
  [0.6, -2 / 3],
  [0.3, -5 / 3],
  [1 / 45, -5.5],
  [1 / 90, -6.5],
];

/** Marks are written as short fractions or decimals. */
const SAME_MARK = 0.004;

/** The time in seconds that a mark stands for; any other time is itself. */
export function markedTime(seconds: number): number {
  const found = MARKS.find(([mark]) => Math.abs(mark / seconds - 1) < SAME_MARK);
  return found ? 2 ** found[1] : seconds;
}

/** log10 by which an exposure is longer than its written time says, if that is a mark. */
const excess = (seconds: number | undefined): number =>
  seconds === undefined ? 0 : Math.log10(markedTime(seconds) / seconds);

/** The base of one scan, with the shutter times taken as written. */
export interface TimedBase {
  readonly shutter?: number;
  readonly density: Rgb;
}

export interface ShutterReading {
  readonly times: ShutterTimes;
  /** Other scans of the roll, or the base that the stock states. */
  readonly from: "scans" | "stock";
  /** Greatest difference of the base between shutter times, D: as written, and by the marked series. */
  readonly written: number;
  readonly nominal: number;
}

/** Smaller errors of density are nothing that a base is read to. */
const MIN_ERROR = 0.008;
/** Bases of one film agree at least so well, D, where light and flare are as they were. */
const AGREES = 0.006;

/**
 * Resolves the shutter times of a roll from its base, which is the same on every scan.
 * @param reference shutter time of the blank, or of the scan that all are compared with, in seconds
 * @param stock base that the stock states, D
 * @returns undefined where the scans leave it open
 */
export function readShutterTimes(
  bases: readonly TimedBase[],
  reference: number | undefined,
  stock?: Rgb,
): ShutterReading | undefined {
  const groups = new Map<number, TimedBase[]>();
  for (const base of bases)
    if (base.shutter !== undefined) groups.set(base.shutter, [...(groups.get(base.shutter) ?? []), base]);
  const middles = [...groups].map(([shutter, own]) => {
    const density = [0, 1, 2].map((c) => median(own.map((b) => b.density[c])));
    // More light than was written makes film look thinner than it is.
    return { density, error: excess(shutter) - excess(reference) };
  });
  return betweenScans(middles) ?? (stock && againstStock(middles, stock));
}

interface GroupBase {
  readonly density: readonly number[];
  readonly error: number;
}

const range = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);
const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

function betweenScans(groups: readonly GroupBase[]): ShutterReading | undefined {
  if (groups.length < 2 || range(groups.map(({ error }) => error)) < MIN_ERROR) return undefined;
  const written = range(groups.map(({ density }) => mean(density)));
  const nominal = range(groups.map(({ density, error }) => mean(density) + error));
  return decided(written, nominal, "scans");
}

function againstStock(groups: readonly GroupBase[], stock: Rgb): ShutterReading | undefined {
  const tell = groups.filter(({ error }) => Math.abs(error) >= MIN_ERROR);
  if (tell.length === 0) return undefined;
  const off = tell.map(({ density, error }) => ({ by: density.map((d, c) => d - stock[c]), error }));
  // Another development or light changes the channels unalike.
  if (off.some(({ by }) => range(by) > AGREES)) return undefined;
  const written = Math.max(...off.map(({ by }) => Math.abs(mean(by))));
  const nominal = Math.max(...off.map(({ by, error }) => Math.abs(mean(by) + error)));
  return decided(written, nominal, "stock");
}

function decided(written: number, nominal: number, from: ShutterReading["from"]): ShutterReading | undefined {
  const [better, worse] = written < nominal ? [written, nominal] : [nominal, written];
  if (better > AGREES || better > worse / 2) return undefined;
  return { times: written < nominal ? "written" : "nominal", from, written, nominal };
}
