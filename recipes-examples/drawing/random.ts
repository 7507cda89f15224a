/** Seeded random numbers for drawing: the same picture on every machine and every run. */
import { random as source } from "../../tests/witness/random.ts";

/** A stream of numbers in [0, 1). */
export type Random = () => number;

export function random(seed: number): Random {
  const stream = source(seed, "drawing");
  return () => stream.uniform();
}

/** A number in [0, 1) that belongs to a whole number for good. */
export function hash(n: number): number {
  let x = Math.imul(n | 0, 0x9e3779b1);
  x = Math.imul(x ^ (x >>> 15), 0x85ebca6b);
  x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35);
  return ((x ^ (x >>> 16)) >>> 0) / 4294967296;
}

/** A number in [0, 1) that belongs to a grid cell for good. */
export function hash2(x: number, y: number): number {
  return hash(Math.imul(x | 0, 73856093) ^ Math.imul(y | 0, 19349663));
}

/** A number between `low` and `high`. */
export function between(next: Random, low: number, high: number): number {
  return low + (high - low) * next();
}
