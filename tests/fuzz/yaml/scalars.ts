/**
 * Scalars as YAML 1.2.2 lets them be written: chapter 7.3 (plain, single- and double-quoted, with folding) and 8.1
 * (literal and folded, with every header). Written from the productions, whose names stand beside the code; nothing is
 * shared with the program's own printer.
 */
import type { Dice } from "./dice.ts";

/** Where a flow scalar stands: alone in a block, in brackets, or as a key that has to stay on one line. */
export type Place = "block" | "flow" | "block-key" | "flow-key";

const WHITE = /[ \t]/;
// c-printable without breaks and the byte order mark (nb-char)
const isPrintable = (text: string): boolean =>
  // eslint-disable-next-line no-control-regex
  /^[\t\u0020-\u007e\u0085\u00a0-\ud7ff\ue000-\ufefe\uff00-\ufffd\u{10000}-\u{10ffff}]*$/u.test(text);

/** What the core schema reads as something else than a text (10.3.2). */
const NOT_TEXT =
  /^(?:null|Null|NULL|~|true|True|TRUE|false|False|FALSE|[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+|[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?|[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN))$/;

/** Spaces or tabs, at least `least` (s-white). */
export function white(dice: Dice, min: number, isOrdinary: boolean): string {
  if (isOrdinary) return " ".repeat(Math.max(min, dice.chance(0.1) ? 2 : 0));
  return dice.list(min, min + (dice.chance(0.3) ? 3 : 0), () => (dice.chance(0.2) ? "\t" : " ")).join("");
}

export class Scalars {
  readonly #dice: Dice;
  readonly #isOrdinary: boolean;

  constructor(dice: Dice, isOrdinary: boolean) {
    this.#dice = dice;
    this.#isOrdinary = isOrdinary;
  }

  /** A number, boolean or null; "" is null where nothing need stand. */
  other(value: number | boolean | null, mayBeEmpty: boolean): string {
    const dice = this.#dice;
    if (value === null)
      return dice.pick([
        "null",
        "~",
        ...(mayBeEmpty ? ["", "", ""] : []),
        ...(this.#isOrdinary ? [] : ["Null", "NULL"]),
      ]);
    if (typeof value === "boolean") {
      const name = String(value);
      return dice.pick([
        name,
        name,
        ...(this.#isOrdinary ? [] : [name.toUpperCase(), name[0]!.toUpperCase() + name.slice(1)]),
      ]);
    }
    const plain = String(value);
    if (this.#isOrdinary || dice.chance(0.6)) return dice.chance(0.2) && plain.includes(".") ? `${plain}0` : plain;
    if (Number.isInteger(value) && value >= 0)
      return dice.pick([
        `+${plain}`,
        `0x${value.toString(16)}`,
        `0o${value.toString(8)}`,
        `${plain}.0`,
        `${plain}e0`,
        `0${plain}`,
      ]);
    return dice.pick([`${plain}e0`, `${plain}E+00`, plain.replace(/^(-?)0\./, "$1.")]);
  }

  /** A text in one of the flow styles; `prefix` gives the blanks that open a further line (s-flow-line-prefix). */
  flow(value: string, place: Place, prefix: () => string): string {
    const styles = ["plain", "plain", "single", "double"];
    for (let tries = 0; tries < 4; tries++) {
      const style = this.#dice.pick(styles);
      const written =
        style === "plain"
          ? this.#plain(value, place, prefix)
          : style === "single"
            ? this.#single(value, place, prefix)
            : undefined;
      if (written !== undefined) return written;
    }
    return this.#double(value, place, prefix);
  }

  /** ns-plain(n,c) */
  #plain(value: string, place: Place, prefix: () => string): string | undefined {
    const inFlow = place === "flow" || place === "flow-key";
    const unsafe = inFlow ? /[,[\]{}]/ : /^$/;
    if (
      value === "" ||
      NOT_TEXT.test(value) ||
      !isPrintable(value.replaceAll("\n", "")) ||
      WHITE.test(value[0]!) ||
      WHITE.test(value.at(-1)!)
    )
      return undefined;
    if (/^\n|\n$/.test(value) || unsafe.test(value)) return undefined;
    // ns-plain-first(c)
    if (/^[,[\]{}#&*!|>'"%@`]/.test(value)) return undefined;
    if (/^[-?:](?:[ \t\n]|$)/.test(value) || (inFlow && /^[-?:][,[\]{}]/.test(value))) return undefined;
    // ns-plain-char(c)
    if (/:(?:[ \t\n]|$)|(?:^|[ \t\n])#/.test(value)) return undefined;
    if (/^(?:---|\.\.\.)(?:[ \t\n]|$)/m.test(value)) return undefined;
    return this.#folded(value, place, prefix);
  }

  /** c-single-quoted(n,c) */
  #single(value: string, place: Place, prefix: () => string): string | undefined {
    // nb-json
    // eslint-disable-next-line no-control-regex
    if (/[\u0000-\u0008\u000b-\u001f]|\p{Cs}/u.test(value)) return undefined;
    const folded = this.#folded(value.replaceAll("'", "''"), place, prefix);
    return folded === undefined ? undefined : `'${folded}'`;
  }

  /** s-flow-folded(n): k line feeds are k + 1 breaks; a blank between words may be a break. */
  #folded(value: string, place: Place, prefix: () => string): string | undefined {
    const isKey = place.endsWith("key");
    const dice = this.#dice;
    if (value.includes("\n")) {
      if (isKey || /[ \t]\n|\n[ \t]/.test(value)) return undefined;
    }
    let out = "";
    for (let at = 0; at < value.length; at++) {
      const c = value[at]!;
      if (c === "\n") {
        let count = 1;
        while (value[at + count] === "\n") count++;
        out += this.#break(count, prefix);
        at += count - 1;
      } else if (c === " " && !isKey && this.#isBetweenWords(value, at) && dice.chance(this.#isOrdinary ? 0.08 : 0.15))
        out += this.#break(0, prefix);
      else out += c;
    }
    return out;
  }

  #isBetweenWords(value: string, at: number): boolean {
    return /[^ \t\n]/.test(value.charAt(at - 1)) && /[^ \t\n]/.test(value.charAt(at + 1));
  }

  /** A break, `count` empty lines, and what opens the next line; white space around goes (b-l-folded). */
  #break(count: number, prefix: () => string): string {
    const dice = this.#dice;
    const space = this.#isOrdinary || dice.chance(0.7) ? "" : white(dice, 1, false);
    // l-empty(n,c): nothing, or the prefix of any further line
    const empty = (): string => (this.#isOrdinary || dice.chance(0.7) ? "" : prefix());
    return `${space}\n${Array.from({ length: count }, () => `${empty()}\n`).join("")}${prefix()}`;
  }

  /** c-double-quoted(n,c) */
  #double(value: string, place: Place, prefix: () => string): string {
    const dice = this.#dice;
    const isKey = place.endsWith("key");
    const chars = Array.from(value);
    let out = "";
    let opensLine = false;
    for (let at = 0; at < chars.length; at++) {
      const c = chars[at]!;
      // s-double-escaped(n). Empty lines behind it are left out: the reader takes them for a blank.
      if (!isKey && !this.#isOrdinary && c !== "\n" && dice.chance(0.04)) {
        out += `\\\n${prefix()}`;
        opensLine = true;
      }
      if (c === "\n") {
        let count = 1;
        while (chars[at + count] === "\n") count++;
        const before = out.slice(-2);
        const after = chars[at + count] ?? "";
        const isFree = !opensLine && !/[ \t]$/.test(before) && !/^[ \t]/.test(after);
        if (isFree && !isKey && dice.chance(0.5)) {
          out += this.#break(count, prefix);
          at += count - 1;
          opensLine = true;
          continue;
        }
        out += dice.pick(this.#isOrdinary ? ["\\n"] : ["\\n", "\\x0a", "\\u000A"]);
      } else if (
        c === " " &&
        !opensLine &&
        !isKey &&
        this.#isBetweenWords(value, chars.slice(0, at).join("").length) &&
        dice.chance(0.1)
      ) {
        out += this.#break(0, prefix);
        opensLine = true;
        continue;
      } else if (WHITE.test(c) && opensLine) out += c === " " ? dice.pick(["\\ ", "\\x20"]) : "\\t";
      else out += this.#character(c);
      opensLine = false;
    }
    return `"${out}"`;
  }

  /** ns-double-char, c-ns-esc-char */
  #character(c: string): string {
    const dice = this.#dice;
    const code = c.codePointAt(0)!;
    const names: Readonly<Record<string, string>> = {
      "\0": "0",
      "\u0007": "a",
      "\b": "b",
      "\t": "t",
      "\v": "v",
      "\f": "f",
      "\r": "r",
      "\u001b": "e",
      '"': '"',
      "\\": "\\",
      "\u0085": "N",
      "\u00a0": "_",
      "\u2028": "L",
      "\u2029": "P",
      "/": "/",
      " ": " ",
    };
    const mustEscape = c === '"' || c === "\\" || (code < 0x20 && c !== "\t");
    if (!mustEscape && (this.#isOrdinary || dice.chance(0.9))) return c;
    if (names[c] !== undefined && dice.chance(this.#isOrdinary ? 1 : 0.6)) return `\\${names[c]}`;
    const hex = code.toString(16);
    if (code < 0x100 && dice.chance(0.5)) return `\\x${hex.padStart(2, "0")}`;
    if (code < 0x10000) return `\\u${hex.padStart(4, "0").toUpperCase()}`;
    return `\\U${hex.padStart(8, "0")}`;
  }

  /**
   * A literal or folded text below its header (8.1), or undefined for a text that cannot be one. `parent` is the
   * indentation of the key or dash; `comment` gives the end of the header's line.
   */
  block(value: string, parent: number, comment: () => string): string | undefined {
    const dice = this.#dice;
    const kept = /\n*$/.exec(value)![0].length;
    const body = value.slice(0, value.length - kept);
    if (!isPrintable(body.replaceAll("\n", ""))) return undefined;
    // The reader takes lines of white space alone for empty ones.
    if (/(?:^|\n)[ \t]+(?:\n|$)/.test(body)) return undefined;
    if (body === "" && kept === 0 && this.#isOrdinary) return undefined;
    const isFolded = dice.chance(0.5);
    const lines = isFolded ? this.#foldedLines(body) : body.split("\n");
    const first = lines.find((line) => line !== "") ?? "";
    // c-indentation-indicator: detection counts spaces of the first line that is not empty
    const mustTell = first.startsWith(" ") || body === "";
    const step = 1 + dice.below(this.#isOrdinary ? 3 : 9);
    const tells = (mustTell || (!this.#isOrdinary && dice.chance(0.15))) && body !== "";
    const indent = Math.max(parent, 0) + step;
    if (parent < 0) return undefined;
    // c-chomping-indicator; an empty body has line feeds only where they are kept
    const chomp =
      kept === 0 ? "-" : kept === 1 && body !== "" ? dice.pick(this.#isOrdinary ? [""] : ["", "", "+"]) : "+";
    const marks = dice.chance(0.5) ? `${tells ? step : ""}${chomp}` : `${chomp}${tells ? step : ""}`;
    let out = `${isFolded ? ">" : "|"}${marks}${comment()}`;
    const pad = " ".repeat(indent);
    // l-empty(n,c): up to n spaces
    const empty = (): string =>
      this.#isOrdinary || dice.chance(0.7) ? "" : " ".repeat(dice.below(body === "" ? 1 : indent + 1));
    if (body !== "") for (const line of lines) out += `${line === "" ? empty() : pad + line}\n`;
    const more = chomp === "+" ? (body === "" ? kept : kept - 1) : this.#isOrdinary ? 0 : dice.below(3);
    for (let i = 0; i < more; i++) out += "\n";
    return out;
  }

  /** l-folded-content: between lines that do not open with white space k line feeds are k + 1 breaks. */
  #foldedLines(body: string): string[] {
    const dice = this.#dice;
    const out: string[] = [];
    const lines = body.split("\n");
    const isText = (line: string | undefined): boolean => line !== undefined && line !== "" && !WHITE.test(line[0]!);
    for (let at = 0; at < lines.length; at++) {
      const line = lines[at]!;
      if (line === "") {
        out.push("");
        continue;
      }
      if (!isText(line)) out.push(line);
      else {
        let rest = "";
        for (let i = 0; i < line.length; i++) {
          if (line[i] === " " && this.#isBetweenWords(line, i) && dice.chance(0.15)) {
            out.push(rest);
            rest = "";
          } else rest += line[i]!;
        }
        out.push(rest);
      }
      // The next line with something in it: between two texts one break more than line feeds.
      let next = at + 1;
      while (lines[next] === "") next++;
      if (isText(line) && isText(lines[next])) out.push("");
    }
    return out;
  }
}
