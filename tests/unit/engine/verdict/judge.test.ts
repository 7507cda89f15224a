/** The rules of the verdict: each reason on both sides of its threshold, and which of several is named first. */
import { describe, expect, it } from "vitest";
import { english, formatMessage } from "../../../../extension/engine/messages.ts";
import { isWorse, judgeBlank, judgeScan, unreadable } from "../../../../extension/engine/verdict/judge.ts";
import { RULES, ruleOf, urgencyOf } from "../../../../extension/engine/verdict/rules.ts";
import type { StandRoll, Verdict } from "../../../../extension/engine/verdict/types.ts";
import { before, BLANK, cellsOf, type Changes, rollOf, round, scanOf, SHARP, specks } from "./readings.ts";

const verdictOn = (changes: Changes, roll: Partial<StandRoll> = {}): Verdict =>
  judgeScan(scanOf(changes), rollOf(roll));
const codesOf = ({ reasons }: Verdict): string[] => reasons.map(({ code }) => code);
const first = (verdict: Verdict): string => `${verdict.word} ${codesOf(verdict)[0] ?? ""}`.trim();

const OFF = { support: { left: 1, right: 0, top: 1, bottom: 1 } };
/** Blur that grows from left to right, and that grows from the middle; px of one sigma at the softest place. */
const tilted = (px: number) => cellsOf((q) => round(Math.hypot(SHARP, (px * q) / 4)));
const bulging = (px: number) =>
  cellsOf((q, r) => round(Math.hypot(SHARP, px * ((q - 2) ** 2 * 2.25 + (r - 2) ** 2) * (1 / 13))));
/** A stroke of so many pixels along the rows. */
const stroke = (length: number) => cellsOf(() => ({ xx: SHARP ** 2 + length ** 2 / 12, xy: 0, yy: SHARP ** 2 }));
const strip = (side: "left" | "right" | "top" | "bottom", outer: number) =>
  ({ side, area: [0, 0, 0.05, 1], outer: [outer, outer, outer], inner: [0.2, 0.2, 0.2] }) as const;
const rebate = (leak: number) => [strip("left", 0.2), strip("top", 0.2), strip("right", 0.2 + leak)];
/** Half sigma (MTF50) in percent: 37.478 / sigma. */
const sigmaFor = (half: number): number => 37.478 / half;

it("finds nothing on a good scan", () => {
  expect(verdictOn({})).toEqual({ word: "good", reasons: [] });
  expect(verdictOn({}, { before: before(3), blank: BLANK })).toEqual({ word: "good", reasons: [] });
});

describe("a reason, below its threshold and above", () => {
  const cases: [code: string, word: string, below: Changes, above: Changes, roll?: Partial<StandRoll>][] = [
    ["clipped", "again", { reading: { clipped: [0.0009, 0, 0] } }, { reading: { clipped: [0.0011, 0, 0] } }],
    [
      "under-exposed",
      "again",
      { reading: { brightest: [0.3, 0.35, 0.3], noiseOverGrain: 0.59 } },
      { reading: { brightest: [0.3, 0.35, 0.3], noiseOverGrain: 0.61 } },
    ],
    [
      "cut-off",
      "again",
      {
        found: { area: { left: 0.05, top: 0.06, width: 0.947, height: 0.88, tilt: 0 }, sides: sides("right"), ...OFF },
      },
      { found: { area: { left: 0.05, top: 0.06, width: 0.95, height: 0.88, tilt: 0 }, sides: sides("right"), ...OFF } },
    ],
    ["shaken", "again", { reading: { cells: stroke(1.7) } }, { reading: { cells: stroke(1.9) } }],
    [
      "softer",
      "again",
      { reading: { cells: cellsOf(() => round(Math.hypot(SHARP, 0.74))) } },
      { reading: { cells: cellsOf(() => round(Math.hypot(SHARP, 1.02))) } },
      { before: before(1) },
    ],
    [
      "unsharp",
      "again",
      { reading: { cells: cellsOf(() => round(sigmaFor(35.5))) } },
      { reading: { cells: cellsOf(() => round(sigmaFor(34.5))) } },
    ],
    ["light-leak", "again", { reading: { rebate: rebate(0.0145) } }, { reading: { rebate: rebate(0.0155) } }],
    ["wrong-way-round", "look", { reading: { lettering: -0.12 } }, { reading: { lettering: -0.13 } }],
    ["film-tilted", "look", { reading: { cells: tilted(0.5) } }, { reading: { cells: tilted(0.9) } }],
    ["soft-corners", "look", { reading: { cells: bulging(0.4) } }, { reading: { cells: bulging(1.1) } }],
    ["flare", "look", { reading: { mask: [0.0095, 0.009, 0.009] } }, { reading: { mask: [0.0105, 0.009, 0.009] } }],
    ["displaced", "look", shifted(0.019), shifted(0.021), { before: before(2) }],
    ["dust", "look", { reading: { specks: specks(18) } }, { reading: { specks: specks(19) } }],
    [
      "aperture",
      "look",
      { reading: { info: { ...scanOf().reading.info, aperture: 11.3 } } },
      { reading: { info: { ...scanOf().reading.info, aperture: 13 } } },
    ],
  ];
  it.each(cases)("%s: %s", (code, word, below, above, roll = {}) => {
    expect(codesOf(verdictOn(below, roll))).not.toContain(code);
    expect(first(verdictOn(above, roll))).toBe(`${word} ${code}`);
  });

  it("diffraction, where sensor and format are known, is the survey's alone", () => {
    // The stand does not know the sensor's size; the stop is what it can see.
    expect(codesOf(verdictOn({ reading: { info: { ...scanOf().reading.info, aperture: 22 } } }))).toEqual(["aperture"]);
  });
});

describe("a scan that is softer than the best", () => {
  const soft = (sigma: number) => ({ reading: { cells: cellsOf(() => round(Math.hypot(SHARP, sigma))) } });
  it.each([
    [0.74, ""],
    [0.76, "look"],
    [0.99, "look"],
    [1.01, "again"],
  ])("by %d px: %s", (added, word) => {
    const reason = verdictOn(soft(added), { before: before(1) }).reasons.find(({ code }) => code === "softer");
    expect(reason?.word ?? "").toBe(word);
  });

  it("in one corner names the corner, and marks it", () => {
    const cells = cellsOf((q, r) => round(q > 2 && r > 2 ? Math.hypot(SHARP, 1.5) : SHARP));
    const { reasons } = verdictOn({ reading: { cells } }, { before: before(1) });
    const softer = reasons.find(({ code }) => code === "softer")!;
    expect(formatMessage(softer.message, english)).toContain("at the bottom right");
    expect(softer.areas).toHaveLength(1);
    expect(softer.areas[0][0]).toBeGreaterThan(0.5);
    expect(softer.areas[0][1]).toBeGreaterThan(0.5);
  });

  it("is told by weak grain where the picture has no even tone, if the film's grain at that density is known", () => {
    const film = (power: number, signal: number) =>
      cellsOf(() => round(SHARP)).map((cell) => ({ ...cell, grain: { power, signal } }));
    const textured = (power: number) => ({
      reading: { cells: cellsOf(() => undefined).map((cell) => ({ ...cell, grain: { power, signal: 0.06 } })) },
    });
    const roll = (signal = 0.06) => ({ before: before(1, () => ({ reading: { cells: film(8e-5, signal) } })) });
    // As strong as unblurred grain, and stronger: the picture's own detail.
    for (const power of [8e-5, 8e-4]) expect(codesOf(verdictOn(textured(power), roll()))).toEqual([]);
    const { word, reasons } = verdictOn(textured(4e-6), roll());
    expect([word, formatMessage(reasons[0].message, english)]).toEqual([
      "again",
      "Out of focus all over: blur of 1.7 px or more, the sharpest scan so far has 0.7 px.",
    ]);
    expect(codesOf(verdictOn(textured(4e-6), roll(0.2)))).toEqual([]);
    expect(codesOf(verdictOn(textured(4e-6)))).toEqual([]);
  });

  it("is compared with scans of its own size only, retakes among them", () => {
    const large = before(1, () => ({ reading: { info: { ...scanOf().reading.info, width: 9000, height: 6000 } } }));
    expect(codesOf(verdictOn(soft(1.2), { before: large }))).not.toContain("softer");
    expect(codesOf(verdictOn(soft(1.2), { retakes: before(1) }))).toContain("softer");
  });
});

it("says which sides of the picture are cut off, as far as the holder hides them", () => {
  const found = { sides: { left: "edge", right: "outside", top: "edge", bottom: "edge" }, ...OFF } as const;
  expect(first(verdictOn({ found }))).toBe("again cut-off");
});

describe("dust against what the roll usually has", () => {
  const usual = (count: number) => before(3, (k) => ({ reading: { specks: specks(count, k + 1) } }));
  it.each([
    // Three times the usual, at least 8, at most 18 more.
    [0, 8, 9],
    [4, 12, 13],
    [12, 30, 31],
  ])("%d: %d are no news, %d are", (count, few, many) => {
    const roll = { before: usual(count) };
    expect(codesOf(verdictOn({ reading: { specks: specks(few, 9) } }, roll))).not.toContain("dust");
    const { reasons } = verdictOn({ reading: { specks: specks(many, 9) } }, roll);
    expect(reasons.map(({ code }) => code)).toContain("dust");
    expect(reasons[0].areas).toHaveLength(many);
  });

  it("leaves out what is more likely picture, and what lies on the sensor", () => {
    const picture = specks(30).map((speck) => ({ ...speck, logOdds: -0.1 }));
    expect(codesOf(verdictOn({ reading: { specks: picture } }))).toEqual([]);
    const blank = { ...BLANK, sensorDust: specks(30) };
    expect(codesOf(verdictOn({ reading: { specks: specks(30) } }, { blank }))).not.toContain("dust");
  });
});

describe("sensor dust", () => {
  it("is news where a spot lies at one place in a fourth scan, and not again in a fifth", () => {
    const one = { reading: { specks: specks(1) } };
    expect(codesOf(verdictOn(one, { before: before(2, () => one) }))).not.toContain("sensor-dust");
    expect(first(verdictOn(one, { before: before(3, () => one) }))).toBe("look sensor-dust");
    expect(codesOf(verdictOn(one, { before: before(4, () => one) }))).not.toContain("sensor-dust");
  });
});

describe("which reason is named first", () => {
  it("is the worse word before the milder, and of one word the more pressing", () => {
    const many = { reading: { clipped: [0.01, 0, 0], specks: specks(40), lettering: -0.5 } } as const;
    const verdict = verdictOn({ reading: { ...many.reading, rebate: rebate(0.05) } });
    expect(verdict.word).toBe("again");
    expect(codesOf(verdict)).toEqual(["clipped", "light-leak", "wrong-way-round", "dust"]);
  });

  it("has a rule for each code, in an order without duplicates", () => {
    const codes = RULES.map(({ code }) => code);
    expect(new Set(codes).size).toBe(codes.length);
    codes.forEach((code, place) => {
      expect(urgencyOf(code)).toBe(place);
      expect(ruleOf(code)?.code).toBe(code);
    });
    expect(ruleOf("low-resolution")).toBeUndefined();
    expect(urgencyOf("low-resolution")).toBe(RULES.length);
  });

  it("is the cause, and what follows from it is not repeated", () => {
    const shaken = { reading: { cells: stroke(6) } };
    expect(codesOf(verdictOn(shaken, { before: before(1) }))).toEqual(["shaken"]);
    const soft = { reading: { cells: cellsOf(() => round(2)) } };
    expect(codesOf(verdictOn(soft))).toEqual(["unsharp"]);
    expect(codesOf(verdictOn(soft, { before: before(1) }))).toEqual(["softer"]);
    const stopped = { reading: { info: { ...scanOf().reading.info, aperture: 16 } } };
    expect(codesOf(verdictOn(stopped, { last: scanOf() }))).toEqual(["set-up-changed"]);
  });

  it("knows the worse of two words", () => {
    expect(isWorse("again", "look")).toBe(true);
    expect(isWorse("look", "good")).toBe(true);
    expect(isWorse("good", "good")).toBe(false);
    expect(isWorse("look", "again")).toBe(false);
  });
});

describe("the bare light", () => {
  it.each([
    ["uneven-light", { unevenness: 19.9 }, { unevenness: 20.1 }],
    ["two-coloured-light", { colourSpan: 2.2 }, { colourSpan: 2.4 }],
    ["banded-light", { banding: 0.49 }, { banding: 0.51 }],
  ])("%s: look", (code, below, above) => {
    const roll = { film: "colour-negative", flare: [0, 0, 0] } as const;
    expect(judgeBlank({ ...BLANK, ...below }, roll)).toEqual({ word: "good", reasons: [] });
    expect(first(judgeBlank({ ...BLANK, ...above }, roll))).toBe(`look ${code}`);
  });
});

it("has a file that cannot be read copied again", () => {
  const verdict = unreadable("A0001.dng ends too soon.");
  expect(first(verdict)).toBe("again unreadable");
  expect(formatMessage(verdict.reasons[0].message, english)).toBe("A0001.dng ends too soon.");
});

it("says in every reason what to do", () => {
  const verdict = verdictOn({ reading: { clipped: [0.01, 0, 0], specks: specks(40), lettering: -0.5 } });
  for (const { remedy } of verdict.reasons) expect(formatMessage(remedy, english)).toMatch(/^[A-Z].*\.$/);
});

/** Evidence where one side was not seen. */
function sides(unseen: "left" | "right" | "top" | "bottom") {
  return { left: "edge", right: "edge", top: "edge", bottom: "edge", [unseen]: "format" } as const;
}

/** The picture moved along the film, in parts of the scan's width. */
function shifted(by: number): Changes {
  return { found: { area: { ...scanOf().found!.area, left: scanOf().found!.area.left + by } } };
}
