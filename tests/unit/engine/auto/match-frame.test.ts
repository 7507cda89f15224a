/** Matching frames, judged by the witness: a grey card in each picture, whose transmittance the model knows. */
import { describe, expect, it } from "vitest";
import { type PictureSample, sampleOf } from "../../../../extension/engine/auto/balance.ts";
import { type FrameMatch, matchFrame } from "../../../../extension/engine/auto/match-frame.ts";
import { downsample } from "../../../../extension/engine/detect/downsampled-scan.ts";
import { flareOf, withoutFlare } from "../../../../extension/engine/detect/flare.ts";
import { evaluator } from "../../../../extension/engine/film/reference-pixel.ts";
import type { FrameLook, Rgb } from "../../../../extension/engine/types.ts";
import { CAMERA_A, PANEL } from "../../../witness/camera/cameras.ts";
import { NORTHLIGHT_400 } from "../../../witness/film/stocks.ts";
import { subject, type SubjectName } from "../../../witness/scenes/subjects.ts";
import { CARD, lookOf, sheetOf } from "../../work/new-roll/rolls.ts";
import { shoot, STAND } from "../detect/scans.ts";

const LOOK: FrameLook = {
  ...lookOf(sheetOf(NORTHLIGHT_400, CAMERA_A, PANEL)),
  exposure: 0.3,
  filtration: { cyan: 0, magenta: 3, yellow: -2 },
};
const small = { ...STAND, size: { width: 480, height: 320 } };

interface Picture {
  readonly sample: PictureSample;
  /** Transmittance of the grey card, from the model. */
  readonly card: Rgb;
}

function picture(of: SubjectName, stops: number, seed: number): Picture {
  const s = shoot(subject(of, 360, 240, seed, CARD), { stand: small, film: { exposure: stops }, seed });
  const raw = downsample(s.scan, s.light);
  const flare = flareOf(raw);
  const [x, y] = s.truth.placeOf(CARD.left + CARD.width / 2, CARD.top + CARD.height / 2);
  return {
    sample: sampleOf(flare ? withoutFlare(raw, flare) : raw, s.truth.area!),
    card: s.truth.transmittanceAt(x, y),
  };
}

const cardOf = ({ card }: Picture, look: FrameLook) => evaluator(look, "srgb")(card).lab;
const withMatch = (look: FrameLook, { exposure, filtration }: FrameMatch): FrameLook => ({
  ...look,
  exposure,
  filtration,
});
/** ΔL* and ΔC*ab of the card in the matched frame from that in the reference. */
function cardDifference(reference: Picture, target: Picture, targetLook: FrameLook) {
  const match = matchFrame({ ...reference, look: LOOK }, { ...target, look: targetLook });
  const [a, b] = [cardOf(reference, LOOK), cardOf(target, withMatch(targetLook, match))];
  return { match, lightness: b[0] - a[0], colour: Math.hypot(b[1] - a[1], b[2] - a[2]) };
}
const off = (magenta: number, yellow: number): FrameLook => ({
  ...LOOK,
  exposure: -0.8,
  filtration: { cyan: 0, magenta: LOOK.filtration.magenta + magenta, yellow: LOOK.filtration.yellow + yellow },
});

describe("matching a frame to another", () => {
  const street = picture("street", 0, 3);

  it("leaves a frame alone that is matched to itself", () => {
    const match = matchFrame({ ...street, look: LOOK }, { ...street, look: LOOK });
    expect(match.exposure).toBeCloseTo(LOOK.exposure, 3);
    expect(match.filtration.magenta).toBeCloseTo(LOOK.filtration.magenta, 2);
    expect(match.filtration.yellow).toBeCloseTo(LOOK.filtration.yellow, 2);
  });

  it("brings the card of the same subject within ΔL* 2 and ΔC*ab 1.5, a stop more on the film and the filters far off", () => {
    const brighter = picture("street", 1, 4);
    for (const look of [off(0, 0), off(15, -10), off(-25, 20)]) {
      const { match, lightness, colour } = cardDifference(street, brighter, look);
      expect(match.filtered).toBe(true);
      expect(Math.abs(lightness)).toBeLessThan(2);
      expect(colour).toBeLessThan(1.5);
    }
  });

  it("brings the card of another subject within ΔC*ab 6", () => {
    const others = [
      ["portrait", 5],
      ["table", 6],
    ] as const;
    for (const [of, seed] of others) {
      const { colour } = cardDifference(street, picture(of, 0.5, seed), off(15, -10));
      expect(colour).toBeLessThan(6);
    }
  });

  it("is not misled by a strong colour over a third of the picture", () => {
    const brighter = picture("street", 1, 4);
    const sample = brighter.sample.slice();
    // A red wall: dense in green and blue light, over the upper third.
    for (let i = 0; i < sample.length / 3; i += 3) sample.set([0.35, 0.02, 0.012], i);
    const { match, colour } = cardDifference(street, { ...brighter, sample }, off(15, -10));
    expect(match.filtered).toBe(true);
    expect(colour).toBeLessThan(3);
  });

  it("matches black-and-white film by its exposure alone", () => {
    const grey: FrameLook = { ...LOOK, film: "black-and-white-negative" };
    const target = { ...street, look: { ...grey, exposure: -2 } };
    const match = matchFrame({ ...street, look: grey }, target);
    expect(match.exposure).toBeCloseTo(LOOK.exposure, 3);
    expect(match).toMatchObject({ filtered: false, filtration: LOOK.filtration });
  });
});
