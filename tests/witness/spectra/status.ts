/** A densitometer of the witness's own: ISO 5-3 densities of a film whose spectral density is known. */
import type { Triple } from "./colour.ts";
import { integralDensities, type Spectrum } from "./spectrum.ts";
import { STATUS_A, STATUS_M } from "./tables.ts";

/** Status M for negatives, Status A for slides; red, green, blue. */
export function statusDensity(status: "M" | "A", density: Spectrum): Triple {
  const weights = status === "M" ? STATUS_M : STATUS_A;
  return integralDensities(weights, density) as Triple;
}
