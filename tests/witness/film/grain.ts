/**
 * Grain: density fluctuates so that σ_D·√A is constant (Selwyn's law, from memory), independently per layer, with
 * clouds of a size on film. The same film shows the same grain however it is scanned.
 */
import { blurGaussian } from "../blur.ts";
import { fillNormal, random } from "../random.ts";
import type { Stock } from "./stocks.ts";

/** Granularity at an amount of dye, relative to that at 1: rises like the root of what is developed, then levels. */
export function grainAt(amount: number): number {
  const a = amount > 0 ? amount : 0;
  return Math.sqrt((a + 0.04) / (1.04 * (0.8 + 0.2 * a)));
}

/** Adds grain to interleaved amounts, in place. */
export function addGrain(
  film: { stock: Stock; width: number; height: number; pixelsPerMm: number },
  amounts: Float32Array,
  strength: number,
  seed: number,
): void {
  if (strength === 0) return;
  const n = film.stock.layers.length;
  const noise = new Float32Array(amounts.length);
  fillNormal(noise, random(seed, "grain"));
  const pixel = 1000 / film.pixelsPerMm;
  // White noise of one pixel's variance, then spread over the clouds: the spectrum's low end keeps Selwyn's value.
  blurGaussian({ width: film.width, height: film.height, channels: n, data: noise }, film.stock.cloud / pixel);
  const sigmas = film.stock.layers.map((l) => (strength * l.granularity) / pixel);
  for (let i = 0, k = 0; i < amounts.length; i++) {
    amounts[i] += noise[i] * sigmas[k] * grainTable(amounts[i]);
    if (++k === n) k = 0;
  }
}

const TABLE = Float32Array.from({ length: 1025 }, (_, i) => grainAt(i / 256));

function grainTable(amount: number): number {
  const u = amount * 256;
  return u > 0 ? TABLE[u < 1024 ? (u + 0.5) | 0 : 1024] : TABLE[0];
}
