/** Changes of areas of local exposure, by identity: "burn 2, sky: −0.50 → −0.80 EV". */
import { isSame } from "../edit/model.ts";
import type { Value } from "../yaml/values.ts";
import type { Change } from "./change.ts";
import { about, arrow, type Scope, sourcesOf } from "./compare.ts";
import { fieldOf, listOf, pairItems } from "./identity.ts";
import { itemKind, listsAt } from "./lists.ts";
import { showPair, withUnit } from "./wording/value-formats.ts";
import { localFields } from "./wording/key-wordings.ts";

const PATH = ["positive", "local"];
const SHAPES = ["line", "oval", "polygon"] as const;

/** What a field is where it is not stated; shapes and names have no default. */
const DEFAULTS: Readonly<Record<string, Value>> = { exposure: 0, filtration: {}, contrast: 1, turn: 0, feather: 0.1 };

/** Every changed field of every area; an area that is new or gone as a whole. */
export function localChanges(scope: Scope): Change[] {
  const lists = listsAt(scope, PATH);
  if (!lists) return [];
  const sources = sourcesOf(scope, PATH);
  return pairItems("local", lists.before, lists.after).flatMap((pair): Change[] => {
    const { before, after } = pair;
    if (isSame(before, after)) return [];
    const name = localName((after ?? before)!, after === undefined ? lists.before : lists.after);
    const whole = { ...about(scope, "local", PATH, name), origin: lists.origin };
    if (before === undefined || after === undefined) {
      const done = before === undefined ? "added" : "removed";
      return [
        {
          ...whole,
          ...itemKind(pair, shown),
          text: `${name} ${done}: ${shown((after ?? before)!)}${lists.words}`,
          sources,
        },
      ];
    }
    return Object.entries(localFields).flatMap(([field, format]): Change[] => {
      const [was, is] = [before, after].map((area) => fieldOf(area, field) ?? DEFAULTS[field]);
      if (isSame(was, is)) return [];
      const pairShown = showPair(format, was, is);
      // The exposure is what an area is about; every other field is named.
      const words = arrow(field === "exposure" ? "" : field, format, ...pairShown).trim();
      const [left, right] = pairShown.map((text) => (text === undefined ? "none" : withUnit(text, format)));
      const sides = { before: { value: before, shown: left! }, after: { value: after, shown: right! } };
      const text = `${name}: ${words}${lists.words}`;
      return [{ ...whole, field, name: `${name}: ${field}`, ...itemKind(pair), ...sides, text, sources }];
    });
  });
}

/** "burn 2, sky": what the area does, its place in the list, and its name. */
export function localName(area: Value, all: Value | undefined): string {
  const exposure = Number(fieldOf(area, "exposure") ?? 0);
  const kind = exposure < 0 ? "burn" : exposure > 0 ? "dodge" : "area";
  const number = listOf(all).findIndex((one) => one === area) + 1;
  const name = fieldOf(area, "name");
  return `${kind} ${number}${typeof name === "string" ? `, ${name}` : ""}`;
}

/** "line, −0.80 EV, contrast 1.20" */
function shown(area: Value): string {
  const shape = SHAPES.find((one) => fieldOf(area, one) !== undefined) ?? "no shape";
  const effects = (["exposure", "filtration", "contrast"] as const).flatMap((field) => {
    const value = fieldOf(area, field);
    if (value === undefined) return [];
    const format = localFields[field]!;
    const text = withUnit(format.show(value, format.digits), format);
    return [field === "contrast" ? `contrast ${text}` : text];
  });
  return [shape, ...effects].join(", ");
}
