/** How each recipe key is named and formatted in a diff, and to which group it belongs. */
import { defaultOf } from "../../schema/defaults.ts";
import type { RecipePath } from "../../path.ts";
import type { Value } from "../../yaml/values.ts";
import {
  byChannelNames,
  filmFormat,
  flag,
  list,
  matrix,
  type ValueFormat,
  number,
  places,
  points,
  quoted,
  sheet,
  table,
  text,
  triple,
  wordedFilters,
  wordList,
} from "./value-formats.ts";

/** What changes are grouped by, in the order in which they are told. */
export const groups = [
  "film",
  "scan",
  "choice",
  "light",
  "base",
  "curve",
  "colour",
  "balance",
  "tone",
  "local",
  "crop",
  "spots",
  "output",
  "notes",
  "lock",
] as const;
export type Group = (typeof groups)[number];

/** One thing that a recipe can say: what it is about, what people call it, and how its value is put into words. */
export interface KeyWording {
  readonly path: RecipePath;
  readonly group: Group;
  readonly name: string;
  readonly valueFormat: ValueFormat;
}

const wording = (path: string, group: Group, name: string, valueFormat: ValueFormat): KeyWording => ({
  path: path.split("."),
  group,
  name,
  valueFormat,
});

/** Said by stock, roll or frame, the nearest winning. */
export const cascadingKeys: readonly KeyWording[] = [
  wording("light.blank", "light", "blank", byChannelNames),
  wording("light.flare", "light", "flare", triple(4)),
  wording("light.times", "light", "shutter times", text),
  wording("light.lens.lateral.red", "light", "lateral colour of red", list(5)),
  wording("light.lens.lateral.blue", "light", "lateral colour of blue", list(5)),
  wording("light.lens.distortion", "light", "distortion of the lens", list(5)),
  wording("light.lens.falloff.radial", "light", "falloff", list(3)),
  wording("light.lens.falloff.oval", "light", "falloff at the sides", number(3, "EV")),
  wording("light.lens.falloff.gradient", "light", "falloff from side to side", list(3)),
  wording("negative.base.density", "base", "base density", triple(3)),
  wording("negative.base.read.scan", "base", "base read from", text),
  wording("negative.base.read.area", "base", "area the base was read in", list(3)),
  wording("negative.base.read.scatter", "base", "standard deviation of the base", triple(3)),
  wording("negative.gamma", "curve", "gamma", triple(2)),
  wording("negative.curve", "curve", "characteristic curve", table),
  wording("negative.unmix", "colour", "unmix", matrix),
  wording("negative.colour", "colour", "colour matrix", matrix),
  wording("positive.saturation", "colour", "saturation", number(2)),
  wording("positive.exposure", "balance", "exposure", number(2, "EV", true)),
  wording("positive.filtration.cyan", "balance", "cyan", number(0, "CC")),
  wording("positive.filtration.magenta", "balance", "magenta", number(0, "CC")),
  wording("positive.filtration.yellow", "balance", "yellow", number(0, "CC")),
  wording("positive.contrast", "tone", "contrast", number(2)),
  wording("positive.toe", "tone", "toe", number(2)),
  wording("positive.shoulder", "tone", "shoulder", number(2)),
  wording("positive.black", "tone", "black", number(1, "L*")),
  wording("positive.toning.shadows.hue", "tone", "hue of the shadows", number(0, "°")),
  wording("positive.toning.shadows.strength", "tone", "toning of the shadows", number(0, "C*ab")),
  wording("positive.toning.highlights.hue", "tone", "hue of the highlights", number(0, "°")),
  wording("positive.toning.highlights.strength", "tone", "toning of the highlights", number(0, "C*ab")),
  wording("positive.toning.paper.hue", "tone", "hue of the paper", number(0, "°")),
  wording("positive.toning.paper.strength", "tone", "colour of the paper", number(0, "C*ab")),
  wording("positive.curve", "tone", "tone curve", points),
  wording("exposed.camera", "film", "camera", text),
  wording("exposed.lens", "film", "lens", text),
  wording("exposed.date", "film", "date", text),
  wording("exposed.time", "film", "time", text),
  wording("exposed.rated", "film", "rated", number(0, "ISO")),
  wording("exposed.push", "film", "push", number(1, "stops", true)),
  wording("exposed.place", "film", "place", text),
  wording("exposed.coordinates", "film", "coordinates", list(4)),
  wording("exposed.focal", "film", "focal length", number(0, "mm")),
  wording("exposed.aperture", "film", "aperture", number(1)),
  wording("exposed.shutter", "film", "exposure time", text),
  wording("exposed.filter", "film", "filter", text),
  wording("exposed.developer", "film", "developer", text),
  wording("iptc.caption", "notes", "caption", quoted),
  wording("iptc.keywords", "notes", "keywords", wordList),
  wording("iptc.creator", "notes", "creator", text),
  wording("iptc.copyright", "notes", "copyright", text),
];

/** Said of a roll or a stock as a whole. */
export const rollKeys: readonly KeyWording[] = [
  wording("title", "notes", "title", quoted),
  wording("note", "notes", "note", quoted),
  wording("stock", "film", "stock", text),
  wording("film", "film", "kind of film", text),
  wording("format", "film", "format", filmFormat),
  wording("iso", "film", "box speed", number(0, "ISO")),
  wording("process", "film", "process", text),
  wording("scans", "scan", "folder of scans", text),
];

/** Said of one frame. */
export const frameKeys: readonly KeyWording[] = [
  wording("scan", "scan", "scan", text),
  wording("scans", "scan", "scans", list(0)),
  wording("exposures", "scan", "exposures", list(0)),
  wording("channels", "scan", "channels", byChannelNames),
  wording("unused", "scan", "scans not used", list(0)),
  wording("join", "scan", "places of the joined scans", places),
  wording("skip", "scan", "skipped", flag),
  wording("choice", "choice", "choice", text),
  wording("rank", "choice", "rank", number(0)),
  wording("area.left", "crop", "left edge", number(4, "of the scan’s width")),
  wording("area.top", "crop", "top edge", number(4, "of the scan’s height")),
  wording("area.width", "crop", "width", number(4, "of the scan’s width")),
  wording("area.height", "crop", "height", number(4, "of the scan’s height")),
  wording("area.tilt", "crop", "tilt", number(2, "°", true)),
  wording("turn", "crop", "turned", number(0, "°")),
  wording("mirror", "crop", "mirrored", flag),
  wording("title", "notes", "title", quoted),
  wording("note", "notes", "note", quoted),
];

/** Lists of specks, which are told one by one. */
export const spotLists: readonly RecipePath[] = [["light", "spots"], ["spots"]];

/** What an area of local exposure says beside its identity, in the order in which changes are told. */
export const localFields: Readonly<Record<string, ValueFormat>> = {
  name: quoted,
  exposure: number(2, "EV", true),
  filtration: wordedFilters,
  contrast: number(2),
  line: matrix,
  oval: list(3),
  polygon: matrix,
  turn: number(1, "°", true),
  feather: number(3),
};

/** What an output says beside its name; its type decides some of the defaults. */
export const outputFields: Readonly<Record<string, ValueFormat>> = {
  type: text,
  file: quoted,
  depth: number(0, "bit"),
  quality: number(0),
  space: text,
  long: number(0, "px"),
  sharpen: number(2),
  compression: text,
  print: sheet,
};

/** One number may stand for three: both ways of writing say the same. */
const triples = new Set(["light.flare", "negative.gamma", "negative.base.read.scatter"]);

/** The value in the one form in which values are compared. */
export function comparable({ path }: Pick<KeyWording, "path">, value: Value | undefined): Value | undefined {
  if (typeof value === "number" && triples.has(path.join("."))) return [value, value, value];
  if (value === undefined && path[0] === "area")
    return defaultOf("colour-negative", path, { isFrame: true }) as Value | undefined;
  return value;
}
