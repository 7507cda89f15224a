/** What a session reads of the roll's recipe. */
import { aspectRatio, pictureSides } from "../../../engine/film/formats.ts";
import type { Rgb } from "../../../engine/types.ts";
import type { ResolvedRoll } from "../../../recipe/resolve/resolve.ts";
import type { StatedLook } from "../measure/start-values.ts";

export interface RollView {
  readonly frames: readonly {
    readonly id: string;
    readonly scans: readonly string[];
    /** The key that lists several scans; `scans` where absent. */
    readonly key?: "exposures" | "channels";
    readonly unused: readonly string[];
  }[];
  /** Number of the first frame of a roll that has none yet, where a person gave it. */
  readonly first?: number;
  readonly blank?: string;
  /** Names of three blanks, one for each light, in the order of channels: they stay. */
  readonly threeBlanks?: readonly string[];
  /** The blank that was named on the command line; the recipe may not have it yet. */
  readonly namedBlank?: string;
  readonly stated: StatedLook;
  /** Density of the base as a person read it. */
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

/**
 * @param roll the roll's recipe, or its stock's as long as there is no roll
 * @param without the same without what the session wrote itself: what it may decide again
 */
export function rollView(roll: ResolvedRoll, options: ViewOptions = {}, without: ResolvedRoll = roll): RollView {
  const { shared, format } = roll;
  const levelOf = (at: string): string | undefined => without.originOf(undefined, at.split("."))?.level;
  const states = (at: string): boolean => !["default", undefined].includes(levelOf(at));
  const [ratio, picture] = [format && aspectRatio(format), format && pictureSides(format)];
  return {
    frames: roll.frames.map(({ id, scans, merged, channels }) => {
      const unused = roll.valueAt(id, ["unused"]);
      return {
        id,
        scans: scans.map(({ name }) => name),
        ...(merged ? { key: channels ? "channels" : "exposures" } : {}),
        unused: Array.isArray(unused) ? unused.filter((name) => typeof name === "string") : [],
      };
    }),
    ...(options.first === undefined ? {} : { first: options.first }),
    ...(shared.light.blank ? { blank: shared.light.blank.name } : {}),
    ...(shared.light.blanks ? { threeBlanks: shared.light.blanks.map(({ name }) => name) } : {}),
    ...(options.blank === undefined ? {} : { namedBlank: options.blank }),
    stated: statedLook(roll, without, states, (at) => levelOf(at) === "roll"),
    ...(without.shared.base.read ? { base: without.shared.look.base } : {}),
    ...(states("light.flare") ? { flare: without.shared.light.flare } : {}),
    ...(ratio === undefined ? {} : { ratio }),
    ...(picture ? { picture } : {}),
    turn: options.turn ?? 0,
    mirror: options.mirror ?? roll.frames.at(-1)?.mirror ?? false,
  };
}

/** What belongs to a person once they change it: colours that were set by hand are not balanced again. */
const BY_HAND = ["negative.curve", "negative.gamma", "negative.unmix", "negative.colour", "positive.filtration"];

function statedLook(
  roll: ResolvedRoll,
  without: ResolvedRoll,
  states: (at: string) => boolean,
  inRoll: (at: string) => boolean,
): StatedLook {
  const byHand = BY_HAND.some(inRoll);
  const negative = byHand || ["negative.curve", "negative.gamma", "negative.unmix"].some(states);
  return {
    // Of a look that a person has begun to set, the rest is what the session wrote.
    look: (byHand ? roll : without).shared.look,
    ...(negative || states("film") ? { film: (byHand ? roll : without).film } : {}),
    negative,
    unmix: states("negative.unmix"),
    gamma: states("negative.gamma"),
    contrast: states("positive.contrast"),
    byHand,
  };
}
