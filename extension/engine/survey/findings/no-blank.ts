/** Finding: the roll has no blank (flat-field frame: the bare light, no film). */
import { msg } from "../../messages.ts";
import type { FindingKind } from "../types.ts";
import { PRACTICE } from "./common.ts";

export const noBlank: FindingKind = {
  code: "no-blank",
  severity: "info",
  meaning:
    "The roll names no blank: falloff and colour of the light stay in the pictures, and light, noise and sensor dust cannot be checked.",
  limit: 1,
  unit: "blanks (at least)",
  source: PRACTICE,
  cause: "No scan of the bare light was made, or the recipe does not name it.",
  remedy:
    "Take the film out, photograph the bare light with the same focus and stop, and name the file as light.blank.",
  find: ({ blank, scans }) =>
    blank || scans.length === 0
      ? []
      : [{ measured: 0, message: msg("There is no scan of the bare light."), place: {} }],
};
