/**
 * A session at the copy stand, as plain data: the scans that have arrived, and what follows from the next one. Pure: the
 * recipe, the disk and the workers are elsewhere (copy-stand.ts).
 */
import { commonPlace } from "../../engine/detect/roll-place.ts";
import type { FrameLight } from "../frame/develop.ts";
import { frameOfHalf, halfOf, numberRead, numbersAround } from "../../engine/verdict/film-numbers.ts";
import { isWorse, judgeBlank, judgeScan, unreadable } from "../../engine/verdict/judge.ts";
import { samePicture } from "../../engine/verdict/same-picture.ts";
import type { JudgedScan, Verdict } from "../../engine/verdict/types.ts";
import type { BlankReading, SensorNoise } from "../../engine/survey/types.ts";
import { median } from "../../engine/math/statistics.ts";
import type { Rgb } from "../../engine/types.ts";
import type { FirstPassScan } from "../../engine/auto/roll/first-pass.ts";
import { rolesOf } from "../../engine/auto/roll/scan-roles.ts";
import type { MeasuredArrival, MeasuredPicture, KnownRoll } from "./measure/measure-arrival.ts";
import { edgeOf } from "./measure/film-edge.ts";
import type { RollView } from "./recipe/roll-view.ts";
import { spread } from "./measure/start-values.ts";

/** A scan that has been judged. */
export interface SessionScan {
  readonly name: string;
  /** What its file was known by when it was measured. */
  readonly stamp: string;
  readonly kind: MeasuredArrival["kind"] | "unreadable";
  readonly verdict: Verdict;
  /** Of a picture: its frame; absent for test shots, and for scans that were removed from the recipe. */
  readonly frame?: string;
  readonly firstPass?: FirstPassScan;
  readonly light?: { readonly light: FrameLight; readonly noise: SensorNoise; readonly reading: BlankReading };
  readonly base?: MeasuredArrival["base"];
  readonly picture?: MeasuredPicture;
  /** What the code on the film's edge says of a picture. */
  readonly edge?: JudgedScan["edge"];
}

/** Scans in the order in which they arrived. */
export type Session = readonly SessionScan[];

/** What becomes of a scan in the roll. */
export type Role =
  | { readonly role: "blank" | "leader" | "none" }
  /** `missed` pictures may come later and take the names that are left free. */
  | { readonly role: "frame"; readonly frame: string }
  /** The same picture as `earlier`, which it replaces, or which is better and stays. */
  | { readonly role: "retake"; readonly frame: string; readonly earlier: string; readonly kept: "new" | "earlier" };

export interface Judged {
  readonly scan: SessionScan;
  readonly role: Role;
}

/** The name of the next frame: a whole number after the last. */
export function nextFrame({ frames, first = 1 }: RollView): string {
  const halves = frames.flatMap(({ id }) => halfOf(id) ?? []);
  const width = Math.max(2, ...frames.map(({ id }) => id.replace(/[A-Z]$/, "").length));
  return frameOfHalf(halves.length > 0 ? Math.max(...halves) + 2 : 2 * first, width);
}

/** The newest scan of each name: a file that was overwritten has been judged again. */
export const current = (session: Session): SessionScan[] => [
  ...new Map(session.map((scan) => [scan.name, scan])).values(),
];

/** Pictures of the session that the roll's frames use, in the order in which they were taken. */
export function usedPictures(session: Session, view: RollView): SessionScan[] {
  const used = new Map(view.frames.flatMap(({ id, scans }) => scans.map((name) => [name, id] as const)));
  return current(session).flatMap((scan) => {
    const frame = used.get(scan.name);
    return scan.picture && frame !== undefined ? [{ ...scan, frame }] : [];
  });
}

/** Which scan is the blank, and which are leaders, as all that has arrived says. */
export function currentRoles(session: Session, view: RollView) {
  const firstPasses = current(session).flatMap((scan) => scan.firstPass ?? []);
  const named = view.blank ?? view.namedBlank;
  return rolesOf(firstPasses, firstPasses.some(({ name }) => name === named) ? named : undefined);
}

/** What the workers have to know to measure the next scan. */
export function knownRollOf(session: Session, view: RollView): KnownRoll {
  const pictures = usedPictures(session, view);
  const leader = current(session).findLast(({ kind, base }) => kind === "leader" && base);
  const bases = leader?.base ? [leader.base] : pictures.flatMap(({ picture }) => picture?.base ?? []);
  const flares = pictures.map(({ picture }) => picture?.flare).filter((flare) => flare !== undefined);
  const base =
    view.base ?? (bases.length > 0 ? perChannel((c) => median(bases.map(({ density }) => density[c]))) : undefined);
  // As little as any scan shows: what is taken off too much spoils dense tones.
  const flare =
    view.flare ?? (flares.length >= 2 ? perChannel((c) => Math.min(...flares.map((f) => f[c]))) : undefined);
  const place = commonPlace(pictures.map(({ picture }) => picture?.found));
  const lights = current(session).flatMap(({ name, light }) =>
    light ? [[name, { light: light.light, noise: light.noise }] as const] : [],
  );
  return {
    stated: view.stated,
    ...(view.ratio === undefined ? {} : { ratio: view.ratio }),
    firstPasses: current(session).flatMap((scan) => scan.firstPass ?? []),
    ...(view.blank === undefined ? {} : { blank: view.blank }),
    lights: Object.fromEntries(lights),
    ...(base ? { base } : {}),
    ...(flare ? { flare } : {}),
    ...(place ? { place } : {}),
    samples: spread(
      pictures.flatMap(({ name, picture }) => (picture ? [{ name, sample: picture.sample }] : [])),
      MAX_SAMPLES,
    ),
    turn: view.turn,
    mirror: view.mirror,
  };
}

/** Pictures that the start of the next is weighed by: about 20 ms each; more say little new. */
const MAX_SAMPLES = 11;

const perChannel = (of: (c: number) => number): Rgb => [of(0), of(1), of(2)];

/** The frame that the next scan is expected to be, and the numbers that its edge may show instead. */
export function expectation(view: RollView): { frame: string; numbers: readonly string[] } {
  const frame = nextFrame(view);
  return { frame, numbers: numbersAround(frame) };
}

export interface ArrivedScan {
  readonly name: string;
  readonly stamp: string;
  readonly measured: MeasuredArrival;
  /** A file of lower quality of the same exposure, whose place it takes. */
  readonly replaces?: string;
  /** A test shot to set up by: it is judged and makes no frame. */
  readonly test?: boolean;
}

/** The verdict on a scan, and what becomes of it. */
export function judgeArrival(session: Session, view: RollView, arrived: ArrivedScan): Judged {
  const { name, stamp, measured, test = false } = arrived;
  const { kind, firstPass, light, base, picture } = measured;
  const scan = {
    name,
    stamp,
    kind,
    firstPass: { name, ...firstPass },
    ...(light ? { light } : {}),
    ...(base ? { base } : {}),
  };
  if (kind === "blank" && light) {
    const judged = judgedAsBlank({ ...scan, verdict: GOOD }, view);
    return test ? { ...judged, role: { role: "none" } } : judged;
  }
  if (!picture) return { scan: { ...scan, verdict: GOOD }, role: { role: test ? "none" : "leader" } };
  const others = usedPictures(session, view).filter((one) => one.name !== name);
  const place = frameOf(arrived, picture, others, session, view);
  const { own: edge } = edgeOf(others, picture);
  const judged = judgedScan(name, place.frame, picture, edge);
  const inFrame = (one: SessionScan): boolean => one.frame === place.frame;
  const known = (one: SessionScan): JudgedScan[] =>
    one.picture ? [judgedScan(one.name, one.frame ?? "", one.picture, one.edge)] : [];
  const last = session.findLast((one) => one.picture && one.name !== name);
  const roles = currentRoles(session, view);
  const blank = current(session).find((one) => one.name === roles.blank?.name)?.light?.reading;
  const roll = knownRollOf(session, view);
  const rollBase = roll.base ?? picture.base?.density;
  const verdict = judgeScan(judged, {
    film: picture.film.film,
    flare: roll.flare ?? picture.flare ?? [0, 0, 0],
    ...(rollBase ? { base: rollBase } : {}),
    ...(view.picture ? { picture: view.picture } : {}),
    mirror: view.mirror,
    ...(blank ? { blank } : {}),
    before: others.filter((one) => !inFrame(one)).flatMap(known),
    retakes: session.filter((one) => one.name !== name && one.frame === place.frame).flatMap(known),
    ...(last?.picture ? { last: known(last)[0] } : {}),
    ...(place.earlier && !test ? { earlier: { name: place.earlier.name, word: place.earlier.verdict.word } } : {}),
  });
  const done = { ...scan, picture, ...(edge ? { edge } : {}), verdict };
  if (test) return { scan: { ...done, frame: place.frame }, role: { role: "none" } };
  if (!place.earlier) return { scan: { ...done, frame: place.frame }, role: { role: "frame", frame: place.frame } };
  const kept = isWorse(verdict.word, place.earlier.verdict.word) ? "earlier" : "new";
  return {
    scan: { ...done, frame: place.frame },
    role: { role: "retake", frame: place.frame, earlier: place.earlier.name, kept },
  };
}

/** Frames whose name was read on the film's edge, from which on a number may name a frame. */
const MIN_NUMBERS_READ = 2;

const GOOD: Verdict = { word: "good", reasons: [] };

/** The verdict on a scan as the roll's blank. */
export function judgedAsBlank(scan: SessionScan, view: RollView): Judged {
  const roll = { film: view.stated.look.film, flare: view.flare ?? ([0, 0, 0] as const) };
  const verdict = scan.light ? judgeBlank(scan.light.reading, roll) : GOOD;
  return { scan: { ...scan, kind: "blank", verdict }, role: { role: "blank" } };
}

/** The frame that a picture belongs to: its own, that of the same picture, the one on the film's edge, or the next. */
function frameOf(
  { name, replaces }: ArrivedScan,
  picture: MeasuredPicture,
  others: readonly SessionScan[],
  session: Session,
  view: RollView,
): { frame: string; earlier?: SessionScan } {
  const own = view.frames.find(({ scans, unused }) => scans.includes(name) || unused.includes(name));
  if (own) return { frame: own.id };
  const replaced = view.frames.find(({ scans }) => replaces !== undefined && scans.includes(replaces));
  if (replaced) return { frame: replaced.id };
  const sameScan = others.toReversed().find((one) => one.picture && samePicture(picture, one.picture) === "same");
  if (sameScan?.frame !== undefined) return { frame: sameScan.frame, earlier: sameScan };
  // A retake may look like the one that was taken before, which the frame does not use.
  const spare = session.findLast(
    (one) =>
      one.name !== name && one.picture && one.frame !== undefined && samePicture(picture, one.picture) === "same",
  );
  const used = others.find((one) => one.frame === spare?.frame);
  if (used?.frame !== undefined) return { frame: used.frame, earlier: used };
  const coded = edgeOf(others, picture).frame;
  const numbered = others.find((one) => one.frame === coded && one.edge?.frame === coded);
  // The same number on the film's edge, and alike: the same picture, whose grain cannot be compared.
  if (numbered?.picture && coded !== undefined && samePicture(picture, numbered.picture) === "alike")
    return { frame: coded, earlier: numbered };
  const free = (id: string): boolean => view.frames.every((frame) => frame.id !== id);
  const next = nextFrame(view);
  const isFirst = view.frames.length === 0;
  if (coded !== undefined && free(coded) && !(isFirst && view.first !== undefined)) return { frame: coded };
  const namedByEdge = others.filter(
    (one) => one.picture && numberRead(one.picture.numbers) === String(Number(one.frame)),
  );
  // Numbers on the edge count where they have named the roll's frames before: strokes can look like a figure.
  const read = namedByEdge.length >= MIN_NUMBERS_READ ? numberRead(picture.numbers) : undefined;
  const padded = read?.padStart(next.length, "0");
  return { frame: padded !== undefined && view.frames.length > 0 && free(padded) ? padded : next };
}

function judgedScan(name: string, frame: string, picture: MeasuredPicture, edge: JudgedScan["edge"]): JudgedScan {
  const { reading, found, map, grain, numbers } = picture;
  const { lettering, ...rest } = reading;
  // Lettering was measured for the number that was expected.
  const read = frame === reading.frame && lettering !== undefined ? { lettering } : {};
  return {
    name,
    frame,
    reading: { ...rest, ...read, name, frame },
    map,
    numbers,
    ...(found ? { found } : {}),
    ...(grain ? { grain } : {}),
    ...(edge ? { edge } : {}),
  };
}

/** A file that cannot be read: it becomes nothing. */
export function judgeUnreadable(name: string, stamp: string, message: string): Judged {
  return { scan: { name, stamp, kind: "unreadable", verdict: unreadable(message) }, role: { role: "none" } };
}

/** How often each word was said of what the roll uses now, and what is still missing. */
export interface Tally {
  readonly good: number;
  readonly look: number;
  readonly again: number;
  readonly frames: number;
  readonly blank: boolean;
  readonly leader: boolean;
  /** Names of frames whose scan is to be taken again. */
  readonly open: readonly string[];
}

export function tally(session: Session, view: RollView): Tally {
  const pictures = usedPictures(session, view);
  const count = (word: Verdict["word"]): number => pictures.filter(({ verdict }) => verdict.word === word).length;
  const roles = currentRoles(session, view);
  return {
    good: count("good"),
    look: count("look"),
    again: count("again"),
    frames: view.frames.length,
    blank: roles.blank !== undefined || view.blank !== undefined,
    leader: roles.leaders.length > 0,
    open: pictures.flatMap(({ verdict, frame }) => (verdict.word === "again" && frame !== undefined ? [frame] : [])),
  };
}
