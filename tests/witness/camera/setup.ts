/** The copy stand: light, lens, holder, and how the film lies under it. */
import type { Camera, Light } from "./cameras.ts";
import { integral } from "../spectra/spectrum.ts";
import type { Triple } from "../spectra/colour.ts";
import type { SensorDust } from "../faults/dust.ts";
import { cameraDensity, channelWeights } from "./negative.ts";
import type { Stock } from "../film/stocks.ts";

/** Unevenness of the light as it reaches the sensor; fractions of its brightness in the middle. */
export interface Falloff {
  /** Loss in the corners, growing with the square of the distance from `middle` (fractions of the scan). */
  readonly corners: number;
  readonly middle: readonly [number, number];
  /** Linear change from left to right and from top to bottom, edge to edge. */
  readonly slope: readonly [number, number];
  /** Linear change of each channel from left to right, edge to edge: a light that is not of one colour. */
  readonly tint: Readonly<Triple>;
  /** A border between two colours of light at x = 0.55: red rises and blue falls by this much across it. */
  readonly twoColours: number;
  /** Rows bright and dark by the light's flicker: half the swing, and rows per period. */
  readonly banding: { readonly swing: number; readonly period: number };
}

/** Light leaking in along one side of the holder's opening: fraction of the bare light at the edge, and its reach. */
export interface Leak {
  readonly side: "left" | "right" | "top" | "bottom";
  readonly strength: number;
  /** Distance over which it falls to 1/e, in fractions of the scan's width. */
  readonly reach: number;
}

export interface Setup {
  /** Saturation per second of green by the bare light at f/8 and the lowest ISO. */
  readonly brightness: number;
  readonly falloff: Falloff;
  /** Veiling glare of the lens: fraction of the mean light in the field that is spread evenly over it. */
  readonly veil: Readonly<Triple>;
  /** Light of the panel that reaches the lens beside the film: fraction of the bare light. */
  readonly stray: Readonly<Triple>;
  readonly leaks: readonly Leak[];
  /** Blur of the lens itself, one sigma in pixels of the scan; further blur towards corners or to one side. */
  readonly blur: { readonly everywhere: number; readonly corners: number; readonly tilt: readonly [number, number] };
  /** Movement during the exposure: pixels and direction in degrees. */
  readonly shake: { readonly length: number; readonly angle: number };
  /** Opening of the holder in fractions of the scan; absent: nothing hides the light. */
  readonly opening?: { readonly left: number; readonly top: number; readonly width: number; readonly height: number };
  readonly sensorDust: readonly SensorDust[];
  /** What the lens draws in the wrong place; absent: nothing. */
  readonly lens?: LensDrawing;
}

/** Radial faults of the lens; radii in halves of the scan's diagonal, a function of the radius r on the true picture. */
export interface LensDrawing {
  /** Green lands at r·(1 + k1·r² + k2·r⁴). */
  readonly distortion?: readonly [k1: number, k2: number];
  /** Red and blue land (a + b·ρ²)·ρ beyond green's radius ρ. */
  readonly red?: readonly [a: number, b: number];
  readonly blue?: readonly [a: number, b: number];
}

export const GOOD_SETUP: Setup = {
  brightness: 100,
  falloff: {
    corners: 0.11,
    middle: [0.48, 0.53],
    slope: [0.015, -0.012],
    tint: [0.006, 0, -0.008],
    twoColours: 0,
    banding: { swing: 0, period: 40 },
  },
  veil: [0.003, 0.003, 0.004],
  stray: [0.0015, 0.0015, 0.002],
  leaks: [],
  blur: { everywhere: 0.55, corners: 0, tilt: [0, 0] },
  shake: { length: 0, angle: 0 },
  opening: { left: 0.015, top: 0.02, width: 0.97, height: 0.96 },
  sensorDust: [],
};

/** Where the picture lies in the scan. */
export interface Placement {
  /** Middle of the picture, fractions of the scan's width and height. */
  readonly centre: readonly [number, number];
  /** Width of the picture in fractions of the scan's width. */
  readonly width: number;
  /** Degrees; positive: the picture lies turned clockwise. */
  readonly tilt: number;
  /** Emulsion towards the camera: left and right are exchanged. */
  readonly mirrored: boolean;
}

export const GOOD_PLACEMENT: Placement = { centre: [0.5, 0.5], width: 0.91, tilt: 0, mirrored: false };

/** A shutter time is exactly the rational that the camera writes. */
export interface Exposure {
  readonly shutter: readonly [seconds: number, of: number];
  readonly aperture: number;
  readonly iso: number;
}

/** Fraction of saturation that the bare light gives in the middle of the field, per channel. */
export function bareSignal(camera: Camera, light: Light, setup: Setup, exposure: Exposure): Triple {
  const weights = channelWeights(camera, light);
  const green = integral(weights[1]);
  const time = exposure.shutter[0] / exposure.shutter[1];
  const amount = setup.brightness * time * (8 / exposure.aperture) ** 2 * (exposure.iso / camera.baseIso);
  return weights.map((w) => (amount * integral(w)) / green) as Triple;
}

// oxfmt-ignore
const SHUTTERS = [4000, 3200, 2500, 2000, 1600, 1250, 1000, 800, 640, 500, 400, 320, 250, 200, 160, 125, 100, 80, 60, 50, 40, 30, 25, 20, 15, 13, 10, 8, 6, 5, 4, 3, 2, 1];

/**
 * The longest shutter time in steps of a third of a stop at which the clearest thing in the scan stays below `aim`
 * of saturation: the bare light, or the base of a film.
 */
export function metered(
  camera: Camera,
  light: Light,
  setup: Setup,
  clearest: Stock | "bare light",
  { aim = 0.8, aperture = 8, iso = camera.baseIso }: { aim?: number; aperture?: number; iso?: number } = {},
): Exposure {
  const film =
    clearest === "bare light"
      ? [0, 0, 0]
      : cameraDensity(
          camera,
          light,
          clearest,
          clearest.layers.map(() => 0),
        );
  let best: Exposure = { shutter: [1, SHUTTERS[0]], aperture, iso };
  for (const of of SHUTTERS) {
    const exposure: Exposure = { shutter: [1, of], aperture, iso };
    const max = Math.max(...bareSignal(camera, light, setup, exposure).map((s, c) => s * 10 ** -film[c]));
    if (max > aim) break;
    best = exposure;
  }
  return best;
}
