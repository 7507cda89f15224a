/** The base of a roll: read at full size where its scans show unexposed film best. */
import { rankBases } from "../../../engine/auto/roll/base-ranking.ts";
import { readBaseJob } from "../../frame/jobs.ts";
import type { Rgb } from "../../../engine/types.ts";
import type { FrameLight } from "../../frame/develop.ts";
import type { StartContext } from "../new-roll-options.ts";
import type { FoundPicture } from "../pictures/found-picture.ts";
import type { FirstPassScan } from "../../../engine/auto/roll/first-pass.ts";
import type { RollBase } from "../started-roll.ts";

export interface BaseScans {
  /** Leaders first, then pictures. */
  readonly shots: readonly FirstPassScan[];
  /** What was found on each of `shots`. */
  readonly found: readonly FoundPicture[];
  /** How many of `shots` are leaders. */
  readonly leaders: number;
}

/** Scans that are tried. */
const MAX_READINGS = 3;

const perChannel = (of: (c: number) => number): Rgb => [of(0), of(1), of(2)];

/**
 * The roll's base: of the scans that show one, the one nearest the middle of them all, a leader before a rebate, and that
 * before film between perforations; read again at full size. Undefined where no scan shows a base that can be read.
 */
export async function rollBase(
  { shots, found, leaders }: BaseScans,
  light: FrameLight,
  { pathOf, pool, signal }: StartContext,
): Promise<RollBase | undefined> {
  const { ranked, spread } = rankBases(found, leaders);
  for (const { base, index, place, uncertainty } of ranked.slice(0, MAX_READINGS))
    try {
      const { area } = base;
      const { name } = shots[index];
      const reading = await pool.run(readBaseJob, { path: pathOf(name), area, light }, { signal });
      const { density, scatter } = reading;
      return {
        density: perChannel((c) => Number(density[c].toFixed(4))),
        scan: name,
        area,
        scatter: perChannel((c) => Number(scatter[c].toFixed(3))),
        place,
        uncertainty,
        spread,
      };
    } catch (error) {
      if (signal?.aborted) throw error;
      // An area that cannot be read at full size (dust, a clipped corner): the next scan's is tried.
    }
  return undefined;
}
