/** Puts together what was found of a roll, and composes its recipe. */
import { basename, dirname, relative, sep } from "node:path";
import { parseRecipe } from "../../../recipe/problems/document.ts";
import type { Workspace } from "../../files/workspace.ts";
import type { StockLook } from "../film/stock-look.ts";
import type { RollUnmix } from "../film/roll-look.ts";
import { type NewRollOptions, StartError } from "../new-roll-options.ts";
import type { StartedRoll } from "../started-roll.ts";
import { type RollHead, rollText } from "./roll-text.ts";

export interface RollSources {
  readonly stock: StockLook;
  readonly unmix?: RollUnmix;
  /** Whether the emulsion faced the camera. */
  readonly mirror: boolean;
}

/**
 * The recipe's text.
 * @throws StartError where it would have errors, whatever stands in names and titles
 */
export function composeRoll(
  started: Omit<StartedRoll, "text">,
  sources: RollSources,
  options: NewRollOptions,
  workspace: Workspace,
): string {
  const text = rollText(rollHead(sources, options), started);
  const wrong = parseRecipe(text, { file: workspace.inside(options.roll), kind: "roll" }).problems.find(
    ({ severity }) => severity === "error",
  );
  if (wrong) throw new StartError(`The roll's recipe would not be valid, so it was not written: ${wrong.message}`);
  return text;
}

/** What the recipe states that was not measured. */
export function rollHead({ stock, unmix, mirror }: RollSources, options: NewRollOptions): RollHead {
  const posix = (to: string): string => relative(dirname(options.roll), to).split(sep).join("/") || ".";
  return {
    title: options.title ?? basename(options.roll).replace(/\.roll\.ya?ml$/i, ""),
    stock: options.stock && posix(options.stock),
    format: stock.format ? undefined : options.format,
    scans: posix(options.folder),
    turn: options.turn ?? 0,
    mirror,
    filtration: stock.look.filtration,
    unmix: unmix?.matrix,
    statedFilm: stock.statedFilm,
  };
}
