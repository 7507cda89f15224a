/** A recipe on its way through the checks. */
import type { RecipeKind } from "../path.ts";
import type { AstNode } from "../yaml/ast.ts";
import type { Value } from "../yaml/values.ts";

/** A recipe on its way through the checks. */
export interface Subject {
  readonly kind: RecipeKind;
  readonly file: string;
  readonly roots: readonly string[] | undefined;
  readonly text: string;
  readonly ast: AstNode;
  readonly value: Value;
}
