/** What only a comparison with the roll's other scans shows: each check says what it saw, or nothing. */
import { sensorDustOf, dustOf } from "../survey/dust.ts";
import { percent } from "../survey/findings/common.ts";
import { median } from "../math/statistics.ts";
import { type Box, type ScanReading, SIDES, type SurveyedRoll } from "../survey/types.ts";
import type { Side } from "../types.ts";
import { addedBlur, bestFocus, FOCUS_PLACES, type FocusPlace, focusOf, leastFocusOf } from "./focus.ts";
import { duplicateScan, mirroredFilm, otherFilm, possibleDuplicate, skippedPicture } from "./film-comparisons.ts";
import type { Observation } from "./observation.ts";
import type { JudgedScan, StandRoll } from "./types.ts";
import {
  cutOffAt,
  displacedBy,
  dustOnFilm,
  dustOnSensor,
  outOfFocus,
  type SetUpPart,
  setUpHasChanged,
} from "./wording.ts";

type Comparison = (scan: JudgedScan, roll: StandRoll) => Observation | undefined;

const COMPARISONS: readonly Comparison[] = [
  croppedBySensor,
  displaced,
  softer,
  dustier,
  sensorDust,
  mirroredFilm,
  otherFilm,
  setUpChanged,
  duplicateScan,
  possibleDuplicate,
  skippedPicture,
];

export function comparisons(scan: JudgedScan, roll: StandRoll): Observation[] {
  return COMPARISONS.flatMap((compare) => compare(scan, roll) ?? []);
}

/** The picture's own rectangle, where it was found by what can be seen of it. */
const areaOf = ({ found, reading }: JudgedScan) => found?.area ?? reading.area;

/** Sides of the scan nearer than this to the picture cut it, in parts of the scan. */
const MARGIN = 0.002;

/** A side of the picture lies outside the scan, as the roll's size of a picture or the edge that was found says. */
function croppedBySensor(scan: JudgedScan, { before }: StandRoll): Observation | undefined {
  if (!scan.found) return undefined;
  const whole = before.filter(({ found }) => found && SIDES.every((side) => isVisible(found.sides[side])));
  const { left, top, width, height } = areaOf(scan);
  const wide = whole.length > 0 ? median(whole.map((s) => areaOf(s).width)) : width;
  const high = whole.length > 0 ? median(whole.map((s) => areaOf(s).height)) : height;
  const { sides } = scan.found;
  const out: Record<Side, boolean> = {
    left: !isVisible(sides.left) && (isVisible(sides.right) ? left + width - wide : left) < MARGIN,
    right: !isVisible(sides.right) && (isVisible(sides.left) ? left + wide : left + width) > 1 - MARGIN,
    top: !isVisible(sides.top) && (isVisible(sides.bottom) ? top + height - high : top) < MARGIN,
    bottom: !isVisible(sides.bottom) && (isVisible(sides.top) ? top + high : top + height) > 1 - MARGIN,
  };
  const cut = SIDES.filter((side) => sides[side] === "outside" || out[side]);
  if (cut.length === 0 || cut.length === SIDES.length) return undefined;
  return {
    code: "cut-off",
    message: cutOffAt(cut),
    areas: cut.map((side) => EDGES[side]),
  };
}

const isVisible = (evidence: string): boolean => evidence === "edge" || evidence === "holder";
const EDGES: Readonly<Record<Side, Box>> = {
  left: [0, 0, 0.03, 1],
  right: [0.97, 0, 0.03, 1],
  top: [0, 0, 1, 0.03],
  bottom: [0, 0.97, 1, 0.03],
};

/** Part of the scan's width that a picture may lie off the roll's usual place before it is worth a word. */
const MAX_OFFSET = 0.02;

function displaced(scan: JudgedScan, { before }: StandRoll): Observation | undefined {
  const placed = before.filter(({ found }) => found);
  if (!scan.found || placed.length < 2) return undefined;
  const own = areaOf(scan);
  const middle = (of: (s: JudgedScan) => number): number => median(placed.map(of));
  const x = own.left + own.width / 2 - middle((s) => areaOf(s).left + areaOf(s).width / 2);
  const { width, height } = scan.reading.info;
  const y = ((own.top + own.height / 2 - middle((s) => areaOf(s).top + areaOf(s).height / 2)) * height) / width;
  const away = Math.hypot(x, y);
  if (away <= MAX_OFFSET) return undefined;
  const side = Math.abs(x) > Math.abs(y) ? (x < 0 ? "left" : "right") : y < 0 ? "top" : "bottom";
  return {
    code: "displaced",
    message: displacedBy(percent(away), side),
    areas: [[own.left, own.top, own.width, own.height]],
  };
}

/** Blur added against the sharpest scan so far, in pixels of one sigma: more than this is worth a word, and a retake. */
const [MIN_ADDED_BLUR, RETAKE_ADDED_BLUR] = [0.75, 1];

/** Readings of scans of the same size: blur and grain are counted in pixels. */
function ofSameSize(scan: JudgedScan, before: readonly JudgedScan[]): ScanReading[] {
  const { width, height } = scan.reading.info;
  return before.flatMap(({ reading }) =>
    reading.info.width === width && reading.info.height === height ? [reading] : [],
  );
}

function softer(scan: JudgedScan, { before, retakes }: StandRoll): Observation | undefined {
  const others = ofSameSize(scan, [...before, ...retakes]);
  const now = { ...leastFocusOf(scan.reading, others), ...focusOf(scan.reading) };
  const best = bestFocus(others.map(focusOf));
  // Where no scan has shown a place yet, it is as sharp as the softest of those that have been shown.
  const softest = Object.values(best).toSorted((a, b) => b.sigma - a.sigma)[0];
  const added = FOCUS_PLACES.flatMap((place) => {
    const own = now[place];
    const other = best[place] ?? (own?.atLeast ? softest : undefined);
    return own && other ? [{ place, own, other, added: addedBlur(own, other) }] : [];
  }).toSorted((a, b) => b.added - a.added);
  const [worst] = added;
  if (!worst || worst.added <= MIN_ADDED_BLUR) return undefined;
  const places = added.filter((one) => one.added > MIN_ADDED_BLUR).map((one) => one.place);
  const everywhere = places.length >= Math.max(3, added.length - 1);
  return {
    code: "softer",
    ...(worst.added > RETAKE_ADDED_BLUR ? {} : { word: "look" as const }),
    message: outOfFocus(everywhere ? "everywhere" : worst.place, worst.own.sigma, worst.other.sigma, worst.own.atLeast),
    areas: places.map((place) => FOCUS_BOX[place](scan)),
  };
}

const part =
  (x: number, y: number, w: number, h: number) =>
  ({ reading: { area } }: JudgedScan): Box => [
    area.left + x * area.width,
    area.top + y * area.height,
    w * area.width,
    h * area.height,
  ];
const FOCUS_BOX: Readonly<Record<FocusPlace, (scan: JudgedScan) => Box>> = {
  middle: part(0.2, 0.2, 0.6, 0.6),
  topLeft: part(0, 0, 0.4, 0.4),
  topRight: part(0.6, 0, 0.4, 0.4),
  bottomLeft: part(0, 0.6, 0.4, 0.4),
  bottomRight: part(0.6, 0.6, 0.4, 0.4),
};

/** Specks on a scan that are always worth a word, and how many times the roll's usual count is. */
const [MANY_SPECKS, TIMES_USUAL, MIN_SPECKS] = [18, 3, 8];

function dustier(scan: JudgedScan, roll: StandRoll): Observation | undefined {
  const all = surveyOf(roll, [...roll.before, scan]);
  const specks = dustOf(all, scan.reading);
  const usual = roll.before.length < 2 ? 0 : median(roll.before.map((s) => dustOf(all, s.reading).length));
  const limit =
    roll.before.length < 2 ? MANY_SPECKS : Math.min(MANY_SPECKS + usual, Math.max(MIN_SPECKS, TIMES_USUAL * usual));
  if (specks.length <= limit) return undefined;
  const { info } = scan.reading;
  return {
    code: "dust",
    message: dustOnFilm(specks.length, roll.before.length < 2 ? undefined : usual),
    areas: specks.map(({ x, y, radius }) => {
      const tall = info.width / info.height;
      return [x - radius, (y - radius) * tall, 2 * radius, 2 * radius * tall];
    }),
  };
}

function surveyOf({ film, flare, blank }: StandRoll, scans: readonly JudgedScan[]): SurveyedRoll {
  return { film, flare, scans: scans.map(({ reading }) => reading), ...(blank ? { blank } : {}) };
}

/** Dirt that the blank does not show: it came since, and lies at one place in several scans. */
function sensorDust(scan: JudgedScan, roll: StandRoll): Observation | undefined {
  const count = (scans: readonly JudgedScan[]): number => sensorDustOf(surveyOf(roll, scans)).length;
  const [known, now] = [count(roll.before), count([...roll.before, scan])];
  if (now <= known) return undefined;
  const fresh = sensorDustOf(surveyOf(roll, [...roll.before, scan])).slice(known);
  const tall = scan.reading.info.width / scan.reading.info.height;
  return {
    code: "sensor-dust",
    message: dustOnSensor(fresh.length),
    areas: fresh.map(({ x, y, radius }) => [x - radius, (y - radius) * tall, 2 * radius, 2 * radius * tall]),
  };
}

function setUpChanged(scan: JudgedScan, { last, blank }: StandRoll): Observation | undefined {
  const before = last?.reading.info ?? blank?.info;
  if (!before) return undefined;
  const { info } = scan.reading;
  const changes: { part: SetUpPart; was?: string | number; is?: string | number }[] = [
    { part: "camera", was: before.model, is: info.model },
    { part: "lens", was: before.lens, is: info.lens },
    { part: "size", was: `${before.width} × ${before.height}`, is: `${info.width} × ${info.height}` },
    { part: "stop", was: stop(before.aperture), is: stop(info.aperture) },
    { part: "iso", was: before.iso, is: info.iso },
  ];
  const first = changes.find(({ was, is }) => was !== undefined && is !== undefined && was !== is);
  if (!first) return undefined;
  return {
    code: "set-up-changed",
    message: setUpHasChanged(first.part, String(first.is), String(first.was)),
    areas: [],
  };
}

const stop = (aperture: number | undefined): string | undefined =>
  aperture === undefined ? undefined : `f/${Number(aperture.toFixed(1))}`;
