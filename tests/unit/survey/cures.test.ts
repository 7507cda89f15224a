/** What the survey measured, turned into values of the recipe, judged by the witness that made the fault. */
import { describe, expect, it } from "vitest";
import { findAll } from "../../../extension/engine/survey/catalogue.ts";
import { measuredFlare } from "../../../extension/engine/survey/findings/flare.ts";
import { turnedOver } from "../../../extension/engine/survey/findings/mirrored.ts";
import { FAULTS } from "../../witness/faults.ts";
import { GOOD_FLARE, measuredRoll } from "./rig.ts";

const codes = (order: Parameters<typeof measuredRoll>[0]): string[] =>
  findAll(measuredRoll(order).roll).map(({ code }) => code);

describe("film that lies the wrong way round", () => {
  const subjects = ["portrait", "night"] as const;
  const fault: NonNullable<Parameters<typeof measuredRoll>[0]["fault"]> = (r, i) => FAULTS.mirrored(r, "strong", i, 3);

  it("is found, on the whole roll", () => {
    const { roll } = measuredRoll({ subjects, fault });
    expect(findAll(roll).map(({ code }) => code)).toContain("mirrored");
    expect(turnedOver(roll.scans)).toMatchObject({ whole: true, off: [] });
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
