/** Formats of values in a diff: digits, units, signs, lists. */
import { formatText } from "../../../engine/film/formats.ts";
import type { Value } from "../../yaml/values.ts";

/** How one kind of value is put into words. `digits` rises until two values that differ read differently. */
export interface ValueFormat {
  readonly digits: number;
  readonly unit?: string;
  show(value: Value, digits: number): string;
}

/** More decimals than this no recipe holds. */
const maxDigits = 6;

export const number = (digits: number, unit?: string, signed = false): ValueFormat => ({
  digits,
  unit,
  show: (value, n) => (typeof value === "number" ? decimal(value, n, signed) : plain(value)),
});

export const triple = (digits: number): ValueFormat => list(digits);

export const list = (digits: number): ValueFormat => ({
  digits,
  show: (value, n) => (Array.isArray(value) ? value.map((item) => one(item as Value, n)).join(" ") : one(value, n)),
});

/** A name, or three by channel: "R.dng, G.dng, B.dng". */
export const byChannelNames: ValueFormat = {
  digits: 0,
  show(value, n) {
    if (typeof value !== "object" || value === null || Array.isArray(value)) return one(value, n);
    const names = value as Readonly<Record<string, Value>>;
    return ["red", "green", "blue"].flatMap((key) => (names[key] === undefined ? [] : plain(names[key]))).join(", ");
  },
};

export const matrix: ValueFormat = {
  digits: 2,
  show: (value, n) =>
    Array.isArray(value) ? value.map((row) => list(n).show(row as Value, n)).join(" | ") : plain(value),
};

/** Places of joined scans: x, y, angle, and the exposure of each channel, which is small. */
export const places: ValueFormat = {
  digits: 2,
  show: (value, n) =>
    Array.isArray(value)
      ? value
          .map((row) => (Array.isArray(row) ? row : [row]) as readonly Value[])
          .map(([x, y, angle, exposure]) => {
            const place = list(n).show([x, y, angle] as unknown as Value, n);
            return exposure === undefined ? place : `${place} (${list(n).show([exposure].flat() as Value, n)} EV)`;
          })
          .join(" | ")
      : plain(value),
};

/** Pairs of L* in and out. */
export const points: ValueFormat = {
  digits: 0,
  show(value, n) {
    const pairs = Array.isArray(value) ? (value as readonly Value[]) : [];
    if (pairs.length === 0) return "none";
    return pairs.map((pair) => (Array.isArray(pair) ? pair.map((v) => one(v as Value, n)).join("→") : "")).join(", ");
  },
};

/** A characteristic curve: its size and range, and beyond `digits` the densities themselves. */
export const table: ValueFormat = {
  digits: 0,
  show(value, n) {
    const fields = typeof value === "object" && value !== null ? (value as Readonly<Record<string, Value>>) : {};
    const logH = Array.isArray(fields.logH) ? (fields.logH as readonly Value[]) : [];
    const ends = logH.length > 0 ? `, log H ${one(logH[0]!, 2)} to ${one(logH.at(-1)!, 2)}` : "";
    if (n === 0) return `${logH.length} points${ends}`;
    const rows = Object.entries(fields).filter(([name]) => name !== "logH");
    return `${logH.length} points${ends}; ${rows.map(([name, row]) => `${name} ${list(n).show(row, n)}`).join("; ")}`;
  },
};

/** A sheet to print: "A4, border 15 mm, 360 ppi, profile matte.icc, perceptual". What is left out is not named. */
export const sheet: ValueFormat = {
  digits: 1,
  show(value, n) {
    const fields = typeof value === "object" && value !== null ? (value as Readonly<Record<string, Value>>) : {};
    // Whole millimetres and pixels are written as such.
    const shown = (key: string): string =>
      typeof fields[key] === "string"
        ? plain(fields[key])
        : list(n)
            .show(fields[key]!, n)
            .replaceAll(/\.0+(?!\d)/g, "");
    const words: Readonly<Record<string, () => string>> = {
      paper: () => (Array.isArray(fields.paper) ? `${shown("paper").replace(" ", " × ")} mm` : shown("paper")),
      orientation: () => `${shown("orientation")} orientation`,
      border: () => `border ${shown("border")} mm`,
      fit: () => shown("fit"),
      length: () => `picture ${shown("length")} mm long`,
      place: () => `at ${list(n + 1).show(fields.place!, n + 1)}`,
      resolution: () => `${shown("resolution")} ppi`,
      profile: () => `profile ${shown("profile")}`,
      intent: () => shown("intent"),
      blackPointCompensation: () => `${fields.blackPointCompensation === false ? "no " : ""}black point compensation`,
    };
    return Object.entries(words)
      .filter(([key]) => fields[key] !== undefined)
      .map(([, text]) => text())
      .join(", ");
  },
};

/** Filters by name: "magenta 4 CC, yellow 7 CC". */
export const wordedFilters: ValueFormat = {
  digits: 0,
  show(value, n) {
    const filters = typeof value === "object" && value !== null ? Object.entries(value as Record<string, Value>) : [];
    const stated = filters.filter(([, cc]) => cc !== 0).map(([name, cc]) => `${name} ${one(cc, n)} CC`);
    return stated.length > 0 ? stated.join(", ") : "none";
  },
};

export const flag: ValueFormat = { digits: 0, show: (value) => (value === true ? "yes" : "no") };

export const text: ValueFormat = { digits: 0, show: plain };

/** A list of words, with commas. */
export const wordList: ValueFormat = {
  digits: 0,
  show: (value) => (Array.isArray(value) ? value.map((word) => plain(word as Value)).join(", ") : plain(value)),
};

/** A film's format: its name, or "60 × 45 mm". */
export const filmFormat: ValueFormat = {
  digits: 0,
  show: (value) => (Array.isArray(value) && value.length === 2 ? formatText(value as [number, number]) : plain(value)),
};

/** What people wrote, in quotes and on one line. */
export const quoted: ValueFormat = {
  digits: 0,
  show: (value) => `“${plain(value).trim().replaceAll(/\s+/g, " ")}”`,
};

/** Both values in words, without unit, with as many decimals as tell them apart unless they say the same. */
export function showPair(
  valueFormat: ValueFormat,
  before: Value | undefined,
  after: Value | undefined,
  same = false,
): readonly [before: string | undefined, after: string | undefined] {
  let shown: readonly [string | undefined, string | undefined] = [undefined, undefined];
  for (let digits = valueFormat.digits; digits <= maxDigits; digits++) {
    const show = (value: Value | undefined): string | undefined =>
      value === undefined ? undefined : valueFormat.show(value, digits);
    shown = [show(before), show(after)];
    if (same || shown[0] !== shown[1]) break;
  }
  return shown;
}

export function withUnit(shown: string, { unit }: ValueFormat): string {
  return unit === undefined ? shown : unit === "°" ? `${shown}°` : `${shown} ${unit}`;
}

/** A decimal with the true minus sign; −0 is 0. */
export function decimal(value: number, digits: number, signed = false): string {
  const rounded = Math.abs(value).toFixed(digits);
  const isZero = Number(rounded) === 0;
  return `${!isZero && value < 0 ? "−" : signed ? "+" : ""}${rounded}`;
}

const one = (value: Value, digits: number): string =>
  typeof value === "number" ? decimal(value, digits) : plain(value);

function plain(value: Value): string {
  if (typeof value === "string") return value;
  return JSON.stringify(value);
}
