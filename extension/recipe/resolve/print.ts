/** A sheet to print, as a recipe states it, in millimetres and with every default. */
import { type Borders, type PaperForm, paperSize } from "../../engine/image/paper.ts";
import type { Print } from "../generated/types.ts";
import { folderOf, joinPath } from "../paths.ts";
import { defaultOf } from "../schema/defaults.ts";

/** A sheet to print: its paper in millimetres, and the printer's colours. */
export interface ResolvedPrint extends PaperForm {
  /** The printer's profile, as the recipe names it and where it lies; without one, colours stay in the output's space. */
  readonly profile?: { readonly name: string; readonly path: string };
  readonly intent: NonNullable<Print["intent"]>;
  readonly compensate: boolean;
}

/** @param file the recipe that states it, which the profile's path is relative to */
export function resolvePrint(print: Print, file: string): ResolvedPrint {
  const stated = <Key extends keyof Print>(key: Key): NonNullable<Print[Key]> =>
    (print[key] ?? defaultOf("colour-negative", ["output", 0, "print", key])) as NonNullable<Print[Key]>;
  const border = stated("border");
  const { paper, length, profile } = print;
  return {
    paper: typeof paper === "string" ? paperSize(paper) : paper,
    orientation: stated("orientation"),
    border: typeof border === "number" ? [border, border, border, border] : (border as Borders),
    fit: stated("fit"),
    ...(length === undefined ? {} : { length }),
    place: stated("place"),
    resolution: stated("resolution"),
    ...(profile === undefined
      ? {}
      : { profile: { name: profile, path: joinPath(folderOf(file), profile) ?? profile } }),
    intent: stated("intent"),
    compensate: stated("blackPointCompensation"),
  };
}
