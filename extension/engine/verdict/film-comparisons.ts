/** What a scan's film shows beside its picture: how it lies, which film and which frame it is, and whether it came before. */
import type { Message } from "../messages.ts";
import { missedNumbers } from "./film-numbers.ts";
import type { Observation } from "./observation.ts";
import { samePicture } from "./same-picture.ts";
import type { JudgedScan, StandRoll } from "./types.ts";
import { CODE_IS_MIRRORED, codeDiffers, looksLike, notPhotographed, NUMBER_IS_MIRRORED, sameAs } from "./wording.ts";

/** Agreement, mirrored less upright, from which a number reads the wrong way round. */
const MIRRORED = 0.12;

export function mirroredFilm(
  { frame, reading, edge, numbers }: JudgedScan,
  { mirror = false }: StandRoll,
): Observation | undefined {
  const observed = (message: Message): Observation => ({ code: "wrong-way-round", message, areas: [] });
  // A code decides; figures are only compared with what they should look like, as the recipe says that they lie.
  if (edge) return edge.mirrored === mirror ? undefined : observed(CODE_IS_MIRRORED);
  const { lettering } = reading;
  if (lettering === undefined || -lettering <= MIRRORED) return undefined;
  // Strokes of another number may look like this one in a mirror.
  const agreement = (of: (name: string) => boolean): number =>
    Math.max(0, ...numbers.map(({ name, upright, mirrored }) => (of(name) ? Math.max(upright, mirrored) : 0)));
  const own = String(Number(frame));
  if (agreement((name) => name !== own) > agreement((name) => name === own)) return undefined;
  return observed(NUMBER_IS_MIRRORED);
}

/** Scans whose code has to agree before another one counts as another film. */
const ENOUGH_CODES = 2;

export function otherFilm({ edge }: JudgedScan, { before }: StandRoll): Observation | undefined {
  if (!edge) return undefined;
  const codes = before.flatMap((one) => (one.edge ? [one.edge.film] : []));
  const [first] = codes;
  if (codes.length < ENOUGH_CODES || codes.some((code) => code !== first) || edge.film === first) return undefined;
  return {
    code: "other-film",
    message: codeDiffers(edge.film, first),
    areas: [],
  };
}

export function duplicateScan(scan: JudgedScan, { earlier }: StandRoll): Observation | undefined {
  if (earlier?.word !== "good") return undefined;
  return {
    code: "taken-twice",
    message: sameAs(earlier.name, scan.frame),
    areas: [],
  };
}

export function possibleDuplicate(scan: JudgedScan, { before }: StandRoll): Observation | undefined {
  // Two codes that were read tell two frames apart.
  const isOther = (one: JudgedScan): boolean =>
    one.edge?.frame !== undefined && scan.edge?.frame !== undefined && one.edge.frame !== scan.edge.frame;
  const other = before
    .toReversed()
    .find((one) => one.frame !== scan.frame && !isOther(one) && samePicture(scan, one) === "alike");
  if (!other) return undefined;
  return {
    code: "looks-alike",
    message: looksLike(other.frame),
    areas: [],
  };
}

export function skippedPicture(scan: JudgedScan, { before }: StandRoll): Observation | undefined {
  const missed = missedNumbers(scan, before);
  if (missed.length === 0) return undefined;
  return { code: "picture-missed", message: notPhotographed(scan.frame, missed), areas: [] };
}
