/** Places a survey's findings in a recipe's text that may have changed since. */
import { formatMessage } from "../../engine/messages.ts";
import type { Finding, SurveyedRoll } from "../../engine/survey/types.ts";
import { comparison } from "../../engine/survey/format-measurement.ts";
import type { Spot } from "../../engine/image/spot.ts";
import type { RecipeDocument } from "../problems/document.ts";
import type { TextRange } from "../path.ts";
import { blanksOf } from "../resolve/channels.ts";
import type { ResolvedFrame, ResolvedRoll } from "../resolve/resolve.ts";
import { freshDust, freshSpots, type Proposals } from "../survey/spots.ts";
import { scanPath } from "../resolve/scan-path.ts";
import { bare } from "./scans.ts";
import { type Range, rangeIn, type Say } from "./types.ts";

/** What a survey found, and what it looked at: enough to place its findings in a text that has changed since. */
export interface Surveyed extends Proposals {
  readonly roll: SurveyedRoll;
  readonly findings: readonly Finding[];
  /** Scans that could not be surveyed, and why. */
  readonly failures: readonly { readonly frame?: string; readonly message: string }[];
  /** The path of every scan and of the blank, by name. */
  readonly paths: Readonly<Record<string, string>>;
  /** Frames that the recipe mirrored. */
  readonly mirrored: readonly string[];
}

/** A recipe's text, and what follows from it. */
export interface ReadRoll {
  readonly document: RecipeDocument;
  readonly resolved: ResolvedRoll;
}

/** A finding with its place in the text. */
export interface PlacedFinding {
  readonly finding: Finding;
  /** The frame that it is about; absent for what is about the roll or its light. */
  readonly frame?: string;
  readonly range: Range;
}

/** A scan that could not be surveyed, at its place in the text. */
export interface PlacedFailure {
  readonly frame?: string;
  readonly message: string;
  readonly range: Range;
}

/**
 * Where a survey's findings stand in a recipe's text as it is now, told by the frames' ids and the scans' names, never by
 * old lines. Left out: findings about frames that are gone or skipped, about scans that the recipe no longer names or
 * whose files have changed, and those that the recipe fixes by now. With another blank nothing that was measured holds.
 * @param changed whether the file at a path is no longer the one that was surveyed
 */
export function placeFindings(
  roll: ReadRoll,
  surveyed: Surveyed,
  changed: (path: string) => boolean = () => false,
): PlacedFinding[] {
  if (!isSameLight(roll.resolved, surveyed, changed)) return [];
  const frames = framesOf(roll.resolved);
  return surveyed.findings.flatMap((finding): PlacedFinding[] => {
    const { frame: id, scan } = finding.place;
    const frame = id === undefined ? undefined : frames.get(id);
    if (id !== undefined && (!frame || !isSameScan(frame, scan, surveyed, changed))) return [];
    if (isFixed(finding, frame, roll.resolved, surveyed)) return [];
    const range = frame ? rangeOfFrame(roll.document, frame, scan) : rangeOfRoll(roll, scan);
    if (!range) return [];
    return [{ finding, ...(id === undefined ? {} : { frame: id }), range: rangeIn(roll.document, range) }];
  });
}

/** The same for scans that could not be surveyed. Files that are missing are left to the problem that says so. */
export function placeFailures(
  roll: ReadRoll & { readonly missing?: ReadonlySet<string> },
  { failures, paths }: Surveyed,
  changed: (path: string) => boolean = () => false,
): PlacedFailure[] {
  const frames = framesOf(roll.resolved);
  const blanks = blanksOf(roll.resolved.shared.light);
  const isGone = (path: string): boolean => changed(path) || (roll.missing?.has(path) ?? false);
  return failures.flatMap(({ frame: id, message }): PlacedFailure[] => {
    const frame = id === undefined ? undefined : frames.get(id);
    const scans = id === undefined ? blanks : (frame?.scans ?? []);
    if (scans.length === 0 || scans.some(({ name, path }) => paths[name] !== path || isGone(path))) return [];
    // Of several scans it is not known which one it was.
    const scan = scans.length === 1 ? scans[0]!.name : undefined;
    const range = frame ? rangeOfFrame(roll.document, frame, scan) : rangeOfRoll(roll, scan);
    return range ? [{ ...(id === undefined ? {} : { frame: id }), message, range: rangeIn(roll.document, range) }] : [];
  });
}

/**
 * Spots that a survey proposes for a frame and that the recipe does not heal yet: dust on its film, sensor dust for the roll's
 * light. Undefined where the frame was not surveyed, or where its scan is no longer the one that was.
 */
export function proposedSpots(
  { resolved }: ReadRoll,
  surveyed: Surveyed,
  id: string,
  changed: (path: string) => boolean = () => false,
): { readonly film: readonly Spot[]; readonly light: readonly Spot[] } | undefined {
  const frame = framesOf(resolved).get(id);
  const reading = surveyed.roll.scans.find((scan) => scan.frame === id);
  if (!frame || !reading || !isSameLight(resolved, surveyed, changed)) return undefined;
  if (!isSameScan(frame, reading.name, surveyed, changed)) return undefined;
  return { film: freshDust(frame, surveyed.dust), light: freshSpots(surveyed.sensorDust, frame.light.spots) };
}

/** How many findings each frame has; frames without any are left out. */
export function countByFrame(findings: readonly PlacedFinding[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const { frame } of findings) if (frame !== undefined) counts.set(frame, (counts.get(frame) ?? 0) + 1);
  return counts;
}

/** How many findings there are: the same words and the same count wherever findings are counted. */
export const findingCount = (count: number, t: Say): string =>
  count === 0 ? t("no findings") : count === 1 ? t("1 finding") : t("{0} findings", count);

/** A finding in words: what was found, the number against its limit, and what to do. */
export function findingMessage(finding: Finding, t: Say): string {
  const compared = comparison(finding, t);
  const message = formatMessage(finding.translatable, t);
  return t("{0} {1}. {2}", message, compared[0]!.toUpperCase() + compared.slice(1), t(finding.remedy));
}

const framesOf = ({ frames }: ResolvedRoll): Map<string, ResolvedFrame> =>
  new Map(frames.filter(({ skip }) => !skip).map((frame) => [frame.id, frame]));

function isSameLight({ shared }: ResolvedRoll, { roll, paths }: Surveyed, changed: (path: string) => boolean): boolean {
  if (!roll.blank) return true;
  const blanks = blanksOf(shared.light);
  const isSame = blanks.every(({ name, path }) => path === paths[name] && !changed(path));
  return blanks[0]?.name === roll.blank.name && isSame;
}

function isSameScan(
  { scans }: ResolvedFrame,
  name: string | undefined,
  { paths }: Surveyed,
  changed: (path: string) => boolean,
): boolean {
  const scan = scans.find((one) => one.name === name);
  if (name === undefined) return true;
  return scan !== undefined && paths[name] === scan.path && !changed(scan.path);
}

/** Whether the recipe has been changed as the finding asks for; what can only be fixed at the copy stand stays. */
function isFixed(
  { code }: Finding,
  frame: ResolvedFrame | undefined,
  { shared }: ResolvedRoll,
  { dust, sensorDust, mirrored, roll }: Surveyed,
): boolean {
  if (code === "dust")
    return (
      frame !== undefined && freshDust(frame, dust).length === 0 && (frame.scans.length === 1 || frame.merged === true)
    );
  if (code === "sensor-dust") return freshSpots(sensorDust, shared.light.spots).length === 0;
  if (code === "mirrored") return frame !== undefined && frame.mirror !== mirrored.includes(frame.id);
  // The reading holds for the flare that was taken off then.
  if (code === "flare") return shared.light.flare.some((part, c) => part !== roll.flare[c]);
  return false;
}

/** The scan's name in the frame, or the frame's own. */
function rangeOfFrame(document: RecipeDocument, { id, scans }: ResolvedFrame, scan?: string): TextRange | undefined {
  const at = scans.findIndex(({ name }) => name === scan);
  const found = at < 0 ? undefined : document.rangeOf(scanPath(document, id, at), "value");
  const range = found ?? document.rangeOf(["frames", id], "key");
  return range && bare(document.text, range);
}

/** The blank for what is about it, else the folder of the scans, else the first line. */
function rangeOfRoll({ document, resolved }: ReadRoll, scan?: string): TextRange | undefined {
  const isBlank = scan !== undefined && resolved.shared.light.blank?.name === scan;
  const at = resolved.shared.light.blanks ? ["light", "blank", "green"] : ["light", "blank"];
  const range = (isBlank ? document.rangeOf(at, "value") : undefined) ?? document.rangeOf(["scans"], "value");
  if (range) return bare(document.text, range);
  const end = document.text.indexOf("\n");
  return [0, end < 0 ? document.text.length : end];
}
