/** Subjects of no kind in particular, for the weights of the dust finder: small things of all sorts, drawn by lot. */
import { random, type Random } from "../witness/random.ts";
import type { Scene } from "../witness/scenes/scene.ts";
import {
  type Canvas,
  canvas,
  clamped,
  clouds,
  type Colour,
  glow,
  line,
  mix,
  oval,
  scaled,
} from "../unit/engine/survey/subjects/canvas.ts";

/** Hues that are often met with, white most often: of lamps, sky, leaves, skin, earth, painted things. */
const HUES: readonly Colour[] = [
  [1, 1, 1],
  [1, 1, 1],
  [1, 0.97, 0.92],
  [0.95, 0.98, 1],
  [1, 0.85, 0.65],
  [0.75, 0.85, 1],
  [0.6, 0.75, 1],
  [0.55, 0.75, 0.35],
  [0.4, 0.6, 0.2],
  [0.8, 0.6, 0.45],
  [0.65, 0.45, 0.35],
  [1, 0.5, 0.25],
  [1, 0.25, 0.15],
  [0.35, 0.6, 0.9],
  [1, 0.8, 0.2],
  [0.8, 0.7, 0.55],
  [0.5, 0.3, 0.6],
];

/** A number between two, all ratios equally likely. */
const between = (r: Random, min: number, max: number): number => min * (max / min) ** r.uniform();
const oneOf = <T>(r: Random, all: readonly T[]): T => all[Math.floor(r.uniform() * all.length)];

function hue(r: Random): Colour {
  const pure = oneOf(r, HUES);
  const strength = r.between(0.2, 1);
  const channel = (k: number): number => (1 + (pure[k] - 1) * strength) * Math.exp(0.08 * r.normal());
  return [channel(0), channel(1), channel(2)];
}

/** Draws the subject of a number. */
export function trainingSubject(seed: number, width: number, height: number): Scene {
  const r = random(seed, "training");
  const c = background(r, width, height);
  if (r.uniform() < 0.4) texture(r, c);
  if (r.uniform() < 0.25) sun(r, c);
  const families = 2 + Math.floor(r.uniform() * 5);
  for (let k = 0; k < families; k++) family(r, c);
  return c;
}

/** One to three regions side by side or one above the other, each cloudy between two tones. */
function background(r: Random, width: number, height: number): Canvas {
  const regions = Array.from({ length: 1 + Math.floor(r.uniform() * 3) }, () => {
    const [first, second] = [hue(r), hue(r)];
    const light = between(r, 0.012, 0.7);
    const other = scaled(r.uniform() < 0.6 ? first : second, Math.min(0.9, light * between(r, 0.4, 3)));
    const air = clouds(r.bits() % 1_000_000);
    const [across, down] = [r.between(0.7, 4), r.between(0.7, 8)];
    const fall = r.uniform() < 0.4 ? 0.4 : 0;
    return {
      at: (u: number, v: number) => 0.5 + 0.35 * air(across * u, down * v) + fall * (v - 0.5),
      first,
      light,
      other,
    };
  });
  const border = clouds(r.bits() % 1_000_000);
  const below = r.uniform() < 0.7;
  return canvas(width, height, (u, v) => {
    const place = (below ? v : u) + 0.04 * border(u, v);
    const region = regions[Math.floor(Math.min(0.999, Math.max(0, place)) * regions.length)];
    return mix(scaled(region.first, region.light), region.other, clamped(region.at(u, v)));
  });
}

/** Grains of light over a part of the picture, each a pixel or some wide: gravel, sand, bark, leaves, cloth. */
function texture(r: Random, c: Canvas): void {
  const [grain, second] = [between(r, 1, 6), between(r, 1, 6)];
  const [contrast, colours] = [r.between(0.3, 1.1), r.uniform() < 0.5 ? 0 : r.between(0, 0.35)];
  const [from, to] = r.uniform() < 0.5 ? [0, 1] : [0.5 * r.uniform(), 0.5 + 0.5 * r.uniform()];
  const isSharp = r.uniform() < 0.4;
  const octaves = [grain, second].map((size) =>
    grains(r, Math.ceil(c.width / size) + 2, Math.ceil(c.height / size) + 2),
  );
  const hues = [0, 1, 2].map(() => grains(r, Math.ceil(c.width / grain) + 2, Math.ceil(c.height / grain) + 2));
  for (let y = Math.floor(from * c.height); y < to * c.height; y++)
    for (let x = 0; x < c.width; x++) {
      const raw = (octaves[0](x / grain, y / grain) + 0.6 * octaves[1](x / second, y / second)) / 1.17;
      const light = contrast * (isSharp ? 2.2 * Math.tanh(1.5 * raw) : 1.6 * raw);
      for (let k = 0; k < 3; k++) {
        const i = (y * c.width + x) * 3 + k;
        c.data[i] = Math.min(6, c.data[i] * Math.exp(light + (colours && colours * hues[k](x / grain, y / grain))));
      }
    }
}

/** Normal numbers on a grid, and between them what lies between. */
function grains(r: Random, wide: number, high: number): (x: number, y: number) => number {
  const grid = Float32Array.from({ length: wide * high }, () => r.normal());
  return (x, y) => {
    const [i, j] = [Math.floor(x), Math.floor(y)];
    const [fx, fy, at] = [x - i, y - j, j * wide + i];
    const [top, foot] = [at, at + wide].map((p) => grid[p] * (1 - fx) + grid[p + 1] * fx);
    return top * (1 - fy) + foot * fy;
  };
}

/** The sun or the moon: a bright disc in a glow, at times behind branches or cut by a horizon. */
function sun(r: Random, c: Canvas): void {
  const [u, v, size] = [r.between(0.1, 0.9), r.between(0.1, 0.8), between(r, 0.006, 0.09)];
  const [light, warm] = [between(r, 1, 40), r.between(0.3, 1)];
  const colour: Colour = [light, light * (0.4 + 0.6 * warm), light * warm];
  glow(c, u, v, size * r.between(1.2, 3), scaled(colour, r.between(0.005, 0.08)));
  oval(c, u, v, [size, size * r.between(0.75, 1)], 0, colour, r.between(1.2, 4));
  const [branches, thick] = [r.uniform() < 0.5 ? Math.floor(r.between(1, 9)) : 0, between(r, 0.001, 0.006)];
  for (let k = 0; k < branches; k++) {
    const at = (): [number, number] => [u + 2.5 * size * (r.uniform() - 0.5), v + 4 * size * (r.uniform() - 0.5)];
    line(c, at(), at(), thick * r.between(0.6, 1.6), [0.02, 0.02, 0.02]);
  }
}

/** Places of a family's things: anywhere, in rows, or in clusters, over the whole picture or a part of it. */
function* places(r: Random, count: number): Generator<[u: number, v: number]> {
  const way = oneOf(r, ["anywhere", "anywhere", "rows", "clusters"]);
  const whole = r.uniform() < 0.5;
  const side = (): [number, number] => (whole ? [0, 1] : [0.5 * r.uniform(), 0.5 + 0.5 * r.uniform()]);
  const [[left, right], [top, foot]] = [side(), side()];
  let [cu, cv, more] = [0, 0, 0];
  for (let k = 0; k < count; k++) {
    let [u, v] = [r.between(left, right), r.between(top, foot)];
    if (way === "rows") {
      u = left + (right - left) * ((k * 0.0437) % 1);
      v = top + ((foot - top) * Math.floor(k * 0.0437)) / Math.max(1, count * 0.0437) + 0.02 * Math.cos(9 * u);
    } else if (way === "clusters") {
      if (more-- <= 0) [cu, cv, more] = [u, v, Math.floor(r.between(3, 25))];
      [u, v] = [cu + 0.03 * r.normal(), cv + 0.04 * r.normal()];
    }
    yield [u, v];
  }
}

/** Things of one kind: spots, discs, lines, stones with a shadow and at times a glint, or spots in a dark setting. */
function family(r: Random, c: Canvas): void {
  const kind = oneOf(r, ["disc", "disc", "disc", "spot", "line", "line", "stone", "set spot"]);
  const [colour, light] = [hue(r), r.uniform() < 0.65 ? between(r, 0.25, 3) : between(r, 0.01, 0.2)];
  const [lights, hues] = [r.between(0, 0.8), r.between(0, 0.25)];
  const [min, sizes] = [between(r, 0.0006, 0.0028), r.between(0, 1.1)];
  const soft = r.uniform() < 0.7 ? 1.6 : r.between(1.2, 6);
  const longest = r.uniform() < 0.5 ? 1 : r.between(1, 2.5);
  const [angle, turns] = [r.between(0, 3), r.uniform() < 0.5 ? 0.1 : 3];
  for (const [u, v] of places(r, Math.round(between(r, 8, 450)))) {
    const size = Math.min(0.012, min * Math.exp(2 * sizes * r.uniform() ** 2));
    const bright = light * Math.exp(lights * r.normal());
    const channel = (k: number): number => Math.min(8, colour[k] * bright * Math.exp(hues * r.normal()));
    const paint: Colour = [channel(0), channel(1), channel(2)];
    const turned = angle + turns * (r.uniform() - 0.5);
    if (kind === "spot") glow(c, u, v, 0.9 * size, paint);
    else if (kind === "line") {
      const long = 15 * size * r.between(0.3, 1.3);
      line(c, [u, v], [u + long * Math.cos(turned), v + 1.5 * long * Math.sin(turned)], 0.0007 + 0.5 * size, paint);
    } else if (kind === "stone") {
      oval(c, u + 0.3 * size, v + 0.6 * size, [2 * size, 1.6 * size], turned, scaled(paint, 0.15), soft);
      oval(c, u, v, [2 * size, 1.6 * size], turned, paint, soft);
      const glint = [0.4 * size + 0.0006, 0.3 * size + 0.0005] as const;
      if (r.uniform() < 0.4) oval(c, u - 0.5 * size, v - 0.6 * size, glint, turned, [0.95, 0.97, 1]);
    } else if (kind === "set spot") {
      oval(c, u, v, [1.8 * size, 1.8 * size], 0, scaled(paint, 0.2), soft);
      oval(c, u, v, [0.8 * size, 0.8 * size], 0, paint, soft);
    } else oval(c, u, v, [size * r.between(1, longest), size], turned, paint, soft);
  }
}
