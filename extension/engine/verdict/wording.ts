/**
 * What a verdict says was seen on a scan: every sentence of the room, as text and values. The checks measure and decide;
 * remedies stand in rules.ts. Readers put the sentences into their own language (docs/decisions/finding-texts.md).
 */
import { msg, type Message } from "../messages.ts";
import type { Side } from "../types.ts";
import type { FocusPlace } from "./focus.ts";

const SIDE: Readonly<Record<Side, Message>> = {
  left: msg("left"),
  right: msg("right"),
  top: msg("top"),
  bottom: msg("bottom"),
};

const PLACE: Readonly<Record<FocusPlace, Message>> = {
  middle: msg("in the middle"),
  topLeft: msg("at the top left"),
  topRight: msg("at the top right"),
  bottomLeft: msg("at the bottom left"),
  bottomRight: msg("at the bottom right"),
};

/** Parts of a set-up that may change between two scans. */
const PART = {
  camera: msg("camera"),
  lens: msg("lens"),
  size: msg("size in pixels"),
  stop: msg("stop"),
  iso: msg("ISO"),
} as const;
export type SetUpPart = keyof typeof PART;

/** @param sides one or two */
export const cutOffAt = (sides: readonly Side[]): Message =>
  sides.length === 1
    ? msg("The picture is cut off at the {0}.", SIDE[sides[0]])
    : msg("The picture is cut off at the {0} and {1}.", SIDE[sides[0]], SIDE[sides[1]]);

/** @param away such as "2.1 %" */
export const displacedBy = (away: string, side: Side): Message =>
  msg("The picture lies {0} of the width farther to the {1} than the roll's others.", away, SIDE[side]);

/**
 * Blur in pixels of one sigma.
 * @param isLeast where no even tone shows how much more it is
 */
export function outOfFocus(place: FocusPlace | "everywhere", blur: number, sharpest: number, isLeast = false): Message {
  const at = place === "everywhere" ? msg("all over") : PLACE[place];
  const [own, other] = [blur.toFixed(1), sharpest.toFixed(1)];
  return isLeast
    ? msg("Out of focus {0}: blur of {1} px or more, the sharpest scan so far has {2} px.", at, own, other)
    : msg("Out of focus {0}: blur of {1} px, the sharpest scan so far has {2} px.", at, own, other);
}

/** Blur in pixels of one sigma. */
export const blurGrowsTowards = (added: number, side: Message): Message =>
  msg("Film and sensor are not parallel: blur grows by {0} px towards the {1}.", added.toFixed(1), side);

/** @param usual count on the roll's other scans; undefined where they are too few to tell */
export const dustOnFilm = (specks: number, usual: number | undefined): Message =>
  usual === undefined
    ? msg("{0} specks lie on the film.", specks)
    : msg("{0} specks lie on the film; the roll usually has {1}.", specks, Math.round(usual));

export const dustOnSensor = (spots: number): Message =>
  spots === 1
    ? msg("A spot lies at the same place in several scans: on sensor, lens or light, and not on the film.")
    : msg("{0} spots lie at the same places in several scans: on sensor, lens or light, and not on the film.", spots);

export const setUpHasChanged = (part: SetUpPart, is: string, was: string): Message =>
  msg("The {0} has changed: {1}, before it was {2}.", PART[part], is, was);

export const CODE_IS_MIRRORED = msg("The film lies the wrong way round: the code on its edge reads mirrored.");
export const NUMBER_IS_MIRRORED = msg("The film lies the wrong way round: the number on its edge reads mirrored.");

export const codeDiffers = (code: string, others: string): Message =>
  msg("The code on the film's edge is {0}, on the roll's other pictures {1}.", code, others);

export const sameAs = (name: string, frame: string): Message =>
  msg("The same picture as {0}, which was good already (frame {1}).", name, frame);

export const looksLike = (frame: string): Message =>
  msg("It looks like frame {0}, but whether it is the same piece of film cannot be seen.", frame);

/** @param missed one or more frame numbers, ascending */
export function notPhotographed(frame: string, missed: readonly string[]): Message {
  const [first, last] = [missed[0], missed[missed.length - 1]];
  if (missed.length === 1) return msg("The film's edge says {0}: picture {1} was not photographed.", frame, first);
  return missed.length === 2
    ? msg("The film's edge says {0}: pictures {1} and {2} were not photographed.", frame, first, last)
    : msg("The film's edge says {0}: pictures {1} to {2} were not photographed.", frame, first, last);
}

/** @param message the reader's own, as text */
export const cannotBeRead = (message: string): Message => msg("{0}", message);
