/**
 * What each finding of the survey means while the film still lies in the holder: whether the scan has to be taken again,
 * and what to do at the stand. Findings without a rule (file format, resolution, …) concern the whole set-up: they are
 * reported once for the roll and weigh on no scan.
 */
import { msg, type Message } from "../messages.ts";
import type { VerdictWord } from "./types.ts";

export interface VerdictRule {
  readonly code: string;
  readonly word: Exclude<VerdictWord, "good">;
  readonly remedy: Message;
}

/** From the most pressing to the least: the first that applies is named first. */
export const RULES: readonly VerdictRule[] = [
  {
    code: "unreadable",
    word: "again",
    remedy: msg("Copy the file again; if it is still broken, photograph the frame again."),
  },
  {
    code: "clipped",
    word: "again",
    remedy: msg("Shorten the shutter time and photograph it again."),
  },
  {
    code: "under-exposed",
    word: "again",
    remedy: msg("Lengthen the shutter time at the lowest ISO and photograph it again."),
  },
  {
    code: "cut-off",
    word: "again",
    remedy: msg("Push the film until the whole picture and a little margin are in view, and photograph it again."),
  },
  {
    code: "shaken",
    word: "again",
    remedy: msg("Release by cable or timer, wait until the stand is still, and photograph it again."),
  },
  {
    code: "softer",
    word: "again",
    remedy: msg("Focus on the grain at the working stop, press the film flat, and photograph it again."),
  },
  {
    code: "unsharp",
    word: "again",
    remedy: msg("Focus on the grain at the working stop and photograph it again."),
  },
  {
    code: "light-leak",
    word: "again",
    remedy: msg("Close the gap between film and holder on that side and photograph it again."),
  },
  {
    code: "wrong-way-round",
    word: "look",
    remedy: msg("Turn the film over and photograph it again, or set mirror: true for this frame."),
  },
  {
    code: "taken-twice",
    word: "look",
    remedy: msg("If you meant the next picture, push the film on. Both files stay on disk."),
  },
  {
    code: "looks-alike",
    word: "look",
    remedy: msg("If it is the same picture, remove one of the two frames. Both files stay on disk."),
  },
  {
    code: "picture-missed",
    word: "look",
    remedy: msg("Push the film back and photograph the missing picture."),
  },
  {
    code: "other-film",
    word: "look",
    remedy: msg("If another roll has started, end this session and start one with its own recipe."),
  },
  {
    code: "set-up-changed",
    word: "look",
    remedy: msg("Set it back and photograph it again, or photograph a new blank (the bare light)."),
  },
  {
    code: "film-tilted",
    word: "look",
    remedy: msg(
      "Lay a mirror where the film lies, turn the camera until the lens sees its own middle, and focus again.",
    ),
  },
  {
    code: "soft-corners",
    word: "look",
    remedy: msg("Press the film flat, stop down to f/8, and focus a third of the way from the middle to a corner."),
  },
  {
    code: "flare",
    word: "look",
    remedy: msg("Mask the panel down to the film, darken the room, and photograph it again."),
  },
  {
    code: "displaced",
    word: "look",
    remedy: msg("Push the film to its usual place, and check that camera and holder are fixed."),
  },
  {
    code: "dust",
    word: "look",
    remedy: msg("Blow the film clean and photograph it again, or heal the specks later."),
  },
  {
    code: "sensor-dust",
    word: "look",
    remedy: msg("Clean sensor, lens and light, then photograph a new blank (the bare light)."),
  },
  {
    code: "diffraction",
    word: "look",
    remedy: msg("Open the lens to f/5.6 or f/8 and adjust the shutter time."),
  },
  {
    code: "aperture",
    word: "look",
    remedy: msg("Set f/5.6 to f/8 and adjust the shutter time."),
  },
  {
    code: "uneven-light",
    word: "look",
    remedy: msg("Centre the light under the film, or raise the film farther from it, and photograph the blank again."),
  },
  {
    code: "two-coloured-light",
    word: "look",
    remedy: msg("Use one light of one colour and keep daylight out, then photograph the blank again."),
  },
  {
    code: "banded-light",
    word: "look",
    remedy: msg("Do not dim the light, use a longer shutter time, and photograph the blank again."),
  },
];

const places = new Map(RULES.map(({ code }, place) => [code, place]));

/** The rule of a code; undefined where it weighs on no scan. */
export const ruleOf = (code: string): VerdictRule | undefined => RULES[places.get(code) ?? -1];

/** Place in the order of urgency, 0 the most pressing. */
export const urgencyOf = (code: string): number => places.get(code) ?? RULES.length;
