/** Which scans of a roll that is begun are parts of one picture, how they lie to one another, and what is found on it. */
import { errorText } from "../../../scans/files/system-errors.ts";
import { isWhole } from "../../../engine/detect/frame.ts";
import type { JoinPlace } from "../../../engine/image/join/place.ts";
import { overlapOf } from "../../../engine/detect/overlap.ts";
import type { Rgb } from "../../../engine/types.ts";
import type { FrameLight } from "../../frame/develop.ts";
import { eachLimited } from "../../pool/each-limited.ts";
import type { FoundPicture } from "./found-picture.ts";
import type { Pool } from "../../pool/pool.ts";
import { measureJoinJob } from "../../frame/jobs.ts";
import { writtenPlace } from "../../frame/join/join-frames.ts";
import { findFrameJob } from "../jobs.ts";

/** One scan that shows a picture or a part of one, by its name, with what was found on it alone. */
export interface Shot {
  readonly name: string;
  readonly path: string;
  readonly seen: FoundPicture;
  /** Light that it got, by shutter time, ISO and f-number; any scale. */
  readonly exposure?: number;
  /** Which of several pictures on the scan it is, from 1, and how many there are. */
  readonly part?: readonly [number: number, of: number];
}

/** Tells a picture from others, also from those on the same scan. */
export const shotKey = ({ name, part }: Pick<Shot, "name" | "part">): string => (part ? `${name}#${part[0]}` : name);

/** The scans of one frame. */
export interface ShotFrame {
  /** Its name, where a recipe has it already. */
  readonly id?: string;
  readonly scans: readonly string[];
  /** True where the scans are exposures of one picture that are merged. */
  readonly merged?: true;
  /** What was found on the scan, or on all scans laid together. */
  readonly seen: FoundPicture;
  /** Where each scan lies on the first, in pixels and degrees, and how well what they share agrees, in pixels. */
  readonly join?: { readonly places: readonly JoinPlace[]; readonly residual: number };
  /** Which of several pictures on its scan it is, from 1, and how many there are. */
  readonly part?: Shot["part"];
}

export interface JoinOptions {
  /** With the roll's flare. */
  readonly light: FrameLight;
  readonly ratio?: number;
  readonly base?: Rgb;
  /** Whether the format is no larger than a scan: then no scan is a part of a picture, however alike two look. */
  readonly fits?: boolean;
  readonly signal?: AbortSignal;
}

/**
 * Frames in order. Scans that agree at first sight but cannot be laid together become a frame each, and it is said.
 */
export async function frameShots(
  shots: readonly Shot[],
  options: JoinOptions,
  pool: Pool,
): Promise<{ frames: ShotFrame[]; warnings: string[] }> {
  const warnings: string[] = [];
  const frames = await eachLimited(
    options.fits ? shots.map((shot) => ({ shots: [shot], alike: [] })) : groupsOf(shots),
    pool.workers + 1,
    async (group): Promise<ShotFrame[]> => {
      if (group.shots.length === 1) return group.shots.map(alone);
      const report = (apart: readonly Shot[], why: string): void => {
        const named = group.alike.filter((shot) => apart.includes(shot));
        if (named.length > 0)
          warnings.push(`${listed(named)} look like parts of one picture but make a frame each: ${why}`);
      };
      try {
        return await joined(group, options, pool, report);
      } catch (error) {
        if (options.signal?.aborted) throw error;
        report(group.shots, errorText(error));
        return group.shots.map(alone);
      }
    },
  );
  return { frames: frames.flat(), warnings };
}

const alone = ({ name, seen, part }: Shot): ShotFrame => ({ scans: [name], seen, ...(part ? { part } : {}) });

const listed = (shots: readonly Shot[]): string => shots.map(({ name }) => name).join(" and ");

/** The shots that belong together as one frame, and a frame for each that does not. */
async function joined(
  { shots }: ShotGroup,
  { light, ratio, base, signal }: JoinOptions,
  pool: Pool,
  report: (apart: readonly Shot[], why: string) => void,
): Promise<ShotFrame[]> {
  const request = { paths: shots.map((s) => s.path), light, partly: true };
  const { places, residual } = await pool.run(measureJoinJob, request, { signal });
  const apart = shots.filter((_, i) => !places[i]);
  const parts = shots.flatMap((shot, i) => (places[i] ? [{ shot, place: writtenPlace(places[i]) }] : []));
  if (apart.length > 0) report(apart, "they overlap none of its other scans.");
  const join = { scans: parts.map(({ shot, place }) => ({ path: shot.path, place })), sensorDust: [] };
  const known = { base, flare: [0, 0, 0] as const };
  const seen = await pool.run(findFrameJob, { path: join.scans[0]!.path, join, light, ratio, known }, { signal });
  const frame: ShotFrame = {
    scans: parts.map(({ shot }) => shot.name),
    seen,
    join: { places: parts.map(({ place }) => place), residual },
  };
  const first = shots.indexOf(parts[0]!.shot);
  return [
    ...apart.filter((shot) => shots.indexOf(shot) < first).map(alone),
    frame,
    ...apart.filter((shot) => shots.indexOf(shot) > first).map(alone),
  ];
}

/** Shots that may be parts of one picture. */
interface ShotGroup {
  readonly shots: readonly Shot[];
  /** Those of them whose small maps agree; the others lie beside them and may show too little to tell. */
  readonly alike: readonly Shot[];
}

/** Shots before a shot that it is compared with: a grid is photographed in any order, but in one go. */
const REACH = 12;

/** Pictures that two or more scans share, taken in one go, belong to one frame. Most frames are one scan. */
function groupsOf(shots: readonly Shot[]): ShotGroup[] {
  const group = shots.map((_, i) => i);
  shots.forEach((shot, i) => {
    for (let j = i - 1; j >= Math.max(0, i - REACH) && !whole(shot) && !whole(shots[j]!); j--)
      if (group[i] !== group[j] && overlapOf(shots[j]!.seen.map, shot.seen.map)) {
        const [low, high] = [Math.min(group[i]!, group[j]!), Math.max(group[i]!, group[j]!)];
        group.forEach((own, k) => {
          if (own === high) group[k] = low;
        });
      }
  });
  const isAlike = group.map((own, i) => group.some((other, j) => i !== j && other === own));
  const groups: { shots: Shot[]; alike: Shot[]; last: number }[] = [];
  for (const [i, shot] of shots.entries()) {
    const before = groups.at(-1);
    const isOpen = before !== undefined && !whole(shot) && before.shots.every((other) => !whole(other));
    // What lies between two parts in time is looked at with them, and so is what shows too little to be compared.
    if (isOpen && before.last >= i) before.shots.push(shot);
    else if (isOpen && !isAlike[i] && before.alike.length > 0) before.shots.push(shot);
    else groups.push({ shots: [shot], alike: [], last: i });
    const now = groups.at(-1)!;
    if (!isAlike[i]) continue;
    now.alike.push(shot);
    now.last = Math.max(now.last, group.lastIndexOf(group[i]!));
  }
  return groups;
}

/** A scan on which all four sides were seen is a picture by itself, and so is each of several on one scan. */
const whole = ({ seen, part }: Shot): boolean =>
  part !== undefined || (seen.frame !== undefined && isWhole(seen.frame));
