import fc from "../../properties.ts";
import { Document, isCollection, visit } from "yaml";

/** Valid recipes as data, and as texts in many hands: block and flow, comments, blank lines, quotes, line endings. */

const number = (min: number, max: number, decimals = 3) =>
  fc
    .integer({ min: Math.ceil(min * 10 ** decimals), max: Math.floor(max * 10 ** decimals) })
    .map((n) => Number((n / 10 ** decimals).toFixed(decimals)));
const triple = (min: number, max: number) => fc.tuple(number(min, max), number(min, max), number(min, max));
const some = <T extends object>(keys: { [K in keyof T]: fc.Arbitrary<T[K]> }, required: (keyof T)[] = []) =>
  fc.record(keys, { requiredKeys: required }).filter((value) => Object.keys(value).length > 0);

/** Texts that YAML would read otherwise if they were not quoted are among them. */
export const word = fc.oneof(
  fc.stringMatching(/^[a-z][a-z ]{0,12}[a-z]$/),
  fc.constantFrom(
    "true",
    "12",
    "1e3",
    "null",
    "a, b",
    "x: y",
    "#1",
    "it's",
    'say "so"',
    "[x]",
    "ü ö",
    "-",
    "~",
    "@home",
    "a #b",
    "012",
    "0x1f",
    ".5",
    "yes",
    "é",
    "- x",
    "? x",
    "%x",
    "!x",
    "&x",
    "*x",
    "'",
    '"',
    "a:",
    "back\\slash",
    "=",
    "<<",
  ),
);
export const text = fc.oneof(
  word,
  word.map((w) => `${w}, second`),
  fc.constantFrom("two\nlines", "three\n\nlines\n", " leading", "tab\there", "😀"),
);
const scanName = fc.integer({ min: 0, max: 9999 }).map((n) => `H${String(n).padStart(4, "0")}.dng`);
const centreline = fc.array(fc.tuple(number(0, 1), number(0, 1)), { minLength: 2, maxLength: 5 });
const spots = fc.array(
  fc.oneof(
    fc.tuple(number(0, 1), number(0, 1), number(0.001, 0.1)),
    fc.record({ line: centreline, width: number(0.001, 0.05) }),
  ),
  { minLength: 1, maxLength: 6 },
);
const light = some({ blank: scanName, flare: fc.oneof(number(0, 0.2), triple(0, 0.2)), spots });
const base = some({
  density: triple(0, 3),
  read: some({ scan: scanName, area: fc.constant([0.1, 0.2, 0.3, 0.25] as const), scatter: number(0, 1) }, ["scan"]),
});
const negative = some({
  base,
  gamma: fc.oneof(number(0.2, 2), triple(0.2, 2)),
  unmix: fc.constant([
    [1.2, -0.1, -0.1],
    [-0.1, 1.2, -0.1],
    [0, -0.2, 1.2],
  ]),
});
const place = fc.tuple(number(0, 0.9), number(0, 0.9));
const localArea = fc.oneof(
  some({ name: fc.constantFrom("sky", "face"), exposure: number(-2, 2), contrast: number(0.5, 2) }).chain((rest) =>
    place.map(([x, y]) => ({
      line: [
        [x, y],
        [x, 1],
      ],
      ...rest,
    })),
  ),
  some({ turn: number(-90, 90, 0), feather: number(0, 0.5), filtration: some({ yellow: number(-20, 20, 0) }) }).chain(
    (rest) => place.map(([x, y]) => ({ oval: [x, y, 0.1, 0.15], ...rest })),
  ),
);
/** Areas with identities of their own. */
const local = fc
  .array(localArea, { minLength: 1, maxLength: 3 })
  .map((areas) => areas.map((area, i) => ({ id: `a${i + 1}`, ...area })));
const positive = some({
  local,
  exposure: number(-4, 4),
  filtration: some({ cyan: number(-50, 50, 0), magenta: number(-50, 50, 0), yellow: number(-50, 50, 0) }),
  contrast: fc.oneof(number(0.5, 3), fc.constantFrom("R110", "grade 2", "grade -1")),
  toe: number(0, 1),
  black: number(0, 20),
  saturation: number(0, 2),
  toning: some({
    shadows: some({ hue: number(0, 360, 0), strength: number(0, 60, 1) }),
    paper: some({ hue: number(0, 360, 0), strength: number(0, 30, 1) }),
  }),
  curve: fc.constantFrom(
    [
      [0, 0],
      [100, 100],
    ],
    [
      [0, 2],
      [20, 21],
      [40, 45],
      [60, 66],
      [100, 98],
    ],
  ),
});
const area = fc
  .record(
    {
      left: number(0, 0.1),
      top: number(0, 0.1),
      width: number(0.5, 0.9),
      height: number(0.5, 0.9),
      tilt: number(-2, 2),
    },
    { requiredKeys: ["left"] },
  )
  .map((a) => ({ ...a, width: a.width ?? 0.8 }));
const exposed = some({
  camera: word,
  lens: word,
  date: fc.constant("2026-05-02"),
  rated: number(25, 3200, 0),
  push: number(-2, 2, 0),
  coordinates: fc.tuple(number(-90, 90, 4), number(-180, 180, 4)),
  aperture: number(1, 22, 1),
  shutter: fc.constantFrom<number | string>("1/250", "1/30", 2),
});
const iptc = some({
  caption: word,
  keywords: fc.array(fc.constantFrom("harbour", "ferry", "true", "1"), { minLength: 1, maxLength: 3 }),
  creator: word,
});

const frame = some(
  {
    scan: scanName,
    area: fc.option(area, { nil: undefined }),
    turn: fc.constantFrom(0, 90, 180, 270),
    mirror: fc.boolean(),
    positive,
    negative,
    spots,
    title: word,
    note: word,
    exposed: fc.option(exposed, { nil: undefined }),
    iptc: fc.option(iptc, { nil: undefined }),
  },
  ["scan"],
).map(({ area: crop, ...rest }) =>
  crop ? { ...rest, area: { ...crop, top: crop.top ?? 0, height: crop.height ?? 0.7 } } : rest,
);
export const frameId = fc
  .tuple(fc.integer({ min: 0, max: 40 }), fc.constantFrom("", "", "A"))
  .map(([n, letter]) => String(n).padStart(2, "0") + letter);

/** A roll's value. Scans may be used twice: that is only a warning. */
export const roll = fc
  .record(
    {
      version: fc.constant(1),
      title: word,
      stock: fc.constant("../stocks/northlight-400.stock.yaml"),
      format: fc.constantFrom("135", "645", "6x7"),
      exposed,
      iptc,
      scans: fc.constant("scans"),
      light,
      negative,
      positive,
      output: fc.constantFrom(
        [{ name: "web", type: "jpeg", quality: 90 }],
        [
          { name: "archive", type: "tiff", depth: 16 },
          { name: "web", type: "png" },
        ],
      ),
      frames: fc.dictionary(frameId, frame, { minKeys: 1, maxKeys: 4 }),
      note: text,
    },
    { requiredKeys: ["version"] },
  )
  .map((value) => value as Record<string, unknown>);

export interface Written {
  readonly value: Record<string, unknown>;
  readonly text: string;
}

/** A roll as somebody may have written it. */
export const written: fc.Arbitrary<Written> = fc
  .record({
    value: roll,
    shuffle: fc.array(fc.nat(), { maxLength: 12 }),
    flow: fc.array(fc.boolean(), { minLength: 1, maxLength: 12 }),
    comments: fc.array(fc.constantFrom("", "", "", "blank", "own", "trail", "blank own", "own blank own"), {
      minLength: 1,
      maxLength: 20,
    }),
    indent: fc.constantFrom(2, 3, 4),
    eol: fc.constantFrom("\n", "\n", "\r\n"),
    sequences: fc.boolean(),
    single: fc.constantFrom(true, false, null),
  })
  .map(({ value, shuffle, flow, comments, indent, eol, sequences, single }) => {
    const keys = Object.keys(value).toSorted(
      (a, b) =>
        (shuffle[a.length % Math.max(1, shuffle.length)] ?? 0) - (shuffle[b.length % Math.max(1, shuffle.length)] ?? 0),
    );
    const document = new Document(JSON.parse(JSON.stringify(Object.fromEntries(keys.map((key) => [key, value[key]])))));
    let i = 0;
    visit(document, (_, node, path) => {
      if (isCollection(node) && path.length > 1) node.flow = flow[i++ % flow.length];
    });
    const plain = document.toString({ indent, indentSeq: sequences, lineWidth: 0, singleQuote: single });
    return { value, text: comment(plain, comments).replaceAll("\n", eol) };
  });

/** Puts comments and blank lines between lines, and comments behind them, outside texts of several lines. */
function comment(text: string, comments: readonly string[]): string {
  let count = 0;
  let block = -1;
  const out: string[] = [];
  for (const line of text.trimEnd().split("\n")) {
    const indent = line.length - line.trimStart().length;
    const isInside = block >= 0 && (line.trim() === "" || indent > block);
    if (!isInside) block = -1;
    const how = isInside ? "" : comments[count++ % comments.length]!;
    for (const piece of how.split(" "))
      if (piece !== "" && piece !== "trail") out.push(piece === "blank" ? "" : `${" ".repeat(indent)}# note ${count}`);
    const opensText = /[|>][-+0-9]*$/.test(line);
    if (opensText && !isInside) block = indent;
    out.push(how === "trail" && !opensText ? `${line}  # trail ${count}` : line);
  }
  return `${out.join("\n")}\n`;
}
