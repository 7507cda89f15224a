/** Reads YAML into the tree of ast.ts. The only file that imports the YAML package. */
import { isAlias, isMap, isScalar, isSeq, Lexer, type Node, parseDocument, type Pair, type YAMLError } from "yaml";
import type { Comment, Entry, Item, AstNode } from "./ast.ts";

/** A complaint of the YAML reader. */
export interface SyntaxProblem {
  readonly code: YAMLError["code"] | "UNCLOSED";
  readonly start: number;
  readonly end: number;
}

/** What the YAML reader made of a text. Without faults, `tree` is undefined only for a text without a value. */
export interface Syntax {
  readonly ast: AstNode | undefined;
  readonly syntaxErrors: readonly SyntaxProblem[];
}

/**
 * Reads YAML 1.2 with the core schema into a tree with places. Duplicate keys are left for others to report: the
 * package compares each key with each. Throws a RangeError when the text is nested too deeply for the stack.
 */
export function readSyntax(text: string): Syntax {
  const document = parseDocument(text, {
    version: "1.2",
    schema: "core",
    uniqueKeys: false,
    prettyErrors: false,
    keepSourceTokens: true,
    logLevel: "error",
  });
  const reader = new Reader(text);
  const ast = document.contents ? reader.read(document.contents) : undefined;
  const problems = [...document.errors, ...document.warnings].map(({ code, pos, message }): SyntaxProblem => {
    const unclosed = code === "BAD_INDENT" && message.startsWith("Flow");
    return { code: unclosed ? "UNCLOSED" : code, start: pos[0], end: pos[1] };
  });
  return { ast: ast?.start === ast?.end ? undefined : ast, syntaxErrors: [...problems, ...reader.tags] };
}

/**
 * Every comment of a text, in order of place. The reader's own lexer tells a comment from a # within a text, which no
 * search can.
 */
export function readComments(text: string): Comment[] {
  const comments: Comment[] = [];
  let at = 0;
  let isScalar = false;
  for (const token of new Lexer().lex(text)) {
    if (isScalar) isScalar = false;
    else if (token === SCALAR || token === DOCUMENT || token === FLOW_END) {
      isScalar = token === SCALAR;
      continue;
    } else if (token.startsWith("#")) {
      const source = token.replace(/[ \t\r]+$/, "");
      comments.push({ start: at, end: at + source.length, text: source });
    }
    at += token.length;
  }
  return comments;
}

/** What the lexer puts between the text's own pieces: a scalar follows, a document begins, brackets end too early. */
const [SCALAR, DOCUMENT, FLOW_END] = ["\u001f", "\u0002", "\u0018"];

/** Turns the package's nodes into ours, and forgets the package. */
class Reader {
  readonly #text: string;
  /** What each anchor names so far. An alias sees the anchors before it, as YAML wants; never one around itself. */
  readonly #anchors = new Map<string, AstNode>();
  /** Tags that the reader accepts and recipes do not. */
  readonly tags: SyntaxProblem[] = [];

  constructor(text: string) {
    this.#text = text;
  }

  read(node: Node): AstNode {
    const ast = this.#tree(node);
    if ("anchor" in node && node.anchor) this.#anchors.set(node.anchor, ast);
    return ast;
  }

  #tree(node: Node): AstNode {
    const [start = 0, end = start] = node.range ?? [];
    if (isAlias(node)) return { kind: "alias", start, end, name: node.source, target: this.#anchors.get(node.source) };
    const props = this.#propsBefore(node, start);
    if (isMap(node)) {
      const entries = node.items.map((pair) => this.#entry(pair as Pair<Node, Node | null>, start));
      const flow = node.flow === true;
      return {
        kind: "mapping",
        ...blockRange(flow, start, end, entries[0]?.key, entries.at(-1)?.value),
        ...props,
        flow,
        entries,
      };
    }
    if (isSeq(node)) {
      const source = node.srcToken && "items" in node.srcToken ? node.srcToken.items : [];
      const items = node.items.map((value, i): Item => {
        const dash = source[i]?.start.find((token) => token.type === "seq-item-ind")?.offset;
        const ast = this.read(value as Node);
        return { start: dash ?? ast.props ?? ast.start, value: ast };
      });
      const flow = node.flow === true;
      return { kind: "list", ...blockRange(flow, start, end, items[0], items.at(-1)?.value), ...props, flow, items };
    }
    if (!isScalar(node)) throw new Error("The YAML reader gave a node of an unknown kind.");
    const style = styles[String(node.type)] ?? "plain";
    return { kind: "scalar", start, end: this.#trimmed(start, end), ...props, value: plainValue(node.value), style };
  }

  #entry(pair: Pair<Node, Node | null>, fallback: number): Entry {
    const key = this.read(pair.key);
    const problems: AstNode | undefined = pair.value ? this.read(pair.value) : undefined;
    // A value left out stands right behind its colon, wherever the reader puts it.
    const colon = pair.srcToken?.sep?.find((token) => token.type === "map-value-ind")?.offset;
    const nowhere = colon === undefined ? key.end || fallback : colon + 1;
    const isLeftOut =
      !problems || (problems.kind === "scalar" && problems.start === problems.end && problems.props === undefined);
    const value: AstNode = isLeftOut
      ? { kind: "scalar", start: nowhere, end: nowhere, value: null, style: "plain" }
      : problems;
    // A number as a key keeps its digits: 01 stays "01" for messages and for finding the frame that was meant.
    const name =
      key.kind === "scalar" && typeof key.value === "string" ? key.value : this.#text.slice(key.start, key.end);
    const explicit = pair.srcToken?.start.some((token) => token.type === "explicit-key-ind");
    return { name, key, value, ...(colon === undefined ? {} : { colon }), ...(explicit ? { explicit } : {}) };
  }

  #trimmed(start: number, end: number): number {
    let at = end;
    // Blanks of YAML alone: a hard or wide space is part of a text.
    while (at > start && /[ \t\r\n]/.test(this.#text[at - 1] ?? "")) at--;
    return at;
  }

  /** Tag and anchor stand just before a value; the node's own range leaves them out. */
  #propsBefore(node: Node, start: number): { props?: number } {
    const anchor = "anchor" in node && node.anchor ? `&${node.anchor}` : undefined;
    const tag = "tag" in node && typeof node.tag === "string";
    if (!anchor && !tag) return {};
    const props = propsStart(this.#text, start);
    if (props === undefined) return {};
    const at = this.#text.indexOf("!", props);
    if (tag)
      this.tags.push({
        code: "TAG_RESOLVE_FAILED",
        start: at,
        end: at + /^\S*/.exec(this.#text.slice(at, start))![0].length,
      });
    return { props };
  }
}

/**
 * Where the anchors and tags before a value begin, undefined where there are none. Goes backwards word by word: a search
 * from the text's beginning, for each value, would take hours on a text made for it.
 */
function propsStart(text: string, end: number): number | undefined {
  const isBlank = (at: number): boolean => /[ \t\r\n]/.test(text[at] ?? "");
  let start: number | undefined;
  for (let at = end; at > 0;) {
    while (at > 0 && isBlank(at - 1)) at--;
    let word = at;
    while (word > 0 && /[^\s,[\]{}]/.test(text[word - 1] ?? "")) word--;
    while (word < at && text[word] !== "&" && text[word] !== "!") word++;
    if (word === at) break;
    start = word;
    // Behind a quoted key in brackets a mark follows the colon at once: what is before it is no mark.
    if (/[^\s,[\]{}]/.test(text[word - 1] ?? " ")) break;
    at = word;
  }
  return start;
}

const styles: Readonly<Record<string, "single" | "double" | "block">> = {
  QUOTE_SINGLE: "single",
  QUOTE_DOUBLE: "double",
  BLOCK_LITERAL: "block",
  BLOCK_FOLDED: "block",
};

function blockRange(
  flow: boolean,
  start: number,
  end: number,
  first?: { start: number },
  last?: AstNode,
): { start: number; end: number } {
  return flow || !first || !last ? { start, end } : { start: first.start, end: last.end };
}

function plainValue(value: unknown): string | number | boolean | null {
  if (typeof value === "bigint") return Number(value);
  return typeof value === "string" || typeof value === "number" || typeof value === "boolean" ? value : null;
}
