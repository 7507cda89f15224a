/**
 * Sub-pixel registration as in the worked example of M. Guizar-Sicairos's method that scikit-image publishes ("Image
 * registration": a picture shifted in the Fourier domain by (−22.4, 13.32) rows and columns is found as (22, −13) to a
 * pixel and as (22.4, −13.32) with hundredths), on a picture of our own.
 */
import { describe, expect, it } from "vitest";
import { fft2 } from "../../extension/engine/math/fft.ts";
import { findShift, type RegisterPlane } from "../../extension/engine/image/register.ts";
import { random } from "../witness/random.ts";

const [W, H] = [256, 128];

/** Blots of many sizes; periodic, so that a shift in the Fourier domain is exact. */
function picture(seed: number): RegisterPlane {
  const r = random(seed, "blots");
  const blots = Array.from({ length: 60 }, () => ({
    x: r.between(0, W),
    y: r.between(0, H),
    size: r.between(1.5, 14),
    tone: r.between(-1, 1),
  }));
  const data = new Float64Array(W * H);
  const around = (d: number, n: number): number => Math.min(Math.abs(d), n - Math.abs(d));
  for (let y = 0; y < H; y++)
    for (let x = 0; x < W; x++)
      for (const b of blots)
        data[y * W + x] += b.tone * Math.exp(-(around(x - b.x, W) ** 2 + around(y - b.y, H) ** 2) / (2 * b.size ** 2));
  return { width: W, height: H, data };
}

/** Moves by multiplying the transform with a phase ramp. */
function fourierShift(p: RegisterPlane, rows: number, columns: number): RegisterPlane {
  const s = { re: Float64Array.from(p.data), im: new Float64Array(p.data.length) };
  fft2(s, W, H);
  for (let v = 0; v < H; v++)
    for (let u = 0; u < W; u++) {
      const i = v * W + u;
      const turn = -2 * Math.PI * (((v > H / 2 ? v - H : v) * rows) / H + ((u > W / 2 ? u - W : u) * columns) / W);
      const [re, im] = [s.re[i], s.im[i]];
      s.re[i] = re * Math.cos(turn) - im * Math.sin(turn);
      s.im[i] = re * Math.sin(turn) + im * Math.cos(turn);
    }
  fft2(s, W, H, true);
  return { ...p, data: s.re };
}

describe("phase correlation with a finely sampled peak", () => {
  const reference = picture(3);
  const moved = fourierShift(reference, -22.4, 13.32);

  it("finds the worked example's shift, to a pixel and to a hundredth", () => {
    const whole = findShift(reference, moved, { parts: 1, whitening: 0 });
    expect([whole.y, whole.x]).toEqual([22, -13]);
    const fine = findShift(reference, moved, { parts: 100, whitening: 0 });
    expect([fine.y, fine.x]).toEqual([22.4, -13.32]);
    // Counting all frequencies alike, the picture's empty ones count too.
    const phase = findShift(reference, moved, { parts: 100, whitening: 1 });
    expect(Math.hypot(phase.y - 22.4, phase.x + 13.32)).toBeLessThan(0.015);
  });

  it.each([
    [0.07, -0.91],
    [-3.5, 7.25],
    [40.01, 99.99],
  ])("finds %f, %f to a hundredth", (rows, columns) => {
    const { x, y, peak } = findShift(reference, fourierShift(reference, rows, columns), { whitening: 0 });
    expect(Math.abs(y + rows)).toBeLessThanOrEqual(0.0101);
    expect(Math.abs(x + columns)).toBeLessThanOrEqual(0.0101);
    expect(peak).toBeGreaterThan(0.99);
  });

  it("says by its peak that two pictures have nothing in common", () => {
    expect(findShift(reference, picture(8), { fade: true }).peak).toBeLessThan(0.4);
  });
});
