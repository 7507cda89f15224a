/** What subjects are drawn with: an even canvas, soft spots, hard discs and quads, lines, clouds. */
import { random } from "../../../../witness/random.ts";
import type { Scene } from "../../../../witness/scenes/scene.ts";

export type Colour = readonly [number, number, number];

export interface Canvas extends Scene {
  readonly data: Float32Array;
}

export function canvas(width: number, height: number, colourAt: (u: number, v: number) => Colour): Canvas {
  const data = new Float32Array(width * height * 3);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i += 3) data.set(colourAt((x + 0.5) / width, (y + 0.5) / height), i);
  return { width, height, data };
}

/** Adds light of a soft round spot: centre in fractions, radius and edge in fractions of the width. */
export function glow(c: Canvas, u: number, v: number, sigma: number, colour: Colour): void {
  const [cx, cy, s] = [u * c.width, v * c.height, sigma * c.width];
  const reach = Math.ceil(4 * s + 1);
  for (let y = Math.max(0, Math.floor(cy - reach)); y < Math.min(c.height, cy + reach); y++)
    for (let x = Math.max(0, Math.floor(cx - reach)); x < Math.min(c.width, cx + reach); x++) {
      const w = Math.exp(-((x + 0.5 - cx) ** 2 + (y + 0.5 - cy) ** 2) / (2 * s * s));
      for (let k = 0; k < 3; k++) c.data[(y * c.width + x) * 3 + k] += w * colour[k];
    }
}

/** Covers a line of some thickness (fractions of the width), its edge one pixel soft. */
export function line(
  c: Canvas,
  from: readonly [number, number],
  to: readonly [number, number],
  thick: number,
  colour: Colour,
): void {
  const [ax, ay, bx, by] = [from[0] * c.width, from[1] * c.height, to[0] * c.width, to[1] * c.height];
  const length = Math.hypot(bx - ax, by - ay);
  const half = (thick * c.width) / 2;
  const steps = Math.ceil(length);
  const touched = new Map<number, number>();
  for (let k = 0; k <= steps; k++) {
    const [px, py] = [ax + ((bx - ax) * k) / steps, ay + ((by - ay) * k) / steps];
    for (let y = Math.floor(py - half - 1); y <= py + half + 1; y++)
      for (let x = Math.floor(px - half - 1); x <= px + half + 1; x++) {
        if (x < 0 || y < 0 || x >= c.width || y >= c.height) continue;
        const away = Math.abs(((x + 0.5 - ax) * (by - ay) - (y + 0.5 - ay) * (bx - ax)) / length);
        touched.set(y * c.width + x, Math.min(1, Math.max(0, half + 0.5 - away)));
      }
  }
  for (const [i, cover] of touched)
    for (let k = 0; k < 3; k++) c.data[i * 3 + k] += cover * (colour[k] - c.data[i * 3 + k]);
}

/**
 * Covers an ellipse whose edge is `soft` pixels wide: half axes in fractions of the width, turned by `angle`. Pixels are
 * 9 µm on film, so the usual edge is what a good lens draws: half its response at about 45 lines/mm (common practice, no
 * source).
 */
export function oval(
  c: Canvas,
  u: number,
  v: number,
  axes: readonly [number, number],
  angle: number,
  colour: Colour,
  soft = 1.6,
): void {
  const [cx, cy, a, b] = [u * c.width, v * c.height, axes[0] * c.width, axes[1] * c.width];
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const reach = Math.max(a, b) + soft + 1;
  for (let y = Math.max(0, Math.floor(cy - reach)); y < Math.min(c.height, cy + reach); y++)
    for (let x = Math.max(0, Math.floor(cx - reach)); x < Math.min(c.width, cx + reach); x++) {
      const [dx, dy] = [x + 0.5 - cx, y + 0.5 - cy];
      const out = Math.hypot((cos * dx + sin * dy) / a, (cos * dy - sin * dx) / b);
      // Distance from the outline, near enough: the radius along this direction times how far out it is.
      const away = out === 0 ? -Math.min(a, b) : Math.hypot(dx, dy) * (1 - 1 / out);
      const cover = Math.min(1, Math.max(0, 0.5 - away / soft));
      for (let k = 0; k < 3; k++) {
        const i = (y * c.width + x) * 3 + k;
        c.data[i] += cover * (colour[k] - c.data[i]);
      }
    }
}

/** Held within 0 … 1. */
export const clamped = (v: number): number => Math.min(1, Math.max(0, v));

export const mix = (a: Colour, b: Colour, t: number): Colour => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
  a[2] + (b[2] - a[2]) * t,
];

export const scaled = (a: Colour, k: number): Colour => [a[0] * k, a[1] * k, a[2] * k];

/** Clouds of many sizes around 0: sums of waves over the unit square, looked up between the crossings of a grid. */
export function clouds(seed: number): (u: number, v: number) => number {
  const r = random(seed, "clouds");
  const waves = Array.from({ length: 30 }, () => {
    const size = 2 ** r.between(0.5, 4.5);
    const angle = r.between(0, Math.PI * 2);
    return {
      x: Math.round(size * Math.cos(angle)),
      y: Math.round(size * Math.sin(angle)),
      phase: r.between(0, 7),
      size,
    };
  });
  const n = 128;
  const grid = Float32Array.from({ length: n * n }, (_, i) =>
    waves.reduce(
      (s, w) => s + Math.sin(6.283185 * ((w.x * (i % n)) / n + (w.y * Math.floor(i / n)) / n) + w.phase) / w.size,
      0,
    ),
  );
  const at = (x: number, y: number): number => grid[(((y % n) + n) % n) * n + (((x % n) + n) % n)];
  return (u, v) => {
    const [x, y] = [u * n, v * n];
    const [i, j] = [Math.floor(x), Math.floor(y)];
    const [fx, fy] = [x - i, y - j];
    return (
      (at(i, j) * (1 - fx) + at(i + 1, j) * fx) * (1 - fy) + (at(i, j + 1) * (1 - fx) + at(i + 1, j + 1) * fx) * fy
    );
  };
}
