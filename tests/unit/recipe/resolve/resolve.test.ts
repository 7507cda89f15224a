import { describe, expect, test } from "vitest";
import { canonicalJson, pictureFacts } from "../../../../extension/recipe/resolve/canonical.ts";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { resolveRoll } from "../../../../extension/recipe/resolve/resolve.ts";

const stockText = `version: 1
title: Northlight 400
iso: 400
negative:
  base: { density: [0.3, 0.6, 0.8], read: { scan: WEDGE.dng, scatter: 0.01 } }
  curve: { logH: [-2, -1, 0], red: [0.1, 0.5, 1], green: [0.2, 0.6, 1.1], blue: [0.2, 0.7, 1.3], mid: -1.2 }
positive:
  contrast: 1.2
  filtration: { magenta: 9, yellow: 20 }
  curve: [[0, 0], [100, 100]]
output:
  - { name: archive, type: tiff }
note: of the stock
`;
const rollText = `version: 1
stock: ../stocks/n.stock.yaml
scans: scans
light: { blank: LIGHT.dng, flare: 0.01 }
positive:
  filtration: { magenta: 4 }
frames:
  "2":
    scan: b.dng
  "01":
    scan: a.dng
    negative: { gamma: 0.5, base: { read: { scan: EDGE.dng } } }
    positive: { exposure: 0.33, filtration: { cyan: 1 }, curve: [[0, 5], [100, 95]] }
    light: { flare: [0.01, 0.02, 0.03] }
    area: { left: 0.1, width: 0.5 }
    turn: 90
    mirror: true
    title: Ferry
`;
const parse = (text: string, file = "harbour/h.roll.yaml") => parseRecipe(text, { file });
const stock = parse(stockText, "stocks/n.stock.yaml");
const roll = parse(rollText);
const resolved = resolveRoll(roll, stock);
const frame = (id: string, of = resolved) => of.frames.find((f) => f.id === id)!;

describe("the cascade", () => {
  test("the texts of this test are free of problems", () => {
    expect([...stock.problems, ...roll.problems]).toEqual([]);
  });

  test("frames come in the order of the text, with the paths of their scans", () => {
    expect(resolved.frames.map((f) => f.id)).toEqual(["2", "01"]);
    expect(frame("01").scans).toEqual([{ name: "a.dng", path: "harbour/scans/a.dng" }]);
    expect(frame("01").light.blank).toEqual({ name: "LIGHT.dng", path: "harbour/scans/LIGHT.dng" });
  });

  test("a frame's paper stands in place of the roll's slope, and the other way round", () => {
    const text = `version: 1
film: black-and-white-negative
positive: { contrast: grade 2 }
frames:
  "1": { scan: a.dng }
  "2": { scan: b.dng, positive: { contrast: R80 } }
  "3": { scan: c.dng, positive: { contrast: 1.2 } }
`;
    const parsed = parse(text);
    expect(parsed.problems).toEqual([]);
    const [one, two, three] = resolveRoll(parsed).frames.map(({ look }) => look.tone);
    expect([one!.range, two!.range, three!.range]).toEqual([110, 80, undefined]);
    expect(two!.contrast / one!.contrast).toBeCloseTo(110 / 80, 9);
    expect(three!.contrast).toBe(1.2);
  });

  test.each(["R30", "R300", "grade 6", "grade2", "soft"])("contrast %s has the wrong form", (contrast) => {
    const [problem] = parse(`version: 1\npositive: { contrast: ${contrast} }\n`).problems;
    expect(problem?.code).toBe("wrong-form");
    expect(problem?.message).toContain("R40 to R250");
  });

  test("a frame's record is its own words before the roll's", () => {
    const text = `version: 1
exposed: { camera: folding 35, date: 2026-05-02, shutter: 1/125 }
iptc: { creator: Ada Lind, keywords: [harbour, ferry] }
frames:
  "01": { scan: a.dng, exposed: { shutter: 2, time: 17:40 }, iptc: { keywords: [pier] } }
  "02": { scan: b.dng }
`;
    const record = resolveRoll(parse(text));
    expect(record.frames[0].exposed).toEqual({ camera: "folding 35", date: "2026-05-02", shutter: 2, time: "17:40" });
    expect(record.frames[0].iptc).toEqual({ creator: "Ada Lind", keywords: ["pier"] });
    expect(record.frames[1].exposed).toBe(record.exposed);
    expect(record.originOf("01", ["exposed", "camera"])).toMatchObject({ level: "roll", path: ["exposed", "camera"] });
    expect(record.originOf("01", ["exposed", "time"])).toMatchObject({ level: "frame" });
  });

  test("mappings merge key by key; lists replace lists", () => {
    expect(frame("01").look.filtration).toEqual({ cyan: 1, magenta: 4, yellow: 20 });
    expect(frame("2").look.filtration).toEqual({ cyan: 0, magenta: 4, yellow: 20 });
    expect(frame("01").look.tone).toEqual({
      contrast: 1.2,
      toe: 0.3,
      shoulder: 0.4,
      black: 0.5,
      points: [
        [0, 5],
        [100, 95],
      ],
    });
    expect(frame("2").look.tone.points).toEqual([
      [0, 0],
      [100, 100],
    ]);
    expect(frame("01").area).toEqual({ left: 0.1, top: 0, width: 0.5, height: 1, tilt: 0 });
  });

  test("the nearest of gamma and curve hides the other", () => {
    expect(frame("01").look.curve).toBeUndefined();
    expect(frame("01").look.gamma).toEqual([0.5, 0.5, 0.5]);
    expect(frame("2").look.curve).toEqual({
      logH: [-2, -1, 0],
      red: [0.1, 0.5, 1],
      green: [0.2, 0.6, 1.1],
      blue: [0.2, 0.7, 1.3],
      mid: -1.2,
    });
    expect(resolved.valueAt("01", ["negative", "curve"])).toBeUndefined();
    expect(resolved.originOf("01", ["negative", "curve", "logH", 0])).toBeUndefined();
    expect(resolved.valueAt("2", ["negative", "gamma"])).toBeUndefined();
    expect(resolved.originOf("2", ["negative", "gamma"])).toBeUndefined();
    expect(resolved.originOf("2", ["negative", "curve", "mid"])).toMatchObject({ level: "stock", line: 6 });
  });

  test("a reading is inherited as a whole, while the density beside it is merged", () => {
    expect(frame("01").base.read).toEqual({
      scan: { name: "EDGE.dng", path: "harbour/scans/EDGE.dng" },
      area: undefined,
      scatter: undefined,
    });
    expect(frame("01").look.base).toEqual([0.3, 0.6, 0.8]);
    expect(resolved.originOf("01", ["negative", "base", "read", "scatter"])).toBeUndefined();
    expect(resolved.originOf("2", ["negative", "base", "read", "scatter"])).toMatchObject({ level: "stock" });
  });

  test("light: one number stands for three; a frame's list replaces it", () => {
    expect(frame("2").light.flare).toEqual([0.01, 0.01, 0.01]);
    expect(frame("01").light.flare).toEqual([0.01, 0.02, 0.03]);
  });

  test("titles and notes are not inherited", () => {
    expect(resolved.title).toBeUndefined();
    expect(resolved.note).toBeUndefined();
    expect(resolved.stock).toEqual({
      file: "stocks/n.stock.yaml",
      title: "Northlight 400",
      iso: 400,
      process: undefined,
    });
    expect(resolved.originOf(undefined, ["note"])).toBeUndefined();
    expect(frame("01").title).toBe("Ferry");
  });

  test("outputs: the nearest list, with the defaults of each file type", () => {
    expect(resolved.outputs).toEqual([
      { name: "archive", type: "tiff", depth: 16, space: "srgb", sharpen: 0, compression: "deflate" },
    ]);
    expect(resolveRoll(parse("version: 1")).outputs).toEqual([
      { name: "positive", type: "jpeg", depth: 8, space: "srgb", quality: 90, sharpen: 0 },
    ]);
  });
});

describe("defaults", () => {
  test("those of colour negative film", () => {
    expect(frame("2", resolveRoll(parse('version: 1\nframes: { "2": { scan: a.dng } }'))).look).toEqual({
      film: "colour-negative",
      base: [0, 0, 0],
      gamma: [0.55, 0.55, 0.55],
      unmix: [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
      ],
      colour: [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
      ],
      exposure: 0,
      filtration: { cyan: 0, magenta: 0, yellow: 0 },
      tone: { contrast: 1.35, toe: 0.3, shoulder: 0.4, black: 0.5, points: [] },
      saturation: 1,
    });
  });

  test("gamma and contrast follow the kind of film", () => {
    const look = (film: string) => resolveRoll(parse(`version: 1\nfilm: ${film}`)).shared.look;
    expect(look("black-and-white-negative").gamma).toEqual([0.62, 0.62, 0.62]);
    expect(look("slide").tone.contrast).toBe(1);
    expect(resolveRoll(parse("version: 1\nfilm: slide")).valueAt(undefined, ["positive", "contrast"])).toBe(1);
  });

  test("one list of densities stands for the three of black-and-white film", () => {
    const { curve } = resolveRoll(
      parse("version: 1\nfilm: black-and-white-negative\nnegative: { curve: { logH: [0, 1], density: [0.1, 0.7] } }"),
    ).shared.look;
    expect(curve).toEqual({ logH: [0, 1], red: [0.1, 0.7], green: [0.1, 0.7], blue: [0.1, 0.7] });
  });
});

describe("origins", () => {
  const place = (id: string | undefined, ...path: (string | number)[]) => {
    const origin = resolved.originOf(id, path);
    if (!origin || origin.level === "default") return origin?.level;
    const text = origin.file.startsWith("stocks") ? stockText : rollText;
    expect(text.split("\n")[origin.line - 1]!.slice(origin.column - 1)).toBe(
      text.slice(origin.range[0]).split("\n")[0],
    );
    return `${origin.level} ${origin.file}:${origin.line}:${origin.column} ${text.slice(...origin.range)}`;
  };

  test("every value says where it is stated, inner keys too", () => {
    expect(place("01", "positive", "exposure")).toBe("frame harbour/h.roll.yaml:13:27 0.33");
    expect(place("01", "positive", "filtration", "magenta")).toBe("roll harbour/h.roll.yaml:6:26 4");
    expect(place("01", "positive", "filtration", "yellow")).toBe("stock stocks/n.stock.yaml:9:37 20");
    expect(place("01", "positive", "toe")).toBe("default");
    expect(place("01", "positive", "curve", 1, 0)).toBe("frame harbour/h.roll.yaml:13:75 100");
    expect(place("2", "light", "flare", 2)).toBe("roll harbour/h.roll.yaml:4:35 0.01");
    expect(place(undefined, "positive", "contrast")).toBe("stock stocks/n.stock.yaml:8:13 1.2");
    expect(place("01", "area", "top")).toBe("default");
    expect(place("01", "turn")).toBe("frame harbour/h.roll.yaml:16:11 90");
    expect(place("2", "turn")).toBe("default");
    expect(place("2", "nothing", "such")).toBeUndefined();
  });

  test("values for hovers are those that apply", () => {
    expect(resolved.valueAt("01", ["positive", "filtration"])).toEqual({ cyan: 1, magenta: 4, yellow: 20 });
    expect(resolved.valueAt("01", ["positive", "toe"])).toBe(0.3);
    expect(resolved.valueAt("01", ["negative", "unmix", 1])).toEqual([0, 1, 0]);
    expect(resolved.valueAt("2", ["mirror"])).toBe(false);
    expect(resolved.valueAt(undefined, ["film"])).toBe("colour-negative");
  });
});

test("what an error is about counts as not stated", () => {
  const broken = parse(
    'version: 1\npositive: { contrast: 99, toe: 0.1 }\nnegative: { gamma: [0.5, x, 0.5] }\nframes: { "01": { scan: ../../../x.dng, turn: 45 }, "02": { mirror: true } }',
  );
  expect(broken.problems.length).toBe(5);
  const { frames, shared } = resolveRoll(broken, stock);
  expect(shared.look.tone).toMatchObject({ contrast: 1.2, toe: 0.1 });
  expect(shared.look.curve).toBeDefined();
  expect(frames.map(({ id, scans, turn, mirror }) => [id, scans, turn, mirror])).toEqual([
    ["01", [], 0, false],
    ["02", [], 0, true],
  ]);
});

test("what cannot stand without a value that is wrong goes with it", () => {
  const broken = parse(
    "version: 1\nnegative: { base: { density: [0.1, 0.2, 0.3], read: { scan: .nan, scatter: 0.1 } } }\noutput: [{ name: web, type: .inf }]",
  );
  expect(broken.problems.map((p) => p.code)).toEqual(["not-finite", "not-finite"]);
  const { shared, outputs } = resolveRoll(broken);
  expect(shared.base).toEqual({});
  expect(shared.look.base).toEqual([0.1, 0.2, 0.3]);
  expect(outputs.map((output) => output.name)).toEqual(["positive"]);
});

describe("canonical data", () => {
  test("same data, same text, whatever the order", () => {
    expect(canonicalJson({ b: [1, -0, 0.5], a: { d: null, c: undefined }, é: "x" })).toBe(
      '{"a":{"d":null},"b":[1,0,0.5],"é":"x"}',
    );
    expect(() => canonicalJson({ a: Number.NaN })).toThrow(TypeError);
  });

  // RFC 8785, section 3.2.3 and its appendix B: sorting by UTF-16 code units, and numbers.
  test("agrees with examples of RFC 8785", () => {
    const sorted = canonicalJson({
      "\u20ac": "Euro Sign",
      "\r": "Carriage Return",
      "1": "One",
      "\u0080": "Control\u007f",
      "\u00f6": "Latin Small Letter O With Diaeresis",
    });
    expect(Object.values(JSON.parse(sorted) as object).slice(1)).toEqual([
      "Carriage Return",
      "Control\u007f",
      "Latin Small Letter O With Diaeresis",
      "Euro Sign",
    ]);
    expect(canonicalJson([Number("333333333.33333329"), 1e30, 4.5, 2e-3, 0.000000000000000000000000001])).toBe(
      "[333333333.3333333,1e+30,4.5,0.002,1e-27]",
    );
  });

  test("facts change with what changes the picture, and with nothing else", () => {
    const facts = (text: string) =>
      canonicalJson(pictureFacts(frame("01", resolveRoll(parse(text), stock)), resolved.outputs[0]));
    expect(facts(rollText.replace("title: Ferry", "title: Other\n    note: x"))).toBe(facts(rollText));
    expect(facts(rollText.replace("0.33", "0.330"))).toBe(facts(rollText));
    expect(facts(rollText.replace("0.33", "0.34"))).not.toBe(facts(rollText));
    expect(facts(rollText.replace("turn: 90", "turn: 180"))).not.toBe(facts(rollText));
    const measured = rollText.replace("light: { blank: LIGHT.dng,", "light: { times: nominal, blank: LIGHT.dng,");
    expect(facts(measured)).not.toBe(facts(rollText));
  });
});
