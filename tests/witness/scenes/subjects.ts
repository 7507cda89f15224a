/** Small invented scenes for rolls: quick to draw, with the tones and colours of what is often photographed. */
import { clouds, type Colour, mix, times } from "./paint.ts";
import type { Scene } from "./scene.ts";

/** Light of one place of the picture (fractions of its sides) in linear Rec.709, 0.18 = mid-grey. */
type Painter = (u: number, v: number, n: (x: number, y: number) => number) => Colour;

const SKY: Colour = [0.42, 0.55, 0.78];
const SKIN: Colour = [0.38, 0.24, 0.17];

const painters = {
  /** A grey wall, a face, a dark coat. */
  portrait: (u, v, n) => {
    const face = ((u - 0.52) / 0.13) ** 2 + ((v - 0.4) / 0.24) ** 2;
    if (face < 1) return times(SKIN, 1.05 - 0.55 * face * u + 0.06 * n(u * 30, v * 30));
    if (((u - 0.52) / 0.34) ** 2 + ((v - 1.05) / 0.46) ** 2 < 1)
      return times([0.035, 0.04, 0.055], 1 + 0.5 * n(u * 12, v * 12));
    return times([0.24, 0.23, 0.22], 1 + 0.3 * n(u * 3, v * 3) - 0.3 * u);
  },
  /** Houses in side light along a street. */
  street: (u, v, n) => {
    if (v < 0.3 - 0.12 * Math.abs(Math.sin(u * 7))) return times(SKY, 0.9 + 0.25 * v);
    if (v > 0.74) return times([0.15, 0.145, 0.14], 1 + 0.3 * n(u * 20, v * 60));
    const house = Math.floor(u * 7);
    const walls: Colour[] = [
      [0.45, 0.36, 0.25],
      [0.3, 0.12, 0.09],
      [0.5, 0.48, 0.45],
      [0.16, 0.2, 0.24],
    ];
    const dark = ((u * 7 - house) * 4) % 1 > 0.55 && (v * 9) % 1 > 0.45 ? 0.12 : 1;
    return times(walls[house % 4], dark * (1 + 0.12 * n(u * 25, v * 25)) * (house % 3 === 1 ? 0.3 : 1));
  },
  /** Meadow and hills under a sky. */
  meadow: (u, v, n) => {
    const hill = 0.42 + 0.08 * n(u * 3, 1);
    if (v < hill) return mix(SKY, [0.78, 0.8, 0.82], Math.max(0, 0.5 + n(u * 4, v * 6)) * 0.8);
    if (v < hill + 0.08) return times([0.07, 0.1, 0.08], 1 + 0.3 * n(u * 20, v * 20));
    return times([0.16, 0.2, 0.06], 1 + 0.55 * n(u * 18, v * 40));
  },
  /** Things on a table by a window: pale cloth, fruit, a jug, shade behind. */
  table: (u, v, n) => {
    if (((u - 0.3) / 0.1) ** 2 + ((v - 0.62) / 0.15) ** 2 < 1) return times([0.55, 0.2, 0.04], 1.25 - u);
    if (((u - 0.46) / 0.09) ** 2 + ((v - 0.66) / 0.13) ** 2 < 1) return times([0.4, 0.05, 0.04], 1.3 - u);
    if (((u - 0.68) / 0.1) ** 2 + ((v - 0.52) / 0.28) ** 2 < 1) return times([0.2, 0.26, 0.36], 1.5 - u);
    if (v > 0.58) return times([0.62, 0.6, 0.56], 1.1 - 0.5 * u + 0.1 * n(u * 9, v * 18));
    return times([0.1, 0.09, 0.075], 1 + 0.5 * n(u * 5, v * 5) + 0.8 * (1 - u));
  },
  /** Nothing but leaves, moss and trunks. */
  forest: (u, v, n) => {
    const trunk = Math.abs(((u * 6 + 0.2 * n(1, v * 3)) % 1) - 0.5) < 0.1;
    if (trunk) return times([0.05, 0.04, 0.03], 1 + 0.5 * n(u * 40, v * 12));
    const light = Math.max(0.08, 0.7 + 1.3 * n(u * 14, v * 14));
    return times(v > 0.75 ? [0.1, 0.12, 0.04] : [0.09, 0.16, 0.04], light);
  },
  /** A street at night: black sky, lamps, their light on the ground. */
  night: (u, v, n) => {
    for (const [x, y] of [
      [0.2, 0.45],
      [0.5, 0.5],
      [0.82, 0.42],
    ] as const) {
      const d = Math.hypot((u - x) * 1.5, v - y);
      if (d < 0.012) return [6, 4.2, 2];
      if (d < 0.2) return times([0.5, 0.34, 0.16], 0.02 / (d + 0.03) ** 1.4 / 6 + 0.002);
    }
    if (v > 0.6) return times([0.05, 0.034, 0.017], 0.7 + 0.6 * n(u * 12, v * 30));
    return v < 0.35 ? [0.0012, 0.0014, 0.002] : times([0.012, 0.009, 0.006], 1 + 0.7 * n(u * 16, v * 16));
  },
  /** Snow with a few dark trees under a white sky. */
  snow: (u, v, n) => {
    const tree = v > 0.25 && v < 0.62 && (u * 9 + n(3, u * 9)) % 1 < 0.16;
    if (tree) return times([0.03, 0.035, 0.035], 1 + 0.3 * n(u * 40, v * 40));
    if (v < 0.4) return times([0.74, 0.77, 0.82], 1 + 0.05 * n(u * 4, v * 4));
    return times([0.8, 0.83, 0.88], 1 + 0.1 * n(u * 8, v * 20));
  },
} satisfies Record<string, Painter>;

export type SubjectName = keyof typeof painters;

/** Draws a subject; `card` puts an 18 % grey card into it (fractions of the picture), as a test of what comes out. */
export function subject(
  name: SubjectName,
  width: number,
  height: number,
  seed: number,
  card?: { left: number; top: number; width: number; height: number },
): Scene {
  const data = new Float32Array(width * height * 3);
  const n = clouds(seed);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i += 3) {
      const [u, v] = [(x + 0.5) / width, (y + 0.5) / height];
      const onCard = card && u > card.left && u < card.left + card.width && v > card.top && v < card.top + card.height;
      const rgb = onCard ? ([0.18, 0.18, 0.18] as const) : painters[name](u, v, n);
      for (let c = 0; c < 3; c++) data[i + c] = Math.max(0, rgb[c]);
    }
  return { width, height, data };
}
