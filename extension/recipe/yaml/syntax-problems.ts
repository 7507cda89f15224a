/** The YAML reader's errors as problems of a recipe. */
import { type Problem, problem } from "../problems.ts";
import type { SyntaxProblem } from "./syntax.ts";

const messages: Readonly<Record<string, string>> = {
  ALIAS_PROPS: "An alias cannot have a tag or an anchor of its own. Write the value itself.",
  BAD_ALIAS: "An alias has to be * and a name that ends before the next space. Put text that begins with * in quotes.",
  BAD_COLLECTION_TYPE: "The tag does not fit the value. Remove the tag.",
  BAD_DIRECTIVE:
    "This % line is not a directive that YAML 1.2 knows. Remove it, or put text that begins with % in quotes.",
  BAD_DQ_ESCAPE: "This escape does not exist in double quotes. Write \\\\ for a backslash, or / in paths.",
  BAD_INDENT:
    "The indentation does not fit the lines above. Keys of one mapping begin in the same column; inner ones two spaces further in.",
  BAD_PROP_ORDER: "A tag or an anchor belongs directly before its value. Write the value itself.",
  BAD_SCALAR_START: "A plain text cannot begin with this character. Put it in quotes.",
  BLOCK_AS_IMPLICIT_KEY:
    "A key and its value cannot begin on the line of another key. Begin a new line, two spaces further in, or put the text in quotes.",
  BLOCK_IN_FLOW: "Inside brackets, only values in brackets and commas can stand. Write { key: value } here.",
  IMPOSSIBLE: "The YAML reader cannot make sense of this. Rewrite the value.",
  KEY_OVER_1024_CHARS: "A key may have at most 1024 characters. Is a colon or a bracket missing?",
  MISSING_CHAR: "A character is missing here: a closing bracket or quote, a comma, a colon, or the space after them.",
  MULTILINE_IMPLICIT_KEY: "A key has to stay on one line. Is a colon, or the space after it, missing?",
  MULTIPLE_ANCHORS: "A value can have only one anchor. Remove one.",
  MULTIPLE_TAGS: "A value can have only one tag. Remove one.",
  NON_STRING_KEY: "Keys are text. Put this one in quotes.",
  RESOURCE_EXHAUSTION: "The recipe asks more of the YAML reader than any recipe needs. Write it more simply.",
  UNCLOSED: "A list or mapping in brackets is not closed before this. Write the closing bracket.",
  UNEXPECTED_TOKEN: "This does not belong here. Is a quote, a bracket or a colon missing nearby?",
};

/** The reader's complaints as problems, one a line at most: what follows on the same line is mostly its echo. */
export function syntaxProblems(text: string, syntaxErrors: readonly SyntaxProblem[]): Problem[] {
  const problems: Problem[] = [];
  let lineEnd = -1;
  for (const fault of syntaxErrors.toSorted((a, b) => a.start - b.start)) {
    if (fault.start <= lineEnd) continue;
    if (problems.length >= 20) break;
    const found = syntaxProblem(text, fault);
    problems.push(found);
    if (found.code === "several-documents") break;
    lineEnd = text.indexOf("\n", fault.start);
    if (lineEnd < 0) break;
  }
  return problems;
}

function syntaxProblem(text: string, { code, start, end }: SyntaxProblem): Problem {
  const range = visible(text, start, end);
  if (code === "TAB_AS_INDENT") {
    const tabs = /^\t+/.exec(text.slice(start, start + 200))?.[0].length ?? 1;
    return problem(
      "tab-indent",
      [start, start + tabs],
      [],
      "YAML is indented with spaces, never with tabs. Replace each tab by two spaces.",
    );
  }
  if (code === "MULTIPLE_DOCS")
    return problem(
      "several-documents",
      range,
      [],
      "A file holds one recipe. Remove the --- line, or move what follows it to a file of its own.",
    );
  if (code === "TAG_RESOLVE_FAILED")
    return problem("unknown-tag", range, [], "Recipes use no tags. Remove it and write a plain value.");
  return problem("yaml-syntax", range, [], messages[code] ?? messages.UNEXPECTED_TOKEN!);
}

/** At least one visible character, at most to the end of its line. */
function visible(text: string, start: number, end: number): [number, number] {
  let from = Math.min(start, text.length);
  const eol = (at: number) => {
    const found = text.slice(at).search(/\r?\n/);
    return found < 0 ? text.length : at + found;
  };
  const to = Math.min(Math.max(end, from + 1), Math.max(eol(from), from));
  if (to > from) return [from, to];
  // At a line's end or the text's: the last character that can be seen before it.
  while (from > 0 && /\s/.test(text[from - 1]!)) from--;
  return from > 0 ? [from - 1, from] : [0, Math.min(1, text.length)];
}
