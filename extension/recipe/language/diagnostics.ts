/** Problems of a recipe in the shape of an editor's diagnostics. */
import type { RecipeDocument } from "../problems/document.ts";
import { type Problem, type ProblemCode, problemKinds } from "../problems.ts";
import type { Reading } from "./document-cache.ts";
import type { Location, Range } from "./types.ts";
import { rangeIn } from "./types.ts";

/** One problem as an editor shows it. */
export interface Diagnostic {
  readonly code: ProblemCode;
  readonly severity: Problem["severity"];
  readonly message: string;
  readonly range: Range;
  readonly related: readonly (Location & { readonly message: string })[];
  /** The text is without effect and may be shown faded. */
  readonly unnecessary: boolean;
}

/**
 * Codes of what a general YAML editor with our schema finds too. Everything else is known to us alone: what values mean
 * together, and other files.
 */
const structural = new Set<ProblemCode>([
  "yaml-syntax",
  "tab-indent",
  "duplicate-key",
  "bad-alias",
  "unknown-tag",
  "not-a-mapping",
  "unsupported-version",
  "unknown-key",
  "missing-key",
  "empty-value",
  "wrong-type",
  "wrong-length",
  "wrong-form",
  "out-of-range",
  "not-one-of",
  "bad-frame-id",
]);

export const isStructural = (code: ProblemCode): boolean => structural.has(code);

/** Every code there is, for tests and docs. */
export const problemCodes = Object.keys(problemKinds) as ProblemCode[];

/**
 * The problems of a recipe's text as an editor shows them.
 * @param own false leaves purely structural problems to another extension that reports them
 * @param textOf a parsed recipe, for places in other files
 */
export function diagnostics(
  { document, problems }: Pick<Reading, "document" | "problems">,
  own: boolean,
  textOf: (file: string) => RecipeDocument | undefined,
): Diagnostic[] {
  return problems
    .filter(({ code }) => own || !isStructural(code))
    .map((found) => ({
      code: found.code,
      severity: found.severity,
      message: found.message,
      range: rangeIn(document, found.range),
      related: (found.related ?? []).flatMap(({ file, range, message }) => {
        const other = file === document.file ? document : textOf(file);
        return other ? [{ file, range: rangeIn(other, range), message }] : [];
      }),
      unnecessary: found.code === "without-effect",
    }));
}
