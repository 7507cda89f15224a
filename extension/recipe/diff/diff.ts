/** Compares two states of a roll: its own changes, then those of each frame. */
import { frameIds, rollLevels } from "../resolve/cascade.ts";
import { parseRecipe } from "../problems/document.ts";
import { migrateRecipe } from "../edit/versions.ts";
import { resolveRoll } from "../resolve/resolve.ts";
import { isFields, isSame } from "../edit/model.ts";
import type { RecipePath } from "../path.ts";
import { canonicalJson } from "../resolve/canonical.ts";
import type { Value } from "../yaml/values.ts";
import { itemsOf } from "./identity.ts";
import type { ResolvedFrame } from "../resolve/resolve.ts";
import type { Change } from "./change.ts";
import { at, factChange, type Scope, type RecipeState, sourcesOf } from "./compare.ts";
import { cascadingKeys, comparable, frameKeys, groups, rollKeys, spotLists } from "./wording/key-wordings.ts";
import { type FramePair, pairFrames } from "./frames.ts";
import { lockChanges, outputChanges, spotChanges } from "./lists.ts";
import { localChanges } from "./local.ts";
import { type OrderMove, orderMoves } from "./order.ts";
import { pictureKey } from "./pictures.ts";
import { withExposures } from "./exposures.ts";

export type { RecipeState } from "./compare.ts";
export type { Change } from "./change.ts";
export { subjectOf } from "./change.ts";

/** A frame that is new, gone, renamed, or asks for another picture. */
export interface FrameDiff extends FramePair {
  readonly status: "added" | "removed" | "changed";
  /** Whether its picture may look different. */
  readonly looksDifferent: boolean;
}

/** What two states of one roll or stock differ in. */
export interface RecipeDiff {
  readonly changes: readonly Change[];
  /** Frames with changes of their own, or whose picture may look different. */
  readonly frames: readonly FrameDiff[];
  /** The text changed, but nothing that it says: comments, order or layout alone. */
  readonly formattingOnly: boolean;
}

/** Compares a roll (or a stock) with itself at another time. Identities are frame ids, outputs' names, specks' positions. */
export function diffRecipes(before: RecipeState, after: RecipeState): RecipeDiff {
  const pairs = pairFrames(before.resolved, after.resolved);
  // Values are compared in one version's terms; pictures as each side's own version makes them.
  const newest = Math.max(before.resolved.version, after.resolved.version);
  const scope: Scope = { before: inVersion(before, newest), after: inVersion(after, newest) };
  const changes: Change[] = [
    ...versionChange(before, after),
    ...ofRoll(scope).map((change) => withFollowers(change, scope, pairs)),
    ...pairs.flatMap((pair) => ofFrame(scope, pair)),
  ];
  const own = new Set(changes.map((change) => change.frame));
  const frames = pairs.flatMap((pair): FrameDiff[] => {
    const looksDifferent = pictureDiffers(pair);
    if (!looksDifferent && !own.has(pair.id)) return [];
    return [{ ...pair, status: !pair.before ? "added" : !pair.after ? "removed" : "changed", looksDifferent }];
  });
  const formattingOnly =
    before.roll.text !== after.roll.text &&
    isSame(unordered(before.roll.value), unordered(after.roll.value)) &&
    sameOrder(before, after);
  return { changes, frames, formattingOnly };
}

function ofRoll(scope: Scope): Change[] {
  const keys = [...rollKeys, ...cascadingKeys].flatMap((wording) => factChange(scope, wording) ?? []);
  const lists = [
    ...localChanges(scope),
    ...spotChanges(scope, ["light", "spots"]),
    ...outputChanges(scope),
    ...lockChanges(scope),
  ];
  const order = orderChange(scope);
  return inOrder([...keys, ...lists, ...(order ? [order] : [])]);
}

function ofFrame(scope: Scope, pair: FramePair): Change[] {
  const { id, before, after } = pair;
  if (!before || !after) return [addedOrRemoved(scope, pair)];
  const inFrame = { ...scope, was: before.id, frame: after.id };
  const keys = [...frameKeys, ...cascadingKeys].flatMap((wording) => factChange(inFrame, wording) ?? []);
  const changes = inOrder([
    ...withExposures(keys, before, after),
    ...localChanges(inFrame),
    ...spotLists.flatMap((path) => spotChanges(inFrame, path)),
  ]);
  return before.id === id ? changes : [renamed(before.id, id), ...changes];
}

/** A state whose recipe is brought to a later version: toe and shoulder then compare with those of that version. */
function inVersion(state: RecipeState, version: number): RecipeState {
  const { roll, stock, resolved } = state;
  if (resolved.version === version || !roll.wellFormed) return state;
  const { file, kind } = roll;
  const migrated = parseRecipe(migrateRecipe(roll.text, { file, kind, to: version }), { file, kind });
  return { ...state, roll: migrated, resolved: resolveRoll(migrated, stock) };
}

function versionChange(before: RecipeState, after: RecipeState): Change[] {
  const [was, is] = [before.resolved.version, after.resolved.version];
  if (was === is) return [];
  const path = ["version"];
  const file = after.roll.file;
  return [
    {
      group: "film",
      path,
      name: "recipe format",
      kind: "changed",
      before: { value: was, shown: `version ${was}` },
      after: { value: is, shown: `version ${is}` },
      text: `recipe format version ${was} → version ${is}, in which toe and shoulder open or close their tones`,
      followers: [],
      sources: [{ file, path, before: was, after: is }],
    },
  ];
}

const inOrder = (changes: readonly Change[]): Change[] =>
  changes.toSorted((a, b) => groups.indexOf(a.group) - groups.indexOf(b.group));

/** Which frames the roll's change reaches: those that do not state the value themselves. */
function withFollowers(change: Change, { before, after }: Scope, pairs: readonly FramePair[]): Change {
  if (change.kind === "restated" || !cascades(change)) return change;
  const followers = pairs.filter((pair) => {
    if (!pair.before || !pair.after) return false;
    const [was, is] = [at(before, pair.before.id, change.path), at(after, pair.after.id, change.path)];
    return is.origin?.level !== "frame" && !isSame(comparable(change, was.value), comparable(change, is.value));
  });
  return { ...change, followers: followers.map((pair) => pair.id) };
}

const CASCADING: ReadonlySet<unknown> = new Set(["positive", "negative", "light", "exposed", "iptc"]);
const cascades = ({ path }: Change): boolean => CASCADING.has(path[0]);

function addedOrRemoved(scope: Scope, { id, before, after }: FramePair): Change {
  const frame = (after ?? before) as ResolvedFrame;
  const scans = frame.scans.map((scan) => scan.name).join(", ") || "no scan";
  return {
    group: "scan",
    frame: id,
    path: [],
    name: "frame",
    kind: after ? "added" : "removed",
    text: after ? `new frame, ${scans}` : `frame removed, ${scans}`,
    followers: [],
    sources: sourcesOf({ ...scope, was: id, frame: id }, []).filter((source) => source.path.length > 0),
  };
}

const renamed = (was: string, id: string): Change => ({
  group: "scan",
  frame: id,
  path: [],
  name: "frame",
  kind: "renamed",
  text: `was called frame ${was}`,
  followers: [],
  sources: [],
});

/** Moves that are named one by one; of more the new order is written. */
const MAX_NAMED = 4;

/** Contact sheets and numbering follow the order of the frames, so a new order is a change. */
function orderChange({ before, after }: Scope): Change | undefined {
  const moves = orderMoves(orderOf(before), orderOf(after));
  if (moves.length === 0) return undefined;
  const what = ({ id, before: next }: OrderMove): string =>
    next === null ? `${id} moved to the end` : `${id} moved before ${next}`;
  return {
    group: "notes",
    path: ["frames"],
    name: "order of frames",
    kind: "changed",
    text: `order of frames${moves.length > MAX_NAMED ? ` ${orderOf(after).join(", ")}` : `: ${moves.toReversed().map(what).join(", ")}`}`,
    followers: [],
    sources: [],
  };
}

/** Whether the frames that both have come in the same order. */
const sameOrder = (before: RecipeState, after: RecipeState): boolean =>
  orderMoves(orderOf(before), orderOf(after)).length === 0;

/** A value with the items of lists that have identities (outputs, specks, areas) in one order: theirs has no meaning. */
function unordered(value: Value | undefined, path: RecipePath = []): Value | undefined {
  if (Array.isArray(value)) {
    if (itemsOf(path) === undefined) return value as readonly Value[];
    return (value as readonly Value[]).toSorted((a, b) => (canonicalJson(a) < canonicalJson(b) ? -1 : 1));
  }
  if (!isFields(value)) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, unordered(inner, [...path, key])!]));
}

const orderOf = ({ roll, stock }: RecipeState): string[] => frameIds(roll, rollLevels(roll, stock)[0]!.value);

/** A frame that is skipped has no picture. */
function pictureDiffers(pair: FramePair): boolean {
  const shown = (frame: ResolvedFrame | undefined): ResolvedFrame | undefined => (frame?.skip ? undefined : frame);
  const [was, is] = [shown(pair.before), shown(pair.after)];
  if (!was || !is) return was !== is;
  return pictureKey(was) !== pictureKey(is);
}
