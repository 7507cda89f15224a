/** Digests of the values that a session writes, by which `new --update` later tells those that nobody changed. */
import { applyEdits } from "../../../recipe/edit/model.ts";
import type { RecipePath, ValueEdit } from "../../../recipe/path.ts";
import type { Value } from "../../../recipe/yaml/values.ts";
import {
  type AutomaticUnit,
  digestKey,
  FRAME_UNITS,
  ROLL_UNITS,
  unitValues,
  valueAt,
  valueDigest,
} from "../../new-roll/renew/automatic-values.ts";

/**
 * Returns the edits that keep a roll's digests with what `edits` change: digests of values that were absent or automatic,
 * filed under the frame's scan of the time. A value that a person changed before keeps its old digest, which shows that.
 * @param recipe the roll's values before `edits`
 */
export function digestEdits(recipe: unknown, edits: readonly ValueEdit[]): ValueEdit[] {
  const before = (recipe ?? {}) as Value;
  const after = applyEdits("roll", structuredClone(before), edits);
  const frames = [...new Set(edits.flatMap(({ path }) => (path[0] === "frames" ? [String(path[1])] : [])))];
  return [
    ...unitEdits(before, after, edits, ROLL_UNITS, [], ["automatic", "roll"], ["automatic", "roll"]),
    ...frames.flatMap((id) => {
      const scan = digestKey(after, id);
      if (scan === undefined) return [];
      const earlier = digestKey(before, id) ?? scan;
      const [from, to] = [earlier, scan].map((name) => ["automatic", "scans", name]);
      const own = unitEdits(before, after, edits, FRAME_UNITS, ["frames", id], from, to);
      const filed = valueAt(before, from);
      if (earlier === scan || filed === undefined) return own;
      // The whole entry goes with the frame's new scan.
      const moved = { ...(filed as object), ...Object.fromEntries(own.map(({ path, value }) => [path[3], value])) };
      return [
        { path: from, value: undefined },
        { path: to, value: moved as Value },
      ];
    }),
  ];
}

function unitEdits(
  before: Value,
  after: Value,
  edits: readonly ValueEdit[],
  units: readonly AutomaticUnit[],
  at: RecipePath,
  from: RecipePath,
  to: RecipePath,
): ValueEdit[] {
  return units.flatMap((unit) => {
    if (!edits.some(({ path }) => unit.paths.some((own) => touches(path, [...at, ...own])))) return [];
    const recorded = valueAt(before, [...from, unit.name]);
    const [earlier, now] = [before, after].map((values) => valueDigest(unitValues(values, at, unit)));
    const [digest, ...comments] = typeof recorded === "string" ? recorded.split("-") : [];
    if (now === undefined || (earlier !== undefined && earlier !== digest)) return [];
    return [{ path: [...to, unit.name], value: [now, ...comments].join("-") }];
  });
}

/** Whether one path leads to the other, or to something in it. */
const touches = (a: RecipePath, b: RecipePath): boolean =>
  a.slice(0, b.length).every((key, i) => String(key) === String(b[i]));
