/** What the codes of a roll's scans say together, and when they are of two rolls. */
import { describe, expect, it } from "vitest";
import { type CodedPicture, readEdges } from "../../../../../extension/work/new-roll/edge/edge-codes.ts";
import { secondRoll } from "../../../../../extension/work/new-roll/edge/two-rolls.ts";

const PER_MM = 0.017;

/** A picture whose code of `frame` has its middle so many millimetres to the right of the picture's. */
function picture(frame: number | undefined, mm: number, film = "36-2", turned = false): CodedPicture {
  const side = turned ? -1 : 1;
  const code = { film, names: [], pixelsPerMm: PER_MM };
  const centre = [0.5 + side * mm * PER_MM, 0.5 + side * 0.27] as const;
  const codes = frame === undefined ? [] : [{ ...code, frame, centre, direction: [side, 0] as const }];
  return { codes, width: 1, height: 2 / 3 };
}

describe("the numbers of a roll's pictures", () => {
  it("are those that lie nearest, by one rule for the whole roll, wherever the camera laid its frames", () => {
    // The code's middle lies 4.7 mm after that of the number and its code.
    for (const shift of [-6, 0, 6]) {
      const roll = [20, 21, 22].map((n) => picture(n, 4.7 + shift));
      expect(readEdges(roll)?.frames).toEqual(["20", "21", "22"]);
      const between = [20.5, 21.5, 22.5].map((n) => picture(n, 4.7 + shift));
      expect(readEdges(between)?.frames).toEqual(["20A", "21A", "22A"]);
    }
  });

  it("are the same where the film lay the other way round, and are filled where the steps leave no doubt", () => {
    const roll = [
      picture(3, 4.7, "36-2", true),
      picture(undefined, 0),
      picture(5, 4.7, "36-2", true),
      picture(undefined, 0),
    ];
    expect(readEdges(roll)).toMatchObject({
      film: "36-2",
      pictures: 2,
      of: 4,
      frames: ["03", "04", "05", "06"],
      mirrored: false,
    });
    const backwards = [picture(9, 4.7), picture(undefined, 0), picture(7, 4.7)];
    expect(readEdges(backwards)?.frames).toEqual(["09", "08", "07"]);
    expect(readEdges([picture(undefined, 0)])).toBeUndefined();
  });

  it("names a published film where the code has one name and the year agrees, and none of several", () => {
    const named = (names: { name: string; year?: number }[]) => {
      const one = picture(1, 4.7, "95-13");
      return readEdges([{ ...one, codes: one.codes.map((c) => ({ ...c, names })) }])?.published?.name;
    };
    expect(named([{ name: "Kodak Portra 400 new", year: 2010 }])).toBe("Kodak Portra 400");
    expect(named([{ name: "Kodak Portra 400 new" }])).toBeUndefined();
    expect(named([{ name: "Kodak EKTAR 100 Gen 1 100-1", year: 1991 }])).toBeUndefined();
    expect(named([{ name: "Kodak Portra 400 new", year: 2010 }, { name: "Another" }])).toBeUndefined();
  });
});

describe("two rolls in one folder", () => {
  const shot = (name: string, film?: string, base?: readonly [number, number, number]) => ({
    name,
    codes: film ? [{ film }] : [],
    ...(base ? { base } : {}),
  });

  it("are told apart by the edge code, or by the base", () => {
    const codes = [shot("1", "36-2"), shot("2"), shot("3", "36-2"), shot("4", "95-13"), shot("5", "95-13"), shot("6")];
    expect(secondRoll(codes)).toEqual({ first: ["1", "3"], second: ["4", "6"], reason: "edge code" });
    const [a, b] = [[0.3, 0.6, 0.8] as const, [0.22, 0.5, 0.64] as const];
    const bases = [shot("1", undefined, a), shot("2", undefined, a), shot("3", undefined, b), shot("4", undefined, b)];
    expect(secondRoll(bases)).toEqual({ first: ["1", "2"], second: ["3", "4"], reason: "base" });
  });

  it("are not seen in one roll: a single misreading, or a base that drifts", () => {
    const codes = [shot("1", "36-2"), shot("2", "36-2"), shot("3", "80-11"), shot("4", "36-2"), shot("5", "36-2")];
    expect(secondRoll(codes)).toBeUndefined();
    const drift = [0, 1, 2, 3].map((i) => shot(String(i), undefined, [0.3 + 0.01 * i, 0.6, 0.8]));
    expect(secondRoll(drift)).toBeUndefined();
  });
});
