/** Runs every check of what a recipe's values mean together. */
import type { Problem } from "../../problems.ts";
import type { Subject } from "../subject.ts";
import { collector } from "./check.ts";
import { checkExposed } from "./exposed.ts";
import { checkFrames } from "./frames.ts";
import { checkLight } from "./light.ts";
import { checkLocal } from "./local.ts";
import { checkMask, checkNegative } from "./negative.ts";
import { checkOutputs } from "./outputs.ts";
import { checkPaths } from "./paths.ts";
import { checkPositive } from "./positive.ts";

/** What the values of a recipe say together: everything that a schema cannot know. */
export function checkMeaning(subject: Subject, known: readonly Problem[]): Problem[] {
  const { checked, problems } = collector(subject, known);
  const checks = [checkExposed, checkPaths, checkLight, checkNegative, checkPositive, checkLocal, checkOutputs];
  for (const check of [...checks, checkFrames]) check(checked);
  return problems;
}

/** A roll whose text has been read and checked by itself. */
type ReadRoll = Pick<Subject, "file" | "kind" | "text"> & {
  readonly ast: Subject["ast"] | undefined;
  readonly value: Subject["value"] | undefined;
  readonly problems: readonly Problem[];
};

/** Whether the base fits the film, for a roll that leaves the kind of film to its stock. */
export function checkBaseOf(roll: ReadRoll, film: string): Problem[] {
  if (!roll.ast || roll.value === undefined) return [];
  const { file, kind, text, ast, value } = roll;
  const { checked, problems } = collector({ kind, file, roots: undefined, text, ast, value }, roll.problems);
  if (checked.root.film === undefined && checked.root.stock !== undefined) checkMask(checked, film);
  return problems;
}
