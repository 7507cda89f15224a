import { readSyntax } from "../yaml/syntax.ts";
import { attachNotes } from "../yaml/notes.ts";
import { kindOfFile, type RecipeKind } from "../path.ts";
import { Printer } from "./print.ts";
import { refusal } from "../yaml/refuse.ts";
import { type Mapping, type Tree } from "../yaml/tree.ts";

/**
 * The recipe in the canonical order and layout: keys in the schema's order, two spaces of indentation, short values on
 * one line, frame ids in double quotes, at most one blank line in a row. Values, comments, quotes and line endings stay
 * as they are. A text that cannot be read, or that uses anchors, aliases, tags, directives or ? keys, is given back
 * unchanged.
 */
export function formatRecipe(
  text: string,
  options: { readonly file?: string; readonly kind?: RecipeKind } = {},
): string {
  const kind = options.kind ?? kindOfFile(options.file ?? "");
  const mark = text.startsWith("\uFEFF") ? "\uFEFF" : "";
  const lineEnd = /\r?\n/.exec(text)?.[0] ?? "\n";
  const plain = text.slice(mark.length).replaceAll("\r\n", "\n");
  const tree = formattable(plain);
  return tree ? mark + print(plain, tree, kind).replaceAll("\n", lineEnd) : text;
}

/** The tree of a text that can be laid out anew without changing what it means. */
export function formattable(text: string): Mapping | undefined {
  if (refusal(text) || /^%|^(?:---|\.\.\.)(?:\s|$)|\r/m.test(text)) return undefined;
  const { tree, faults } = read(text);
  if (faults > 0 || tree?.kind !== "mapping" || tree.entries.length === 0) return undefined;
  return isSimple(tree, text) ? tree : undefined;
}

function read(text: string): { tree: Tree | undefined; faults: number } {
  try {
    const { tree, faults } = readSyntax(text);
    return { tree, faults: faults.length };
  } catch (error) {
    if (error instanceof RangeError) return { tree: undefined, faults: 1 };
    throw error;
  }
}

/** No anchors, aliases or tags, and every key a text on one line in front of its colon. */
function isSimple(tree: Tree, text: string): boolean {
  if (tree.kind === "alias" || tree.props !== undefined) return false;
  if (tree.kind === "scalar") return true;
  if (tree.kind === "list") return tree.items.every((item) => isSimple(item.value, text));
  return tree.entries.every(({ key, value, explicit }) => {
    if (explicit || key.kind !== "scalar" || key.props !== undefined || key.end === key.start) return false;
    return !text.slice(key.start, key.end).includes("\n") && isSimple(value, text);
  });
}

function print(text: string, tree: Mapping, kind: RecipeKind): string {
  const { header, ...root } = attachNotes(text, tree);
  const lines = new Printer(kind).block(root, [], 0);
  const top = header.filter((line, i) => line !== "" || (i > 0 && header[i - 1] !== ""));
  if (top.at(-1) === "") top.pop();
  return [...(top.length > 0 ? [...top, ""] : []), ...lines, ""].join("\n");
}
