/** Numbers of findings as text. */
import { english, type Translate } from "../messages.ts";
import type { Finding } from "./types.ts";

/** A measured number for people: three digits that count. */
export const measuredText = (value: number): string =>
  Math.abs(value) >= 100 ? value.toFixed(0) : String(Number(value.toPrecision(3)));

/** What was measured against which limit, in the limit's unit. */
export function comparison(
  { measured, limit, unit }: Pick<Finding, "measured" | "limit" | "unit">,
  t: Translate = english,
): string {
  return t("measured {0}, limit {1} {2}", measuredText(measured), measuredText(limit), t(unit));
}
