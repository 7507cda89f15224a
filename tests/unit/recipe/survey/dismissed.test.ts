import { middleOf, type Spot } from "../../../../extension/engine/image/spot.ts";
import { describe, expect, it } from "vitest";
import type { ScanReading, Speck, SurveyedRoll } from "../../../../extension/engine/survey/types.ts";
import { findingFixes } from "../../../../extension/recipe/language/finding-fixes.ts";
import { placeFindings, proposedSpots, type Surveyed } from "../../../../extension/recipe/language/findings.ts";
import { english } from "../../../../extension/recipe/language/types.ts";
import {
  NONE_DISMISSED,
  partProposals,
  type Dismissed,
  withoutDismissed,
  withDismissed,
} from "../../../../extension/recipe/survey/dismissed.ts";
import { finding } from "../language/finding.ts";
import { open } from "../language/memory.ts";
import { files, roll } from "../language/recipes.ts";

const speck = (...spots: Spot[]): Speck => ({
  x: middleOf(spots[0]!)[0],
  y: middleOf(spots[0]!)[1],
  radius: 0.002,
  elongation: 1,
  opacity: 0.8,
  logOdds: 1,
  spots,
});

/** A survey of frame 02 of the small roll. */
const survey = (dust: readonly Speck[], sensorDust: readonly Speck[] = []): Surveyed => ({
  roll: {
    film: "colour-negative",
    flare: [0, 0, 0],
    scans: [{ name: "H0002.dng", frame: "02" } as ScanReading],
    blank: { name: "LIGHT.dng" },
  } as unknown as SurveyedRoll,
  findings: [finding("dust", { scan: "H0002.dng", frame: "02" })],
  dust: { "02": dust },
  sensorDust,
  failures: [],
  paths: { "H0002.dng": "/w/scans/H0002.dng", "LIGHT.dng": "/w/scans/LIGHT.dng" },
  mirrored: [],
});

const SCAN = { scan: "/w/scans/H0002.dng" };
const star: Spot = [0.5, 0.25, 0.002];
const dust: Spot = [0.7, 0.3, 0.002];
const passed: Dismissed = withDismissed(NONE_DISMISSED, SCAN, star);

describe("a spot that was dismissed", () => {
  const proposed = async (of: Surveyed, over: Dismissed, text = roll) => {
    const { reading } = await open(text, files);
    const parts = partProposals(of, over);
    return { open: proposedSpots(reading, parts.open, "02"), passed: proposedSpots(reading, parts.dismissed, "02") };
  };

  it("is proposed no more, and is told apart", async () => {
    expect(await proposed(survey([speck(star), speck(dust)]), passed)).toEqual({
      open: { film: [dust], light: [] },
      passed: { film: [star], light: [] },
    });
  });

  // A small scan of 960 pixels: a speck's middle moves by less than a pixel from one survey to another.
  it.each([0.3, 0.9])("is known again by another survey that finds it %f pixels away, and larger", async (pixels) => {
    const moved: Spot = [star[0] + pixels / 960, star[1] - pixels / 960, 0.0026];
    const { open: left } = await proposed(survey([speck(moved), speck(dust)]), passed);
    expect(left?.film).toEqual([dust]);
  });

  it("hides nothing that lies beside it, in another scan, or on the sensor", async () => {
    const beside: Spot = [star[0] + 0.004, star[1], 0.002];
    const { open: left } = await proposed(survey([speck(beside)], [speck(star)]), passed);
    expect(left).toEqual({ film: [beside], light: [star] });
    const elsewhere = withDismissed(NONE_DISMISSED, { scan: "/w/scans/H0003.dng" }, star);
    expect((await proposed(survey([speck(star)]), elsewhere)).open?.film).toEqual([star]);
  });

  it("is a part of a hair, where a hair's other spots stay", async () => {
    const next: Spot = [star[0] + 0.003, star[1], 0.002];
    expect((await proposed(survey([speck(star, next)]), passed)).open?.film).toEqual([next]);
  });

  it("is healed by no quick fix, and a frame with nothing else has been seen to", async () => {
    const { reading } = await open(roll, files);
    const both = partProposals(survey([speck(star), speck(dust)]), passed).open;
    const [placed] = placeFindings(reading, both);
    const [fix] = findingFixes(reading, both, placed!, english);
    expect(fix?.title).toBe("Heal the dust on frame 02: 1 spot");
    expect(JSON.stringify(fix?.edits)).not.toContain(String(star[0]));
    expect(placeFindings(reading, partProposals(survey([speck(star)]), passed).open)).toEqual([]);
  });

  it("comes back as it was when it is restored, even if it has moved since", () => {
    expect(withoutDismissed(passed, SCAN, [star[0] + 0.0008, star[1], 0.0026])).toEqual(NONE_DISMISSED);
    const both = withDismissed(withDismissed(passed, "light", star), SCAN, dust);
    expect(withoutDismissed(both, SCAN, dust)).toEqual(withDismissed(passed, "light", star));
    expect(withoutDismissed(both, "light", star)).toEqual(withDismissed(passed, SCAN, dust));
  });

  it("is kept once, and on the sensor it holds for every frame", async () => {
    expect(withDismissed(passed, SCAN, star)).toBe(passed);
    const light = withDismissed(NONE_DISMISSED, "light", star);
    expect(await proposed(survey([speck(star)], [speck(star)]), light)).toEqual({
      open: { film: [star], light: [] },
      passed: { film: [], light: [star] },
    });
  });

  it("may be of a scan with any name", () => {
    const odd = withDismissed(NONE_DISMISSED, { scan: "__proto__" }, star);
    expect(Object.keys(odd.film)).toEqual(["__proto__"]);
    expect(withoutDismissed(odd, { scan: "__proto__" }, star)).toEqual(NONE_DISMISSED);
    expect(withDismissed(NONE_DISMISSED, { scan: "toString" }, star).film["toString"]).toEqual([star]);
  });
});
