/** What painters of scenes share. */
import { random } from "../random.ts";

/** Linear Rec.709, 0.18 = mid-grey. */
export type Colour = readonly [number, number, number];

/** Smooth noise, −1 … 1: lattice values with cubic fades, three octaves. */
export function clouds(seed: number): (x: number, y: number) => number {
  const source = random(seed, "clouds");
  const lattice = Float32Array.from({ length: 4096 }, () => source.between(-1, 1));
  const at = (i: number, j: number): number => lattice[((i & 63) + (j & 63) * 64) & 4095];
  const fade = (t: number): number => t * t * (3 - 2 * t);
  const one = (x: number, y: number): number => {
    const [i, j] = [Math.floor(x), Math.floor(y)];
    const [u, v] = [fade(x - i), fade(y - j)];
    const top = at(i, j) + u * (at(i + 1, j) - at(i, j));
    const low = at(i, j + 1) + u * (at(i + 1, j + 1) - at(i, j + 1));
    return top + v * (low - top);
  };
  return (x, y) => (one(x, y) + 0.5 * one(2 * x + 7, 2 * y) + 0.25 * one(4 * x, 4 * y + 3)) / 1.75;
}

export const mix = (a: Colour, b: Colour, t: number): Colour => [
  a[0] + t * (b[0] - a[0]),
  a[1] + t * (b[1] - a[1]),
  a[2] + t * (b[2] - a[2]),
];
export const times = (a: Colour, k: number): Colour => [a[0] * k, a[1] * k, a[2] * k];
