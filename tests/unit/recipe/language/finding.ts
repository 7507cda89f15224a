import { msg } from "../../../../extension/engine/messages.ts";
import type { Finding, Place } from "../../../../extension/engine/survey/types.ts";

/** A finding of a survey, with what a test is about. */
export const finding = (code: string, place: Place, more: Partial<Finding> = {}): Finding => ({
  code,
  severity: "warning",
  message: "Something is too much.",
  translatable: msg("Something is too much."),
  measured: 23,
  limit: 18,
  unit: "specks on a frame",
  source: "common practice, no source",
  cause: "Dust.",
  remedy: "Blow it off.",
  ...more,
  place,
});
