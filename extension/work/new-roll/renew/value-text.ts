/** Renewed and kept values for people. */
import type { Value } from "../../../recipe/yaml/values.ts";
import type { KeptItem, RenewalItem } from "./renew-roll.ts";

/** "base", "frame 03 exposure". */
export const unitName = ({ state: { unit, frame } }: Pick<RenewalItem, "state">): string =>
  frame === undefined ? unit.name : `frame ${frame} ${unit.name}`;

/** A value on one short line. A curve has no words: it is only said to be there. */
export function valueText(values: readonly (Value | undefined)[]): string {
  const stated = values.filter((value) => value !== undefined);
  if (stated.length === 0) return "none";
  if (stated.length > 1) return "a curve";
  const [value] = stated;
  if (typeof value !== "object" || value === null) return String(value);
  if (Array.isArray(value)) return value.join(" ");
  if ("logH" in value) return "a curve";
  if ("left" in value)
    return ["left", "top", "width", "height", "tilt"].map((key) => valueText([value[key]])).join(" ");
  if ("density" in value) return valueText([value.density as Value]);
  return Object.entries(value)
    .map(([key, own]) => `${key} ${JSON.stringify(own)}`)
    .join(", ");
}

/** Why a value is kept. */
export function keptText({ reason, after }: Pick<KeptItem, "reason" | "after">): string {
  const found = `found ${valueText(after)}`;
  if (reason === "changed") return `changed since; ${found}`;
  if (reason === "unrecorded") return `not recorded as automatic; ${found}`;
  return "not found on the scans";
}
