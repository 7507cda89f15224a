import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import { lightnessOf } from "../../../../extension/engine/colour/lab.ts";
import { MID_GREY_LOG_H } from "../../../../extension/engine/film/characteristic-curve.ts";
import { transmittanceOf } from "../../../../extension/engine/colour/density.ts";
import { evaluator } from "../../../../extension/engine/film/reference-pixel.ts";
import { compilePlan } from "../../../../extension/engine/plan/compile.ts";
import { codeTable } from "../../../../extension/engine/plan/log-code.ts";
import { runCodes8, runPlainly, runPlan, runPlan8 } from "../../../../extension/engine/plan/run.ts";
import { runCodesOnVectors } from "../../../../extension/engine/plan/simd/codes-runner.ts";
import { runOnVectors } from "../../../../extension/engine/plan/simd/plan-runner.ts";
import type { FrameLook, OutputSpace, Rgb } from "../../../../extension/engine/types.ts";
import { between, looks, plainLook, plainTone, unitRows } from "../looks.ts";

const spaces = fc.constantFrom<OutputSpace>("srgb", "p3", "adobe", "romm");
const pixels = fc.array(fc.tuple(between(0, 3.5), between(0, 3.5), between(0, 3.5)), { minLength: 1, maxLength: 40 });

/** Transmittances of densities. */
const scanOf = (densities: readonly Rgb[]): Float32Array => Float32Array.from(densities.flat(), transmittanceOf);

/** The scan of a film that holds log exposures (0: mid-grey) for the plain look's straight lines, crosstalk left out. */
const neutral: FrameLook = {
  ...plainLook,
  unmix: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
};
const densitiesOf = (h: Rgb): Rgb => [
  neutral.base[0] + neutral.gamma[0] * (h[0] + MID_GREY_LOG_H),
  neutral.base[1] + neutral.gamma[1] * (h[1] + MID_GREY_LOG_H),
  neutral.base[2] + neutral.gamma[2] * (h[2] + MID_GREY_LOG_H),
];

const executors = { vectors: runPlan, plain: runPlainly };

function run(look: FrameLook, space: OutputSpace, scan: Float32Array, execute = runPlan): number[] {
  const plan = compilePlan(look, space);
  const out = new Uint16Array((scan.length / 3) * plan.channels);
  execute(plan, scan, out, scan.length / 3);
  return [...out];
}

describe("the executors", () => {
  it("include vectors here, so that both are tested", () => {
    const plan = compilePlan(plainLook, "srgb");
    expect(runOnVectors(plan, new Float32Array(3).fill(0.2), new Uint16Array(3), 1, 0, 0)).toBe(true);
  });

  it.each(Object.entries(executors))(
    "%s: are the readable definition, within 1/4000 of full scale, for any look and space",
    (_, execute) => {
      fc.assert(
        fc.property(looks, spaces, pixels, (look, space, densities) => {
          const scan = scanOf(densities);
          const out = run(look, space, scan, execute);
          const read = evaluator(look, space);
          densities.forEach((_density, i) => {
            const { encoded } = read([scan[3 * i], scan[3 * i + 1], scan[3 * i + 2]]);
            const channels = out.length / densities.length;
            for (let c = 0; c < channels; c++)
              expect(Math.abs(out[channels * i + c] / 65535 - encoded[c])).toBeLessThan(1 / 4000);
          });
        }),
        { numRuns: 80 },
      );
    },
  );

  it("take log codes as they take the transmittances that these stand for, within 1/255 and seldom that", () => {
    const n = 5003;
    const codes = Uint16Array.from({ length: 3 * n }, (_, i) =>
      i < 6 ? 65535 * (i % 2) : i < 3000 ? (i * 7919) % 65536 : 28000 + ((i * 7919) % 15000),
    );
    const t = Float32Array.from(codes, (code) => codeTable()[code]);
    const colour = compilePlan(plainLook, "srgb");
    expect(runCodesOnVectors(colour, codes, new Uint8ClampedArray(4), 1, 0, 0)).toBe(true);
    fc.assert(
      fc.property(looks, spaces, (look, space) => {
        const plan = compilePlan(look, space);
        const [one, two] = [new Uint8ClampedArray(4 * n), new Uint8ClampedArray(4 * n)];
        runPlan8(plan, t, one, n);
        runCodes8(plan, codes, two, n - 10);
        runCodes8(plan, codes, two, 10, n - 10, n - 10);
        const apart = one.map((v, i) => Math.abs(v - two[i]));
        expect(Math.max(...apart)).toBeLessThanOrEqual(1);
        expect(apart.filter((v) => v > 0).length / apart.length).toBeLessThan(0.01);
      }),
      { numRuns: 60 },
    );
    expect(() => runCodes8(colour, codes, new Uint8ClampedArray(4), 2)).toThrow(/memory for 1 pixels/);
  });

  it("keep to each plan's own print tables where tinted plans take turns with others", () => {
    const scan = scanOf(Array.from({ length: 300 }, (_, i): Rgb => [i / 100, i / 90, (300 - i) / 80]));
    const paper = {
      shadows: { hue: 0, strength: 0 },
      highlights: { hue: 0, strength: 0 },
      paper: { hue: 80, strength: 9 },
    };
    const plans = [0, 1, 2, 3, 4, 5, 6].map((k) =>
      compilePlan({ ...plainLook, exposure: k / 3, ...(k % 2 ? { toning: paper } : {}) }, "srgb"),
    );
    for (const k of [0, 1, 2, 3, 4, 5, 6, 1, 0, 5, 5, 2]) {
      const [one, two] = [new Uint16Array(900), new Uint16Array(900)];
      runPlan(plans[k], scan, one, 300);
      runPlainly(plans[k], scan, two, 300);
      expect(Math.max(...one.map((v, i) => Math.abs(v - two[i])))).toBeLessThanOrEqual(2);
    }
  });

  it("agree to a code or two of 65535, in whatever order plans take turns", () => {
    const scan = scanOf(Array.from({ length: 1500 }, (_, i): Rgb => [i / 500, i / 450, (1500 - i) / 400]));
    const plans = [0, 1, 2, 3, 4, 5].map((exposure) => compilePlan({ ...plainLook, exposure: exposure - 2 }, "romm"));
    for (const k of [0, 1, 2, 3, 4, 5, 0, 0, 3, 1]) {
      const [one, two] = [new Uint16Array(4500), new Uint16Array(4500)];
      runPlan(plans[k], scan, one, 1500);
      runPlainly(plans[k], scan, two, 1500);
      expect(Math.max(...one.map((v, i) => Math.abs(v - two[i])))).toBeLessThanOrEqual(2);
    }
  });
});

describe("a plan run over pixels", () => {
  it("gives mid-grey L* 49.5 where the film holds mid-grey, in every space", () => {
    for (const space of ["srgb", "p3", "adobe", "romm"] as const) {
      const reading = evaluator(neutral, space)([...densitiesOf([0, 0, 0])].map(transmittanceOf) as unknown as Rgb);
      expect(reading.lab[0]).toBeCloseTo(lightnessOf(0.18), 6);
      expect(Math.hypot(reading.lab[1], reading.lab[2])).toBeLessThan(1e-6);
    }
  });

  it("lifts mid-grey by as many stops as the exposure says", () => {
    const scan = densitiesOf([-0.30103, -0.30103, -0.30103]).map(transmittanceOf) as unknown as Rgb;
    expect(evaluator({ ...neutral, exposure: 1 }, "srgb")(scan).linear[1]).toBeCloseTo(0.18, 5);
  });

  it("takes a cast out with filters of the cast's own colour, or with fewer of the opposite", () => {
    // A negative 0.10 D too dense to blue prints too blue.
    const cast = densitiesOf([0, 0, 0]).map((d, c) => transmittanceOf(c === 2 ? d + 0.1 : d)) as unknown as Rgb;
    const chroma = (cyan: number, magenta: number, yellow: number): number => {
      const { lab } = evaluator({ ...neutral, filtration: { cyan, magenta, yellow } }, "srgb")(cast);
      return Math.hypot(lab[1], lab[2]);
    };
    expect(evaluator(neutral, "srgb")(cast).lab[2]).toBeLessThan(-5);
    expect(chroma(0, 0, -10)).toBeLessThan(1e-6);
    // Blue is cyan and magenta. The three layers' gammas differ a little, so a trace is left.
    expect(chroma(10, 10, 0)).toBeLessThan(0.25 * chroma(0, 0, 0));
    expect(chroma(0, 0, 10)).toBeGreaterThan(1.5 * chroma(0, 0, 0));
  });

  it("keeps greys grey through any colour matrix with unit rows, any saturation, any space", () => {
    fc.assert(
      fc.property(unitRows(0.5), between(0, 2), spaces, between(-1.5, 1), (colour, saturation, space, h) => {
        const scan = scanOf([densitiesOf([h, h, h])]);
        const [r, g, b] = run({ ...neutral, colour, saturation }, space, scan);
        expect(Math.max(Math.abs(r - g), Math.abs(b - g))).toBeLessThanOrEqual(8);
      }),
    );
  });

  it("is brighter where the negative is denser, whatever the look", () => {
    fc.assert(
      fc.property(looks, spaces, between(0, 3), between(0.02, 0.4), (look, space, d, more) => {
        // A toned print is as light as one that is not, but a channel of it need not rise.
        const { toning: _, ...untoned } = look;
        const plain: FrameLook = { ...untoned, unmix: neutral.unmix, colour: neutral.unmix, saturation: 1 };
        // Only neutral film exposures stay in order in a space with other primaries, hence sRGB for colour.
        const target = look.film === "black-and-white-negative" ? space : "srgb";
        const [one, two] = [d, d + more].map((v) => run(plain, target, scanOf([[v, v, v]])));
        const sign = look.film === "slide" ? -1 : 1;
        one.forEach((v, c) => {
          expect(sign * (two[c] - v)).toBeGreaterThanOrEqual(-1);
        });
      }),
    );
  });

  it.each(Object.entries(executors))("%s: holds what is out of range", (_, execute) => {
    const scan = Float32Array.of(0, 0, 0, -0.1, -1, -1e30, 1e-30, 1e-40, 1e-9, 1, 1.2, 4, 1e9, 1e30, 300);
    const out = run(neutral, "srgb", scan, execute);
    // No light at all through the film means a very bright subject: white.
    for (let i = 3; i < 9; i++) expect(out[i]).toBe(out[i % 3]);
    for (const v of out.slice(0, 9)) expect(v).toBeGreaterThan(65000);
    // Clearer than the base means no exposure: black.
    for (const v of out.slice(9)) expect(v).toBeLessThan(1500);
  });

  it.each(Object.entries(executors))("%s: counts NaN and infinities as clear film where they reach", (_, execute) => {
    const scan = Float32Array.of(NaN, 0.1, 0.1, 0.1, Infinity, 0.1, 0.1, 0.1, -Infinity, 256, 256, 256);
    for (const film of ["colour-negative", "black-and-white-negative", "slide"] as const) {
      const out = run({ ...neutral, film }, "srgb", scan, execute);
      const channels = out.length / 4;
      const clear = out.slice(3 * channels);
      for (let i = 0; i < 3; i++) expect(out.slice(i * channels, (i + 1) * channels)).toEqual(clear);
    }
  });

  it("gives the same whether run whole or in parts", () => {
    const scan = scanOf(Array.from({ length: 50 }, (_, i): Rgb => [i / 20, i / 18, i / 16]));
    const plan = compilePlan(plainLook, "srgb");
    const [whole, parts] = [new Uint16Array(150), new Uint16Array(150)];
    runPlan(plan, scan, whole, 50);
    for (let at = 0; at < 50; at += 7) runPlan(plan, scan, parts, Math.min(7, 50 - at), at, at);
    expect(parts).toEqual(whole);
  });

  it("survives being cloned on its way to a worker", () => {
    const plan = compilePlan(plainLook, "adobe");
    const scan = scanOf([
      [0.9, 1.4, 1.7],
      [1.2, 1.5, 2],
    ]);
    const [here, there] = [new Uint16Array(6), new Uint16Array(6)];
    runPlan(plan, scan, here, 2);
    runPlan(structuredClone(plan), scan, there, 2);
    expect(there).toEqual(here);
    expect(Math.max(...here)).toBeGreaterThan(Math.min(...here));
  });

  it("says so when an array is too short", () => {
    const plan = compilePlan(plainLook, "srgb");
    expect(() => runPlan(plan, new Float32Array(6), new Uint16Array(9), 3)).toThrow(/2 pixels of transmittance/);
    expect(() => runPlan(plan, new Float32Array(9), new Uint16Array(6), 3)).toThrow(/memory for 2 pixels/);
    expect(() => runPlan(plan, new Float32Array(9), new Uint16Array(9), 2, 2)).toThrow(RangeError);
  });
});

describe("previews in 8 bits", () => {
  it("are the 16-bit picture rounded, opaque, for one and three channels", () => {
    for (const film of ["colour-negative", "black-and-white-negative"] as const) {
      const plan = compilePlan({ ...plainLook, film }, "srgb");
      const scan = scanOf(Array.from({ length: 60 }, (_, i): Rgb => [0.3 + i / 40, 0.6 + i / 38, 0.8 + i / 35]));
      const exact = new Uint16Array(60 * plan.channels);
      const small = new Uint8ClampedArray(61 * 4);
      runPlan(plan, scan, exact, 60);
      runPlan8(plan, scan, small, 60, 0, 1);
      expect(small.slice(0, 4)).toEqual(new Uint8ClampedArray(4));
      for (let i = 0; i < 60; i++) {
        for (let c = 0; c < 3; c++) {
          const value = exact[i * plan.channels + (plan.channels === 3 ? c : 0)] / 257;
          expect(Math.abs(small[4 * (i + 1) + c] - value)).toBeLessThanOrEqual(0.51);
        }
        expect(small[4 * (i + 1) + 3]).toBe(255);
      }
    }
  });
});

describe("black-and-white film", () => {
  const look: FrameLook = { ...plainLook, film: "black-and-white-negative", gamma: [0.6, 0.6, 0.6] };
  it("is read from the weighted sum of the channels, base and all", () => {
    const weights: Rgb = [0.2, 0.5, 0.3];
    const plan = compilePlan(look, "srgb", weights);
    // T of the sum = T of the base's sum · 10^−D, with D where mid-grey lies.
    const part = transmittanceOf(0.6 * MID_GREY_LOG_H);
    const scan = Float32Array.from(look.base, (d) => transmittanceOf(d) * part);
    const out = new Uint16Array(1);
    runPlan(plan, scan, out, 1);
    expect(plan.channels).toBe(1);
    expect(out[0] / 65535).toBeCloseTo(0.4613561, 4);
    const reading = evaluator(look, "srgb", weights)([scan[0], scan[1], scan[2]]);
    expect(reading.density[0]).toBeCloseTo(0.6 * MID_GREY_LOG_H, 6);
    expect(reading.lab[0]).toBeCloseTo(lightnessOf(0.18), 4);
  });
  it("knows no colour: filtration, unmixing and saturation leave it alone", () => {
    const scan = scanOf([[0.9, 1.1, 1.3]]);
    const coloured = {
      ...look,
      filtration: { cyan: 20, magenta: 0, yellow: 5 },
      saturation: 2,
      colour: plainLook.unmix,
    };
    expect(run(coloured, "srgb", scan)).toEqual(run({ ...look, unmix: neutral.unmix }, "srgb", scan));
  });
});

describe("slide film", () => {
  const slide: FrameLook = { ...plainLook, film: "slide", tone: { ...plainTone, contrast: 1, shoulder: 0.1 } };
  it("shows its own light: transmittance 0.18 is mid-grey, base and unmixing do not count", () => {
    const { lab, exposure } = evaluator(slide, "srgb")([0.18, 0.18, 0.18]);
    expect(lab[0]).toBeCloseTo(lightnessOf(0.18), 6);
    exposure.forEach((h) => expect(h).toBeCloseTo(0.18, 9));
  });
  it("takes exposure in stops and filtration in CC", () => {
    const look = { ...slide, exposure: 1, filtration: { cyan: 30, magenta: 0, yellow: 0 } };
    const { exposure } = evaluator(look, "srgb")([0.1, 0.1, 0.1]);
    expect(exposure[0]).toBeCloseTo(0.2 * 10 ** -0.3, 9);
    expect(exposure[1]).toBeCloseTo(0.2, 9);
  });
});
