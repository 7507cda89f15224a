/** Gulls on the wing: two bent wings and a body, dark or light against what is behind. */
import { between, type Random } from "./random.ts";
import type { Light } from "./sky.ts";
import type { Line } from "./lines.ts";
import type { Vec } from "./vector.ts";

export function gull(next: Random, at: Vec, colour: Light, size = 1): Line[] {
  const bank = between(next, -0.5, 0.5);
  const beat = between(next, -0.12, 0.35);
  const span = 0.68 * size;
  const c = Math.cos(bank);
  const s = Math.sin(bank);
  const parts = 8;
  const wing = (side: number): Line => {
    const bend = Array.from({ length: parts + 1 }, (_, i): Vec => {
      const t = i / parts;
      const x = side * span * t;
      // Up to the wrist, then level or drooping to the tip.
      const y =
        size *
        ((0.3 + beat) * Math.sin(Math.min(1, t / 0.55) * 1.5) * 0.55 - (0.35 - beat) * Math.max(0, t - 0.45) ** 1.5);
      return [at[0] + x * c - y * s, at[1] + x * s + y * c, at[2] + 0.1 * t];
    });
    return { points: bend, width: bend.map((_, i) => size * 0.15 * (1 - (i / parts) ** 2.2) + 0.015), colour };
  };
  const body: Line = {
    points: [
      [at[0] - 0.06 * size, at[1] - 0.02, at[2]],
      [at[0] + 0.06 * size, at[1] + 0.02, at[2]],
    ],
    width: 0.12 * size,
    colour,
  };
  return [wing(-1), wing(1), body];
}
