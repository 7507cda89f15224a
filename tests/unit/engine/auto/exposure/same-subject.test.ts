/** Frames of one picture are found by what differs between them, which is nearly one number. */
import { describe, expect, it } from "vitest";
import { sameSubjects } from "../../../../../extension/engine/auto/exposure/same-subject.ts";
import { random } from "../../../../witness/random.ts";

const [COLUMNS, ROWS] = [60, 40];
const STOP = Math.log10(2);

/** A picture of soft shapes, log10 exposure above mid-grey: another for every seed, and another contrast. */
function picture(seed: number, contrast = 0.25): Float32Array {
  const r = random(seed, "same subject");
  const waves = Array.from({ length: 5 }, () => [r.uniform() * 0.4, r.uniform() * 0.4, r.uniform() * 6] as const);
  return Float32Array.from({ length: COLUMNS * ROWS }, (_, i) => {
    const [x, y] = [i % COLUMNS, Math.floor(i / COLUMNS)];
    return contrast * waves.reduce((s, [u, v, at]) => s + Math.sin(u * x + v * y + at), 0);
  });
}

/** The picture with more light, another contrast about its middle, and noise. */
function seen(from: Float32Array, stops: number, { contrast = 1, noise = 0, seed = 1 } = {}): Float32Array {
  const r = random(seed, "noise");
  return from.map((v) => contrast * v + stops * STOP + noise * r.normal());
}

describe("frames of one picture", () => {
  const one = picture(1);

  it("are found with the light between them", () => {
    const [group, ...more] = sameSubjects([one, picture(2), seen(one, 1), picture(3), seen(one, -1)]);
    expect(more).toEqual([]);
    expect(group.frames).toEqual([0, 2, 4]);
    expect(group.above[1] / STOP).toBeCloseTo(1, 1);
    expect(group.above[2] / STOP).toBeCloseTo(-1, 1);
  });

  it("may differ by a fifth in contrast, as where the curve is not the film's, and by grain where they are flat", () => {
    expect(sameSubjects([one, seen(one, 1, { contrast: 1.2 })])).toHaveLength(1);
    const flat = picture(4, 0.05);
    expect(sameSubjects([seen(flat, 0, { noise: 0.02 }), seen(flat, 1, { noise: 0.02, seed: 2 })])).toHaveLength(1);
  });

  it("that are too far apart to be compared are joined by one between them", () => {
    const wide = picture(5, 0.35);
    const [group] = sameSubjects([seen(wide, -2), seen(wide, 1), seen(wide, 4), seen(wide, 7)]);
    expect(group.frames).toEqual([0, 1, 2, 3]);
    expect(group.above[3] / STOP).toBeGreaterThan(8);
  });
});

describe("other pictures", () => {
  it("are never taken for one", () => {
    expect(sameSubjects(Array.from({ length: 12 }, (_, i) => picture(10 + i)))).toEqual([]);
  });

  it("are told from their own negative, and even surfaces are like nothing", () => {
    const one = picture(1);
    expect(sameSubjects([one, one.map((v) => -v)])).toEqual([]);
    expect(sameSubjects([new Float32Array(2400).fill(0.1), new Float32Array(2400).fill(0.4)])).toEqual([]);
  });
});
