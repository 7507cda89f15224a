/** Values that a recipe's text may hold: known keys at their places, unknown ones anywhere, texts of every kind. */
import type { Dice } from "./dice.ts";

export type Data = string | number | boolean | null | Data[] | { [key: string]: Data };
export type Fields = { [key: string]: Data };

// oxfmt-ignore
const ORDINARY_WORDS = [
  "first light", "hold the sky", "Varnhaven", "folding 35", "50 mm", "2026-05-02", "a, b", "it's", 'say "so"', "H0001.dng",
  "../stocks/northlight-400.stock.yaml", "web", "jpeg", "12", "true", "null", "#1", "x: y", "é ü", "朝の光", "on", "1e3", "-", "12A",
];
// oxfmt-ignore
const ODD_WORDS = [
  "", " ", "  two  blanks ", " leading", "trailing ", "\ttab first", "tab\there", "tab last\t", "\u00a0hard", "hard\u00a0", "a\u00a0b",
  "\u3000朝の光", "wide\u3000", "\u2003em", "line\u2028sep", "next\u0085line", "bell\u0007", "\u001b[31mred", "😀", "zero\u200bwidth",
  "\ufeffmark", "del\u007f", "a #b", "a# b", "#", "a:b", "a: b", ":x", ": ", "-x", "- x", "--- x", "...", "?x", "? x", "[x]", "{x}", "x]", "x,",
  "&x", "*x", "!x", "|", ">", "| x", "%x", "@x", "`x`", "'", "''", '"', '""', "\\", "a\\", "a\\n", "~", "Null", "yes", "0x1f", "0o7", ".5", "1.", ".inf", "-.inf",
  ".nan", "+1", "01", "1_000", "=", "<<", "// #", "http://x#y", "a ,b", "end:", "<<<<<<<", "=======", "\\u0041", "C:\\scans", "back\\ slash", "a'b\"c",
];

export function word(dice: Dice, isOrdinary: boolean): string {
  if (isOrdinary || dice.chance(0.4)) return dice.pick(ORDINARY_WORDS);
  if (dice.chance(0.6)) return dice.pick(ODD_WORDS);
  return dice.list(1, 12, () => dice.pick(Array.from("ab c:#-,[]{}'\"\\\t?!&*|>%@`~=.1é\u00a0\u3000"))).join("");
}

/** A text of one line or several. */
export function text(dice: Dice, isOrdinary: boolean): string {
  if (dice.chance(isOrdinary ? 0.75 : 0.5)) return word(dice, isOrdinary);
  const line = (): string =>
    isOrdinary
      ? dice.pick(["para one", "hold the sky, a touch", "  set in", "lighter than they want to be", "end"])
      : dice.list(0, 3, () => word(dice, false)).join(dice.pick([" ", "", "  "]));
  const lines = isOrdinary ? ["ask Anna", ...dice.list(1, 3, line)] : dice.list(1, 5, line);
  const breaks = isOrdinary ? ["\n", "\n", "\n\n"] : ["\n", "\n", "\n\n", "\n\n\n"];
  let out = lines[0] ?? "";
  for (const next of lines.slice(1)) out += dice.pick(breaks) + next;
  const first = isOrdinary || dice.chance(0.8) ? "" : dice.pick(["\n", "\n\n"]);
  return first + out + dice.pick(isOrdinary ? ["", "\n"] : ["", "\n", "\n\n", "\n\n\n"]);
}

const number = (dice: Dice): number =>
  dice.chance(0.4) ? dice.below(2000) - 400 : 0 + Number(((dice.next() - 0.3) * 10 ** dice.below(4)).toFixed(3));

export function scalar(dice: Dice, isOrdinary: boolean): Data {
  const kind = dice.below(10);
  if (kind < 6) return text(dice, isOrdinary);
  if (kind < 8) return number(dice);
  return dice.pick([true, false, null]);
}

/** Any value, a few levels deep. */
export function anything(dice: Dice, depth: number, isOrdinary: boolean): Data {
  const kind = depth <= 0 ? 0 : dice.below(4);
  if (kind < 2) return scalar(dice, isOrdinary);
  if (kind === 2) return dice.list(0, 4, () => anything(dice, depth - 1, isOrdinary));
  return fields(
    dice.list(0, 4, () => key(dice, isOrdinary)),
    () => anything(dice, depth - 1, isOrdinary),
  );
}

const KEYS = ["note", "title", "scan", "toe", "ant", "zebra", "read", "base", "name", "x y", "long"];
export function key(dice: Dice, isOrdinary: boolean): string {
  if (isOrdinary || dice.chance(0.7)) return dice.pick(KEYS);
  const name = dice.chance(0.5)
    ? word(dice, false)
    : dice.pick(["a b", "k\nl", "日付", "a-b", "x:y", "q?", "12", "3.5"]);
  // At a line's beginning seven of them are a conflict of git's.
  return /^(?:__proto__|constructor|prototype)$|^<{7}/.test(name) ? "k" : name;
}

function fields(keys: readonly string[], value: (key: string) => Data): Fields {
  return Object.fromEntries(keys.map((name) => [name, value(name)]));
}

const triple = (dice: Dice): Data => [number(dice), number(dice), number(dice)];
const row = (dice: Dice, max: number, width = 3): Data =>
  dice.list(1, max, () => Array.from({ length: width }, () => number(dice)));

/** A roll's value: mostly what the schema knows, in random order. */
export function recipe(dice: Dice, isOrdinary: boolean): Fields {
  const usual = dice.pick([0.08, 0.12, 0.2, 0.3]);
  const some = (all: Readonly<Record<string, () => Data>>, share = usual): Fields => {
    const keys = Object.keys(all).filter(() => dice.chance(share));
    for (let i = keys.length - 1; i > 0; i--) {
      const j = dice.below(i + 1);
      [keys[i], keys[j]] = [keys[j]!, keys[i]!];
    }
    const odd = dice.chance(isOrdinary ? 0.02 : 0.1) ? [key(dice, isOrdinary)] : [];
    return fields([...keys, ...odd], (name) =>
      Object.hasOwn(all, name) ? all[name]!() : anything(dice, 2, isOrdinary),
    );
  };
  const value = (): Data =>
    dice.chance(isOrdinary ? 0 : 0.05) ? anything(dice, 2, isOrdinary) : text(dice, isOrdinary);
  const light = (): Data => some({ blank: value, flare: () => triple(dice), spots: () => row(dice, 6) });
  const negative = (): Data =>
    some({
      base: () =>
        some({
          density: () => triple(dice),
          read: () => some({ scan: value, area: () => row(dice, 1, 4), scatter: () => number(dice) }),
        }),
      gamma: () => triple(dice),
      unmix: () => [triple(dice), triple(dice), triple(dice)],
      curve: () => some({ logH: () => triple(dice), red: () => triple(dice) }),
    });
  const positive = (): Data =>
    some({
      exposure: () => number(dice),
      filtration: () => some({ cyan: () => number(dice), magenta: () => number(dice), yellow: () => number(dice) }),
      contrast: () => number(dice),
      toe: () => number(dice),
      curve: () => row(dice, 6, 2),
    });
  const frame = (): Data =>
    dice.chance(0.05)
      ? dice.pick([{}, null])
      : some({
          scan: value,
          scans: () => [value(), value()],
          join: () => row(dice, 2),
          area: () =>
            some({
              left: () => number(dice),
              top: () => number(dice),
              width: () => number(dice),
              tilt: () => number(dice),
            }),
          turn: () => dice.pick([0, 90, 180]),
          mirror: () => dice.chance(0.5),
          positive,
          negative,
          light,
          spots: () => row(dice, 6),
          title: value,
          note: value,
        });
  const frames = (): Data =>
    fields(
      dice.list(0, 4, () => dice.pick(["00", "01", "02", "10", "12A", "x", "1"])),
      frame,
    );
  const output = (): Data =>
    dice.list(0, 3, () =>
      some({ name: value, type: () => "jpeg", depth: () => 16, space: () => "srgb", long: () => 2000 }),
    );
  return {
    ...some({
      title: value,
      stock: value,
      exposed: () => some({ camera: value, lens: value, date: value, rated: () => 400 }),
      scans: value,
      light,
      negative,
      positive,
      output,
      frames,
      fingerprints: () => fields(["a.dng", "b.dng"], () => some({ size: () => 12, sha256: () => "ab".repeat(32) }, 1)),
      note: value,
    }),
    ...(dice.chance(0.9) ? { version: 1 } : {}),
  };
}
