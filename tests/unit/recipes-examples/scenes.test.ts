import { describe, expect, it } from "vitest";
import { makeScan, type Sizes } from "../../../recipes-examples/make-scan.ts";
import { ROLLS } from "../../../recipes-examples/roll-plan.ts";
import { SCENES, type SceneName } from "../../../recipes-examples/scenes/index.ts";

const SMALL: Sizes = { scene: [48, 32], scan: [96, 64] };

/** Luminance (Rec.709) of a picture's pixels in ascending order. */
function luminances(data: Float32Array): number[] {
  const out: number[] = [];
  for (let i = 0; i < data.length; i += 3) out.push(0.2126 * data[i] + 0.7152 * data[i + 1] + 0.0722 * data[i + 2]);
  return out.sort((a, b) => a - b);
}

describe("the demo's scenes", () => {
  it.each(Object.keys(SCENES) as SceneName[])("%s is drawn in linear light with natural exposure", (name) => {
    const picture = SCENES[name](48, 32);
    expect(picture.data).toHaveLength(48 * 32 * 3);
    expect(picture.data.every((v) => v >= 0 && v < 1e4)).toBe(true);
    const y = luminances(picture.data);
    const at = (part: number): number => y[Math.floor(part * (y.length - 1))];
    // Mid-tones lie within two stops of mid-grey; shadows go down and lights go up, as they do outdoors.
    expect(at(0.5)).toBeGreaterThan(0.18 / 4);
    expect(at(0.5)).toBeLessThan(0.18 * 4);
    expect(at(0.98) / at(0.02)).toBeGreaterThan(4);
  });

  it("are each on one roll", () => {
    const used = ROLLS.flatMap((r) => r.shots.map((s) => s.scene));
    expect([...used].sort()).toEqual(Object.keys(SCENES).sort());
  });
});

describe("the demo's scans", () => {
  it("are the same bytes on every run, and differ from frame to frame", () => {
    const roll = ROLLS[1];
    const once = makeScan(roll, 1, SMALL);
    expect(Buffer.compare(makeScan(roll, 1, SMALL), once)).toBe(0);
    expect(Buffer.compare(makeScan(roll, 0, SMALL), once)).not.toBe(0);
    expect(Buffer.compare(makeScan(roll, "blank", SMALL), makeScan(roll, "leader", SMALL))).not.toBe(0);
  });
});
