import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import { makeLightField } from "../../../../extension/engine/flat-field/light-field.ts";
import { compilePlan } from "../../../../extension/engine/plan/compile.ts";
import { rowMaker } from "../../../../extension/engine/plan/row-maker.ts";
import { runPlainly } from "../../../../extension/engine/plan/run.ts";
import { type LightSetup, readTransmittance } from "../../../../extension/engine/flat-field/transmittance.ts";
import type { FrameLook, LinearScan, OutputSpace } from "../../../../extension/engine/types.ts";
import { random, scanOf, unevenLight } from "../simulated.ts";

const LOOK: FrameLook = {
  film: "colour-negative",
  base: [0.3, 0.6, 0.75],
  gamma: [0.55, 0.58, 0.62],
  unmix: [
    [1.2, -0.15, -0.05],
    [-0.1, 1.25, -0.15],
    [0, -0.2, 1.2],
  ],
  colour: [
    [1.3, -0.35, 0.05],
    [-0.05, 1.2, -0.15],
    [-0.1, 0, 1.1],
  ],
  exposure: 0.3,
  filtration: { cyan: 0, magenta: 4, yellow: 7 },
  tone: { contrast: 1.4, toe: 0.3, shoulder: 0.4, black: 0.5, points: [] },
  saturation: 1.1,
};

/** Rows by the readable way: T, then the plan in its plain loop. */
function plainly(scan: LinearScan, light: LightSetup, look: FrameLook, space: OutputSpace, y: number): Uint16Array {
  const plan = compilePlan(look, space);
  const t = new Float32Array(scan.width * 3);
  readTransmittance(scan, light).row(y, t);
  const out = new Uint16Array(scan.width * plan.channels);
  runPlainly(plan, t, out, scan.width);
  return out;
}

describe("rows of a frame", () => {
  const field = makeLightField(scanOf(240, 160, unevenLight, { photons: 30_000 }));
  const { uniform } = random(12);
  // Everything from black to beyond the light, so that every table is met at both its ends.
  const scan = scanOf(123, 50, (x, y, c) => unevenLight(x, y, c) * 10 ** (0.1 - 4 * uniform()), { photons: 2000 });
  for (let i = 0; i < 300; i++) scan.data[i] = [0, 599, 600, 601, 65_535][i % 5];

  it("agree with transmittance and plan run one after the other on tinted paper, and on toned silver", () => {
    const none = { hue: 0, strength: 0 };
    const paper = { shadows: none, highlights: none, paper: { hue: 80, strength: 9 } };
    const toned = { ...paper, shadows: { hue: 40, strength: 20 }, highlights: { hue: 90, strength: 10 } };
    const light: LightSetup = { field, ratio: 1 };
    for (const look of [
      { ...LOOK, toning: paper },
      LOOK,
      { ...LOOK, film: "black-and-white-negative", toning: toned },
    ] satisfies FrameLook[]) {
      const spaces: OutputSpace[] = ["romm", "srgb"];
      const rows = rowMaker(
        scan,
        light,
        spaces.map((space) => compilePlan(look, space)),
      );
      for (const y of [0, 31, 49]) {
        const made = rows.row(y, 0, scan.width);
        spaces.forEach((space, k) => {
          const expected = plainly(scan, light, look, space, y);
          expect(made[k]!.length).toBe(expected.length);
          expect(Math.max(...expected.map((v, i) => Math.abs(v - made[k]![i]!)))).toBeLessThanOrEqual(2);
        });
      }
    }
  });

  it("agree with transmittance and plan run one after the other, for several outputs at once", () => {
    for (const light of [
      { field, flare: [0.004, 0.005, 0.006], ratio: 0.7 },
      { field, ratio: 1 },
      { ratio: 1 },
    ] satisfies LightSetup[]) {
      const spaces: OutputSpace[] = ["romm", "srgb", "p3"];
      const rows = rowMaker(
        scan,
        light,
        spaces.map((space) => compilePlan(LOOK, space)),
      );
      for (const y of [0, 1, 31, 32, 49]) {
        const made = rows.row(y, 0, 123);
        spaces.forEach((space, k) => {
          const expected = plainly(scan, light, LOOK, space, y);
          let worst = 0;
          for (let i = 0; i < expected.length; i++) worst = Math.max(worst, Math.abs(expected[i] - made[k][i]));
          expect(worst).toBeLessThanOrEqual(2);
        });
      }
    }
  });

  it("are the same whichever columns are asked for, and whatever else is drawn along", () => {
    const light = { field, flare: [0.004, 0.005, 0.006], ratio: 0.7 } as const;
    const alone = rowMaker(scan, light, [compilePlan(LOOK, "srgb")]);
    const whole = alone.row(20, 0, 123)[0].slice();
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 121 }), fc.integer({ min: 1, max: 40 }), (from, count) => {
        const to = Math.min(123, from + count);
        const rows = rowMaker(scan, light, [compilePlan(LOOK, "adobe"), compilePlan(LOOK, "srgb")]);
        const part = rows.row(20, from, to)[1].slice(0, (to - from) * 3);
        expect(Buffer.from(part.buffer).equals(Buffer.from(whole.slice(from * 3, to * 3).buffer))).toBe(true);
      }),
      { numRuns: 25 },
    );
  });

  it("come in one channel for black-and-white film, and from monochrome scans", () => {
    const look: FrameLook = { ...LOOK, film: "black-and-white-negative" };
    const light: LightSetup = { field, ratio: 1 };
    const made = rowMaker(scan, light, [compilePlan(look, "srgb")]).row(7, 0, 123)[0];
    expect(made.slice(0, 123)).toEqual(plainly(scan, light, look, "srgb", 7));

    const grey = scanOf(60, 20, (x, y) => 0.6 * 10 ** (-1 - x * y), { channels: 1 });
    const bare = { field: makeLightField(scanOf(60, 20, () => 0.6, { channels: 1 })), ratio: 1 };
    const row = rowMaker(grey, bare, [compilePlan(look, "srgb")]).row(9, 0, 60)[0];
    expect(row.slice(0, 60)).toEqual(plainly(grey, bare, look, "srgb", 9));
  });
});
