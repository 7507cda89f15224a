/** Follows frames that one side gave another name, so that what the other side changed in them finds its place. */
import { isFields, isSame, type RenameEdit } from "../edit/model.ts";
import type { Value } from "../yaml/values.ts";

/** What three texts say. */
export interface ThreeValues {
  readonly base: Value;
  readonly ours: Value;
  readonly theirs: Value;
}

export interface Followed extends ThreeValues {
  /** The names that they gave, for our text. */
  readonly renames: readonly RenameEdit[];
  /** By the name in `base`, the name that a frame has in all three now, where it is another. */
  readonly given: ReadonlyMap<string, string>;
  /** Names that the sides gave to one frame, ours and theirs: it can have one of them. */
  readonly conflicts: readonly (readonly [ours: string, theirs: string])[];
}

type Fields = Readonly<Record<string, Value>>;

/**
 * The three values with a renamed frame under its new name in all of them. A frame is renamed when its name is gone
 * and its scans stand under a name that was not there before.
 */
export function followRenames({ base, ours, theirs }: ThreeValues): Followed {
  const [byUs, byThem] = [namesGiven(base, ours), namesGiven(base, theirs)];
  const renames: RenameEdit[] = [];
  const given = new Map<string, string>();
  const conflicts: [string, string][] = [];
  let out: ThreeValues = { base, ours, theirs };
  for (const from of new Set([...byUs.keys(), ...byThem.keys()])) {
    const [mine, other] = [byUs.get(from), byThem.get(from)];
    if (mine !== undefined && other !== undefined && mine !== other) {
      conflicts.push([mine, other]);
      continue;
    }
    const to = (mine ?? other) as string;
    const untouched = mine === undefined ? framesOf(ours) : other === undefined ? framesOf(theirs) : undefined;
    // Another frame of that name on the other side: the two do conflict.
    if (untouched && Object.hasOwn(untouched, to)) continue;
    given.set(from, to);
    out = {
      base: renamed(out.base, from, to),
      ours: renamed(out.ours, from, to),
      theirs: renamed(out.theirs, from, to),
    };
    if (mine === undefined && Object.hasOwn(framesOf(ours), from)) renames.push({ path: ["frames", from], rename: to });
  }
  return { ...out, renames, given, conflicts };
}

/** By the name in `base`, the one that a side gave to the same scans. */
function namesGiven(base: Value, side: Value): Map<string, string> {
  const [before, now] = [framesOf(base), framesOf(side)];
  const given = new Map<string, string>();
  for (const [from, frame] of Object.entries(before)) {
    const scans = scansOf(frame);
    if (scans === undefined || Object.hasOwn(now, from)) continue;
    const found = Object.keys(now).filter((id) => !Object.hasOwn(before, id) && isSame(scansOf(now[id]!), scans));
    if (found.length === 1) given.set(from, found[0]!);
  }
  return given;
}

function renamed(value: Value, from: string, to: string): Value {
  const frames = framesOf(value);
  if (!Object.hasOwn(frames, from)) return value;
  const entries = Object.entries(frames).map(([id, frame]): [string, Value] => [id === from ? to : id, frame]);
  return { ...(value as Fields), frames: Object.fromEntries(entries) };
}

const framesOf = (value: Value): Fields => (isFields(value) && isFields(value["frames"]) ? value["frames"] : {});

const scansOf = (frame: Value): Value | undefined =>
  isFields(frame) ? (frame["scans"] ?? frame["exposures"] ?? frame["channels"] ?? frame["scan"]) : undefined;
