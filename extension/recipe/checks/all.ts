import type { Problem } from "../problems.ts";
import type { Subject } from "../validate.ts";
import { collector } from "./check.ts";
import { checkExposed } from "./exposed.ts";
import { checkFrames } from "./frames.ts";
import { checkNegative } from "./negative.ts";
import { checkOutputs } from "./outputs.ts";
import { checkPaths } from "./paths.ts";
import { checkPositive } from "./positive.ts";

/** What the values of a recipe say together: everything that a schema cannot know. */
export function checkMeaning(subject: Subject, known: readonly Problem[]): Problem[] {
  const { checked, problems } = collector(subject, known);
  for (const check of [checkExposed, checkPaths, checkNegative, checkPositive, checkOutputs, checkFrames])
    check(checked);
  return problems;
}
