/** The verdict on one scan while the film still lies in the holder, from the survey's findings and the scans before it. */
import { findAll } from "../survey/catalogue.ts";
import { blurMap } from "../survey/sharpness/sharpness-map.ts";
import { where } from "../survey/findings/common.ts";
import type { BlankReading, Finding, SurveyedRoll } from "../survey/types.ts";
import { comparisons } from "./comparisons.ts";
import type { Observation } from "./observation.ts";
import { ruleOf, urgencyOf } from "./rules.ts";
import type { JudgedScan, Reason, StandRoll, Verdict, VerdictWord } from "./types.ts";
import { blurGrowsTowards, cannotBeRead } from "./wording.ts";

/**
 * @param scan the newest scan of a picture
 * @param roll what is known of the roll without it
 */
export function judgeScan(scan: JudgedScan, roll: StandRoll): Verdict {
  const own = findAll(surveyedRoll(roll, [scan])).filter(({ place }) => place.scan === scan.name);
  return verdictOf([...own.flatMap((finding) => observed(finding, scan) ?? []), ...comparisons(scan, roll)]);
}

/** The verdict on a scan of the bare light. */
export function judgeBlank(blank: BlankReading, roll: Pick<StandRoll, "film" | "flare">): Verdict {
  const findings = findAll({ film: roll.film, flare: roll.flare, scans: [], blank });
  return verdictOf(
    findings
      .filter(({ place }) => place.scan === blank.name)
      .map(({ code, translatable: message, place }) => ({ code, message, areas: place.area ? [place.area] : [] })),
  );
}

/** The verdict on a file that cannot be read. `message` is the reader's own, as text. */
export const unreadable = (message: string): Verdict =>
  verdictOf([{ code: "unreadable", message: cannotBeRead(message), areas: [] }]);

function surveyedRoll(roll: StandRoll, scans: readonly JudgedScan[]): SurveyedRoll {
  const { film, flare, base, picture, blank } = roll;
  return {
    film,
    flare,
    scans: scans.map(({ reading }) => reading),
    ...(base ? { base } : {}),
    ...(picture ? { picture } : {}),
    ...(blank ? { blank } : {}),
  };
}

/** Findings that the copy stand words in its own way, by comparison with the roll. */
const COMPARED = new Set(["dust", "sensor-dust", "frame-drift", "mirrored", "mixed-setup", "iso", "shutter-differs"]);

function observed(finding: Finding, scan: JudgedScan): Observation | undefined {
  const { code, translatable: message, place } = finding;
  if (COMPARED.has(code)) return undefined;
  const areas = place.area ? [place.area] : [];
  if (code !== "film-tilted") return { code, message, areas };
  // At the stand the side that is soft says which way to turn the camera.
  const worst = blurMap([scan.reading])?.worst ?? [0, 0, 1, 1];
  const side = where(worst[0] + worst[2] / 2, worst[1] + worst[3] / 2);
  return { code, message: blurGrowsTowards(finding.measured, side), areas };
}

const RANK: readonly VerdictWord[] = ["good", "look", "again"];

/** Whether one word is worse than another. */
export const isWorse = (word: VerdictWord, than: VerdictWord): boolean => RANK.indexOf(word) > RANK.indexOf(than);

function verdictOf(observations: readonly Observation[]): Verdict {
  const codes = new Set(observations.map(({ code }) => code));
  const reasons = observations
    .flatMap(({ code, message, areas, word, remedy }): Reason[] => {
      const rule = ruleOf(code);
      if (!rule || EXPLAINED_BY[code]?.some((other) => codes.has(other))) return [];
      return [{ code, word: word ?? rule.word, message, remedy: remedy ?? rule.remedy, areas }];
    })
    .toSorted((a, b) => RANK.indexOf(b.word) - RANK.indexOf(a.word) || urgencyOf(a.code) - urgencyOf(b.code));
  return { word: reasons[0]?.word ?? "good", reasons };
}

/** What a finding is only a consequence of: one fault, one reason. */
const EXPLAINED_BY: Readonly<Record<string, readonly string[]>> = {
  unsharp: ["shaken", "softer", "film-tilted", "soft-corners", "diffraction"],
  softer: ["shaken", "film-tilted", "soft-corners", "diffraction"],
  aperture: ["set-up-changed", "diffraction"],
  diffraction: ["set-up-changed"],
  "under-exposed": ["uneven-light"],
  displaced: ["cut-off"],
};
