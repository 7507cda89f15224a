/** Changes of lists whose items have an identity: outputs by name, specks by position, locks by scan. */
import { isSame } from "../edit/model.ts";
import { defaultOf } from "../schema/defaults.ts";
import type { RecipePath } from "../path.ts";
import type { Value } from "../yaml/values.ts";
import type { Change } from "./change.ts";
import { about, arrow, at, type Scope, sourcesOf, subjectOfScope } from "./compare.ts";
import { outputFields } from "./wording/key-wordings.ts";
import { fieldOf, identityOf, listOf, type Pair, pairItems } from "./identity.ts";
import { decimal, showPair, withUnit } from "./wording/value-formats.ts";
import { inBrackets, originText } from "./origins.ts";

export function spotChanges(scope: Scope, path: RecipePath): Change[] {
  const lists = listsAt(scope, path);
  if (!lists) return [];
  return pairItems("spot", lists.before, lists.after)
    .filter(({ before, after }) => !isSame(before, after))
    .map((pair) => {
      const name = spotName(path, (pair.after ?? pair.before)!);
      return {
        ...about(scope, "spots", path, name),
        origin: lists.origin,
        ...itemKind(pair, spotShown),
        text: `${name} ${spotText(pair)}${lists.words}`,
        sources: sourcesOf(scope, path),
      };
    });
}

function spotText({ identity, before, after }: Pair): string {
  if (before === undefined) {
    const [size, value] = sizeOf(after!);
    return `at ${identity} added, ${size} ${decimal(value, 4)}`;
  }
  if (after === undefined) return `at ${identity} removed`;
  const from = identityOf("spot", before);
  const moved = from === identity ? `at ${identity}` : `at ${from} moved to ${identity}`;
  const [[wasSize, was], [size, is]] = [sizeOf(before), sizeOf(after)];
  if (wasSize !== size) return `${moved}, ${wasSize} ${was} → ${size} ${is}`;
  if (was !== is) return `${moved}, ${size} ${was} → ${is}`;
  return from === identity ? `${moved}, another course` : moved;
}

/** A speck has a radius, a hair or a scratch a width. */
function sizeOf(spot: Value): [name: string, value: number] {
  const width = fieldOf(spot, "width");
  return width === undefined ? ["radius", Number(listOf(spot)[2])] : ["width", Number(width)];
}

/** What an item of a list of spots is called. */
export const spotName = (path: RecipePath, spot: Value): string =>
  `${fieldOf(spot, "line") === undefined ? "speck" : "hair or scratch"}${path[0] === "light" ? " on sensor or lens" : ""}`;

/** A spot with its size, every digit shown. */
export const spotShown = (spot: Value): string => `${identityOf("spot", spot)}, ${sizeOf(spot).join(" ")}`;

/** Outputs by name, each field by itself. */
export function outputChanges(scope: Scope): Change[] {
  const path = ["output"];
  const lists = listsAt(scope, path);
  if (!lists) return [];
  const sources = sourcesOf(scope, path);
  return pairItems("output", lists.before, lists.after).flatMap((pair): Change[] => {
    const { identity, before, after } = pair;
    const whole = { ...about(scope, "output", path, `output ${identity}`), origin: lists.origin };
    if (before === undefined || after === undefined) {
      const done = before === undefined ? "added" : "removed";
      const what = describeOutput((after ?? before)!);
      return [{ ...whole, ...itemKind(pair), text: `output ${identity} ${done}: ${what}${lists.words}`, sources }];
    }
    return Object.entries(outputFields).flatMap(([field, valueFormat]): Change[] => {
      const [was, is] = [outputValue(before, field), outputValue(after, field)];
      if (isSame(was, is)) return [];
      const shown = showPair(valueFormat, was, is);
      const text = `output ${identity} · ${arrow(field, valueFormat, ...shown)}${lists.words}`;
      const [left, right] = shown.map((words) => (words === undefined ? "none" : withUnit(words, valueFormat)));
      const sides = { before: { value: before, shown: left! }, after: { value: after, shown: right! } };
      return [{ ...whole, field, name: `output ${identity} · ${field}`, ...itemKind(pair), ...sides, text, sources }];
    });
  });
}

function describeOutput(output: Value): string {
  return Object.entries(outputFields)
    .flatMap(([field, valueFormat]) => {
      const value = fieldOf(output, field);
      return value === undefined
        ? []
        : [`${field} ${withUnit(valueFormat.show(value, valueFormat.digits), valueFormat)}`];
    })
    .join(", ");
}

/** What an output says of a field, or what follows from its type. */
function outputValue(output: Value, field: string): Value | undefined {
  const stated = fieldOf(output, field);
  if (stated !== undefined) return stated;
  const type = fieldOf(output, "type");
  if (field === "file" || field === "print") return undefined;
  if (field === "depth") return type === "tiff" ? 16 : 8;
  if (field === "quality" && type !== "jpeg" && type !== "webp" && type !== "avif") return undefined;
  if (field === "compression" && type !== "tiff") return undefined;
  return defaultOf("colour-negative", ["output", 0, field]) as Value | undefined;
}

/** Fingerprints of scans: a scan that is not the file it was. */
export function lockChanges(scope: Scope): Change[] {
  const path = ["fingerprints"];
  const [before, after] = [at(scope.before, undefined, path).value, at(scope.after, undefined, path).value];
  const names = new Set([...Object.keys(fields(before)), ...Object.keys(fields(after))]);
  return [...names].flatMap((scan): Change[] => {
    const [was, is] = [fieldOf(before, scan), fieldOf(after, scan)];
    if (isSame(was, is)) return [];
    const done = was === undefined ? "locked" : is === undefined ? "not locked any more" : "locked to another file";
    return [
      {
        ...about(scope, "lock", [...path, scan], `lock of ${scan}`),
        ...itemKind({ identity: scan, before: was, after: is }),
        text: `${scan} ${done}`,
        sources: sourcesOf(scope, [...path, scan]),
      },
    ];
  });
}

const fields = (value: Value | undefined): Readonly<Record<string, Value>> =>
  typeof value === "object" && value !== null && !Array.isArray(value) ? (value as Record<string, Value>) : {};

/** The two lists as they apply, where this subject's own statement or the value changed. */
export function listsAt(
  scope: Scope,
  path: RecipePath,
): { before?: Value; after?: Value; origin?: string; words: string } | undefined {
  const [before, after] = [at(scope.before, scope.was, path), at(scope.after, scope.frame, path)];
  if (isSame(before.value, after.value)) return undefined;
  if (scope.frame !== undefined && before.origin?.level !== "frame" && after.origin?.level !== "frame")
    return undefined;
  // A list that was not there at all has no origin worth telling.
  const was = before.origin?.level === "default" ? undefined : before.origin;
  const origin = originText(subjectOfScope(scope), was, after.origin?.level === "default" ? undefined : after.origin);
  return { before: before.value, after: after.value, origin, words: inBrackets(origin) };
}

export const itemKind = (
  { identity, before, after }: Pair,
  show: (item: Value) => string = () => identity,
): Pick<Change, "item" | "kind" | "before" | "after"> => ({
  item: identity,
  kind: before === undefined ? "added" : after === undefined ? "removed" : "changed",
  ...(before === undefined ? {} : { before: { value: before, shown: show(before) } }),
  ...(after === undefined ? {} : { after: { value: after, shown: show(after) } }),
});
