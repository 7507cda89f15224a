/** How the recipe grows by a scan: what the session wrote follows, what a person changed stays. */
import { describe, expect, it } from "vitest";
import type { FrameLook, Rgb } from "../../../../../extension/engine/types.ts";
import type { MeasuredPicture } from "../../../../../extension/work/copy-stand/measure/measure-arrival.ts";
import { rollEdits } from "../../../../../extension/work/copy-stand/recipe/roll-edits.ts";
import type { RollView } from "../../../../../extension/work/copy-stand/recipe/roll-view.ts";
import type { Judged, SessionScan } from "../../../../../extension/work/copy-stand/session.ts";
import { spread } from "../../../../../extension/work/copy-stand/measure/start-values.ts";
import {
  textOf,
  valueAt,
  withoutOwn,
  type Written,
  writtenIn,
} from "../../../../../extension/work/copy-stand/recipe/written.ts";

const MATRIX: FrameLook["unmix"] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
const LOOK: FrameLook = {
  film: "colour-negative",
  base: [0.3, 0.6, 0.8],
  gamma: [0.55, 0.55, 0.55],
  unmix: MATRIX,
  colour: MATRIX,
  exposure: 0,
  filtration: { cyan: 0, magenta: 0, yellow: 0 },
  saturation: 1,
  tone: { contrast: 1.4, toe: 0.6, shoulder: 0.7, black: 0.5, points: [] },
};
const curveOf = (red: number) => ({
  logH: [-1, 0, 1],
  red: [0.1, red, 1],
  green: [0.1, 0.6, 1.1],
  blue: [0.1, 0.7, 1.2],
});

interface Started {
  readonly exposures?: readonly number[];
  readonly red?: number;
  readonly from?: readonly string[];
}

function pictureOf(name: string, { exposures = [0.2], red = 0.5, from = [name] }: Started = {}): MeasuredPicture {
  return {
    reading: { name, info: { width: 3000, height: 2000, source: "raw", bits: 14 } },
    found: {
      area: { left: 0.05, top: 0.06, width: 0.9, height: 0.88, tilt: 0 },
      sides: { left: "edge", right: "edge", top: "edge", bottom: "edge" },
    },
    codes: [],
    film: { film: "colour-negative", certainty: 0.9, from: "inferred" },
    startedFrom: from,
    start: {
      look: LOOK,
      frames: exposures.map((exposure) => ({ exposure })),
      inferred: {
        base: { density: [0.3, 0.6, 0.8] as Rgb, from: "inferred", spread: 0.05 },
        tone: { contrast: 1.4, toe: 0.6, shoulder: 0.7 },
        negative: { curve: curveOf(red), unmix: MATRIX, colour: MATRIX },
      },
    },
  } as unknown as MeasuredPicture;
}

const scanOf = (name: string, frame: string, started?: Started): SessionScan => ({
  name,
  stamp: name,
  kind: "picture",
  verdict: { word: "good", reasons: [] },
  frame,
  picture: pictureOf(name, started),
});

const viewOf = (frames: RollView["frames"], byHand = false): RollView => ({
  frames,
  stated: { look: LOOK, negative: byHand, unmix: false, gamma: false, contrast: false, byHand },
  turn: 0,
  mirror: false,
});
const frame = (id: string, scan: string) => ({ id, scans: [scan], unused: [] });

/** A recipe as plain values, to which edits are applied. */
function recipe(values: Record<string, unknown> = {}) {
  let written: Written = {};
  return {
    values,
    get written() {
      return written;
    },
    grow(session: readonly SessionScan[], view: RollView, judged: Judged): string[] {
      const made = rollEdits(session, view, judged, (path) => valueAt(values, path), written);
      for (const { path, value } of made.edits) {
        let at = values;
        for (const key of path.slice(0, -1)) at = (at[key] ??= {}) as Record<string, unknown>;
        if (value === undefined) delete at[path[path.length - 1]];
        else at[path[path.length - 1]] = value;
      }
      written = made.written;
      return made.edits.map(({ path }) => path.join("."));
    },
  };
}
const asFrame = (scan: SessionScan): Judged => ({ scan, role: { role: "frame", frame: scan.frame! } });

/** A roll of one frame that the session wrote. */
function begun() {
  const roll = recipe();
  const first = scanOf("A1.dng", "01");
  const edits = roll.grow([first], viewOf([]), asFrame(first));
  return { roll, first, edits };
}

describe("the first frame of a roll without a stock", () => {
  it("states frame, kind of film, inferred base, negative and tones", () => {
    const { roll, edits } = begun();
    expect(edits).toEqual([
      "film",
      "negative.base",
      "negative.curve",
      "negative.unmix",
      "negative.colour",
      "positive.contrast",
      "positive.toe",
      "positive.shoulder",
      "frames.01.scan",
      "frames.01.area",
      "frames.01.positive",
    ]);
    expect(valueAt(roll.values, ["frames", "01", "positive"])).toEqual({ exposure: 0.2 });
    expect(valueAt(roll.values, ["negative", "base"])).toEqual({ density: [0.3, 0.6, 0.8] });
  });
});

describe("a second frame", () => {
  const second = (started: Started): SessionScan => scanOf("A2.dng", "02", { from: ["A1.dng", "A2.dng"], ...started });
  const after = (roll: ReturnType<typeof recipe>, first: SessionScan, started: Started, byHand = false): string[] => {
    const scan = second(started);
    return roll.grow([first, scan], viewOf([frame("01", "A1.dng")], byHand), asFrame(scan));
  };

  it("adds its own lines and nothing else where it says nothing new", () => {
    const { roll, first } = begun();
    expect(after(roll, first, { exposures: [0.25, 0.1], red: 0.505 })).toEqual([
      "frames.02.scan",
      "frames.02.area",
      "frames.02.positive",
    ]);
  });

  it("sharpens curve and matrices together, and the first frame's exposure", () => {
    const { roll, first } = begun();
    const edits = after(roll, first, { exposures: [0.4, 0], red: 0.55 });
    expect(edits).toEqual(["negative.curve", "frames.01.positive.exposure", "frames.02.scan", "frames.02.area"]);
    expect(valueAt(roll.values, ["frames", "01", "positive", "exposure"])).toBe(0.4);
  });

  it("leaves what a person changed, also what they removed", () => {
    const { roll, first } = begun();
    const frames = roll.values["frames"] as Record<string, { positive?: unknown }>;
    frames["01"].positive = { exposure: -1 };
    (roll.values["negative"] as Record<string, unknown>)["curve"] = curveOf(0.9);
    expect(after(roll, first, { exposures: [0.4, 0], red: 0.55 }, true)).toEqual(["frames.02.scan", "frames.02.area"]);
    delete frames["01"].positive;
    expect(after(roll, first, { exposures: [0.4, 0], red: 0.55 }, true)).not.toContain("frames.01.positive.exposure");
  });

  it("leaves frames that a person added", () => {
    const roll = recipe({ frames: { "01": { scan: "A1.dng" } } });
    const edits = after(roll, scanOf("A1.dng", "01"), { exposures: [0.4, 0] });
    expect(edits.filter((path) => path.startsWith("frames.01"))).toEqual([]);
  });
});

describe("a scan that was taken again", () => {
  it("takes the frame's place, and the earlier file is listed as unused", () => {
    const { roll, first } = begun();
    const again = scanOf("A9.dng", "01", { from: ["A9.dng"] });
    const role = { role: "retake", frame: "01", earlier: "A1.dng", kept: "new" } as const;
    roll.grow([first, again], viewOf([frame("01", "A1.dng")]), { scan: again, role });
    expect(valueAt(roll.values, ["frames", "01"])).toMatchObject({ scan: "A9.dng", unused: ["A1.dng"] });
  });

  it("is listed itself where the earlier one is better", () => {
    const { roll, first } = begun();
    const again = scanOf("A9.dng", "01");
    const role = { role: "retake", frame: "01", earlier: "A1.dng", kept: "earlier" } as const;
    roll.grow([first, again], viewOf([frame("01", "A1.dng")]), { scan: again, role });
    expect(valueAt(roll.values, ["frames", "01"])).toMatchObject({ scan: "A1.dng", unused: ["A9.dng"] });
  });
});

describe("what a session wrote itself", () => {
  it("is taken out of the values by which the next picture is measured, where nobody changed it", () => {
    const written = { "negative.curve": textOf(curveOf(0.5)), film: textOf("slide"), "frames.01": "added" };
    const { logH, ...rest } = curveOf(0.5);
    const values = { film: "colour-negative", negative: { curve: { ...rest, logH } }, frames: { "01": { scan: "A" } } };
    expect(withoutOwn(values, written)).toEqual({
      film: "colour-negative",
      negative: {},
      frames: { "01": { scan: "A" } },
    });
    expect(values.negative.curve).toBeDefined();
  });
});

it("spreads the pictures that a start is weighed by over the roll, the newest among them", () => {
  const all = Array.from({ length: 36 }, (_, k) => k);
  const some = spread(all, 11);
  expect(some).toHaveLength(11);
  expect(new Set(some).size).toBe(11);
  expect([some[0], some[10]]).toEqual([0, 35]);
  expect(spread([1, 2], 11)).toEqual([1, 2]);
});

describe("what a session wrote before it was killed", () => {
  const journal = {
    written: { "negative.gamma": "0.5", "frames.12": "added" },
    next: { "negative.gamma": "0.55", "frames.12": "added", "frames.13": "added" },
  };

  it("is what stands in the recipe, be it from before the last change or from after it", () => {
    const before = { negative: { gamma: 0.5 }, frames: { 12: { scan: "a.dng" } } };
    expect(writtenIn(before, journal)).toEqual(journal.written);
    const after = { negative: { gamma: 0.55 }, frames: { 12: { scan: "a.dng" }, 13: { scan: "b.dng" } } };
    expect(writtenIn(after, journal)).toEqual(journal.next);
  });

  it("is not what a person has set since", () => {
    const own = { negative: { gamma: 0.6 }, frames: { 12: { scan: "a.dng" } } };
    expect(withoutOwn(own, writtenIn(own, journal))).toEqual(own);
  });
});
