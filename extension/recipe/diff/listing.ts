/** A recipe with everything that follows from it, one value a line, for git's own comparison. */
import { isSame } from "../edit/model.ts";
import type { Value } from "../yaml/values.ts";
import type { RecipeState } from "./compare.ts";
import {
  cascadingKeys,
  type KeyWording,
  frameKeys,
  localFields,
  outputFields,
  rollKeys,
  spotLists,
} from "./wording/key-wordings.ts";
import { centrelineOf, fieldOf, listOf } from "./identity.ts";
import { localName } from "./local.ts";
import { spotName, spotShown } from "./lists.ts";
import { withUnit } from "./wording/value-formats.ts";

/**
 * A recipe with everything that follows from it, one value a line: what a line-by-line comparison should compare. The
 * roll's values come with where they are from; a frame lists what it states itself, all else being the roll's.
 */
export function recipeListing(side: RecipeState): string[] {
  const { resolved, roll } = side;
  const lines: string[] = [
    `${roll.kind} ${resolved.title ?? ""}`.trimEnd(),
    `  film · recipe format version ${resolved.version}`,
  ];
  for (const wording of [...rollKeys, ...cascadingKeys]) lines.push(...factLine(side, undefined, wording));
  lines.push(...areas(side, undefined), ...specks(side, undefined));
  for (const output of listOf(resolved.valueAt(undefined, ["output"]))) lines.push("", ...outputLines(output));
  for (const frame of resolved.frames) {
    lines.push("", `frame ${frame.id}`);
    for (const wording of [...frameKeys, ...cascadingKeys]) lines.push(...factLine(side, frame.id, wording));
    lines.push(...areas(side, frame.id), ...specks(side, frame.id));
  }
  const locks = Object.entries(resolved.fingerprints);
  if (locks.length > 0)
    lines.push("", "locks", ...locks.map(([scan, lock]) => `  ${scan} ${lock.size} bytes ${lock.sha256}`));
  return lines;
}

function factLine({ resolved, roll }: RecipeState, frame: string | undefined, wording: KeyWording): string[] {
  const value = resolved.valueAt(frame, wording.path);
  const origin = resolved.originOf(frame, wording.path);
  if (value === undefined || !origin || (frame !== undefined && origin.level !== "frame")) return [];
  const own = frame === undefined ? roll.kind : "frame";
  const from =
    origin.level === own ? "" : origin.level === "default" ? "  (the default)" : `  (from the ${origin.level})`;
  // Every digit counts here: two values that differ must read differently.
  const shown = withUnit(exact(wording, value), wording.valueFormat);
  return [`  ${wording.group} · ${wording.name} ${shown}${from}`];
}

/** As many decimals as the value has. */
function exact({ valueFormat }: Pick<KeyWording, "valueFormat">, value: Value): string {
  const full = valueFormat.show(value, 6);
  for (let digits = valueFormat.digits; digits < 6; digits++) {
    const shown = valueFormat.show(value, digits);
    if (isSame(numbersOf(shown), numbersOf(full))) return shown;
  }
  return full;
}

const numbersOf = (text: string): number[] => (text.match(/\d+(?:\.\d+)?/g) ?? []).map(Number);

/** Areas of local exposure, as the level in question states them. */
function areas({ resolved }: RecipeState, frame: string | undefined): string[] {
  const path = ["positive", "local"];
  if (frame !== undefined && resolved.originOf(frame, path)?.level !== "frame") return [];
  const all = resolved.valueAt(frame, path);
  return listOf(all).map((area) => {
    const fields = Object.entries(localFields).flatMap(([field, valueFormat]) => {
      const value = fieldOf(area, field);
      if (value === undefined || field === "name") return [];
      return [`${field} ${withUnit(exact({ valueFormat }, value), valueFormat)}`];
    });
    return `  local · ${localName(area, all)}: ${fields.join("; ")}`;
  });
}

function specks({ resolved }: RecipeState, frame: string | undefined): string[] {
  return spotLists.flatMap((path) => {
    if (frame === undefined && path.length === 1) return [];
    const level = resolved.originOf(frame, path)?.level;
    if (frame !== undefined && level !== "frame") return [];
    return listOf(resolved.valueAt(frame, path)).map(
      (spot) => `  spots · ${spotName(path, spot)} ${spotShown(spot)}${course(spot)}`,
    );
  });
}

/** The points between the ends of a hair or a scratch: listings show every digit. */
function course(spot: Value): string {
  const between = centrelineOf(spot).slice(1, -1);
  return between.length === 0 ? "" : `, by ${between.map((point) => listOf(point).map(Number).join(", ")).join("; ")}`;
}

function outputLines(output: Value): string[] {
  const name = fieldOf(output, "name");
  const fields = Object.entries(outputFields).flatMap(([field, valueFormat]) => {
    const value = fieldOf(output, field);
    return value === undefined
      ? []
      : [`  ${field} ${withUnit(valueFormat.show(value, valueFormat.digits), valueFormat)}`];
  });
  return [`output ${typeof name === "string" ? name : ""}`, ...fields];
}
