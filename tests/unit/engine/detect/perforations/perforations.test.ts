/**
 * The scale by perforations, on the witness's 135 film: pitch 4.750 mm, holes of 1.981 × 2.794 mm (ISO 1007, from memory).
 * Tune: the first two of the scans below. Held out: the others, by other seeds, sizes and tilts.
 */
import { existsSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { findPerforations, PITCH_MM } from "../../../../../extension/engine/detect/perforations/perforations.ts";
import { filmPlane } from "../../../../../extension/engine/flat-field/film-plane.ts";
import { decodeScan } from "../../../../../extension/scans/decode.ts";
import { FORMAT_135, FORMAT_135_PLAIN } from "../../../../witness/film/format.ts";
import { GOOD_SETUP } from "../../../../witness/camera/setup.ts";
import { COALFISH_125, NORTHLIGHT_400, type Stock } from "../../../../witness/film/stocks.ts";
import { shoot, STAND } from "../scans.ts";
import { SUBJECTS, type SubjectName } from "../../survey/subjects/subjects.ts";

interface Sample {
  readonly subject: SubjectName;
  readonly stock?: Stock;
  readonly size: readonly [width: number, height: number];
  /** Width of the picture in parts of the scan. */
  readonly wide: number;
  readonly tilt: number;
  readonly seed: number;
  readonly plain?: boolean;
  readonly withBlank?: boolean;
}

function measured({ subject, stock = NORTHLIGHT_400, size, wide, tilt, seed, plain, withBlank = true }: Sample) {
  const [width, height] = size;
  const stand = { ...STAND, setup: { ...GOOD_SETUP, opening: undefined }, size: { width, height } };
  const { scan, light, truth } = shoot(SUBJECTS[subject](900, 600), {
    stand,
    stock,
    seed,
    film: { format: plain ? FORMAT_135_PLAIN : FORMAT_135, margin: [4, 5.4] },
    placement: { width: wide, tilt },
  });
  const found = findPerforations(filmPlane(scan, withBlank ? light : { ratio: 1 }));
  return { found, truth: truth.pixelsPerMm! * PITCH_MM };
}

const SAMPLES: readonly (readonly [name: string, sample: Sample])[] = [
  ["tune: straight, 1200 px", { subject: "portrait", size: [1200, 960], wide: 0.85, tilt: 0, seed: 31 }],
  ["tune: tilted by 0.7°, 1800 px", { subject: "quay", size: [1800, 1440], wide: 0.85, tilt: 0.7, seed: 32 }],
  ["held out: tilted by −1.3°", { subject: "meadow", size: [1400, 1140], wide: 0.83, tilt: -1.3, seed: 41 }],
  ["held out: near, holes cut by the scan", { subject: "faces", size: [1500, 1120], wide: 0.93, tilt: 0.4, seed: 42 }],
  ["held out: no blank", { subject: "night", size: [1300, 1040], wide: 0.85, tilt: 0.3, seed: 43, withBlank: false }],
  [
    "held out: silver film",
    { subject: "bracken", stock: COALFISH_125, size: [1300, 1040], wide: 0.85, tilt: -0.5, seed: 44 },
  ],
];

describe("the pitch of perforations", () => {
  it.each(SAMPLES)("%s", (_, sample) => {
    const { found, truth } = measured(sample);
    expect(found).toBeDefined();
    expect(Math.abs(found!.pitch / truth - 1)).toBeLessThan(0.002);
    // The certainty that is given holds.
    expect(Math.abs(found!.pitch - truth)).toBeLessThan(3 * found!.deviation);
    expect(found!.deviation / truth).toBeLessThan(0.004);
  });

  it.each(["rigging", "netting", "fair", "lace", "snowfall"] as const)("is not read off the subject %s", (subject) => {
    const sample = { subject, size: [1200, 960], wide: 0.85, tilt: 0, seed: 51, plain: true } as const;
    expect(measured(sample).found).toBeUndefined();
  });
});

const REAL = new URL("../../../../../shared/real/film/", import.meta.url);

describe.skipIf(!existsSync(REAL))("camera scans of real film", () => {
  it("shows eight holes at 2,855 ppi, measured by hand to 0.3 %", async () => {
    const file = new URL("colour_negative_35mm_a7r4.jpg", REAL).pathname;
    const { scan } = await decodeScan(file, { half: true });
    const found = findPerforations(filmPlane(scan, { ratio: 1 }))!;
    const ppi = (2 * 25.4 * found.pitch) / PITCH_MM;
    expect(found.holes).toBe(8);
    expect(Math.abs(ppi / 2855 - 1)).toBeLessThan(0.003);
  }, 60_000);

  it("finds none on a slide that shows none", async () => {
    const { scan } = await decodeScan(new URL("colour_slide_35mm_a7r4.jpg", REAL).pathname, { half: true });
    expect(findPerforations(filmPlane(scan, { ratio: 1 }))).toBeUndefined();
  }, 60_000);
});
