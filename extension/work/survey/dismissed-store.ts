/**
 * Spots that somebody dismissed, on disk. A survey can be made again, a decision cannot: so they are not in the
 * surveys' cache, which drops what was not used for long and what another version measured.
 */
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import type { Spot } from "../../engine/image/spot.ts";
import { NONE_DISMISSED, type Dismissed } from "../../recipe/survey/dismissed.ts";
import { writeAtomic } from "../../scans/files/atomic.ts";
import { hashOf } from "../files/content-hash.ts";

export interface DismissedStore {
  /** @param roll the recipe's file */
  read(roll: string): Promise<Dismissed>;
  /**
   * Changes come one after the other, each on what is on disk by then: another window may have written, too.
   * @returns what is kept now
   * @throws ScanError "write" where the disk takes nothing; what was kept stays as it was
   */
  change(roll: string, to: (now: Dismissed) => Dismissed): Promise<Dismissed>;
}

/** @param folder for these files alone; it is made when there is something to keep */
export function dismissedStore(folder: string): DismissedStore {
  const pathOf = (roll: string): string => join(folder, `${hashOf(roll).slice(0, 40)}.json`);
  let last: Promise<unknown> = Promise.resolve();
  const read = async (roll: string): Promise<Dismissed> => {
    try {
      const kept: unknown = JSON.parse(await readFile(pathOf(roll), "utf8"));
      return isKept(kept) && kept.roll === roll ? { film: kept.film, light: kept.light } : NONE_DISMISSED;
    } catch {
      return NONE_DISMISSED; // nothing was dismissed yet, or the file is damaged: the spots are proposed
    }
  };
  return {
    read,
    change(roll, to) {
      const made = last.then(async () => {
        const before = await read(roll);
        const after = to(before);
        if (after !== before) await writeAtomic(pathOf(roll), `${JSON.stringify({ roll, ...after }, null, 1)}\n`);
        return after;
      });
      last = made.catch(() => undefined);
      return made;
    },
  };
}

function isKept(value: unknown): value is Dismissed & { roll: string } {
  if (typeof value !== "object" || value === null) return false;
  const { film, light } = value as { film?: unknown; light?: unknown };
  return areSpots(light) && typeof film === "object" && film !== null && Object.values(film).every(areSpots);
}

const areSpots = (value: unknown): value is Spot[] => Array.isArray(value) && value.every(isSpot);

const areNumbers = (value: unknown, count: number): boolean =>
  Array.isArray(value) && value.length === count && value.every((number) => Number.isFinite(number));

function isSpot(value: unknown): value is Spot {
  if (Array.isArray(value)) return areNumbers(value, 3);
  if (typeof value !== "object" || value === null) return false;
  const { line, width } = value as { line?: unknown; width?: unknown };
  return Number.isFinite(width) && Array.isArray(line) && line.length > 1 && line.every((at) => areNumbers(at, 2));
}
