/** What a session reads of the roll's recipe. */
import { aspectRatio, pictureSides } from "../../engine/film/formats.ts";
import type { FrameLook, Rgb } from "../../engine/types.ts";
import type { ResolvedRoll } from "../../recipe/resolve/resolve.ts";

export interface RollView {
  readonly frames: readonly {
    readonly id: string;
    readonly scans: readonly string[];
    readonly unused: readonly string[];
  }[];
  /** Number of the first frame of a roll that has none yet. */
  readonly first: number;
  readonly blank?: string;
  /** The blank that was named on the command line; the recipe may not have it yet. */
  readonly namedBlank?: string;
  readonly look: FrameLook;
  readonly statesUnmix: boolean;
  /** Density of the base as the roll itself states it. */
  readonly base?: Rgb;
  readonly flare?: Rgb;
  readonly ratio?: number;
  readonly picture?: readonly [long: number, short: number];
  readonly turn: 0 | 90 | 180 | 270;
  readonly mirror: boolean;
}

/** What was asked for and stands in no recipe. */
export interface ViewOptions {
  readonly first?: number;
  readonly blank?: string;
  readonly turn?: RollView["turn"];
  readonly mirror?: boolean;
}

/** @param roll the roll's recipe, or its stock's as long as there is no roll */
export function rollView(roll: ResolvedRoll, options: ViewOptions = {}): RollView {
  const { shared, format } = roll;
  const states = (...at: string[]): boolean => {
    const level = roll.originOf(undefined, at)?.level;
    return level !== undefined && level !== "default";
  };
  const [ratio, picture] = [format && aspectRatio(format), format && pictureSides(format)];
  return {
    frames: roll.frames.map(({ id, scans }) => {
      const unused = roll.valueAt(id, ["unused"]);
      return {
        id,
        scans: scans.map(({ name }) => name),
        unused: Array.isArray(unused) ? unused.filter((name) => typeof name === "string") : [],
      };
    }),
    first: options.first ?? 1,
    ...(shared.light.blank ? { blank: shared.light.blank.name } : {}),
    ...(options.blank === undefined ? {} : { namedBlank: options.blank }),
    look: shared.look,
    statesUnmix: states("negative", "unmix"),
    ...(shared.base.read ? { base: shared.look.base } : {}),
    ...(states("light", "flare") ? { flare: shared.light.flare } : {}),
    ...(ratio === undefined ? {} : { ratio }),
    ...(picture ? { picture } : {}),
    turn: options.turn ?? 0,
    mirror: options.mirror ?? false,
  };
}
