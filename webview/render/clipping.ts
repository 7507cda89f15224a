/** Clipping: what counts as one, and the hatching in neutral greys that shows it over the picture. */
import { PRINT_SAMPLES } from "../../extension/engine/plan/table-axes.ts";
import type { Plan } from "../../extension/engine/plan/compile.ts";

/** How much is shown: nothing, saturated pixels of the scan, or clipping of the print too. */
export type Warn = "none" | "scan" | "print";

/** The kinds, by number: the shaders use the same. The last is that of a proof: colours that its paper has not. */
export const CLIPPING = { none: 0, white: 1, black: 2, saturated: 3, gamut: 4 } as const;
export type Kind = (typeof CLIPPING)[keyof typeof CLIPPING];

/** The first and the last 8-bit code that a plan's print can give: there tones no longer part. */
export function endsOf(plan: Plan): { readonly black: number; readonly white: number } {
  const tables = Array.from({ length: plan.print.length / PRINT_SAMPLES }, (_, c) => c * PRINT_SAMPLES);
  const code = (at: number): number => Math.round(plan.print[at] * 255);
  return {
    black: Math.max(...tables.map((at) => code(at))),
    white: Math.max(...tables.map((at) => code(at + PRINT_SAMPLES - 1))),
  };
}

/** Distance of the hatching's lines and their breadth, in CSS pixels. */
export const [PERIOD, BREADTH] = [8, 2];

/**
 * Greys of the hatching's lines, 0 … 255, by kind: those that rise to the right, those that fall and level ones, which are dark
 * with a light edge below. White parts have dark lines, black parts light ones, parts that the camera saturated both,
 * crossed; colours that a proof's paper has not may be light or dark, and have both side by side.
 */
export const LINES = {
  [CLIPPING.white]: { rising: 70, falling: undefined },
  [CLIPPING.black]: { rising: undefined, falling: 170 },
  [CLIPPING.saturated]: { rising: 30, falling: 225 },
} as const;
export const LEVEL = { dark: 40, light: 215 } as const;

/** The grey of the hatching at a pixel of the canvas; undefined between its lines. `ratio`: device pixels a CSS pixel. */
export function hatchAt(kind: Exclude<Kind, 0>, x: number, y: number, ratio: number): number | undefined {
  const period = Math.max(4, Math.round(PERIOD * ratio));
  const breadth = Math.max(1, Math.round(BREADTH * ratio));
  if (kind === CLIPPING.gamut) {
    const row = y % period;
    return row < breadth ? LEVEL.dark : row < breadth + Math.ceil(breadth / 2) ? LEVEL.light : undefined;
  }
  const { rising, falling } = LINES[kind];
  if (rising !== undefined && (x + y) % period < breadth) return rising;
  const down = (((x - y) % period) + period) % period;
  return falling !== undefined && down < breadth ? falling : undefined;
}

/** Part of a canvas, in device pixels. */
interface Part {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly ratio: number;
}

/** Hatches clipping in RGBA pixels of a part of the canvas. A channel at white is lost; black counts when all channels are there. */
export function hatchClipping(
  pixels: Uint8ClampedArray,
  part: Part,
  plan: Plan,
  warn: Warn,
  saturated?: Uint8Array,
): void {
  const { black, white } = endsOf(plan);
  const kinds = new Uint8Array(pixels.length / 4);
  if (warn === "print")
    for (let i = 0, k = 0; k < pixels.length; i++, k += 4) {
      const top = Math.max(pixels[k], pixels[k + 1], pixels[k + 2]);
      kinds[i] = top >= white ? CLIPPING.white : top <= black ? CLIPPING.black : CLIPPING.none;
    }
  hatch(pixels, part, kinds, saturated);
}

/** Hatches pixels by their kinds; saturation of the scan counts before any other. */
export function hatch(
  pixels: Uint8ClampedArray,
  { x, y, width, ratio }: Part,
  kinds: Uint8Array,
  saturated?: Uint8Array,
): void {
  for (let i = 0, k = 0; k < pixels.length; i++, k += 4) {
    const kind = saturated?.[i] ? CLIPPING.saturated : (kinds[i] as Kind);
    if (kind === CLIPPING.none) continue;
    const grey = hatchAt(kind, x + (i % width), y + Math.floor(i / width), ratio);
    if (grey !== undefined) pixels.fill(grey, k, k + 3);
  }
}
