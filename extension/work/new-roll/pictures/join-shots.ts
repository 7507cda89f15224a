/** Which scans of a roll that is begun are parts of one picture, how they lie to one another, and what is found on it. */
import { errorText } from "../../../scans/files/system-errors.ts";
import { isWhole } from "../../../engine/detect/frame.ts";
import type { JoinPlace } from "../../../engine/image/join/measure.ts";
import { overlapOf } from "../../../engine/detect/overlap.ts";
import type { Rgb } from "../../../engine/types.ts";
import type { FrameLight } from "../../frame/develop.ts";
import { eachLimited } from "../../pool/each-limited.ts";
import type { FoundPicture } from "./found-picture.ts";
import type { Pool } from "../../pool/pool.ts";
import { measureJoinJob } from "../../frame/jobs.ts";
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
    options.fits ? shots.map((shot) => [shot]) : groupsOf(shots),
    pool.workers + 1,
    async (group): Promise<ShotFrame[]> => {
      const alone = group.map(({ name, seen, part }) => ({ scans: [name], seen, ...(part ? { part } : {}) }));
      if (group.length === 1) return alone;
      try {
        return [await joined(group, options, pool)];
      } catch (error) {
        if (options.signal?.aborted) throw error;
        const names = group.map((s) => s.name).join(" and ");
        warnings.push(`${names} look like parts of one picture but make a frame each: ${errorText(error)}`);
        return alone;
      }
    },
  );
  return { frames: frames.flat(), warnings };
}

async function joined(group: readonly Shot[], { light, ratio, base, signal }: JoinOptions, pool: Pool) {
  const paths = group.map((s) => s.path);
  const { places, residual } = await pool.run(measureJoinJob, { paths, light }, { signal });
  // As the recipe will say it, so that what is found next lies where rendering will look for it.
  const tidy = places.map(([x, y, a]): JoinPlace => [rounded(x, 2), rounded(y, 2), rounded(a, 4)]);
  const join = { scans: paths.map((path, i) => ({ path, place: tidy[i] })), sensorDust: [] };
  const known = { base, flare: [0, 0, 0] as const };
  const seen = await pool.run(findFrameJob, { path: paths[0], join, light, ratio, known }, { signal });
  return { scans: group.map((s) => s.name), seen, join: { places: tidy, residual } };
}

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits)) + 0;

/** Pictures that two or more scans share, one after the other, belong to one frame. Most frames are one scan. */
function groupsOf(shots: readonly Shot[]): Shot[][] {
  const groups: Shot[][] = [];
  for (const shot of shots) {
    const group = groups.at(-1);
    const last = group?.at(-1);
    if (group && last && !whole(shot) && !whole(last) && overlapOf(last.seen.map, shot.seen.map)) group.push(shot);
    else groups.push([shot]);
  }
  return groups;
}

/** A scan on which all four sides were seen is a picture by itself, and so is each of several on one scan. */
const whole = ({ seen, part }: Shot): boolean =>
  part !== undefined || (seen.frame !== undefined && isWhole(seen.frame));
