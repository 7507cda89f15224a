/**
 * What three-colour light is worth, on the witness: an invented camera and film, three invented LEDs that the unmix was not
 * fitted to, against the white panel and the unmix of a camera of which no more than its colour matrix is known.
 */
import { describe, expect, it } from "vitest";
import { narrowUnmix, unmixOf } from "../../../extension/engine/calibrate/camera-unmix/index.ts";
import { judgeUnmix, type TrainingPatch } from "../../../extension/engine/calibrate/spectra.ts";
import { deltaE2000 } from "../../../extension/engine/colour/difference.ts";
import { apply, IDENTITY } from "../../../extension/engine/math/matrix.ts";
import type { Matrix3, Rgb } from "../../../extension/engine/types.ts";
import { type Camera, CAMERA_A, CAMERA_B, PANEL } from "../../witness/camera/cameras.ts";
import { colourMatrixOf } from "../../witness/camera/colour-matrix.ts";
import { cameraDensity } from "../../witness/camera/negative.ts";
import { bareSignal, GOOD_SETUP, metered } from "../../witness/camera/setup.ts";
import { LIGHT_NAMES, meteredThree, THREE_LIGHTS } from "../../witness/camera/three-lights.ts";
import { baseDensity, developed, emulsionOf, spectralDensity } from "../../witness/film/emulsion.ts";
import { photographedDensity, trainingColours } from "../../witness/film/fit.ts";
import { positiveOf } from "../../witness/film/positive.ts";
import { NORTHLIGHT_400 } from "../../witness/film/stocks.ts";
import { labOfRgb } from "../../witness/spectra/colour.ts";
import { integral, type Spectrum } from "../../witness/spectra/spectrum.ts";
import { statusDensity } from "../../witness/spectra/status.ts";

const STOPS = [-1, 0, 1, 2] as const;
const surfaces = trainingColours();
const base = baseDensity(NORTHLIGHT_400);
const emulsion = emulsionOf(NORTHLIGHT_400);
const clear = NORTHLIGHT_400.layers.map(() => 0);
/** Channels 0 to 2 in turn, of the scan of that colour. */
const byColour = (of: (light: (typeof LIGHT_NAMES)[number]) => readonly number[]): Rgb => [
  of("red")[0]!,
  of("green")[1]!,
  of("blue")[2]!,
];

/** What a set-up sees of a surface on film, above base; its base and its bare light, fractions of saturation. */
interface SetUp {
  readonly seen: (reflectance: Spectrum, stops: number) => Rgb;
  readonly base: Rgb;
  readonly bare: Rgb;
  readonly unmix: Matrix3;
}

function white(camera: Camera): SetUp {
  return {
    seen: (reflectance, stops) => photographedDensity(NORTHLIGHT_400, camera, PANEL, reflectance, stops),
    base: cameraDensity(camera, PANEL, NORTHLIGHT_400, clear),
    bare: bareSignal(camera, PANEL, GOOD_SETUP, metered(camera, PANEL, GOOD_SETUP, "bare light")),
    unmix: unmixOf(camera.model, colourMatrixOf(camera)).matrix,
  };
}

function threeColours(camera: Camera): SetUp {
  const exposures = meteredThree(camera, GOOD_SETUP);
  return {
    seen: (reflectance, stops) =>
      byColour((name) => photographedDensity(NORTHLIGHT_400, camera, THREE_LIGHTS[name], reflectance, stops)),
    base: byColour((name) => cameraDensity(camera, THREE_LIGHTS[name], NORTHLIGHT_400, clear)),
    bare: byColour((name) => bareSignal(camera, THREE_LIGHTS[name], GOOD_SETUP, exposures[LIGHT_NAMES.indexOf(name)]!)),
    unmix: narrowUnmix,
  };
}

interface Figures {
  /** Root mean square of what dyes add to each other's channels before the unmix, and after it; density. */
  readonly before: number;
  readonly after: number;
  /** Greatest error of greys after the unmix, density. */
  readonly grey: number;
  /**
   * Mean ΔE00 between positives from the unmixed densities and from a densitometer's, each channel's contrast balanced on
   * greys, as a roll's own curve is.
   */
  readonly colours: number;
  /** Standard deviation of the unmixed density of a mid grey, greatest of the channels, by photons and reading noise. */
  readonly noise: number;
}

function figuresOf(camera: Camera, { seen, base: ownBase, bare, unmix }: SetUp): Figures {
  const patches = surfaces.flatMap(({ reflectance, weight }) =>
    STOPS.map((stops): TrainingPatch & { readonly stops: number } => {
      const amounts = developed(
        emulsion,
        emulsion.responses.map((r) => 2 ** stops * integral(r, reflectance)),
      );
      const d = statusDensity(NORTHLIGHT_400.status, spectralDensity(NORTHLIGHT_400, amounts));
      const status: Rgb = [d[0] - base[0], d[1] - base[1], d[2] - base[2]];
      return { status, camera: seen(reflectance, stops), grey: weight > 1, stops };
    }),
  );
  const look = { unmix: IDENTITY as never, colour: IDENTITY as never };
  const lab = (density: Rgb, stops: number) => labOfRgb(positiveOf(NORTHLIGHT_400, look, [...density], stops));
  const balanced = balancedOn(
    patches.filter(({ grey }) => grey),
    unmix,
  );
  const differences = patches.map(({ status, camera: d, stops }) =>
    deltaE2000(lab(apply(balanced, d), stops), lab(status, stops)),
  );
  const grey = seen(surfaces.find(({ weight }) => weight > 1)!.reflectance, 0);
  // Of a photosite: σ of D is σ of the signal over the signal, over ln 10.
  const variances = grey.map((d, c) => {
    const electrons = camera.fullWell * bare[c]! * 10 ** -(d + ownBase[c]!);
    return (electrons + camera.readNoise ** 2) / (electrons * Math.LN10) ** 2;
  });
  const after = judgeUnmix(balanced, patches);
  return {
    before: judgeUnmix(IDENTITY, patches).rms,
    after: after.rms,
    grey: after.grey,
    colours: differences.reduce((a, b) => a + b, 0) / differences.length,
    noise: Math.max(...unmix.map((row) => Math.sqrt(row.reduce((sum, v, c) => sum + v * v * variances[c]!, 0)))),
  };
}

/** Rows of an unmix, each scaled so that greys have a densitometer's contrast. */
const balancedOn = (greys: readonly TrainingPatch[], unmix: Matrix3): Matrix3 =>
  unmix.map((row, c) => {
    const own = greys.map(({ camera }) => apply(unmix, camera)[c]!);
    const sum = (of: (u: number, i: number) => number): number => own.reduce((all, u, i) => all + of(u, i), 0);
    const by = sum((u, i) => u * greys[i]!.status[c]!) / sum((u) => u * u);
    return row.map((v) => v * by);
  }) as unknown as Matrix3;

describe.each([CAMERA_A, CAMERA_B])("three-colour light against white light: $model", (camera) => {
  const [panel, three] = [figuresOf(camera, white(camera)), figuresOf(camera, threeColours(camera))];
  if (process.env["FIGURES"])
    for (const [name, figures] of Object.entries({ white: panel, "three-colour": three }))
      console.log(
        `${camera.model}, ${name}: ${JSON.stringify(figures, (_, v) => (typeof v === "number" ? Number(v.toFixed(4)) : v))}`,
      );

  it("has half the crosstalk before the unmix", () => {
    expect(three.before / panel.before).toBeLessThan(0.5);
  });

  it("has half the error after it, without any chart", () => {
    expect(three.after / panel.after).toBeLessThan(0.5);
    expect(three.colours / panel.colours).toBeLessThan(0.5);
  });

  it("has three fifths of the noise after it", () => {
    expect(three.noise / panel.noise).toBeLessThan(0.6);
  });
});
