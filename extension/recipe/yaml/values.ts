/** Plain data of a tree, with aliases resolved. */
import { type RecipePath, pathText } from "../path.ts";
import { type Problem, problem } from "../problems.ts";
import { type Entry, type Mapping, type AstNode, target } from "./ast.ts";

/** Data as the recipe states it: mappings become objects, lists become arrays. */
export type Value = string | number | boolean | null | readonly Value[] | { readonly [key: string]: Value };

const maximumDepth = 32;
const maximumSize = 300_000;
const maximumProblems = 1000;
const forbidden = new Set(["__proto__", "constructor", "prototype"]);

/**
 * The tree's value. What cannot be a value is reported and left out: forbidden, unreadable and doubled keys, numbers
 * that are not finite, aliases that lead nowhere, nesting beyond 32 levels. Aliases that would blow the value up are
 * reported once, and then there is no value at all.
 */
export function readValues(ast: AstNode): { value: Value | undefined; problems: Problem[] } {
  const walk = new Walk();
  const value = walk.read(ast, []);
  return walk.size > maximumSize
    ? { value: undefined, problems: [tooManyAliases(walk.alias ?? ast)] }
    : { value, problems: walk.problems };
}

class Walk {
  readonly problems: Problem[] = [];
  /** Values read so far, those behind aliases counted each time. */
  size = 0;
  alias: AstNode | undefined;

  read(ast: AstNode, path: RecipePath): Value | undefined {
    if (++this.size > maximumSize) return undefined;
    if (path.length > maximumDepth) {
      this.problems.push(
        problem(
          "too-deep",
          [ast.start, ast.end],
          path,
          `Values may be nested at most ${maximumDepth} levels deep. Nothing in a recipe needs more than six.`,
        ),
      );
      return undefined;
    }
    if (ast.kind === "alias") return this.#alias(ast, path);
    if (ast.kind === "scalar") return this.#scalar(ast.value, ast, path);
    if (ast.kind === "list") {
      const list: Value[] = [];
      for (const [i, item] of ast.items.entries()) {
        if (this.size > maximumSize) break;
        list.push(this.read(item.value, [...path, i]) ?? null);
      }
      return list;
    }
    return this.#mapping(ast, path);
  }

  #scalar(value: Value, ast: AstNode, path: RecipePath): Value | undefined {
    if (typeof value !== "number" || Number.isFinite(value)) return value;
    const what = Number.isNaN(value) ? "not a number" : "infinite or too large to be held";
    this.problems.push(
      problem(
        "not-finite",
        [ast.start, ast.end],
        path,
        `The value of ${pathText(path)} is ${what}. Write an ordinary number.`,
      ),
    );
    return undefined;
  }

  #alias(ast: AstNode & { kind: "alias" }, path: RecipePath): Value | undefined {
    this.alias ??= ast;
    const found = target(ast);
    if (found) return this.read(found, path);
    this.problems.push(
      problem(
        "bad-alias",
        [ast.start, ast.end],
        path,
        `No anchor &${ast.name} stands before this alias. Write the value itself.`,
      ),
    );
    return undefined;
  }

  #mapping(ast: Mapping, path: RecipePath): Value {
    const value: Record<string, Value> = {};
    const seen = new Map<string, Entry>();
    for (const entry of ast.entries) {
      if (this.size > maximumSize || this.problems.length > maximumProblems) break;
      const keyProblem = decimalComma(ast, entry, path) ?? this.#keyFault(entry, seen, path);
      if (keyProblem) this.problems.push(keyProblem);
      if (keyProblem && keyProblem.code !== "unquoted-frame-id") continue;
      seen.set(entry.name, entry);
      const inner = this.read(entry.value, [...path, entry.name]);
      if (inner !== undefined) value[entry.name] = inner;
    }
    return value;
  }

  #keyFault({ name, key }: Entry, seen: ReadonlyMap<string, Entry>, path: RecipePath): Problem | undefined {
    const range = [key.start, key.end] as const;
    const here = [...path, name];
    if (key.kind !== "scalar" || key.style === "block")
      return problem("bad-key", range, path, "A key is a word or a text in quotes. Write it as plain text.");
    if (forbidden.has(name))
      return problem(
        "forbidden-key",
        range,
        here,
        `${name} is a word that no recipe may use as a key. Remove it or choose another name.`,
      );
    if (seen.has(name))
      return problem(
        "duplicate-key",
        range,
        here,
        `${pathText(here)} is stated twice; the first one counts. Remove one of them.`,
        { data: { key: name } },
      );
    if (typeof key.value === "string") return undefined;
    if (path.length === 1 && path[0] === "frames" && typeof key.value === "number") {
      const quoted = JSON.stringify(name);
      const why = String(key.value) === name ? "a number" : `the number ${key.value}`;
      return problem(
        "unquoted-frame-id",
        range,
        here,
        `Frame ids are written in quotes: ${quoted}. Without them YAML reads ${name} as ${why}.`,
        { data: { quoted } },
      );
    }
    return problem(
      "bad-key",
      range,
      here,
      `${name} is not a text to YAML. Write the key in quotes: ${JSON.stringify(name)}.`,
      { data: { quoted: JSON.stringify(name) } },
    );
  }
}

/** In brackets the comma of `exposure: -0,2` ends the value, and the decimals become a key. */
function decimalComma(ast: Mapping, entry: Entry, path: RecipePath): Problem | undefined {
  const { key, value, name } = entry;
  const isLoneNumber = key.kind === "scalar" && typeof key.value === "number" && value.start === value.end;
  if (!ast.flow || !isLoneNumber || !/^\d+$/.test(name)) return undefined;
  const before = ast.entries[ast.entries.indexOf(entry) - 1];
  const whole = before?.value.kind === "scalar" && before.value.end + 1 === key.start ? before.value.value : undefined;
  if (!before || typeof whole !== "number" || !Number.isInteger(whole)) return undefined;
  const sign = whole < 0 || Object.is(whole, -0) ? "-" : "";
  const suggestion = `${sign}${Math.abs(whole)}.${name}`;
  const here = [...path, before.name];
  return problem(
    "wrong-type",
    [before.value.start, key.end],
    here,
    `${pathText(here)} has a decimal comma, which ends the value. Write ${suggestion}.`,
    { data: { quoted: suggestion } },
  );
}

const tooManyAliases = (ast: AstNode): Problem =>
  problem(
    "too-many-aliases",
    [ast.start, ast.end],
    [],
    `With its aliases written out the recipe holds more than ${maximumSize} values. Write the values themselves; recipes need no aliases.`,
  );
