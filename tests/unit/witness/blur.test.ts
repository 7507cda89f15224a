import { describe, expect, it } from "vitest";
import { blurGaussian, blurStroke, blurVarying, type Plane } from "../../witness/blur.ts";

const impulse = (size = 41): Plane => {
  const data = new Float32Array(size * size);
  data[(size >> 1) * size + (size >> 1)] = 1;
  return { width: size, height: size, channels: 1, data };
};

/** Total, and variance across and down, about the middle. */
function moments({ width, data }: Plane): [number, number, number] {
  let [total, across, down] = [0, 0, 0];
  const middle = width >> 1;
  for (const [i, v] of data.entries()) {
    total += v;
    across += v * ((i % width) - middle) ** 2;
    down += v * (Math.floor(i / width) - middle) ** 2;
  }
  return [total, across, down];
}

describe("blurs", () => {
  it("a Gaussian keeps the light and has the variance asked for, however narrow", () => {
    for (const sigma of [0.2, 0.35, 0.5, 0.7, 1.4, 3]) {
      const p = impulse();
      blurGaussian(p, sigma);
      const [total, across, down] = moments(p);
      expect(total).toBeCloseTo(1, 5);
      expect(Math.sqrt(across) / sigma).toBeCloseTo(1, 1.5);
      expect(Math.sqrt(down) / sigma).toBeCloseTo(1, 1.5);
    }
  });

  it("keeps an even field even to its edges", () => {
    const p = { width: 30, height: 20, channels: 3, data: new Float32Array(1800).fill(0.7) };
    blurGaussian(p, 2.2);
    for (const v of p.data) expect(v).toBeCloseTo(0.7, 5);
  });

  it("a stroke spreads light along its direction only", () => {
    const [total, across, down] = moments(blurStroke(impulse(), 8, 0));
    expect(total).toBeCloseTo(1, 4);
    // A line of length L has variance L²/12; sampled at 17 points with their ends, a little more.
    expect(across).toBeGreaterThan(64 / 12);
    expect(across).toBeLessThan(64 / 12 + 1);
    expect(down).toBeCloseTo(0, 6);
  });

  it("a varying blur follows its map", () => {
    const at = (sigma: number): number => moments(blurVarying(impulse(), () => sigma, 3))[1];
    expect(at(0)).toBe(0);
    expect(at(1.1)).toBeCloseTo(1.21, 1);
    expect(at(2.4)).toBeCloseTo(5.76, 0);
  });
});
