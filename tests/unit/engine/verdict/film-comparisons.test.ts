/** What the film itself shows: its side, its code, its frame's number, and whether its picture came before. */
import { describe, expect, it } from "vitest";
import { english, formatMessage } from "../../../../extension/engine/messages.ts";
import {
  frameOfHalf,
  halfOf,
  missedNumbers,
  numberRead,
  numbersAround,
} from "../../../../extension/engine/verdict/film-numbers.ts";
import { judgeScan } from "../../../../extension/engine/verdict/judge.ts";
import type { JudgedScan, StandRoll } from "../../../../extension/engine/verdict/types.ts";
import { before, type Changes, mapOf, rollOf, scanOf } from "./readings.ts";

const reasonsOf = (changes: Changes, roll: Partial<StandRoll> = {}) =>
  judgeScan(scanOf(changes), rollOf(roll)).reasons.map(({ code, word, message }) => ({
    code,
    word,
    text: formatMessage(message, english),
  }));
const codesOf = (changes: Changes, roll: Partial<StandRoll> = {}): string[] =>
  reasonsOf(changes, roll).map((r) => r.code);
/** A scan whose code tells its frame. */
const coded = (frame: string, film = "36-2", mirrored = false): Changes => ({ frame, edge: { film, frame, mirrored } });
const match = (name: string, upright: number, mirrored = 0) => ({ name, upright, mirrored });
/** A scan whose number was read in figures. */
const figured = (frame: string): Changes => ({ frame, numbers: [match(frame, 0.8), match("99", 0.1)] });

describe("the way the film lies", () => {
  it("is told by a code before figures, as the recipe says that it lies", () => {
    expect(codesOf(coded("10"))).toEqual([]);
    expect(reasonsOf(coded("10", "36-2", true))).toMatchObject([{ code: "wrong-way-round", word: "look" }]);
    expect(codesOf(coded("10", "36-2", true), { mirror: true })).toEqual([]);
    expect(codesOf(coded("10"), { mirror: true })).toEqual(["wrong-way-round"]);
    // Strokes that look like a mirrored figure do not count against a code.
    expect(codesOf({ ...coded("10"), reading: { lettering: -0.5 } })).toEqual([]);
  });
});

describe("a number that reads mirrored", () => {
  const mirrored = (numbers: JudgedScan["numbers"]): string[] =>
    codesOf({ frame: "13", numbers, reading: { lettering: -0.2 } });
  it("counts where no other number agrees better: its strokes may look like this one in a mirror", () => {
    expect(mirrored([match("13", 0.6, 0.8), match("12", 0.7)])).toEqual(["wrong-way-round"]);
    expect(mirrored([match("13", 0.6, 0.8), match("12", 0.85)])).toEqual([]);
    expect(mirrored([])).toEqual(["wrong-way-round"]);
  });
});

describe("another film", () => {
  const roll = { before: before(2, (k) => coded(`0${8 + k}`)) };
  it("is told by its code once two pictures agree on the roll's", () => {
    expect(codesOf(coded("10", "95-13"), { before: before(1, () => coded("09")) })).toEqual([]);
    expect(reasonsOf(coded("10", "95-13"), roll)).toEqual([
      {
        code: "other-film",
        word: "look",
        text: "The code on the film's edge is 95-13, on the roll's other pictures 36-2.",
      },
    ]);
    expect(codesOf(coded("10"), roll)).toEqual([]);
    expect(codesOf({}, roll)).toEqual([]);
  });

  it("is not told where the roll's own codes disagree: one of them was misread", () => {
    const mixed = { before: before(3, (k) => coded(`0${7 + k}`, k === 1 ? "36-3" : "36-2")) };
    expect(codesOf(coded("10", "95-13"), mixed)).toEqual([]);
  });
});

describe("a set-up that changed", () => {
  const info = scanOf().reading.info;
  it.each([
    ["camera", { model: "Copy Two" }],
    ["lens", { lens: "Other" }],
    ["size in pixels", { width: 3000, height: 2000 }],
    ["stop", { aperture: 5.6 }],
    ["ISO", { iso: 200 }],
  ])("is named: %s", (name, change) => {
    const [reason] = reasonsOf({ reading: { info: { ...info, ...change } } }, { last: scanOf() });
    expect(reason).toMatchObject({ code: "set-up-changed", word: "look" });
    expect(reason.text).toContain(`The ${name} has changed`);
  });

  it("is not the shutter time, nor a stop that the camera rounds otherwise, nor what a file does not say", () => {
    const { lens: _, ...unsaid } = info;
    for (const other of [{ ...info, shutter: 1 / 30 }, { ...info, aperture: 8.02 }, unsaid])
      expect(codesOf({ reading: { info: other } }, { last: scanOf() })).toEqual([]);
  });
});

describe("a picture that came before", () => {
  it("is worth a word where the earlier scan was good", () => {
    const earlier = (word: "good" | "look" | "again") => ({ earlier: { name: "A0009.dng", word } });
    expect(codesOf({}, earlier("good"))).toEqual(["taken-twice"]);
    expect(codesOf({}, earlier("look"))).toEqual([]);
    expect(codesOf({}, earlier("again"))).toEqual([]);
  });

  it("is only suspected where no grain can be compared, and not where two codes tell two frames", () => {
    const same = before(1, () => ({ map: mapOf(10) }));
    expect(codesOf({ map: mapOf(10) }, { before: same })).toEqual(["looks-alike"]);
    expect(codesOf({ map: mapOf(11) }, { before: same })).toEqual([]);
    const numbered = before(1, () => ({ ...coded("09"), map: mapOf(10) }));
    expect(codesOf({ ...coded("10"), map: mapOf(10) }, { before: numbered })).toEqual([]);
  });
});

describe("pictures that were missed", () => {
  const missed = (frame: string, earlier: readonly Changes[]): string[] =>
    missedNumbers(
      scanOf(coded(frame)),
      earlier.map((one) => scanOf(one)),
    );
  it.each<[string, string, Changes[], string[]]>([
    ["none", "11", [coded("10")], []],
    ["one", "12", [coded("10")], ["11"]],
    ["three", "14", [coded("10")], ["11", "12", "13"]],
    ["that were photographed out of order", "13", [coded("12"), coded("10")], []],
    ["one whose number is known of figures", "12", [figured("10")], ["11"]],
    ["none where the earlier number was not read", "12", [{ frame: "10" }], []],
    ["half numbers, a whole one apart", "13A", [coded("11A")], ["12A"]],
    ["half-frame pictures", "13", [coded("11"), coded("11A")], ["12", "12A"]],
    ["none before the first", "12", [coded("20")], []],
  ])("%s", (_, frame, earlier, numbers) => expect(missed(frame, earlier)).toEqual(numbers));

  it("are named one by one, or from first to last", () => {
    const text = (frame: string): string | undefined =>
      reasonsOf(coded(frame), { before: [scanOf({ name: "A0001.dng", ...coded("10"), map: mapOf(77) })] })[0]?.text;
    expect(text("11")).toBeUndefined();
    expect(text("12")).toBe("The film's edge says 12: picture 11 was not photographed.");
    expect(text("13")).toBe("The film's edge says 13: pictures 11 and 12 were not photographed.");
    expect(text("20")).toBe("The film's edge says 20: pictures 11 to 19 were not photographed.");
  });

  it("are told only by a number that was read on this scan", () => {
    const unread = scanOf({ frame: "14" });
    expect(missedNumbers(unread, [scanOf(coded("10"))])).toEqual([]);
    const other: JudgedScan = scanOf({ ...coded("14"), edge: { film: "36-2", mirrored: false } });
    expect(missedNumbers(other, [scanOf(coded("10"))])).toEqual([]);
  });
});

describe("figures on the film's edge", () => {
  it("count where one agrees well, and clearly better than its neighbours", () => {
    expect(numberRead([match("12", 0.64), match("13", 0.1)])).toBeUndefined();
    expect(numberRead([match("12", 0.66), match("13", 0.1)])).toBe("12");
    expect(numberRead([match("12", 0.7), match("13", 0.6)])).toBeUndefined();
    expect(numberRead([match("12", 0.1, 0.7), match("13", 0.2)])).toBe("12");
    expect(numberRead([])).toBeUndefined();
  });

  it("are looked for around the expected one, from two figures on", () => {
    expect(numbersAround("12")).toEqual(["11", "12", "13", "14"]);
    expect(numbersAround("09")).toEqual([]);
    expect(numbersAround("12A")).toEqual([]);
  });

  it("are places in halves", () => {
    expect([halfOf("00"), halfOf("12"), halfOf("12A"), halfOf("X1")]).toEqual([0, 24, 25, undefined]);
    expect([frameOfHalf(0), frameOfHalf(25), frameOfHalf(24, 3)]).toEqual(["00", "12A", "012"]);
  });
});
