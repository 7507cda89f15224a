/** From a recipe to what the panel shows. Pure: the text, its stock and its problems go in, plain data comes out. */
import type { Cascade, FrameEntry, PanelProblem, PrintEntry, RollState, Stated, RecipePath } from "../../messages.ts";
import { statedLeaves } from "../../recipe/language/hover.ts";
import { find, frameLevels, type Level, originOf, rollLevels } from "../../recipe/resolve/cascade.ts";
import { defaultOf } from "../../recipe/schema/defaults.ts";
import type { RecipeDocument } from "../../recipe/problems/document.ts";
import type { Problem } from "../../recipe/problems.ts";
import { referencesOf } from "../../recipe/resolve/channels.ts";
import type { ResolvedFrame, ResolvedRoll } from "../../recipe/resolve/resolve.ts";
import type { LoadedRoll } from "../../recipe/resolve/workspace.ts";

const nameOf = (file: string): string => file.slice(file.lastIndexOf("/") + 1);

/** A loaded roll that can be resolved and has no error, and so has pictures. */
export type ValidRoll = LoadedRoll & { readonly resolved: ResolvedRoll };

/** Errors anywhere but in single frames' spelling leave nothing to show: then the last sound text stays in view. */
export function isValid(loaded: LoadedRoll): loaded is ValidRoll {
  return loaded.resolved !== undefined && !loaded.problems.some((p) => p.severity === "error");
}

export interface StateOptions {
  readonly version: number;
  readonly trusted: boolean;
  /** Tells when a file changed; its answer becomes part of each frame's source. */
  readonly stamp: (path: string) => string;
  /** Frames whose crop is the one that was measured on the scan. */
  readonly measured?: ReadonlySet<string>;
}

/**
 * @param loaded the text as it is now
 * @param shown the last text without errors; its frames are shown while the text has some
 */
export function rollState(loaded: LoadedRoll, shown: ValidRoll | undefined, options: StateOptions): RollState {
  const { resolved } = shown ?? loaded;
  const stale = !isValid(loaded);
  return {
    version: options.version,
    title: resolved?.title ?? nameOf(loaded.roll.file),
    file: nameOf(loaded.roll.file),
    frames: resolved && (shown || !stale) ? entriesOf(shown ?? loaded, resolved, options) : [],
    ...(resolved ? { shared: resolved.shared.look } : {}),
    prints: resolved ? printsOf(resolved, options) : [],
    problems: loaded.problems.map((p) => panelProblem(loaded.roll, p)),
    stale,
    trusted: options.trusted,
  };
}

/** Every file that a frame's proxy is made from. */
export function filesOf(frame: ResolvedFrame): string[] {
  return [...frame.scans, ...referencesOf(frame)].map((f) => f.path);
}

/** Profiles that the roll's outputs are printed by. */
export const profilesOf = ({ outputs }: ResolvedRoll): string[] =>
  outputs.flatMap(({ print }) => (print?.profile ? [print.profile.path] : []));

const printsOf = ({ outputs }: ResolvedRoll, { stamp }: StateOptions): PrintEntry[] =>
  outputs.flatMap(({ name, print }) => {
    if (!print?.profile) return [];
    const { profile, intent, compensate } = print;
    const key = JSON.stringify([profile.path, stamp(profile.path), intent, compensate]);
    return [{ output: name, profile: nameOf(profile.name), intent, key }];
  });

function entriesOf({ roll: document }: LoadedRoll, roll: ResolvedRoll, options: StateOptions): FrameEntry[] {
  return roll.frames.map((frame) => ({
    ...frameEntry(roll, frame, options),
    own: statedLeaves(document.value, ["frames", frame.id]).map((path) => path.slice(2).join(".")),
    measured: options.measured?.has(frame.id) ?? false,
  }));
}

const LOCAL_PATH = ["positive", "local"];

function frameEntry(
  roll: ResolvedRoll,
  frame: ResolvedFrame,
  { stamp }: StateOptions,
): Omit<FrameEntry, "own" | "measured"> {
  const { light } = frame;
  const areas = roll.valueAt(frame.id, LOCAL_PATH) as FrameEntry["areas"];
  const inherits = roll.originOf(undefined, LOCAL_PATH)?.level !== "default";
  return {
    id: frame.id,
    scans: frame.scans.map((s) => s.name),
    skip: frame.skip,
    ...(frame.title === undefined ? {} : { title: frame.title }),
    ...(frame.note === undefined ? {} : { note: frame.note }),
    ...(frame.choice === undefined ? {} : { choice: frame.choice }),
    ...(frame.rank === undefined ? {} : { rank: frame.rank }),
    look: frame.look,
    area: frame.area,
    turn: frame.turn,
    mirror: frame.mirror,
    spots: frame.spots,
    // They lie in each scan: in a joined picture they have no one place.
    lightSpots: frame.scans.length > 1 && !frame.merged ? [] : light.spots,
    ...(areas && areas.length > 0 ? { areas } : {}),
    ...(inherits ? { inheritsAreas: true } : {}),
    space: roll.outputs[0]?.space ?? "srgb",
    spaces: [...new Set(roll.outputs.map(({ space }) => space))],
    source: JSON.stringify([
      filesOf(frame).map((path) => [path, stamp(path)]),
      frame.join ?? [frame.scans.length, frame.channels ? "channels" : (frame.merged ?? false)],
      light.flare,
      light.spots,
      frame.spots,
    ]),
  };
}

function panelProblem(roll: RecipeDocument, { severity, message, range, path }: Problem): PanelProblem {
  const frame = path[0] === "frames" && path.length > 1 ? String(path[1]) : undefined;
  return {
    severity,
    message,
    file: nameOf(roll.file),
    line: roll.positionOf(range[0]).line,
    ...(frame === undefined ? {} : { frame }),
  };
}

/** What each level of the cascade says of some values of a frame. */
export function cascadesOf(
  { roll, stock, resolved }: ValidRoll,
  frame: string,
  paths: readonly RecipePath[],
): Cascade[] {
  const levels = frameLevels(rollLevels(roll, stock), frame);
  return paths.map((path) => {
    const stated = (name: Level["name"]): Stated | undefined => {
      const level = levels.find((l) => l.name === name);
      const found = level && find([level], path);
      if (!found) return undefined;
      const { file, line } = originOf(found);
      return { value: found.value, file: nameOf(file), line };
    };
    const [ownFrame, ownRoll, ownStock] = [stated("frame"), stated("roll"), stated("stock")];
    return {
      ...(ownFrame ? { frame: ownFrame } : {}),
      ...(ownRoll ? { roll: ownRoll } : {}),
      ...(ownStock ? { stock: ownStock } : {}),
      fallback: defaultOf(resolved.film, path, resolved),
    };
  });
}

/** The frame that a place of the text lies in. */
export function frameAt(roll: RecipeDocument, offset: number): string | undefined {
  const { path } = roll.pathAt(offset);
  return path[0] === "frames" && path.length > 1 ? String(path[1]) : undefined;
}

/** Where a value, or else a frame, is written: offsets in the text. */
export function placeOf(
  roll: RecipeDocument,
  frame: string | undefined,
  path: RecipePath | undefined,
): readonly [number, number] | undefined {
  const inFrame = frame === undefined ? undefined : ["frames", frame, ...(path ?? [])];
  return (inFrame && roll.rangeOf(inFrame, path ? "value" : "key")) ?? (path && roll.rangeOf(path, "value"));
}
