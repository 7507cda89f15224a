/** Random numbers of a pixel, for choosing where its few rays go. */
import { hash } from "./random.ts";

/** Well-spread pseudo-random number of a pixel, 0 … 1; neighbours differ as much as they can. */
export function dither(x: number, y: number, k: number): number {
  const v = 52.9829189 * ((0.06711056 * (x + 5.588238 * k) + 0.00583715 * (y + 3.1139 * k)) % 1);
  return v - Math.floor(v);
}

/** Random number of a pixel without any pattern, 0 … 1: for what should look like sparkle, not like a screen. */
export function scatter(x: number, y: number, k: number): number {
  return hash(Math.imul((x * 4) | 0, 73856093) ^ Math.imul((y * 4) | 0, 19349663) ^ Math.imul(k, 83492791));
}
