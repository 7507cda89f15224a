/** The base of a roll: read at full size where its scans show unexposed film best. */
import { median } from "../../../engine/math/statistics.ts";
import { readBaseJob } from "../../frame/jobs.ts";
import type { Rgb } from "../../../engine/types.ts";
import type { FrameLight } from "../../frame/develop.ts";
import type { StartContext } from "../new-roll-options.ts";
import type { FoundPicture } from "../pictures/find-frame.ts";
import type { FirstPassScan } from "../scans/sort-scans.ts";
import type { RollBase } from "../started-roll.ts";

export interface BaseScans {
  /** Leaders first, then pictures. */
  readonly shots: readonly FirstPassScan[];
  /** What was found on each of `shots`. */
  readonly found: readonly FoundPicture[];
  /** How many of `shots` are leaders. */
  readonly leaders: number;
}

const perChannel = (of: (c: number) => number): Rgb => [of(0), of(1), of(2)];

/**
 * The roll's base: of the scans that show one, the one nearest the middle of them all, a leader before a rebate; read
 * again at full size. Undefined where no scan shows a base that can be read.
 */
export async function rollBase(
  { shots, found, leaders }: BaseScans,
  light: FrameLight,
  { pathOf, pool, signal }: StartContext,
): Promise<RollBase | undefined> {
  const known = found.flatMap(({ base }, i) => (base ? [{ base, i }] : []));
  if (known.length === 0) return undefined;
  const middle = perChannel((c) => median(known.map(({ base }) => base.density[c])));
  const off = (d: Rgb): number => Math.max(...d.map((v, c) => Math.abs(v - middle[c])));
  const rank = ({ base, i }: (typeof known)[number]): number =>
    off(base.density) + (i < leaders ? 0 : 0.02) + 0.02 * (1 - base.confidence);
  const best = known.toSorted((a, b) => rank(a) - rank(b));
  for (const { base, i } of best.slice(0, 3))
    try {
      const area = base.area;
      const reading = await pool.run(readBaseJob, { path: pathOf(shots[i].name), area, light }, { signal });
      const { density, scatter } = reading;
      return {
        density: perChannel((c) => Number(density[c].toFixed(4))),
        scan: shots[i].name,
        area,
        scatter: perChannel((c) => Number(scatter[c].toFixed(3))),
        spread: Math.max(...known.map((k) => off(k.base.density))),
      };
    } catch (error) {
      if (signal?.aborted) throw error;
      // An area that cannot be read at full size (dust, a clipped corner): the next scan's is tried.
    }
  return undefined;
}
