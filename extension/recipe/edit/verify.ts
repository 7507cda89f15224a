/**
 * The safety net under everything that writes a recipe's text: what was meant is compared with what the new text says
 * when it is read again, and every comment has to be there.
 */
import { limitProblem } from "../yaml/limits.ts";
import { readComments, readSyntax } from "../yaml/syntax.ts";
import type { Comment, AstNode } from "../yaml/ast.ts";

/** A text that was read. */
export interface ReadText {
  readonly text: string;
  readonly ast: AstNode;
  readonly comments: readonly Comment[];
}

/** What a new text does not say as the old one does, in words; undefined where it says the same with the same comments. */
export function differenceOf(before: ReadText, after: string): string | undefined {
  if (limitProblem(after)) return "the new text would not be read";
  const { ast, syntaxErrors } = readSyntax(after);
  if (syntaxErrors.length > 0 || !ast) return "the new text cannot be read";
  if (meaningOf(ast) !== meaningOf(before.ast)) return "a value would change";
  const [missing, added] = commentsChanged(before.comments, readComments(after));
  if (missing.length > 0) return `the comment ${missing[0]!.text} would be lost`;
  return added.length > 0 ? `the comment ${added[0]!.text} would appear` : undefined;
}

/** Texts of comments that are in the one list and not in the other, each as often as that is so. */
export function commentsChanged(
  before: readonly Pick<Comment, "text">[],
  after: readonly Pick<Comment, "text">[],
): readonly [missing: readonly Pick<Comment, "text">[], added: readonly Pick<Comment, "text">[]] {
  const counts = new Map<string, number>();
  for (const { text } of before) counts.set(text, (counts.get(text) ?? 0) + 1);
  for (const { text } of after) counts.set(text, (counts.get(text) ?? 0) - 1);
  const surplus = (sign: number) =>
    [...counts].flatMap(([text, count]) => Array.from({ length: Math.max(0, sign * count) }, () => ({ text })));
  return [surplus(1), surplus(-1)];
}

/** What a tree without anchors says, as one text: equal for the same keys with the same values, in any order of keys. */
function meaningOf(ast: AstNode): string {
  if (ast.kind === "alias") return `*${ast.name}`;
  if (ast.kind === "scalar")
    return `${typeof ast.value} ${typeof ast.value === "string" ? JSON.stringify(ast.value) : ast.value}`;
  if (ast.kind === "list") return `[${ast.items.map((item) => meaningOf(item.value)).join()}]`;
  // Of a key that is stated twice the first counts: the order of equal keys matters, and sorting keeps it.
  const entries = ast.entries.map(({ name, value }) => ({ name: JSON.stringify(name), value: meaningOf(value) }));
  const sorted = entries.toSorted((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
  return `{${sorted.map(({ name, value }) => `${name}:${value}`).join()}}`;
}
