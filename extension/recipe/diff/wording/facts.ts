import { defaultOf } from "../../schema/defaults.ts";
import type { RecipePath } from "../../path.ts";
import type { Value } from "../../yaml/values.ts";
import { flag, list, matrix, type Measure, number, points, quoted, table, text, triple } from "./measures.ts";

/** What changes are grouped by, in the order in which they are told. */
export const groups = [
  "film",
  "scan",
  "light",
  "base",
  "curve",
  "colour",
  "balance",
  "tone",
  "crop",
  "spots",
  "output",
  "notes",
  "lock",
] as const;
export type Group = (typeof groups)[number];

/** One thing that a recipe can say: what it is about, what people call it, and how its value is put into words. */
export interface Fact {
  readonly path: RecipePath;
  readonly group: Group;
  readonly name: string;
  readonly measure: Measure;
}

const fact = (path: string, group: Group, name: string, measure: Measure): Fact => ({
  path: path.split("."),
  group,
  name,
  measure,
});

/** Said by stock, roll or frame, the nearest winning. */
export const cascadingFacts: readonly Fact[] = [
  fact("light.blank", "light", "blank", text),
  fact("light.flare", "light", "flare", triple(4)),
  fact("negative.base.density", "base", "base density", triple(3)),
  fact("negative.base.read.scan", "base", "base read from", text),
  fact("negative.base.read.area", "base", "area the base was read in", list(3)),
  fact("negative.base.read.scatter", "base", "standard deviation of the base", triple(3)),
  fact("negative.gamma", "curve", "gamma", triple(2)),
  fact("negative.curve", "curve", "characteristic curve", table),
  fact("negative.unmix", "colour", "unmix", matrix),
  fact("negative.colour", "colour", "colour matrix", matrix),
  fact("positive.saturation", "colour", "saturation", number(2)),
  fact("positive.exposure", "balance", "exposure", number(2, "EV", true)),
  fact("positive.filtration.cyan", "balance", "cyan", number(0, "CC")),
  fact("positive.filtration.magenta", "balance", "magenta", number(0, "CC")),
  fact("positive.filtration.yellow", "balance", "yellow", number(0, "CC")),
  fact("positive.contrast", "tone", "contrast", number(2)),
  fact("positive.toe", "tone", "toe", number(2)),
  fact("positive.shoulder", "tone", "shoulder", number(2)),
  fact("positive.black", "tone", "black", number(1, "L*")),
  fact("positive.curve", "tone", "tone curve", points),
];

/** Said of a roll or a stock as a whole. */
export const rollFacts: readonly Fact[] = [
  fact("title", "notes", "title", quoted),
  fact("note", "notes", "note", quoted),
  fact("stock", "film", "stock", text),
  fact("film", "film", "kind of film", text),
  fact("format", "film", "format", text),
  fact("iso", "film", "box speed", number(0, "ISO")),
  fact("process", "film", "process", text),
  fact("exposed.camera", "film", "camera", text),
  fact("exposed.lens", "film", "lens", text),
  fact("exposed.date", "film", "date", text),
  fact("exposed.rated", "film", "rated", number(0, "ISO")),
  fact("exposed.push", "film", "push", number(1, "stops", true)),
  fact("exposed.place", "film", "place", text),
  fact("scans", "scan", "folder of scans", text),
];

/** Said of one frame. */
export const frameFacts: readonly Fact[] = [
  fact("scan", "scan", "scan", text),
  fact("scans", "scan", "scans", list(0)),
  fact("unused", "scan", "scans not used", list(0)),
  fact("join", "scan", "places of the joined scans", matrix),
  fact("skip", "scan", "skipped", flag),
  fact("area.left", "crop", "left edge", number(4, "of the scan’s width")),
  fact("area.top", "crop", "top edge", number(4, "of the scan’s height")),
  fact("area.width", "crop", "width", number(4, "of the scan’s width")),
  fact("area.height", "crop", "height", number(4, "of the scan’s height")),
  fact("area.tilt", "crop", "tilt", number(2, "°", true)),
  fact("turn", "crop", "turned", number(0, "°")),
  fact("mirror", "crop", "mirrored", flag),
  fact("title", "notes", "title", quoted),
  fact("note", "notes", "note", quoted),
];

/** Lists of specks, which are told one by one. */
export const spotLists: readonly RecipePath[] = [["light", "spots"], ["spots"]];

/** What an output says beside its name; its type decides some of the defaults. */
export const outputFields: Readonly<Record<string, Measure>> = {
  type: text,
  depth: number(0, "bit"),
  quality: number(0),
  space: text,
  long: number(0, "px"),
  sharpen: number(2),
  compression: text,
};

/** One number may stand for three: both ways of writing say the same. */
const triples = new Set(["light.flare", "negative.gamma", "negative.base.read.scatter"]);

/** The value in the one form in which values are compared. */
export function comparable({ path }: Pick<Fact, "path">, value: Value | undefined): Value | undefined {
  if (typeof value === "number" && triples.has(path.join("."))) return [value, value, value];
  if (value === undefined && path[0] === "area") return defaultOf("colour-negative", path, true) as Value | undefined;
  return value;
}
