/** The shape of a recipe's text: values with their places. Made by syntax.ts, the only file that knows the YAML package. */

interface Placed {
  /** First character of the value's own text, after tag and anchor. */
  readonly start: number;
  /** End of the value's own text, without trailing blanks or comments. Equal to `start` for a value left out. */
  readonly end: number;
  /** Where a tag or anchor before the value begins. */
  readonly props?: number;
}

export type Plain = string | number | boolean | null;

export interface Scalar extends Placed {
  readonly kind: "scalar";
  readonly value: Plain;
  readonly style: "plain" | "single" | "double" | "block";
}

export interface Alias extends Placed {
  readonly kind: "alias";
  readonly name: string;
  readonly target: AstNode | undefined;
}

export interface List extends Placed {
  readonly kind: "list";
  readonly flow: boolean;
  readonly items: readonly Item[];
}

/** One item of a list. `start` is the dash of a block list, or the value's start. */
export interface Item {
  readonly start: number;
  readonly value: AstNode;
}

export interface Mapping extends Placed {
  readonly kind: "mapping";
  readonly flow: boolean;
  readonly entries: readonly Entry[];
}

/** One key with its value. `name` is the key as recipes use it: the text as written, without quotes. */
export interface Entry {
  readonly name: string;
  readonly key: AstNode;
  readonly value: AstNode;
  /** Where the colon stands; absent for a key alone in brackets. */
  readonly colon?: number;
  /** Written with a question mark before the key. */
  readonly explicit?: boolean;
}

/** A comment, from its # to the last sign of its line that is no blank. */
export interface Comment {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

export type AstNode = Scalar | Alias | List | Mapping;

/** The value itself where an alias stands for it; undefined for an alias that leads nowhere. */
export const target = (ast: AstNode): Exclude<AstNode, Alias> | undefined => {
  let at: AstNode | undefined = ast;
  for (let hops = 0; at?.kind === "alias"; hops++) at = hops < 100 ? at.target : undefined;
  return at;
};

const lookups = new WeakMap<Mapping, ReadonlyMap<string, Entry>>();

/** The entry called `name`; of two with the same name, the first. */
export function entryOf(mapping: Mapping, name: string): Entry | undefined {
  if (mapping.entries.length < 12) return mapping.entries.find((entry) => entry.name === name);
  let lookup = lookups.get(mapping);
  if (!lookup) {
    lookup = new Map(mapping.entries.toReversed().map((entry) => [entry.name, entry]));
    lookups.set(mapping, lookup);
  }
  return lookup.get(name);
}

/** One step down: the entry or item under `part`. Aliases are followed. */
export function child(ast: AstNode, part: string | number): { entry?: Entry; item?: Item; value: AstNode } | undefined {
  const at = target(ast);
  if (at?.kind === "mapping") {
    const entry = entryOf(at, String(part));
    return entry && { entry, value: entry.value };
  }
  if (at?.kind !== "list" || typeof part !== "number") return undefined;
  const item = at.items[part];
  return item && { item, value: item.value };
}
