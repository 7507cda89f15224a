/** What the survey measured, turned into values of the recipe, judged by the witness that made the fault. */
import { describe, expect, it } from "vitest";
import { findAll } from "../../../../extension/engine/survey/catalogue.ts";
import { measuredFlare } from "../../../../extension/engine/survey/findings/flare.ts";
import { mirroredScans } from "../../../../extension/engine/survey/findings/mirrored.ts";
import { scatterDust } from "../../../witness/faults/dust.ts";
import { FAULTS } from "../../../witness/faults/faults.ts";
import { GOOD_FLARE, measuredRoll, SMALL_FORMAT } from "./rig.ts";

const codes = (order: Parameters<typeof measuredRoll>[0]): string[] =>
  findAll(measuredRoll(order).roll).map(({ code }) => code);

describe("film that lies the wrong way round", () => {
  const subjects = ["portrait", "night"] as const;
  const fault: NonNullable<Parameters<typeof measuredRoll>[0]["fault"]> = (r, i) => FAULTS.mirrored(r, "strong", i, 3);

  it("is found, on the whole roll", () => {
    const { roll } = measuredRoll({ subjects, fault });
    expect(findAll(roll).map(({ code }) => code)).toContain("mirrored");
    expect(mirroredScans(roll.scans)).toMatchObject({ whole: true, off: [] });
  });

  it("is right where the recipe mirrors it, and film that lies well is then wrong", () => {
    expect(codes({ subjects, fault, mirror: true })).not.toContain("mirrored");
    expect(codes({ subjects, mirror: true })).toContain("mirrored");
    expect(codes({ subjects })).not.toContain("mirrored");
  });
});

describe("flare that is measured on the holder", () => {
  it("is what the set-up adds, with what the recipe takes off already", () => {
    // The witness adds 6 % of the bare light as stray light (6.6 % in blue) to the little that a good set-up has.
    const { roll } = measuredRoll({
      subjects: ["night"],
      fault: (r, i) => FAULTS.flare(r, "strong", Math.max(0, i), 3),
    });
    const found = measuredFlare(roll)!;
    expect(roll.flare).toEqual(GOOD_FLARE);
    for (const [c, added] of [0.06, 0.06, 0.066].entries()) expect(Math.abs(found[c]! - added)).toBeLessThan(0.006);
  });

  it("is unknown where no holder is in view", () => {
    expect(measuredFlare({ scans: [], flare: [0, 0, 0] })).toBeUndefined();
  });
});

describe("flare that the specks tell, where no holder is in view", () => {
  const subjects = ["portrait", "meadow", "quay"] as const;
  const roll = (stray: number) =>
    measuredRoll({
      subjects,
      fault: (r, i) => ({
        ...r,
        setup: { ...r.setup, opening: undefined, stray: [stray, stray, stray] },
        ...(i < 0 ? {} : { dust: scatterDust(SMALL_FORMAT, { specks: 25, smallest: 0.014, largest: 0.06 }, 70 + i) }),
      }),
    });

  it("is found, and measured to a tenth", () => {
    const made = roll(0.02);
    const flare = findAll(made.roll).filter(({ code }) => code === "flare");
    expect(flare.map(({ place }) => place.scan)).toEqual(["S12.dng", "S13.dng", "S14.dng"]);
    for (const [i, scan] of made.roll.scans.entries()) {
      const [, green] = made.scans[i].truth.flare;
      expect(Math.abs((GOOD_FLARE[1] + scan.flareFromSpecks!) / green - 1)).toBeLessThan(0.1);
    }
    const truth = made.scans[0].truth.flare;
    for (const [c, value] of measuredFlare(made.roll)!.entries())
      expect(Math.abs(value / truth[c] - 1)).toBeLessThan(0.15);
  });

  it("is no finding where the recipe takes it off", () => {
    expect(findAll(roll(0.0015).roll).map(({ code }) => code)).not.toContain("flare");
  });
});
