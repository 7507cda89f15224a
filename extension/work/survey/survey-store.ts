/** Surveys on disk, so that a roll that is opened again shows its findings without being measured again. */
import { deserialize, serialize } from "node:v8";
import type { ByteCache } from "../../scans/files/cache.ts";
import { sealed, unsealed } from "../../scans/files/checksum.ts";
import { hashOf } from "../files/content-hash.ts";
import type { SurveyReport } from "./survey-roll.ts";

/** A survey with what tells whether the files that it looked at are still the same. */
export interface KeptSurvey {
  readonly report: SurveyReport;
  /** What each file was known by when it was measured, by path. */
  readonly stamps: Readonly<Record<string, string>>;
}

export interface SurveyStore {
  read(roll: string): Promise<KeptSurvey | undefined>;
  write(roll: string, survey: KeptSurvey): Promise<void>;
}

/** Raise it when a report's shape or the way of measuring changes: old surveys are then not found any more. */
const FORM = 7;

/** @param version the program's, since another may measure otherwise */
export function surveyStore(cache: ByteCache, version: string): SurveyStore {
  const keyOf = (roll: string): string => `survey-${hashOf([roll, version, FORM]).slice(0, 40)}`;
  return {
    async read(roll) {
      const bytes = await cache.read(keyOf(roll));
      try {
        const whole = bytes && unsealed(bytes);
        const found: unknown = whole && deserialize(whole);
        return isKept(found) && found.roll === roll ? found.survey : undefined;
      } catch {
        return undefined; // damaged: it is measured again when somebody asks
      }
    },
    write: (roll, survey) => cache.write(keyOf(roll), sealed(serialize({ roll, survey }))),
  };
}

function isKept(value: unknown): value is { roll: string; survey: KeptSurvey } {
  if (typeof value !== "object" || value === null) return false;
  const { survey } = value as { survey?: { report?: { findings?: unknown }; stamps?: unknown } };
  return Array.isArray(survey?.report?.findings) && typeof survey.stamps === "object";
}
