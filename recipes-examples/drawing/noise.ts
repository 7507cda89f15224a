/**
 * Smooth random fields in two and three dimensions. Every field takes the footprint of a pixel, in the field's own
 * units, and leaves out what is finer than that: distant texture turns to its mean instead of shimmering.
 */
import { random } from "./random.ts";

const perm = new Uint8Array(512);
const value = new Float32Array(256);
const gradX = new Float32Array(256);
const gradY = new Float32Array(256);
{
  const next = random(20260502);
  const order = Array.from({ length: 256 }, (_, i) => i);
  for (let i = 255; i > 0; i--) {
    const j = Math.floor(next() * (i + 1));
    [order[i], order[j]] = [order[j], order[i]];
  }
  for (let i = 0; i < 512; i++) perm[i] = order[i & 255];
  for (let i = 0; i < 256; i++) {
    value[i] = next() * 2 - 1;
    const a = next() * Math.PI * 2;
    gradX[i] = Math.cos(a);
    gradY[i] = Math.sin(a);
  }
}

/** Gradient noise, about −1 … 1, period 256. */
export function noise2(x: number, y: number): number {
  const fx = Math.floor(x);
  const fy = Math.floor(y);
  const ix = fx & 255;
  const iy = fy & 255;
  const tx = x - fx;
  const ty = y - fy;
  const a = perm[ix + perm[iy]];
  const b = perm[ix + 1 + perm[iy]];
  const c = perm[ix + perm[iy + 1]];
  const d = perm[ix + 1 + perm[iy + 1]];
  const u = tx * tx * tx * (tx * (tx * 6 - 15) + 10);
  const v = ty * ty * ty * (ty * (ty * 6 - 15) + 10);
  const na = gradX[a] * tx + gradY[a] * ty;
  const nb = gradX[b] * (tx - 1) + gradY[b] * ty;
  const nc = gradX[c] * tx + gradY[c] * (ty - 1);
  const nd = gradX[d] * (tx - 1) + gradY[d] * (ty - 1);
  const n1 = na + (nb - na) * u;
  return (n1 + (nc + (nd - nc) * u - n1) * v) * 1.5;
}

/** Value noise in three dimensions, −1 … 1, period 256. */
export function noise3(x: number, y: number, z: number): number {
  const fx = Math.floor(x);
  const fy = Math.floor(y);
  const fz = Math.floor(z);
  const ix = fx & 255;
  const iy = fy & 255;
  const iz = fz & 255;
  let tx = x - fx;
  let ty = y - fy;
  let tz = z - fz;
  tx = tx * tx * (3 - 2 * tx);
  ty = ty * ty * (3 - 2 * ty);
  tz = tz * tz * (3 - 2 * tz);
  const p0 = perm[iz];
  const p1 = perm[iz + 1];
  const q00 = perm[p0 + iy];
  const q01 = perm[p0 + iy + 1];
  const q10 = perm[p1 + iy];
  const q11 = perm[p1 + iy + 1];
  const a = value[perm[q00 + ix]];
  const b = value[perm[q00 + ix + 1]];
  const c = value[perm[q01 + ix]];
  const d = value[perm[q01 + ix + 1]];
  const e = value[perm[q10 + ix]];
  const f = value[perm[q10 + ix + 1]];
  const g = value[perm[q11 + ix]];
  const h = value[perm[q11 + ix + 1]];
  const n0 = a + (b - a) * tx;
  const n1 = c + (d - c) * tx;
  const n2 = e + (f - e) * tx;
  const n3 = g + (h - g) * tx;
  const m0 = n0 + (n1 - n0) * ty;
  const m1 = n2 + (n3 - n2) * ty;
  return m0 + (m1 - m0) * tz;
}

/** How much of an octave of this wavelength is left under a footprint: 1 when coarse, 0 when finer than two pixels. */
export function kept(wavelength: number, foot: number): number {
  if (foot <= 0) return 1;
  const r = wavelength / foot;
  return r >= 4 ? 1 : r <= 1.5 ? 0 : (r - 1.5) / 2.5;
}

/** Sum of octaves of gradient noise, each twice as fine and `gain` as strong; about −1 … 1. */
export function fbm2(x: number, y: number, octaves: number, foot = 0, gain = 0.5): number {
  let sum = 0;
  let amp = 1;
  let f = 1;
  for (let i = 0; i < octaves; i++) {
    const k = kept(1 / f, foot);
    if (k === 0) break;
    sum += amp * k * noise2(x * f + i * 17.13, y * f - i * 31.7);
    amp *= gain;
    f *= 2.03;
  }
  return sum * (1 - gain) * 1.6;
}

/** Sum of octaves of value noise in three dimensions; about −1 … 1. */
export function fbm3(x: number, y: number, z: number, octaves: number, foot = 0, gain = 0.5): number {
  let sum = 0;
  let amp = 1;
  let f = 1;
  for (let i = 0; i < octaves; i++) {
    const k = kept(1 / f, foot);
    if (k === 0) break;
    sum += amp * k * noise3(x * f + i * 7.3, y * f + i * 3.1, z * f - i * 5.7);
    amp *= gain;
    f *= 2.03;
  }
  return sum * (1 - gain) * 1.6;
}

/** Sharp crests from smooth noise: 0 … 1, 1 on the crest. */
export function ridge2(x: number, y: number, octaves: number, foot = 0): number {
  let sum = 0;
  let amp = 0.5;
  let f = 1;
  for (let i = 0; i < octaves; i++) {
    const k = kept(1 / f, foot);
    if (k === 0) break;
    const n = 1 - Math.abs(noise2(x * f + i * 11.9, y * f + i * 4.7));
    sum += amp * k * n * n;
    amp *= 0.5;
    f *= 2.07;
  }
  return sum;
}

/** 0 at `a` and beyond, 1 at `b` and beyond, smooth between; `a` may be the larger. */
export function smoothstep(a: number, b: number, x: number): number {
  const r = (x - a) / (b - a);
  const t = r <= 0 ? 0 : r >= 1 ? 1 : r;
  return t * t * (3 - 2 * t);
}

export function mix(a: number, b: number, t: number): number {
  return a + (b - a) * t;
}

export function clamp(x: number, low: number, high: number): number {
  return x < low ? low : x > high ? high : x;
}
