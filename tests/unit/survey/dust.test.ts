/**
 * Dust against pictures that hold what looks like it: stars, catch-lights and pearls, wires and glints, grass and
 * flowers. The witness lays the dust and the dirt, so it knows each speck.
 */
import { describe, expect, it } from "vitest";
import { dirtOf, dustOf } from "../../../extension/engine/survey/dust.ts";
import type { Speck } from "../../../extension/engine/survey/types.ts";
import { scatterDust } from "../../witness/dust.ts";
import { FAULTS } from "../../witness/faults.ts";
import { measuredRoll, SMALL_FORMAT } from "./rig.ts";

const SUBJECTS = ["night", "portrait", "quay", "meadow"] as const;

/** Forty specks a frame, 1.5 to 6.6 pixels in radius, and three spots of dirt at one place in all scans. */
const { roll, scans } = measuredRoll({
  subjects: SUBJECTS,
  fault: (r, i) => {
    const dirty = FAULTS.dirtySensor(r, "light", 0, 3);
    const dust = scatterDust(SMALL_FORMAT, { specks: 40, smallest: 0.014, largest: 0.06 }, 150 + i);
    return i < 0 ? dirty : { ...dirty, dust };
  },
});

const counts = roll.scans.map((scan, i) => {
  const { truth, width } = scans[i];
  const near = (g: Speck, t: { x: number; y: number; radius: number }): boolean =>
    Math.hypot(g.x * width - t.x, g.y * width - t.y) < Math.max(3, t.radius + 1.5);
  const found = dustOf(roll, scan);
  const specks = truth.dust.filter((t) => t.radius >= 1.5);
  return {
    subject: SUBJECTS[i],
    right: found.filter((g) => truth.dust.some((t) => near(g, t))).length,
    found: found.length,
    seen: specks.filter((t) => found.some((g) => near(g, t))).length,
    specks: specks.length,
    dirtTaken: found.filter((g) => truth.dirt.some((t) => near(g, t))).length,
  };
});
const sum = (key: "right" | "found" | "seen" | "specks" | "dirtTaken"): number =>
  counts.reduce((a, c) => a + c[key], 0);

describe("dust on colour film, specks of 3 px and more", () => {
  it("is seldom a star, a catch-light, a wire or a flower", () => {
    expect(sum("right") / sum("found")).toBeGreaterThanOrEqual(0.95);
  });

  it("is found in most places", () => {
    expect(sum("seen") / sum("specks")).toBeGreaterThanOrEqual(0.7);
  });

  it("is never dirt, and all dirt is told as such", () => {
    expect(sum("dirtTaken")).toBe(0);
    const dirt = dirtOf(roll);
    const { truth, width } = scans[0];
    expect(dirt.length).toBe(truth.dirt.length);
    for (const t of truth.dirt)
      expect(dirt.some((d) => Math.hypot(d.x * width - t.x, d.y * width - t.y) < 3)).toBe(true);
  });
});
