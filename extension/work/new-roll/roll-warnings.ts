/** What a person should know of a new roll before trusting it, a sentence each. */
import type { Film } from "../../engine/types.ts";
import type { RollBase } from "./started-roll.ts";

/** Bases of one roll that differ by more, D, show that light or flare changed. */
const MAX_BASE_SPREAD = 0.03;

export interface RollFacts {
  readonly film: Film;
  readonly hasBlank: boolean;
  readonly base?: RollBase;
  /** Whether a base was read, or is kept. */
  readonly hasBase: boolean;
  /** Whether the base was inferred from the pictures where none was read. */
  readonly isInferred: boolean;
}

export function rollWarnings({ film, hasBlank, base, hasBase, isInferred }: RollFacts): string[] {
  const warnings: string[] = [];
  if (!hasBlank)
    warnings.push("No scan shows the bare light: uneven light stays, and densities hold the light's colour.");
  if (film !== "slide" && !hasBase)
    warnings.push(
      isInferred
        ? "No unexposed film was found on any scan: the base is inferred from the thinnest parts of the pictures."
        : "No unexposed film was found on any scan: the stock's base is used. Read the base by hand.",
    );
  if (base && base.spread > MAX_BASE_SPREAD)
    warnings.push(`The base differs by ${base.spread.toFixed(3)} D between scans: the light changed, or flare did.`);
  return warnings;
}
