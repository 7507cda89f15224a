/** Values, ranges and defaults as text for hovers, hints and completions. */
import type { KeyDescription } from "../schema/key-description.ts";
import { formatNumber } from "../yaml/scalar.ts";
import type { Value } from "../yaml/values.ts";

/** A value as it would be written in a recipe, on one line. */
export function valueText(value: unknown): string {
  if (typeof value === "number") return formatNumber(value);
  if (typeof value === "string") return /^[A-Za-z][\w ./-]*$/.test(value) ? value : JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map(valueText).join(", ")}]`;
  if (typeof value === "object" && value !== null) {
    const entries = Object.entries(value).filter(([, inner]) => inner !== undefined);
    return `{ ${entries.map(([key, inner]) => `${key}: ${valueText(inner)}`).join(", ")} }`;
  }
  return String(value);
}

/** The same, cut to about `most` characters for places with little room. */
export function shortValue(value: unknown, maxLength = 40): string {
  const text = valueText(value);
  return text.length > maxLength ? `${text.slice(0, maxLength - 1)}…` : text;
}

export const sameValue = (a: Value | undefined, b: Value | undefined): boolean =>
  a === b || (a !== undefined && b !== undefined && typeof a === typeof b && valueText(a) === valueText(b));

/** The allowed range in words: "0.2 to 5", "from 0"; undefined where there is none. */
export function rangeText({ minimum, maximum }: KeyDescription): string | undefined {
  const sign = (value: number) => String(value).replace("-", "−");
  if (minimum !== undefined && maximum !== undefined) return `${sign(minimum)} to ${sign(maximum)}`;
  if (minimum !== undefined) return `from ${sign(minimum)}`;
  return maximum === undefined ? undefined : `up to ${sign(maximum)}`;
}

/** The default in words. */
export const defaultText = (about: KeyDescription): string | undefined =>
  about.defaultText ?? (about.default === undefined ? undefined : shortValue(about.default, 60));
