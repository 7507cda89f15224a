/**
 * Subjects that are restless down to the pixel, and suns: bright discs whose edge is as hard as a speck's. The first two
 * were looked at while the finder was made, the others not.
 */
import { random } from "../../../../witness/random.ts";
import type { Scene } from "../../../../witness/scenes/scene.ts";
import { canvas, clamped, clouds, type Colour, glow, line, mix, oval, scaled } from "./canvas.ts";

/** Grey shingle to the horizon: each pixel has a brightness of its own, wet stones glint. */
function shingle(width: number, height: number): Scene {
  const [r, ground] = [random(301, "shingle"), clouds(303)];
  const c = canvas(width, height, (u, v) => {
    if (v < 0.22) return mix([0.5, 0.55, 0.62], [0.62, 0.66, 0.7], v * 4);
    return scaled([0.2, 0.19, 0.18], Math.exp(0.5 * ground(3 * u, 3 * v) + 0.75 * r.normal()));
  });
  for (let k = 0; k < 700; k++) {
    const v = r.between(0.24, 1);
    const [size, light] = [(0.0012 + 0.003 * r.uniform() ** 2) * (0.4 + 0.8 * v), 0.1 * 8 ** r.uniform()];
    oval(c, r.uniform(), v, [size, 0.7 * size], r.between(-0.4, 0.4), [light, light, 1.03 * light]);
  }
  return c;
}

/** The sun on the sea's horizon, its track on the water, gulls before it. */
function sundown(width: number, height: number): Scene {
  const air = clouds(311);
  const c = canvas(width, height, (u, v) => {
    if (v > 0.62) return scaled([0.16, 0.1, 0.07], Math.exp(0.5 * air(u, 6 * v)));
    const near = Math.hypot(u - 0.37, (v - 0.5) / 1.5);
    return mix([1.1, 0.6, 0.25], [0.22, 0.2, 0.3], clamped(2 * near + 0.1 * air(u, 3 * v)));
  });
  oval(c, 0.37, 0.5, [0.04, 0.038], 0, [22, 15, 6], 1.8);
  glow(c, 0.37, 0.5, 0.08, [0.9, 0.5, 0.2]);
  const r = random(313, "track");
  for (let k = 0; k < 200; k++) {
    const v = r.between(0.63, 0.98);
    const u = 0.37 + (v - 0.55) * 0.25 * r.normal();
    oval(c, u, v, [0.004 * r.uniform() + 0.001, 0.0009], 0, scaled([3, 2, 0.9], r.between(0.2, 1.2)));
  }
  for (let k = 0; k < 6; k++) {
    const [u, v] = [r.between(0.2, 0.6), r.between(0.3, 0.58)];
    line(c, [u - 0.012, v - 0.006], [u, v], 0.0016, [0.03, 0.03, 0.03]);
    line(c, [u, v], [u + 0.012, v - 0.005], 0.0016, [0.03, 0.03, 0.03]);
  }
  return c;
}

/** Bracken in sun and shade: leaves of a few pixels in all greens, with bright rims. */
function bracken(width: number, height: number): Scene {
  const [r, shade] = [random(321, "bracken"), clouds(323)];
  const c = canvas(width, height, (u, v) =>
    scaled([0.1, 0.15, 0.05], Math.exp(0.9 * shade(4 * u, 4 * v) + 0.6 * r.normal())),
  );
  for (let k = 0; k < 2600; k++) {
    const [u, v, angle] = [r.uniform(), r.uniform(), r.between(0, 3.1)];
    const [size, light] = [r.between(0.0012, 0.005), 0.06 * 14 ** r.uniform()];
    oval(c, u, v, [size, 0.35 * size], angle, [0.55 * light, 0.9 * light, 0.25 * light * r.between(0.6, 1.6)]);
    if (k % 9 === 0) oval(c, u, v, [0.4 * size, 0.2 * size], angle, [0.9, 1, 0.8]);
  }
  return c;
}

/** A white sun through branches in mist, frost on the twigs. */
function mist(width: number, height: number): Scene {
  const air = clouds(331);
  const c = canvas(width, height, (u, v) => {
    const near = Math.hypot(u - 0.66, (v - 0.33) / 1.5);
    return scaled([0.62, 0.63, 0.66], clamped(1.1 - near + 0.12 * air(u, v)));
  });
  glow(c, 0.66, 0.33, 0.05, [0.8, 0.8, 0.75]);
  oval(c, 0.66, 0.33, [0.024, 0.024], 0, [14, 13.5, 12.5], 1.5);
  const r = random(333, "twigs");
  for (let k = 0; k < 60; k++) {
    const [u, v, angle] = [r.uniform(), r.uniform(), r.between(-1.2, -0.4)];
    const long = r.between(0.03, 0.16);
    const dark: Colour = scaled([0.06, 0.055, 0.05], r.between(0.5, 2.5));
    line(c, [u, v], [u + long * Math.cos(angle), v + 1.5 * long * Math.sin(angle)], r.between(0.001, 0.004), dark);
    for (let n = 0; n < 5; n++) {
      const t = r.uniform();
      const at = [u + t * long * Math.cos(angle), v + 1.5 * t * long * Math.sin(angle)] as const;
      oval(c, at[0], at[1], [r.between(0.0008, 0.002), 0.001], 0, [1.4, 1.4, 1.5]);
    }
  }
  return c;
}

export const TEXTURED = { shingle, sundown, bracken, mist };
