/**
 * Families of scenes whose every seed is another picture: what is ordinary, and what is far from grey, dark or light as
 * a whole. An estimator is tried on some seeds and judged on others.
 */
import { clouds, type Colour, mix, times } from "./paint.ts";
import { random } from "../random.ts";
import type { Scene, SceneBox } from "./scene.ts";

type Noise = (x: number, y: number) => number;
type Painter = (u: number, v: number) => Colour;
/** Chooses a picture: a number between two others. */
type Pick = (low: number, high: number) => number;

const grey = (y: number, warm = 0): Colour => [y * (1 + warm), y, y * (1 - warm)];
/** A colour of a given luminance whose channels differ by about `strength`. */
const tinted = (y: number, strength: number, pick: Pick): Colour => {
  const c = [1 + pick(-strength, strength), 1 + pick(-strength, strength), 1 + pick(-strength, strength)];
  const l = 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2];
  return [(y * c[0]) / l, (y * c[1]) / l, (y * c[2]) / l];
};
const inside = (u: number, v: number, x: number, y: number, a: number, b: number): boolean =>
  ((u - x) / a) ** 2 + ((v - y) / b) ** 2 < 1;

function sky(pick: Pick, n: Noise): Painter {
  const cover = pick(-0.5, 0.8);
  const blue = times([0.42, 0.55, 0.78], pick(0.7, 1.1));
  const cloud = grey(pick(0.55, 0.95));
  return (u, v) => mix(blue, cloud, Math.min(1, Math.max(0, cover + n(u * 4, v * 7))));
}

const families = {
  landscape: (pick, n) => {
    const above = sky(pick, n);
    const [horizon, rise] = [pick(0.25, 0.5), pick(0, 0.12)];
    const near = tinted(pick(0.09, 0.24), 0.35, pick);
    const far = mix(tinted(pick(0.06, 0.14), 0.3, pick), [0.3, 0.36, 0.45], pick(0.1, 0.5));
    const shade = pick(0.1, 0.6);
    return (u, v) => {
      const edge = horizon + rise * n(u * 3, 1);
      if (v < edge) return above(u, v);
      if (v < edge + 0.1) return times(far, 1 + 0.3 * n(u * 20, v * 20));
      return times(near, (1 + 0.5 * n(u * 18, v * 40)) * (n(u * 3, v * 5) < shade - 0.5 ? 0.25 : 1));
    };
  },
  town: (pick, n) => {
    const above = sky(pick, n);
    const walls = Array.from({ length: 6 }, () => tinted(pick(0.08, 0.55), 0.3, pick));
    const lit = Array.from({ length: 6 }, () => (pick(0, 1) < 0.4 ? pick(0.12, 0.35) : 1));
    const [top, ground] = [pick(0.1, 0.35), grey(pick(0.1, 0.24), 0.04)];
    return (u, v) => {
      const house = Math.floor(u * 5.99);
      if (v < top + 0.07 * n(house * 1.7, 3)) return above(u, v);
      if (v > 0.76) return times(ground, 1 + 0.3 * n(u * 20, v * 60));
      const pane = ((u * 6 - house) * 4) % 1 > 0.6 && (v * 9) % 1 > 0.5 ? 0.15 : 1;
      return times(walls[house], pane * lit[house] * (1 + 0.15 * n(u * 25, v * 25)));
    };
  },
  people: (pick, n) => {
    const skin = times([0.38, 0.24, 0.17], pick(0.45, 1.25));
    const coats = [0, 1].map(() => tinted(pick(0.03, 0.5), 0.4, pick));
    const wall = tinted(pick(0.08, 0.42), 0.15, pick);
    const fall = pick(0, 0.5);
    return (u, v) => {
      for (const [k, x] of [0.34, 0.66].entries()) {
        if (inside(u, v, x, 0.36, 0.09, 0.17)) return times(skin, 1 + 0.5 * (x - u) * 4 + 0.05 * n(u * 30, v * 30));
        if (inside(u, v, x, 1, 0.19, 0.5)) return times(coats[k], 1 + 0.4 * n(u * 12, v * 12));
      }
      return times(wall, (1 + 0.25 * n(u * 4, v * 4)) * (1 - fall * u));
    };
  },
  room: (pick, n) => {
    const [wx, wy] = [pick(0.15, 0.8), pick(0.25, 0.45)];
    const wall = tinted(pick(0.2, 0.5), 0.15, pick);
    const things = tinted(pick(0.05, 0.3), 0.5, pick);
    const window = grey(pick(0.9, 2.5), -0.05);
    return (u, v) => {
      if (Math.abs(u - wx) < 0.07 && Math.abs(v - wy) < 0.16) return window;
      const light = 0.25 + 0.9 / (1 + 9 * ((u - wx) ** 2 + (v - wy) ** 2));
      const here = v > 0.62 + 0.1 * n(u * 5, 2) ? times(things, 1 + 0.5 * n(u * 16, v * 16)) : wall;
      return times(here, light);
    };
  },
  shore: (pick, n) => {
    const above = sky(pick, n);
    const [sand, sea] = [grey(pick(0.25, 0.42), 0.15), times([0.07, 0.12, 0.15], pick(0.7, 1.6))];
    const [horizon, beach] = [pick(0.25, 0.45), pick(0.6, 0.8)];
    return (u, v) => {
      if (v < horizon) return above(u, v);
      if (v > beach + 0.05 * n(u * 4, 3)) return times(sand, 1 + 0.12 * n(u * 30, v * 60));
      return mix(times(sea, 1 + 0.4 * n(u * 12, v * 60)), grey(0.7), Math.max(0, n(u * 9, v * 30) - 0.55));
    };
  },
  /** Conifers, or leaves, or brushwood; little sky. */
  wood: (pick, n) => {
    const leaf = tinted(pick(0.045, 0.11), 0.2, pick);
    const green: Colour = [leaf[0] * pick(0.6, 1.3), leaf[1] * 1.15, leaf[2] * pick(0.25, 0.6)];
    const [trunks, gap, openness] = [pick(3, 11), pick(0.05, 0.14), pick(0.7, 1.4)];
    return (u, v) => {
      if (Math.abs(((u * trunks + 0.2 * n(1, v * 3)) % 1) - 0.5) < gap)
        return grey(0.035 * (1 + 0.5 * n(u * 40, v * 9)), 0.2);
      return times(green, Math.max(0.06, 0.75 + openness * n(u * 12, v * 12)));
    };
  },
  /** A workshop, a church, a cellar: lit by little. */
  cellar: (pick, n) => {
    const wall = tinted(pick(0.03, 0.09), 0.25, pick);
    const [x, y, lamp] = [pick(0.2, 0.8), pick(0.2, 0.5), pick(0.3, 1.5)];
    return (u, v) => {
      const d = Math.hypot((u - x) * 1.5, v - y);
      if (d < 0.03) return grey(lamp, 0.2);
      return times(wall, (0.5 + 0.12 / (d + 0.12)) * (1 + 0.4 * n(u * 14, v * 14)));
    };
  },
  /** Lamps and lit windows before a black sky. */
  nightTown: (pick, n) => {
    const lamps = Array.from(
      { length: 3 + Math.floor(pick(0, 6)) },
      () => [pick(0.05, 0.95), pick(0.3, 0.62)] as const,
    );
    const [glow, ground, top] = [pick(0.3, 1), pick(0.015, 0.05), pick(0.25, 0.45)];
    return (u, v) => {
      let around = 0;
      for (const [x, y] of lamps) {
        const d = Math.hypot((u - x) * 1.5, v - y);
        if (d < 0.009) return [6, 4.2, 2];
        around += (glow * 0.004) / (d + 0.03) ** 1.3;
      }
      if (v < top) return times([0.0012, 0.0014, 0.002], 1 + around * 20);
      const floor = grey(v > 0.62 ? ground : ground / 4, 0.3);
      if (v < 0.6 && (u * 31) % 1 > 0.6 && (v * 23) % 1 > 0.55 && n(Math.floor(u * 31), Math.floor(v * 23)) > 0.25)
        return [0.32 * glow, 0.24 * glow, 0.13 * glow];
      return times(floor, (1 + 0.7 * n(u * 14, v * 28)) * (0.6 + around * 5));
    };
  },
  /** Snow hills under sun or cloud, with trees or a hut. */
  snowfield: (pick, n) => {
    const [white, shade, trees] = [pick(0.72, 0.9), pick(0.3, 0.7), pick(0.06, 0.22)];
    const above = pick(0, 1) < 0.5 ? grey(pick(0.55, 0.8), -0.04) : times([0.42, 0.55, 0.78], pick(0.8, 1.1));
    const horizon = pick(0.2, 0.45);
    return (u, v) => {
      if (v > horizon && v < horizon + 0.2 && (u * 9 + n(3, u * 9)) % 1 < trees)
        return grey(0.035 * (1 + 0.3 * n(u * 40, v * 40)));
      if (v < horizon) return above;
      const dim = n(u * 3, v * 4) > shade ? 0.35 : 1;
      return times([white * 0.97, white, white * (dim < 1 ? 1.25 : 1.04)], dim * (1 + 0.06 * n(u * 9, v * 22)));
    };
  },
  /** Fog, or a white room: light and without contrast. */
  haze: (pick, n) => {
    const air = grey(pick(0.5, 0.8), pick(-0.04, 0.04));
    const deep = pick(0.3, 0.8);
    return (u, v) => {
      const tree = (u * 5 + n(3, u * 5)) % 1 < 0.2 && v > 0.3 && v < 0.75;
      return times(tree ? mix(grey(0.06), air, deep) : air, 1 + 0.04 * n(u * 6, v * 6) - 0.15 * v);
    };
  },
} satisfies Record<string, (pick: Pick, n: Noise) => Painter>;

export type FamilyName = keyof typeof families;

/** One picture of a family; `card` puts an 18 % grey card into it. */
export function variant(name: FamilyName, seed: number, width: number, height: number, card?: SceneBox): Scene {
  const source = random(seed, name);
  const paint: Painter = families[name]((low, high) => source.between(low, high), clouds(seed));
  const data = new Float32Array(width * height * 3);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i += 3) {
      const [u, v] = [(x + 0.5) / width, (y + 0.5) / height];
      const onCard = card && u > card.left && u < card.left + card.width && v > card.top && v < card.top + card.height;
      const rgb = onCard ? ([0.18, 0.18, 0.18] as const) : paint(u, v);
      for (let c = 0; c < 3; c++) data[i + c] = Math.max(0, rgb[c]);
    }
  return { width, height, data };
}
