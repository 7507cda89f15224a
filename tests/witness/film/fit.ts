/**
 * Fits the two matrices of a stock under a camera: unmix (camera densities above base to status densities above base)
 * and colour (layer exposures to linear sRGB, rows summing to 1). Trained on smooth invented reflectances at several
 * exposures; measured colour charts stay unseen and judge the result.
 */
import type { Camera, Light } from "../camera/cameras.ts";
import { labOfRgb, rgbOfReflectance, type Matrix, type Triple } from "../spectra/colour.ts";
import { amountsFor, baseDensity, developed, emulsionOf, publishedDensity, spectralDensity } from "./emulsion.ts";
import { leastSquares } from "../least-squares.ts";
import { cameraDensity } from "../camera/negative.ts";
import { positiveOf } from "./positive.ts";
import { integral, type Spectrum } from "../spectra/spectrum.ts";
import type { Stock } from "./stocks.ts";
import { spectrumOfRgb } from "../spectra/upsample.ts";

export interface ColourFit {
  readonly unmix: Matrix;
  readonly colour: Matrix;
  readonly residual: { mean: number; worst: number; grey: number };
}

/** One training colour: what the camera sees, at which exposure, and the colour that it should become. */
interface Sample {
  /** Camera densities above base. */
  readonly density: Triple;
  readonly stops: number;
  /** Linear Rec.709 at metered exposure. */
  readonly rgb: Triple;
  readonly weight: number;
}

export function fitColour(stock: Stock, camera: Camera, light: Light): ColourFit {
  if (stock.layers.length === 1) return { unmix: IDENTITY, colour: IDENTITY, residual: { mean: 0, worst: 0, grey: 0 } };
  const samples = stock.film === "slide" ? slideSamples(stock, camera, light) : negativeSamples(stock, camera, light);
  const build = (p: readonly number[]): { unmix: Matrix; colour: Matrix } => ({
    colour: rowsOfOne(p.slice(0, 6)),
    unmix: stock.film === "slide" ? IDENTITY : ([p.slice(6, 9), p.slice(9, 12), p.slice(12, 15)] as Matrix),
  });
  const errorsOf = (p: readonly number[]): number[] => {
    const m = build(p);
    return samples.flatMap((s) => labError(s, positiveOf(stock, m, s.density, s.stops)).map((e) => e * s.weight));
  };
  const unmixStart = stock.film === "slide" ? [] : [1.4, -0.3, 0, -0.2, 1.4, -0.2, 0, -0.3, 1.3];
  const best = leastSquares(errorsOf, [0, 0, 0, 0, 0, 0, ...unmixStart]);
  const m = build(best);
  const errors = samples.map((s) => Math.hypot(...labError(s, positiveOf(stock, m, s.density, s.stops))));
  return {
    ...m,
    residual: {
      mean: errors.reduce((a, b) => a + b, 0) / errors.length,
      worst: Math.max(...errors),
      grey: Math.max(...errors.filter((_, i) => samples[i].weight > 1)),
    },
  };
}

const IDENTITY: Matrix = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** Six free numbers: the off-diagonals; the diagonal makes each row sum to 1. */
function rowsOfOne([a, b, c, d, e, f]: readonly number[]): Matrix {
  return [
    [1 - a - b, a, b],
    [c, 1 - c - d, d],
    [e, f, 1 - e - f],
  ];
}

/** CIELAB difference; colours far from grey are weighed less, as CIE 94 does, with its 0.045 per unit of chroma. */
function labError(s: Sample, rgb: Triple): Triple {
  const want = labOfRgb(s.rgb);
  const got = labOfRgb(rgb);
  const loose = 1 + 0.045 * Math.hypot(want[1], want[2]);
  return [got[0] - want[0], (got[1] - want[1]) / loose, (got[2] - want[2]) / loose];
}

/** Colours all around the hue circle, pale to strong, dark to light; and greys, which matter most. */
export function trainingColours(): { reflectance: Spectrum; rgb: Triple; weight: number }[] {
  const colours: { rgb: Triple; weight: number }[] = [];
  for (let hue = 0; hue < 18; hue++)
    for (const purity of [0.25, 0.5, 0.75])
      for (const level of [0.08, 0.25, 0.6]) {
        const angle = (hue / 18) * 2 * Math.PI;
        const rgb = [0, 1, 2].map((k) => {
          const wave = 0.5 + 0.5 * Math.cos(angle - (k * 2 * Math.PI) / 3);
          return level * (1 - purity * (1 - wave ** 1.5));
        }) as Triple;
        colours.push({ rgb, weight: 1 });
      }
  for (const y of [0.03, 0.06, 0.1, 0.18, 0.3, 0.45, 0.6, 0.78, 0.9]) colours.push({ rgb: [y, y, y], weight: 4 });
  return colours.map(({ rgb, weight }) => {
    const reflectance = spectrumOfRgb(rgb);
    return { reflectance, rgb: rgbOfReflectance(reflectance), weight };
  });
}

/** Camera densities above base of a reflectance photographed on the stock. */
export function photographedDensity(
  stock: Stock,
  camera: Camera,
  light: Light,
  reflectance: Spectrum,
  stops: number,
): Triple {
  const e = emulsionOf(stock);
  const amounts = developed(
    e,
    e.responses.map((r) => 2 ** stops * integral(r, reflectance)),
  );
  return aboveBase(stock, camera, light, amounts);
}

function aboveBase(stock: Stock, camera: Camera, light: Light, amounts: readonly number[]): Triple {
  const base = cameraDensity(
    camera,
    light,
    stock,
    stock.layers.map(() => 0),
  );
  return cameraDensity(camera, light, stock, amounts).map((d, c) => d - base[c]) as Triple;
}

function negativeSamples(stock: Stock, camera: Camera, light: Light): Sample[] {
  const colours = trainingColours();
  return [0, 1.5, 3].flatMap((stops) =>
    colours.map(({ reflectance, rgb, weight }) => ({
      density: photographedDensity(stock, camera, light, reflectance, stops),
      stops,
      rgb,
      weight,
    })),
  );
}

/** A slide is itself the picture: it should look as its own dyes do under D65, its clear base as white. */
function slideSamples(stock: Stock, camera: Camera, light: Light): Sample[] {
  const e = emulsionOf(stock);
  const clear = rgbOfReflectance(stock.base.map((d) => 10 ** -d));
  const made = trainingColours().map(({ reflectance, weight }) => ({
    amounts: developed(
      e,
      e.responses.map((r) => integral(r, reflectance)),
    ),
    weight,
  }));
  // Greys of the slide, not of the scene: equal Status A densities.
  const base = baseDensity(stock);
  for (const h of [-0.8, -0.4, 0, 0.3, 0.6])
    made.push({
      amounts: amountsFor(
        stock,
        base.map((b, k) => b + publishedDensity(stock, k, h)),
      ),
      weight: 4,
    });
  return made.map(({ amounts, weight }) => ({
    density: aboveBase(stock, camera, light, amounts),
    stops: 0,
    rgb: rgbOfReflectance(spectralDensity(stock, amounts).map((d) => 10 ** -d)).map((v, c) => v / clear[c]) as Triple,
    weight,
  }));
}
