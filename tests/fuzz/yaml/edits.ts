/** Random edits of a value, and what the value has to be afterwards, worked out on plain data. */
import { anything, type Data, type Fields, key, scalar, text } from "./data.ts";
import type { Dice } from "./dice.ts";
import type { Path, WrittenComment } from "./write.ts";

export interface EditCase {
  readonly edits: readonly ({ path: Path; value: unknown } | { path: Path; rename: string })[];
  readonly wanted: Fields;
  /** Comments that may go with what is removed: those in it, and those on the lines above it. */
  readonly mayGo: (comment: WrittenComment) => boolean;
}

export function randomEdits(value: Fields, dice: Dice, isOrdinary: boolean): EditCase {
  const state = { value: structuredClone(value), gone: [] as Path[] };
  const paths = pathsOf(value);
  const how =
    paths.length === 0 ? "insert" : dice.pick(["set", "set", "remove", "insert", "rename", "move", "replace"]);
  const edits: ({ path: Path; value: unknown } | { path: Path; rename: string })[] = [];
  const set = (path: Path, wanted: unknown): void => {
    edits.push({ path, value: wanted });
    put(state, path, wanted);
  };
  const remove = (path: Path): void => {
    edits.push({ path, value: undefined });
    take(state, path);
  };
  if (how === "set") {
    const scalars = paths.filter((path) => typeof at(value, path) !== "object" || at(value, path) === null);
    const path = dice.pick(scalars.length > 0 ? scalars : paths);
    if (typeof at(value, path) === "object" && at(value, path) !== null) state.gone.push(path);
    set(path, dice.chance(0.6) ? text(dice, isOrdinary) : scalar(dice, isOrdinary));
  } else if (how === "replace") {
    const path = dice.pick(paths);
    state.gone.push(path);
    set(path, filled(anything(dice, 2, isOrdinary)));
  } else if (how === "remove") remove(dice.pick(paths));
  else if (how === "insert") {
    const groups = [[], ...paths].filter((path) => typeof at(value, path) === "object" && at(value, path) !== null);
    const path = dice.pick(groups);
    const group = at(value, path);
    const inner = filled(anything(dice, 1, isOrdinary));
    if (Array.isArray(group)) set([...path, group.length], inner);
    else {
      const known = [
        "note",
        "title",
        "positive",
        "light",
        "scan",
        "negative",
        "frames",
        "01",
        "05",
        "11",
        "toe",
        "area",
        "output",
      ];
      set(
        [...path, unused(group as Fields, () => (dice.chance(0.7) ? dice.pick(known) : key(dice, isOrdinary)))],
        inner,
      );
    }
  } else if (how === "rename") {
    const keys = paths.filter((path) => typeof path.at(-1) === "string");
    const path = dice.pick(keys);
    const holder = at(value, path.slice(0, -1)) as Fields;
    const name = unused(holder, () => key(dice, isOrdinary));
    edits.push({ path, rename: name });
    const now = at(state.value, path.slice(0, -1)) as Fields;
    now[name] = now[String(path.at(-1))]!;
    delete now[String(path.at(-1))];
  } else {
    const from = dice.pick(paths.filter((path) => typeof path.at(-1) === "string"));
    const moved = at(value, from);
    remove(from);
    const to = ["positive", "light", "frames", "note", "title", "ant"][dice.below(6)]!;
    const target: Path = dice.chance(0.5)
      ? [unused({ ...value, ...state.value }, () => `${to}${dice.below(9)}`)]
      : ["moved", "here"];
    if (target.length === 2 && Object.hasOwn(value, "moved"))
      return { edits: edits.slice(0, 1), wanted: state.value, mayGo: removable(state.gone) };
    set(target, moved);
  }
  return { edits, wanted: state.value, mayGo: removable(state.gone) };
}

/** A random move of a part of a block or list to another place; undefined where nothing can be moved. */
export function randomMove(value: Fields, dice: Dice): { path: Path; before: string | number | null } | undefined {
  const groups = [[], ...pathsOf(value)].filter((path) => {
    const group = at(value, path);
    return typeof group === "object" && group !== null && Object.keys(group).length > 1;
  });
  if (groups.length === 0) return undefined;
  // Mostly where the order is the text's: lists, and mappings with names of one's own.
  const ordered = groups.filter(
    (path) => Array.isArray(at(value, path)) || /^(?:frames|fingerprints)$/.test(path.join()),
  );
  const path = dice.pick(ordered.length > 0 && dice.chance(0.9) ? ordered : groups);
  const group = at(value, path) as Fields | Data[];
  const names: (string | number)[] = Array.isArray(group) ? group.map((_, i) => i) : Object.keys(group);
  return { path: [...path, dice.pick(names)], before: dice.chance(0.2) ? null : dice.pick(names) };
}

const startsWith = (path: Path | undefined, start: Path): boolean =>
  path !== undefined && start.every((part, i) => path[i] === part);

const removable =
  (gone: readonly Path[]) =>
  ({ owner, above }: WrittenComment): boolean =>
    gone.some((path) => startsWith(owner, path) || startsWith(above, path));

/** Numbers are written with six decimals; empty groups stay. */
const filled = (value: Data): Data => value;

function unused(holder: Fields, make: () => string): string {
  for (let tries = 0; tries < 20; tries++) {
    const name = make();
    if (!Object.hasOwn(holder, name)) return name;
  }
  return `new${Object.keys(holder).length}`;
}

export function at(value: unknown, path: Path): unknown {
  return path.reduce<unknown>((inner, part) => (inner as Record<string | number, unknown> | undefined)?.[part], value);
}

/** Paths of everything that a value holds. */
export function pathsOf(value: unknown, path: Path = []): Path[] {
  const inner =
    typeof value !== "object" || value === null
      ? []
      : Array.isArray(value)
        ? value.map((v, i) => [i, v] as const)
        : Object.entries(value);
  return inner.flatMap(([part, v]) => [[...path, part], ...pathsOf(v, [...path, part])]);
}

function put(state: { value: Fields }, path: Path, wanted: unknown): void {
  let holder: Record<string | number, unknown> = state.value;
  for (const part of path.slice(0, -1)) {
    if (typeof holder[part] !== "object" || holder[part] === null) holder[part] = {};
    holder = holder[part] as Record<string | number, unknown>;
  }
  holder[path.at(-1)!] = structuredClone(wanted);
}

/** A group left empty goes too, but never a frame. */
function take(state: { value: Fields; gone: Path[] }, path: Path): void {
  const holder = at(state.value, path.slice(0, -1)) as Record<string | number, unknown>;
  const part = path.at(-1)!;
  if (Array.isArray(holder)) holder.splice(Number(part), 1);
  else delete holder[part];
  const isFreeKey = path.length === 3 && (path[0] === "frames" || path[0] === "fingerprints");
  if (path.length > 1 && Object.keys(holder).length === 0 && !(isFreeKey && !Array.isArray(holder)))
    take(state, path.slice(0, -1));
  else state.gone.push(path);
}
