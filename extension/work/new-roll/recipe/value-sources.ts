/** Where each automatic value of a new roll comes from, in one word. */
import type { Provenance } from "../../../engine/auto/start-values.ts";
import type { StartedRoll } from "../started-roll.ts";

/** Measured on film or file, inferred from the pictures, assumed as usual, or stated by a person or stock. */
export type ValueSource = Provenance | "stated";

/** By the name of the value; what the recipe does not state is absent. */
export function valueSources(started: Omit<StartedRoll, "text">): Readonly<Record<string, ValueSource>> {
  const { film, base, flare, flareAssumed, shutter, start, unmix, filmStock, balance, frames } = started;
  const negative = start?.negative;
  const sources: Record<string, ValueSource | undefined> = {
    film: film.from,
    blank: started.blank === undefined ? undefined : "measured",
    flare: flare && (flareAssumed ? "assumed" : "measured"),
    times: shutter?.times !== "nominal" ? undefined : shutter.from === "scans" ? "measured" : "inferred",
    base: base ? "measured" : start?.base.from,
    curve: negative && "inferred",
    unmix: negative ? negative.unmix && (filmStock ? "inferred" : "assumed") : unmix && "assumed",
    colour: negative?.colour && (filmStock ? "stated" : "assumed"),
    filtration: Object.values(balance.filtration).some((v) => v !== 0) ? "inferred" : undefined,
    tone: start && film.film !== "slide" ? "inferred" : undefined,
    exposure: start ? start.brightness : "measured",
    area: frames.some(({ found }) => found) ? "measured" : undefined,
  };
  return Object.fromEntries(
    Object.entries(sources).filter((entry): entry is [string, ValueSource] => entry[1] !== undefined),
  );
}
