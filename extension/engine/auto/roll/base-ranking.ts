/** Which of a roll's scans shows the base best. */
import type { FoundBase } from "../../detect/base.ts";
import { median } from "../../math/statistics.ts";
import type { Rgb } from "../../types.ts";

/** Where on the film a base was read. */
export type BasePlace = "leader" | "rebate" | "between perforations";

export interface RankedBase {
  /** Index of the scan. */
  readonly index: number;
  readonly base: FoundBase;
  readonly place: BasePlace;
  /** Standard deviation of a reading at that place, D. */
  readonly uncertainty: number;
}

/**
 * Standard deviation of a base by where it was read, D. A rebate: docs/calibration.md; a leader has more of it and none of
 * a picture's light beside it. Between perforations bare light on two sides veils the film: 0.5 % of it takes 0.01 D from
 * a base of 0.7 D (common practice, no source).
 */
const UNCERTAINTY: Readonly<Record<BasePlace, number>> = { leader: 0.003, rebate: 0.005, "between perforations": 0.01 };

/** What a place must be nearer to the roll's middle to be taken before a better one, D. */
const PENALTY: Readonly<Record<BasePlace, number>> = { leader: 0, rebate: 0.02, "between perforations": 0.03 };
/** The same of a base that was found without confidence. */
const DOUBT_PENALTY = 0.02;

const placeOf = ({ isBetweenHoles }: FoundBase, isLeader: boolean): BasePlace =>
  isLeader ? "leader" : isBetweenHoles ? "between perforations" : "rebate";

/**
 * Bases in the order in which they deserve to be read at full size: nearest the middle of them all first, a leader
 * before a rebate, and that before film between perforations.
 *
 * @param found what was found on each scan, leaders first
 * @param leaders how many of them are leaders
 * @returns `spread`: the largest density by which a base lies off the middle, in any channel
 */
export function rankBases(
  found: readonly { readonly base?: FoundBase }[],
  leaders: number,
): { readonly ranked: readonly RankedBase[]; readonly spread: number } {
  const known = found.flatMap(({ base }, index): RankedBase[] => {
    if (!base) return [];
    const place = placeOf(base, index < leaders);
    return [{ base, index, place, uncertainty: UNCERTAINTY[place] }];
  });
  if (known.length === 0) return { ranked: [], spread: 0 };
  const middle = [0, 1, 2].map((c) => median(known.map(({ base }) => base.density[c])));
  const off = (density: Rgb): number => Math.max(...density.map((v, c) => Math.abs(v - middle[c])));
  const rank = ({ base, place }: RankedBase): number =>
    off(base.density) + PENALTY[place] + DOUBT_PENALTY * (1 - base.confidence);
  return {
    ranked: known.toSorted((a, b) => rank(a) - rank(b)),
    spread: Math.max(...known.map(({ base }) => off(base.density))),
  };
}
