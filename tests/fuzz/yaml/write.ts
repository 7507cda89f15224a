/**
 * Writes a value as YAML 1.2.2 in one of the many ways that its grammar allows (chapters 6 to 9): block and flow styles
 * mixed, comments at every place where s-l-comments or s-separate may stand, any indentation, CRLF, byte order mark,
 * anchors, explicit keys, document markers. Knows the value and every comment that it wrote.
 */
import type { Data, Fields } from "./data.ts";
import type { Dice } from "./dice.ts";
import { type Place, Scalars, white } from "./scalars.ts";

export type Path = readonly (string | number)[];

export interface WrittenComment {
  /** From # to the end of its line, without white space at the end. */
  readonly text: string;
  /** The key or item in which it stands. */
  readonly owner: Path;
  /** The key or item above whose line it stands. */
  above?: Path;
}

export interface WrittenText {
  readonly text: string;
  readonly value: Fields;
  readonly comments: readonly WrittenComment[];
}

export interface Manner {
  readonly isOrdinary: boolean;
  /** Anchors, tags, explicit keys, markers, directives: valid, and not laid out anew. */
  readonly hasExtras: boolean;
}

// oxfmt-ignore
const COMMENTS = ["ask Anna", "", " a: b", " - x", " [x", "}", ' "', "'", " # twice", " \u00a0hard\u00a0", "\u3000", " a\u2028b", "\tt\tt", " note: |", " &a *b !c", " 😀", ",", " ,", ":", "#", "%", "---", " \u0085 x"];

export function write(value: Fields, dice: Dice, manner: Manner): WrittenText {
  const writer = new Writer(dice, manner);
  writer.document(value);
  return { text: writer.finished(), value, comments: writer.comments };
}

class Writer {
  readonly comments: WrittenComment[] = [];
  readonly #dice: Dice;
  readonly #manner: Manner;
  readonly #scalars: Scalars;
  #out = "";
  #path: Path = [];
  /** Comments on lines of their own since the last key or item. */
  #waiting: WrittenComment[] = [];
  #anchors = 0;
  /** How many comments there are: none in some texts, everywhere in others. */
  readonly #chatty: number;
  #endsInBlockText = false;
  /** Between a key and its value, and in brackets, the reader takes a comment for one only when it is set in further. */
  #setIn = 0;

  constructor(dice: Dice, manner: Manner) {
    this.#dice = dice;
    this.#manner = manner;
    this.#scalars = new Scalars(dice, manner.isOrdinary);
    this.#chatty = dice.pick([0, 0.05, 0.15, 0.4]);
  }

  finished(): string {
    const dice = this.#dice;
    let text = this.#out;
    if (!this.#endsInBlockText && dice.chance(0.1)) text = text.replace(/\n$/, "");
    if (dice.chance(0.2)) text = text.replaceAll("\n", "\r\n");
    else if (!this.#manner.isOrdinary && dice.chance(0.05))
      text = text.replaceAll("\n", () => (dice.chance(0.5) ? "\r\n" : "\n"));
    // The reader counts the mark as a column, so that nothing may be set in behind it.
    return (dice.chance(this.#manner.isOrdinary ? 0.02 : 0.1) && !/^[ \t]/.test(text) ? "\uFEFF" : "") + text;
  }

  document(value: Fields): void {
    const { isOrdinary, hasExtras } = this.#manner;
    const dice = this.#dice;
    const hasDirective = hasExtras && dice.chance(0.1);
    if (hasDirective) this.#out += "%YAML 1.2\n---\n";
    else this.#commentLines();
    if (hasExtras && !hasDirective && dice.chance(0.1)) this.#out += dice.pick(["---\n", "--- # start\n"]);
    if (this.#out.endsWith("# start\n")) this.comments.push({ text: "# start", owner: [] });
    const isFlow = Object.keys(value).length === 0 || (!isOrdinary && dice.chance(0.04));
    const indent = isOrdinary || dice.chance(0.9) ? 0 : 1 + dice.below(3);
    if (isFlow) {
      this.#out += " ".repeat(indent);
      this.#flow(value, 1, "flow");
      this.#lineEnd();
    } else this.#mapping(value, indent, false);
    if (hasExtras && dice.chance(0.1)) {
      if (!this.#out.endsWith("\n")) this.#out += "\n";
      this.#out += "...\n";
      this.#endsInBlockText = false;
    }
  }

  // ——— comments and blanks (6.6, 6.7)

  #comment(isOwnLine: boolean): void {
    const { isOrdinary } = this.#manner;
    const dice = this.#dice;
    const commentText = isOrdinary ? dice.pick([" ask Anna", " why", " a: b", " - x", " it's"]) : dice.pick(COMMENTS);
    const number = dice.chance(0.95) ? String(this.comments.length) : "";
    const text = `#${number}${commentText}`;
    const comment: WrittenComment = { text: text.replace(/[ \t]+$/, ""), owner: this.#path };
    this.comments.push(comment);
    if (isOwnLine) this.#waiting.push(comment);
    this.#out += text + (isOrdinary || dice.chance(0.9) ? "" : dice.pick([" ", "\t", "  "]));
  }

  /** s-l-comments: a comment behind, the break, and lines of comments. `below`: the first may not be set in further (l-trail-comments). */
  #lineEnd(below?: number): void {
    if (!this.#out.endsWith("\n")) {
      if (this.#dice.chance(this.#chatty)) {
        if (!/[ \t]$/.test(this.#out)) this.#out += this.#white(1);
        this.#comment(false);
      }
      this.#out += "\n";
    }
    this.#commentLines(below);
    this.#endsInBlockText = false;
  }

  /** l-comment* */
  #commentLines(below?: number): void {
    const dice = this.#dice;
    let isFirst = below !== undefined;
    while (dice.chance(Math.max(this.#chatty, 0.05) * 0.7)) {
      // Behind a block text a blank line is the text's own, as far as it keeps its ends; see block().
      if (dice.chance(0.3) && !isFirst)
        this.#out += `${this.#manner.isOrdinary || dice.chance(0.8) ? "" : this.#white(1)}\n`;
      else {
        const depth = this.#manner.isOrdinary ? this.#ordinaryIndent() : dice.below(12);
        if (isFirst) this.#out += " ".repeat(Math.min(depth, below! - 1));
        else
          this.#out +=
            " ".repeat(Math.max(depth, this.#setIn)) + (this.#manner.isOrdinary || dice.chance(0.9) ? "" : "\t");
        this.#comment(true);
        this.#out += "\n";
        isFirst = false;
      }
    }
  }

  #ordinaryIndent(): number {
    const line = this.#out.trimEnd().split("\n").at(-1) ?? "";
    return line.length - line.trimStart().length;
  }

  #white(min: number): string {
    return white(this.#dice, min, this.#manner.isOrdinary);
  }

  /** s-flow-line-prefix(n) */
  #prefix(indent: number): string {
    const { isOrdinary } = this.#manner;
    return (
      " ".repeat(indent + (isOrdinary ? 1 : this.#dice.below(4))) +
      (isOrdinary || this.#dice.chance(0.9) ? "" : this.#white(1))
    );
  }

  /** s-separate(n,c): blanks, or lines of comments and the next line's prefix. */
  #separate(indent: number, isNeeded: boolean, share = 0.1): void {
    const { isOrdinary } = this.#manner;
    if (this.#dice.chance(isOrdinary ? share / 4 : share)) {
      const before = this.#setIn;
      this.#setIn = Math.max(indent, before);
      this.#lineEnd();
      this.#setIn = before;
      this.#out += this.#prefix(indent);
    } else this.#out += isOrdinary ? (isNeeded ? " " : "") : this.#white(isNeeded ? 1 : 0);
  }

  #begin(path: Path): void {
    this.#path = path;
    for (const comment of this.#waiting) comment.above = path;
    this.#waiting = [];
  }

  // ——— flow styles (7.4)

  #flow(value: Data, indent: number, place: Place): void {
    if (Array.isArray(value)) this.#flowList(value, indent);
    else if (typeof value === "object" && value !== null) this.#flowMapping(value, indent);
    else this.#flowScalar(value, indent, place);
  }

  #flowScalar(value: string | number | boolean | null, indent: number, place: Place): void {
    if (typeof value === "string") this.#out += this.#scalars.flow(value, place, () => this.#prefix(indent));
    else this.#out += this.#scalars.other(value, false);
  }

  /** c-flow-sequence(n,c), with single pairs */
  #flowList(list: readonly Data[], indent: number): void {
    const dice = this.#dice;
    const own = this.#path;
    this.#out += "[";
    this.#gap(indent);
    for (const [i, item] of list.entries()) {
      this.#begin([...own, i]);
      const isPair =
        !this.#manner.isOrdinary &&
        typeof item === "object" &&
        item !== null &&
        !Array.isArray(item) &&
        Object.keys(item).length === 1;
      if (isPair && dice.chance(0.4)) this.#pair(Object.keys(item)[0]!, Object.values(item)[0]!, indent, "flow-key");
      else this.#flow(item, indent, "flow");
      this.#gap(indent);
      if (i < list.length - 1 || (!this.#manner.isOrdinary && dice.chance(0.1))) this.#comma(indent);
      this.#path = own;
    }
    this.#waiting = [];
    this.#out += "]";
  }

  /** c-flow-mapping(n,c) */
  #flowMapping(value: Fields, indent: number): void {
    const own = this.#path;
    this.#out += "{";
    if (this.#manner.isOrdinary) this.#out += " ";
    this.#gap(indent);
    for (const [i, [name, inner]] of Object.entries(value).entries()) {
      this.#begin([...own, name]);
      this.#pair(name, inner, indent, "flow");
      this.#gap(indent);
      if (i < Object.keys(value).length - 1 || (!this.#manner.isOrdinary && this.#dice.chance(0.1)))
        this.#comma(indent);
      this.#path = own;
    }
    this.#waiting = [];
    this.#out += "}";
  }

  #gap(indent: number): void {
    if (!this.#out.endsWith("\n") && this.#dice.chance(0.5)) this.#separate(indent, false, 0.25);
  }

  #comma(indent: number): void {
    this.#out += ",";
    if (this.#manner.isOrdinary) this.#separate(indent, true, 0.3);
    else this.#gap(indent);
  }

  /** ns-flow-map-implicit-entry(n,c): ends so that a comma or bracket may follow. */
  #pair(name: string, value: Data, indent: number, place: "flow" | "flow-key"): void {
    const dice = this.#dice;
    const path = this.#path;
    const from = this.#out.length;
    this.#out += this.#scalars.flow(name, this.#manner.isOrdinary ? "flow-key" : place, () => this.#prefix(indent));
    const isQuoted = /["']/.test(this.#out[from]!);
    if (value === null && place === "flow" && dice.chance(0.2)) return;
    if (!this.#manner.isOrdinary && dice.chance(0.15)) {
      if (place === "flow") this.#separate(indent, false, 0.3);
      else this.#out += this.#white(0);
    }
    this.#out += ":";
    if (value === null && dice.chance(0.5)) {
      // An empty value: what follows may not be taken for one.
      this.#out += " ";
      return;
    }
    if (!(isQuoted && !this.#manner.isOrdinary && dice.chance(0.3))) this.#separate(indent, true, 0.08);
    this.#path = path;
    this.#waiting = [];
    this.#flow(value, indent, "flow");
  }

  // ——— block styles (8.2)

  /** ns-l-block-mapping(n); `isOpen`: the first key's place is reached already. */
  #mapping(value: Fields, indent: number, isOpen: boolean): void {
    const own = this.#path;
    for (const [i, [name, inner]] of Object.entries(value).entries()) {
      if (i > 0 || !isOpen) this.#out += " ".repeat(indent);
      this.#begin([...own, name]);
      if (this.#manner.hasExtras && this.#dice.chance(0.03)) {
        this.#out += "? ";
        this.#out += this.#scalars.flow(name, "block", () => this.#prefix(indent + 1));
        this.#lineEnd();
        this.#out += " ".repeat(indent);
      } else {
        this.#out += this.#scalars.flow(name, "block-key", () => "");
        if (!this.#manner.isOrdinary && this.#dice.chance(0.1)) this.#out += this.#white(1);
      }
      this.#out += ":";
      this.#blockValue(inner, indent, "key");
      this.#path = own;
    }
  }

  /** l+block-sequence(n) */
  #list(list: readonly Data[], indent: number, isOpen: boolean): void {
    const own = this.#path;
    for (const [i, item] of list.entries()) {
      if (i > 0 || !isOpen) this.#out += " ".repeat(indent);
      this.#begin([...own, i]);
      this.#out += "-";
      this.#blockValue(item, indent, "dash");
      this.#path = own;
    }
  }

  /** s-l+block-node(n,c) behind a colon or dash of a mapping or list at column `indent`. */
  #blockValue(value: Data, indent: number, behind: "key" | "dash"): void {
    const dice = this.#dice;
    const { isOrdinary, hasExtras } = this.#manner;
    const isGroup = typeof value === "object" && value !== null;
    let marks = "";
    if (hasExtras && dice.chance(0.05)) marks = ` &a${this.#anchors++}`;
    if (hasExtras && typeof value === "string" && dice.chance(0.02)) marks += " !!str";
    this.#out += marks;
    if (isGroup && Object.keys(value).length > 0 && dice.chance(isOrdinary ? 0.5 : 0.65))
      return this.#blockGroup(value, indent, behind, marks !== "");
    if (value === null && marks === "" && dice.chance(0.5)) return this.#lineEnd();
    if (typeof value === "string" && dice.chance(isOrdinary ? (value.includes("\n") ? 0.8 : 0.03) : 0.3)) {
      const written = this.#scalars.block(value, indent, () => this.#headerEnd());
      if (written !== undefined) {
        this.#out += this.#white(1) + written;
        this.#endsInBlockText = true;
        const keeps = /^[|>][-0-9]*\+/.test(written);
        const wasEmpty = /^[|>][^\n]*\n\n*$/.test(written);
        if (dice.chance(this.#chatty) && !keeps) {
          // The text's lines are set in by one blank at least.
          this.#lineEnd(wasEmpty ? 1 : indent + 1);
        } else if (dice.chance(this.#chatty)) this.#lineEnd(wasEmpty ? 1 : indent + 1);
        return;
      }
    }
    this.#separate(indent + 1, true, 0.06);
    this.#waiting = [];
    this.#flow(value, indent + 1, "block");
    this.#lineEnd();
  }

  /** The rest of a block text's header (s-b-comment). */
  #headerEnd(): string {
    if (!this.#dice.chance(this.#chatty)) return this.#manner.isOrdinary || this.#dice.chance(0.9) ? "\n" : " \n";
    const before = this.#out;
    this.#out = this.#white(1);
    this.#comment(false);
    const written = this.#out;
    this.#out = before;
    return `${written}\n`;
  }

  #blockGroup(value: Data[] | Fields, indent: number, behind: "key" | "dash", isMarked: boolean): void {
    const dice = this.#dice;
    const isList = Array.isArray(value);
    // ns-l-compact-mapping, ns-l-compact-sequence
    if (behind === "dash" && !isMarked && dice.chance(0.7)) {
      const gap = this.#manner.isOrdinary ? 1 : 1 + dice.below(4);
      this.#out += " ".repeat(gap);
      if (isList) this.#list(value, indent + 1 + gap, true);
      else this.#mapping(value, indent + 1 + gap, true);
      return;
    }
    this.#lineEnd();
    const step = this.#manner.isOrdinary ? dice.pick([2, 2, 2, 4]) : 1 + dice.below(5);
    if (isList) this.#list(value, indent + (behind === "key" && dice.chance(0.3) ? 0 : step), false);
    else this.#mapping(value, indent + step, false);
  }
}
