/** Subjects that were drawn after the dust finder's limits were set and never looked at while it was made. */
import { random } from "../../../../witness/random.ts";
import type { Scene } from "../../../../witness/scenes/scene.ts";
import { canvas, clamped, clouds, type Colour, line, mix, oval, scaled } from "./canvas.ts";

/** A fair after sunset: strings of bulbs, white and coloured, on poles and a wheel, lit stalls, people as shadows. */
function fair(width: number, height: number): Scene {
  const air = clouds(121);
  const c = canvas(width, height, (u, v) => {
    if (v > 0.78) return mix([0.02, 0.018, 0.016], [0.07, 0.055, 0.045], clamped(0.5 + 0.4 * air(2 * u, 2 * v)));
    return mix([0.05, 0.07, 0.13], [0.3, 0.22, 0.2], clamped(v * v * 1.4 + 0.06 * air(u, v)));
  });
  const r = random(123, "fair");
  const bulb = (u: number, v: number, colour: Colour): void =>
    oval(c, u, v, [0.0013, 0.0013], 0, scaled(colour, r.between(1.2, 3)), 2.5);
  const colours: readonly Colour[] = [
    [1, 0.85, 0.6],
    [1, 0.2, 0.12],
    [0.3, 0.8, 0.3],
    [0.25, 0.4, 1],
    [1, 0.75, 0.2],
  ];
  for (let k = 0; k < 6; k++) {
    const v = 0.5 + 0.04 * k;
    for (let n = 0; n <= 22; n++) bulb(0.03 + 0.043 * n, v + 0.03 * Math.cos(n / 1.8), colours[k % 2 ? n % 5 : 0]);
  }
  for (let n = 0; n < 40; n++) {
    const angle = (n / 40) * 2 * Math.PI;
    bulb(0.72 + 0.16 * Math.cos(angle), 0.3 + 0.24 * Math.sin(angle), colours[0]);
    if (n % 4 === 0)
      line(c, [0.72, 0.3], [0.72 + 0.16 * Math.cos(angle), 0.3 + 0.24 * Math.sin(angle)], 0.0018, [0.1, 0.09, 0.08]);
  }
  for (let k = 0; k < 7; k++) {
    const u = 0.07 + 0.14 * k;
    line(c, [u, 0.74], [u + 0.1, 0.74], 0.05, scaled([0.9, 0.6, 0.3], r.between(0.3, 1)));
    for (let n = 0; n < 3; n++) oval(c, u + r.between(0, 0.1), 0.8, [0.008, 0.03], 0, [0.015, 0.013, 0.012]);
  }
  return c;
}

/** A dry bank: seed heads on stalks, a web hung with dew, leaves, a bright sky between. */
function seedheads(width: number, height: number): Scene {
  const bank = clouds(131);
  const c = canvas(width, height, (u, v) =>
    mix([0.5, 0.52, 0.54], [0.1, 0.11, 0.06], clamped((v - 0.25 + 0.12 * bank(2 * u, 2 * v)) * 2.2)),
  );
  const r = random(133, "seeds");
  for (let k = 0; k < 260; k++) {
    const [u, v] = [r.uniform(), r.between(0.5, 1.1)];
    const tone = mix([0.1, 0.12, 0.04], [0.38, 0.33, 0.2], r.uniform());
    line(c, [u, v], [u + r.between(-0.06, 0.06), v - r.between(0.1, 0.4)], r.between(0.0011, 0.0026), tone);
  }
  for (let k = 0; k < 14; k++) {
    const [u, v] = [r.between(0.05, 0.95), r.between(0.3, 0.85)];
    for (let n = 0; n < 26; n++) {
      const angle = r.between(0, 2 * Math.PI);
      const [x, y] = [u + 0.022 * Math.cos(angle), v + 0.033 * Math.sin(angle)];
      line(c, [u, v], [x, y], 0.0009, [0.5, 0.48, 0.43]);
      oval(c, x, y, [0.0016, 0.0013], angle, [0.72, 0.7, 0.66]);
    }
  }
  const [wu, wv] = [0.3, 0.32];
  for (let ring = 1; ring < 9; ring++)
    for (let n = 0; n < 16; n++) {
      const at = (k: number): [number, number] => [
        wu + 0.014 * ring * Math.cos((k * Math.PI) / 8),
        wv + 0.02 * ring * Math.sin((k * Math.PI) / 8),
      ];
      line(c, at(n), at(n + 1), 0.0008, [0.75, 0.76, 0.78]);
      if (r.uniform() < 0.6) oval(c, ...at(n), [0.0011, 0.0011], 0, [1.1, 1.12, 1.15]);
    }
  return c;
}

/** A street in the rain: cobbles with wet rims, puddles, drops and their splashes, a yellow coat, a lamp. */
function rain(width: number, height: number): Scene {
  const wall = clouds(141);
  const c = canvas(width, height, (u, v) =>
    v < 0.4
      ? mix([0.1, 0.09, 0.085], [0.2, 0.18, 0.17], clamped(0.5 + 0.4 * wall(2 * u, 2 * v)))
      : mix([0.05, 0.055, 0.06], [0.09, 0.095, 0.1], clamped(0.5 + 0.4 * wall(u, v))),
  );
  const r = random(143, "rain");
  for (let row = 0; row < 16; row++) {
    const v = 0.42 + 0.037 * row;
    for (let k = 0; k < 26; k++) {
      const u = 0.04 * (k + (row % 2) / 2) + r.between(-0.003, 0.003);
      const tone = scaled([0.13, 0.135, 0.15], r.between(0.6, 1.5));
      oval(c, u, v, [0.017, 0.0105], r.between(-0.1, 0.1), tone, 2);
      if (r.uniform() < 0.5) line(c, [u - 0.009, v - 0.011], [u + 0.008, v - 0.0115], 0.0016, [0.6, 0.62, 0.66]);
    }
  }
  oval(c, 0.6, 0.8, [0.13, 0.035], 0.05, [0.5, 0.52, 0.55], 3);
  line(c, [0.25, 0.3], [0.25, 0.62], 0.05, [0.62, 0.45, 0.05]);
  for (let k = 0; k < 150; k++) {
    const [u, v] = [r.uniform(), r.uniform()];
    line(c, [u, v], [u + 0.003, v + r.between(0.01, 0.035)], 0.001, [0.42, 0.43, 0.45]);
  }
  for (let k = 0; k < 170; k++)
    oval(c, r.uniform(), r.between(0.42, 1), [r.between(0.0008, 0.0018), 0.001], 0, [0.8, 0.82, 0.86]);
  oval(c, 0.85, 0.15, [0.012, 0.016], 0, [4, 3, 1.6], 3);
  return c;
}

export const LAST = { fair, seedheads, rain } as const;
