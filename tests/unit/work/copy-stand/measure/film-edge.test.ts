/** Frame numbers by the codes on the film's edge, as pictures arrive. */
import { describe, expect, it } from "vitest";
import { edgeOf, filmOnEdge, type FramedPicture } from "../../../../../extension/work/copy-stand/measure/film-edge.ts";
import type { MeasuredPicture } from "../../../../../extension/work/copy-stand/measure/measure-arrival.ts";

const PER_MM = 0.017;
const INFO = { width: 3, height: 2 };

/** A picture whose code of `number` lies `mm` beside where the film has it for a picture in its middle. */
function picture(number: number | undefined, mm = 0, film = "36-2", isMirrored = false): MeasuredPicture {
  const centre = [0.5 + (4.7 + mm) * PER_MM, isMirrored ? 0.23 : 0.77] as const;
  const code = { film, names: [], pixelsPerMm: PER_MM, centre, direction: [1, 0] as const };
  return {
    codes: number === undefined ? [] : [{ ...code, frame: number }],
    reading: { info: INFO },
  } as unknown as MeasuredPicture;
}
const framed = (frame: string, of: MeasuredPicture): FramedPicture => ({ frame, picture: of });

describe("the newest picture's frame", () => {
  it("is the number on the film", () => {
    expect(edgeOf([], picture(12))).toEqual({ frame: "12", own: { film: "36-2", mirrored: false, frame: "12" } });
    expect(edgeOf([framed("12", picture(12))], picture(15)).frame).toBe("15");
    expect(edgeOf([], picture(undefined))).toEqual({});
  });

  it("is counted as the roll counts, where a person or the first frame's number shifted it", () => {
    const roll = [framed("01", picture(12)), framed("02", picture(13))];
    expect(edgeOf(roll, picture(15)).frame).toBe("04");
    expect(edgeOf([framed("12A", picture(12)), framed("13A", picture(13))], picture(14)).frame).toBe("14A");
  });

  it("follows from its neighbours where its own code is not in view, and is not taken for read then", () => {
    const roll = [framed("12", picture(12)), framed("13", picture(13))];
    expect(edgeOf(roll, picture(undefined))).toEqual({ frame: "14" });
  });

  it("is left open where the roll's frames are named without regard to the film", () => {
    const roll = [framed("03", picture(12)), framed("07", picture(13)), framed("21", picture(14))];
    expect(edgeOf(roll, picture(15)).frame).toBeUndefined();
    expect(edgeOf([framed("x", picture(12))], picture(13)).frame).toBeUndefined();
  });
});

it("tells film that lies the wrong way round, and the film's code over the roll", () => {
  expect(edgeOf([], picture(12, 0, "36-2", true)).own).toMatchObject({ mirrored: true });
  const roll = [framed("12", picture(12)), framed("13", picture(13)), framed("14", picture(14, 0, "95-13"))];
  expect(filmOnEdge(roll)).toMatchObject({ film: "36-2", pictures: 2, of: 3, others: ["95-13"] });
  expect(filmOnEdge([])).toBeUndefined();
});
