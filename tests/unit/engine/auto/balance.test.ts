import { describe, expect, it } from "vitest";
import { balanceRoll, type FrameTones, sampleOf, tonesOf } from "../../../../extension/engine/auto/balance.ts";
import { compareBase } from "../../../../extension/engine/auto/roll/base-difference.ts";
import { baseDifferenceText } from "../../../../extension/work/new-roll/light/base-difference-text.ts";
import { evaluator } from "../../../../extension/engine/film/reference-pixel.ts";
import { flareOf, withoutFlare } from "../../../../extension/engine/detect/flare.ts";
import { downsample } from "../../../../extension/engine/detect/downsampled-scan.ts";
import type { FrameLook, Rgb } from "../../../../extension/engine/types.ts";
import { CAMERA_A, PANEL } from "../../../witness/camera/cameras.ts";
import { NORTHLIGHT_400 } from "../../../witness/film/stocks.ts";
import { subject, type SubjectName } from "../../../witness/scenes/subjects.ts";
import { shoot, STAND } from "../detect/scans.ts";
import { CARD, lookOf, sheetOf } from "../../work/new-roll/rolls.ts";

const LOOK = lookOf(sheetOf(NORTHLIGHT_400, CAMERA_A, PANEL));
const small = { ...STAND, size: { width: 480, height: 320 } };

interface Frame {
  readonly tones: FrameTones;
  /** Transmittance of the grey card, from the model. */
  readonly card: Rgb;
}

function frame(of: SubjectName, stops: number, seed = 3): Frame {
  const s = shoot(subject(of, 360, 240, seed, CARD), { stand: small, film: { exposure: stops }, seed });
  const raw = downsample(s.scan, s.light);
  const flare = flareOf(raw);
  const tones = tonesOf(sampleOf(flare ? withoutFlare(raw, flare) : raw, s.truth.area!), LOOK);
  const [x, y] = s.truth.placeOf(CARD.left + CARD.width / 2, CARD.top + CARD.height / 2);
  return { tones, card: s.truth.transmittanceAt(x, y) };
}

/** Chroma and stops off of each frame's card after the roll's balance. */
function outcome(frames: readonly Frame[], cast: FrameLook["filtration"] = LOOK.filtration) {
  const look = { ...LOOK, filtration: cast };
  const balance = balanceRoll(
    frames.map((f) => f.tones),
    LOOK,
  );
  const { cyan, magenta, yellow } = balance.filtration;
  const filtration = { cyan: cast.cyan + cyan, magenta: cast.magenta + magenta, yellow: cast.yellow + yellow };
  const cards = frames.map(({ card }, i) => {
    const { lab, exposure } = evaluator({ ...look, filtration, exposure: balance.exposure[i] }, "srgb")(card);
    const y = 0.2126 * exposure[0] + 0.7152 * exposure[1] + 0.0722 * exposure[2];
    return { chroma: Math.hypot(lab[1], lab[2]), stops: Math.log2(y / 0.18) };
  });
  return { balance, cards };
}

describe("balancing a roll", () => {
  it("brings an ordinary roll to neutral within ΔC*ab 4 and to its brightness within 0.3 EV", () => {
    const frames = [frame("portrait", 0), frame("street", 0.5, 4), frame("table", 0.3, 5), frame("meadow", 0.2, 6)];
    for (const { chroma, stops } of outcome(frames).cards) {
      expect(chroma).toBeLessThan(4);
      expect(Math.abs(stops)).toBeLessThan(0.3);
    }
  });

  it("takes part of it back where one dark portrait was given 0.7 stops more than its neighbours", () => {
    const frames = [frame("portrait", 0), frame("street", 0.5, 4), frame("table", 0.3, 5), frame("portrait", 0.7, 6)];
    const { cards } = outcome(frames);
    for (const { stops } of cards.slice(0, 3)) expect(Math.abs(stops)).toBeLessThan(0.3);
    // Its tones are those of a street that was given just enough: no more than this can be known.
    expect(cards[3].stops).toBeLessThan(0.65);
  });

  it.each(["forest", "snow", "night"] as const)("leaves a roll of nothing but %s what it is", (of) => {
    const { balance, cards } = outcome([frame(of, 0), frame(of, 0.4, 4), frame(of, -0.2, 5)]);
    // Its pictures ask for more than this; it must neither be filtered grey nor lit like a day.
    for (const { chroma } of cards) expect(chroma).toBeLessThan(4);
    const stops = cards.map((c) => c.stops);
    // As metered, and all in all; what a frame alone was given too much or too little shows in part.
    expect(Math.abs(stops[0])).toBeLessThan(0.3);
    for (const each of stops) expect(Math.abs(each)).toBeLessThan(0.35);
    expect(Math.abs(stops.reduce((a, b) => a + b) / 3)).toBeLessThan(0.3);
    expect(Math.max(...Object.values(balance.filtration).map(Math.abs))).toBeLessThan(1.5);
    expect(balance.followed).toBeLessThan(0.15);
  });

  it("follows what varied subjects agree on further than what one subject shows", () => {
    const grey = (r: number, b: number, scatter: number): FrameTones => {
      const film = new Float32Array(2400 * 3);
      for (let i = 0; i < film.length; i += 3) {
        const wave = scatter * Math.sin(i);
        film.set([r + wave, 0, b - wave], i);
      }
      return { film, luminance: new Float32Array(2400) };
    };
    const alike = balanceRoll([grey(0.05, 0, 0), grey(0.05, 0, 0), grey(0.05, 0, 0)], LOOK);
    const varied = balanceRoll(
      Array.from({ length: 12 }, (_, k) => {
        const t = grey(0.05, 0, 0.01);
        // Half of each picture is some colour, another in every frame.
        for (let i = 0; i < t.film.length / 2; i += 3) t.film.set([0.3 * Math.cos(k), 0, 0.3 * Math.sin(k)], i);
        return t;
      }),
      LOOK,
    );
    expect(alike.followed).toBeLessThan(0.2);
    expect(varied.followed).toBeGreaterThan(0.4);
    // Too much red in the positive: less density in the negative's red, so a negative cyan filter.
    expect(varied.filtration.cyan).toBeLessThan(0);
  });

  it("gives the same stops back that a frame was given too much", () => {
    const exposures = [0, 0.5, 1].map((stops) => balanceRoll([frame("street", stops).tones], LOOK).exposure[0]);
    // Half of it and more: alone, a street under a light sky may be just that.
    expect(exposures[0] - exposures[1]).toBeGreaterThan(0.2);
    expect(exposures[0] - exposures[2]).toBeGreaterThan(0.5);
  });

  it("leaves slides alone", () => {
    const slide = balanceRoll([frame("street", 0).tones], { ...LOOK, film: "slide" });
    expect(slide.exposure).toEqual([0]);
    expect(slide.filtration).toEqual({ cyan: 0, magenta: 0, yellow: 0 });
  });
});

describe("a base against its stock's", () => {
  it.each([
    [[0.31, 0.6, 0.77], "same"],
    [[0.37, 0.66, 0.82], "denser"],
    [[0.24, 0.54, 0.69], "thinner"],
    [[0.33, 0.66, 0.86], "fogged"],
    [[0.38, 0.6, 0.74], "other colour"],
    [[0.31, 0.31, 0.31], "other colour"],
  ] as const)("%j is told as %s", (read, kind) => {
    const difference = compareBase([0.31, 0.6, 0.76], read);
    const { kind: found, density } = difference;
    expect(found).toBe(kind);
    expect(density[0]).toBeCloseTo(read[0] - 0.31, 9);
    expect(baseDifferenceText(difference)).toMatch(/^Against the stock's base.* D\. [A-Z].*\.$/);
  });
});
