/**
 * The survey judged by the witness, which knows what it did: each fault alone, at a light and a strong level, is found
 * with its code and its place, and nothing is found on clean rolls of four subjects by two cameras.
 */
import { describe, expect, it } from "vitest";
import { findAll } from "../../../../extension/engine/survey/catalogue.ts";
import type { Box, Finding, SurveyedRoll } from "../../../../extension/engine/survey/types.ts";
import { english, formatMessage } from "../../../../extension/engine/messages.ts";
import { marksOf } from "../../../browser/letters.ts";
import { CAMERA_A, CAMERA_B, PANEL, WARM_PANEL } from "../../../witness/camera/cameras.ts";
import { FAULTS, type FaultName } from "../../../witness/faults/faults.ts";
import type { ScanRequest } from "../../../witness/camera/camera.ts";
import type { Setup } from "../../../witness/camera/setup.ts";
import { NORTHLIGHT_400, SKERRY_100 } from "../../../witness/film/stocks.ts";
import { measuredRoll, type MeasuredRoll } from "./rig.ts";
import type { SubjectName } from "./subjects/subjects.ts";

interface Expectation {
  readonly code: string;
  /** What else the fault truly brings about. */
  readonly with?: readonly string[];
  /** Whether the finding is on the blank, on every scan, on some, or on the roll. */
  readonly on: "blank" | "each" | "some";
  /** Whether the area is where the fault is. */
  readonly place?: (area: Box | undefined) => boolean;
}

const middleOf = ([x, y, w, h]: Box): [number, number] => [x + w / 2, y + h / 2];
const whole = (area: Box | undefined): boolean => area !== undefined && area[2] > 0.8 && area[3] > 0.8;

const EXPECTED: Record<FaultName, Expectation> = {
  clipped: { code: "clipped", with: ["little-headroom"], on: "each", place: (a) => a !== undefined },
  underexposed: { code: "under-exposed", on: "each", place: (a) => a !== undefined },
  unevenLight: {
    // Its middle is moved to the upper left, so the darkest place is below on the right.
    code: "uneven-light",
    with: ["under-exposed"],
    on: "blank",
    place: (a) => a !== undefined && middleOf(a)[0] > 0.7 && middleOf(a)[1] > 0.7,
  },
  twoColouredLight: { code: "two-coloured-light", on: "blank", place: (a) => a !== undefined && middleOf(a)[0] > 0.6 },
  bandedLight: { code: "banded-light", on: "blank", place: whole },
  flare: { code: "flare", on: "each", place: (a) => a !== undefined && Math.min(a[2], a[3]) < 0.03 },
  lightLeak: { code: "light-leak", on: "each", place: (a) => a !== undefined && a[0] > 0.9 },
  unsharp: { code: "unsharp", on: "some", place: (a) => a !== undefined },
  softCorners: {
    code: "soft-corners",
    with: ["unsharp"],
    on: "some",
    place: (a) => a !== undefined && Math.hypot(middleOf(a)[0] - 0.5, middleOf(a)[1] - 0.5) > 0.4,
  },
  filmTilted: {
    code: "film-tilted",
    with: ["unsharp"],
    on: "each",
    place: (a) => a !== undefined && Math.abs(middleOf(a)[0] - 0.5) > 0.3,
  },
  lateralColour: { code: "lateral-colour", on: "some" },
  shaken: { code: "shaken", with: ["unsharp"], on: "some", place: whole },
  dusty: { code: "dust", on: "each", place: whole },
  dustySensor: { code: "sensor-dust", on: "blank", place: (a) => a !== undefined },
  drifting: { code: "frame-drift", on: "some", place: whole },
  mixedIso: { code: "iso", with: ["shutter-differs"], on: "some" },
  smallAperture: { code: "aperture", with: ["unsharp"], on: "some" },
  diffraction: { code: "diffraction", with: ["aperture", "unsharp"], on: "some" },
  wideAperture: { code: "aperture", on: "some" },
  highIso: { code: "iso", with: ["under-exposed"], on: "some" },
  otherShutter: { code: "shutter-differs", on: "some" },
  otherLens: { code: "mixed-setup", on: "some" },
  mirrored: { code: "mirrored", on: "some" },
};

/** Faults of single exposures: the blank is exposed by itself. */
const FILM_ONLY = new Set<FaultName>(["clipped", "underexposed", "mixedIso", "otherShutter", "otherLens"]);

function withFault(name: FaultName, level: "light" | "strong"): MeasuredRoll {
  return measuredRoll({
    subjects: name === "drifting" ? ["portrait", "night", "portrait"] : ["portrait", "night"],
    fault: (r, i) => (i < 0 && FILM_ONLY.has(name) ? r : FAULTS[name](r, level, Math.max(0, i), 3)),
  });
}

const summary = (findings: readonly Finding[]): string =>
  findings.map((f) => `${f.code} ${f.measured.toFixed(2)} on ${f.place.scan}`).join(", ");

const mark = marksOf();
/** Whether a finding says something that cannot be translated; names from the files are no words. */
function englishIn({ translatable }: Finding, { scans, blank }: SurveyedRoll): boolean {
  const files = [...scans, ...(blank ? [blank] : [])];
  const names = files.flatMap(({ name, info }) => [name, info.model ?? name, info.lens ?? name]);
  const text = formatMessage(translatable, (message, ...args) => english(mark(message), ...args));
  return /\p{Script=Latin}{2}/u.test(names.reduce((rest, name) => rest.replaceAll(name, ""), text));
}

/** Findings as a list of what is wrong with them: other codes, missing ones, places where the fault is not. */
function mismatches(name: FaultName, level: "light" | "strong"): string[] {
  const { roll } = withFault(name, level);
  const findings = findAll(roll);
  const { code, with: companions = [], on, place = () => true } = EXPECTED[name];
  const own = findings.filter((f) => f.code === code);
  const others = findings.filter((f) => f.code !== code && !companions.includes(f.code));
  const scans = own.map((f) => f.place.scan ?? "roll").join();
  const wanted = { blank: "LIGHT.dng", each: roll.scans.map((s) => s.name).join(), some: scans }[on];
  const odd = own.filter((f) => !Number.isFinite(f.measured) || (on !== "blank" && f.place.frame === undefined));
  return [
    ...(own.length === 0 ? [`no ${code}`] : []),
    ...others.map((f) => `also ${summary([f])}`),
    ...(scans === wanted ? [] : [`on ${scans} and not on ${wanted}`]),
    ...own.filter((f) => !place(f.place.area)).map((f) => `wrong place: ${JSON.stringify(f.place)}`),
    ...odd.map((f) => `odd: ${summary([f])}`),
    ...findings.filter((f) => englishIn(f, roll)).map((f) => `left in English: ${f.message}`),
  ];
}

describe.each(["light", "strong"] as const)("a fault at a %s level", (level) => {
  it.each(Object.keys(EXPECTED) as FaultName[])("%s", (name) => expect(mismatches(name, level)).toEqual([]));
});

describe("clean rolls of four subjects", () => {
  it.each([
    ["camera A", { camera: CAMERA_A, light: PANEL, stock: NORTHLIGHT_400 }],
    ["camera B, a warm light, a finer film", { camera: CAMERA_B, light: WARM_PANEL, stock: SKERRY_100 }],
  ])("%s: no finding", (_, rig) => {
    const { roll } = measuredRoll({ rig, subjects: ["portrait", "night", "meadow", "quay"] });
    expect(summary(findAll(roll))).toBe("");
  });
});

/** A fault that differs from `FAULTS` in its size. */
const setUp =
  (change: (setup: Setup) => Partial<Setup>) =>
  (r: ScanRequest): ScanRequest => ({
    ...r,
    setup: { ...r.setup, ...change(r.setup) },
  });
const blurred = (blur: Partial<Setup["blur"]>) => setUp((setup) => ({ blur: { ...setup.blur, ...blur } }));
const moved = (length: number, angle: number) => setUp(() => ({ shake: { length, angle } }));

/** Limits were set by the tuning subjects; the held-out ones are other pictures, moved and blurred otherwise. */
const BLUR_SETS: readonly (readonly [name: string, subjects: readonly SubjectName[], turn: number])[] = [
  ["tune", ["portrait", "meadow", "faces"], 0],
  ["held out", ["sundown", "shingle", "fair"], 20],
];

describe.each(BLUR_SETS)("kinds of blur: %s", (_, subjects, turn) => {
  const codesOf = (fault: (r: ScanRequest) => ScanRequest): string[][] => {
    const { roll } = measuredRoll({ subjects, fault });
    const found = findAll(roll);
    return roll.scans.map(({ name }) => found.filter(({ place }) => place.scan === name).map(({ code }) => code));
  };

  it.each([3, 5])("movement by %i px is called shaken on every scan", (length) => {
    for (const codes of codesOf(moved(length, 25 + turn))) expect(codes).toContain("shaken");
  });

  it.each([1.3, 2, 2.6])("blur of %f px on all sides is never called shaken", (everywhere) => {
    const found = codesOf(blurred({ everywhere }));
    for (const codes of found) expect(codes).not.toContain("shaken");
    expect(found.filter((codes) => codes.includes("unsharp")).length).toBeGreaterThanOrEqual(2);
  });

  it.each([1.5, 2])("a tilt that adds %f px is found on every scan of the set-up", (added) => {
    const angle = (turn * 4 * Math.PI) / 180;
    const tilt = [added * Math.cos(angle), added * Math.sin(angle)] as const;
    for (const codes of codesOf(blurred({ tilt }))) expect(codes).toContain("film-tilted");
  });

  it("none of it is found on good scans", () => {
    for (const codes of codesOf((r) => r)) expect(codes).toEqual([]);
  });
});

describe("sharpness", () => {
  it("does not depend on the flare that the recipe takes off", () => {
    const made = ([0, 0.002, 0.02] as const).map(
      (f) => measuredRoll({ subjects: ["portrait", "night"], taken: [f, f, f] }).roll.scans,
    );
    const sums = made.map((scans) =>
      scans.flatMap(({ cells }) => cells.map(({ blur }) => (blur ? blur.xx + blur.yy : -1))),
    );
    for (const other of sums.slice(1)) other.forEach((sum, k) => expect(sum).toBeCloseTo(sums[0][k], 3));
  });
});

describe("what is measured", () => {
  it("grows with the fault, and names the direction of a movement", () => {
    const [light, strong] = (["light", "strong"] as const).map((level) => findAll(withFault("shaken", level).roll));
    const of = (list: Finding[]): Finding => list.find((f) => f.code === "shaken")!;
    expect(of(strong).measured).toBeGreaterThan(of(light).measured);
    // The witness moves along 25°.
    expect(Math.abs(Number(/along (\d+)°/.exec(of(strong).message)?.[1]) - 25)).toBeLessThan(8);
  });
});
