/** The base of a roll: read at full size where its scans show unexposed film best. */
import { median } from "../../../engine/math/statistics.ts";
import { readBaseJob } from "../../frame/jobs.ts";
import type { FoundBase } from "../../../engine/detect/base.ts";
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

const placeOf = ({ isBetweenHoles }: FoundBase, isLeader: boolean): RollBase["place"] =>
  isLeader ? "leader" : isBetweenHoles ? "between perforations" : "rebate";

/**
 * Standard deviation of a base by where it was read, D. A rebate: docs/calibration.md; a leader has more of it and none of
 * a picture's light beside it. Between perforations bare light on two sides veils the film: 0.5 % of it takes 0.01 D from
 * a base of 0.7 D (common practice, no source).
 */
const UNCERTAINTY: Readonly<Record<RollBase["place"], number>> = {
  leader: 0.003,
  rebate: 0.005,
  "between perforations": 0.01,
};

/** What a place must be nearer to the roll's middle to be taken before a better one, D. */
const PENALTY: typeof UNCERTAINTY = { leader: 0, rebate: 0.02, "between perforations": 0.03 };

/**
 * The roll's base: of the scans that show one, the one nearest the middle of them all, a leader before a rebate, and that
 * before film between perforations; read again at full size. Undefined where no scan shows a base that can be read.
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
    off(base.density) + PENALTY[placeOf(base, i < leaders)] + 0.02 * (1 - base.confidence);
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
        place: placeOf(base, i < leaders),
        uncertainty: UNCERTAINTY[placeOf(base, i < leaders)],
        spread: Math.max(...known.map((k) => off(k.base.density))),
      };
    } catch (error) {
      if (signal?.aborted) throw error;
      // An area that cannot be read at full size (dust, a clipped corner): the next scan's is tried.
    }
  return undefined;
}
