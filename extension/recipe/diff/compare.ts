/** Compares what applies to a roll or stock before and after, value by value. */
import type { Origin } from "../resolve/cascade.ts";
import { step } from "../resolve/cascade.ts";
import type { RecipeDocument } from "../problems/document.ts";
import { isSame } from "../edit/model.ts";
import type { RecipePath } from "../path.ts";
import type { ResolvedRoll } from "../resolve/resolve.ts";
import type { Value } from "../yaml/values.ts";
import type { Change, ChangeSide, Source } from "./change.ts";
import { comparable, type KeyWording, type Group } from "./wording/key-wordings.ts";
import { type ValueFormat, showPair, withUnit } from "./wording/value-formats.ts";
import { inBrackets, originText, type Subject } from "./origins.ts";

/** A roll or a stock with everything that follows from it, as it was or as it is. */
export interface RecipeState {
  readonly roll: RecipeDocument;
  readonly stock?: RecipeDocument;
  readonly resolved: ResolvedRoll;
}

/** The two sides, and a frame in them whose name may have changed. */
export interface Scope {
  readonly before: RecipeState;
  readonly after: RecipeState;
  readonly was?: string;
  readonly frame?: string;
}

export const subjectOfScope = ({ after, frame }: Scope): Subject => (frame === undefined ? after.roll.kind : "frame");

interface At {
  readonly value: Value | undefined;
  readonly origin: Origin | undefined;
}

export function at({ resolved }: RecipeState, frame: string | undefined, path: RecipePath): At {
  return { value: resolved.valueAt(frame, path), origin: resolved.originOf(frame, path) };
}

/** What one fact changed to; undefined where it says the same and the same level states it. */
export function factChange(scope: Scope, wording: KeyWording): Change | undefined {
  const before = at(scope.before, scope.was, wording.path);
  const after = at(scope.after, scope.frame, wording.path);
  const same = isSame(comparable(wording, before.value), comparable(wording, after.value));
  const isFrame = scope.frame !== undefined;
  if (isFrame && !isStatedInEither(before.origin, after.origin)) return undefined;
  if (same && levelOf(before.origin) === levelOf(after.origin)) return undefined;
  const [was, is] = showPair(wording.valueFormat, before.value, after.value, same);
  const origin = originText(subjectOfScope(scope), before.origin, after.origin);
  const sides = { before: side(wording.valueFormat, before, was), after: side(wording.valueFormat, after, is) };
  return {
    ...about(scope, wording.group, wording.path, wording.name),
    kind: same ? "restated" : before.value === undefined ? "added" : after.value === undefined ? "removed" : "changed",
    ...sides,
    text: same
      ? `${wording.name} stays ${withUnit(is ?? "none", wording.valueFormat)}${inBrackets(origin)}`
      : `${arrow(wording.name, wording.valueFormat, was, is)}${inBrackets(origin)}`,
    ...(origin === undefined ? {} : { origin }),
    sources: sourcesOf(scope, wording.path),
  };
}

/** "exposure +0.00 → +0.33 EV" */
export const arrow = (
  name: string,
  valueFormat: ValueFormat,
  was: string | undefined,
  is: string | undefined,
): string => {
  const [left, right] = [was ?? "none", is ?? "none"];
  return `${name} ${is === undefined && was !== undefined ? withUnit(left, valueFormat) : left} → ${is === undefined ? right : withUnit(right, valueFormat)}`;
};

export const about = (
  { frame }: Scope,
  group: Group,
  path: RecipePath,
  name: string,
): Pick<Change, "group" | "frame" | "path" | "name" | "followers"> => ({
  group,
  ...(frame === undefined ? {} : { frame }),
  path,
  name,
  followers: [],
});

/**
 * The nearest level's statement of a value that is not what it was. What changed on the levels behind it is a change of
 * its own: taking a frame's value back leaves the roll's alone.
 */
export function sourcesOf({ before, after, was, frame }: Scope, path: RecipePath): Source[] {
  const sources: Source[] = [];
  const look = (old: RecipeDocument | undefined, now: RecipeDocument | undefined, from: RecipePath, to: RecipePath) => {
    const [a, b] = [stated(old, from), stated(now, to)];
    const file = (now ?? old)?.file;
    if (file !== undefined && !isSame(a, b)) sources.push({ file, path: to, before: a, after: b });
  };
  if (frame !== undefined) look(before.roll, after.roll, ["frames", was ?? frame, ...path], ["frames", frame, ...path]);
  look(before.roll, after.roll, path, path);
  // A roll that was given another stock: neither stock's text has to change to take that back.
  if (before.stock?.file === after.stock?.file) look(before.stock, after.stock, path, path);
  return sources.slice(0, 1);
}

/** What a text itself says at `path`. */
export function stated(document: RecipeDocument | undefined, path: RecipePath): Value | undefined {
  let value: Value | undefined = document?.value;
  for (const part of path) value = step(value, part);
  return value;
}

const side = (valueFormat: ValueFormat, { value, origin }: At, shown: string | undefined): ChangeSide | undefined =>
  value === undefined || shown === undefined
    ? undefined
    : { value, shown: withUnit(shown, valueFormat), ...(origin ? { origin } : {}) };

const levelOf = (origin: Origin | undefined): string => origin?.level ?? "none";

const isStatedInEither = (before: Origin | undefined, after: Origin | undefined): boolean =>
  before?.level === "frame" || after?.level === "frame";
