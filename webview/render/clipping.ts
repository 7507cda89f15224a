/** Clipping: what counts as one, and the colours that show it. */
import { PRINT_SAMPLES } from "../../extension/engine/plan/table-axes.ts";
import type { Plan } from "../../extension/engine/plan/compile.ts";

/** How much is shown: nothing, saturated pixels of the scan, or clipping of the print too. */
export type Warn = "none" | "scan" | "print";

/** The first and the last 8-bit code that a plan's print can give: there tones no longer part. */
export function endsOf(plan: Plan): { readonly black: number; readonly white: number } {
  const tables = Array.from({ length: plan.print.length / PRINT_SAMPLES }, (_, c) => c * PRINT_SAMPLES);
  const code = (at: number): number => Math.round(plan.print[at] * 255);
  return {
    black: Math.max(...tables.map((at) => code(at))),
    white: Math.max(...tables.map((at) => code(at + PRINT_SAMPLES - 1))),
  };
}

/** Colours that no picture has, 0 … 255: saturated in the scan; at white; at the deepest black. */
export const SATURATED = [255, 217, 0] as const;
export const AT_WHITE = [255, 26, 26] as const;
export const AT_BLACK = [26, 89, 255] as const;

/** Paints clipping into RGBA pixels. A channel at white is lost; black counts when all channels are there. */
export function paintClipping(pixels: Uint8ClampedArray, plan: Plan, warn: Warn, saturated?: Uint8Array): void {
  const { black, white } = endsOf(plan);
  for (let i = 0, k = 0; k < pixels.length; i++, k += 4) {
    const top = Math.max(pixels[k], pixels[k + 1], pixels[k + 2]);
    if (saturated?.[i]) set(pixels, k, SATURATED);
    else if (warn === "print" && top >= white) set(pixels, k, AT_WHITE);
    else if (warn === "print" && top <= black) set(pixels, k, AT_BLACK);
  }
}

function set(pixels: Uint8ClampedArray, k: number, colour: readonly [number, number, number]): void {
  pixels[k] = colour[0];
  pixels[k + 1] = colour[1];
  pixels[k + 2] = colour[2];
}
