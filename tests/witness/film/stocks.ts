/** The invented stocks: what their maker would keep in a drawer. */
import type { Characteristic, TabledCharacteristic } from "./curve.ts";
import { COUPLERS, NEGATIVE_DYES, SILVER, SLIDE_DYES, support } from "./dyes.ts";
import { edge, lobe, product, scaled, sum, type Spectrum } from "../spectra/spectrum.ts";

/** One light-sensitive layer and the dye (or silver) that it forms. */
export interface Layer {
  readonly sensitivity: Spectrum;
  /** Spectral density per unit amount, net of the coloured coupler that is used up. */
  readonly dye: Spectrum;
  /** Density of a neutral above (slide: below) the base, in the stock's status. */
  readonly curve: Characteristic | TabledCharacteristic;
  /** Selwyn granularity σ_D·√A at an amount of 1, in density × µm. */
  readonly granularity: number;
}

export interface Stock {
  readonly name: string;
  readonly film: "colour-negative" | "black-and-white-negative" | "slide";
  readonly status: "M" | "A";
  /** Red-, green- and blue-sensitive layer; one layer for black-and-white. */
  readonly layers: readonly Layer[];
  /** Spectral density of unexposed, developed film (slide: of fully exposed film). */
  readonly base: Spectrum;
  /** How strongly layer i is held back where layer j develops more: rows i, columns j. */
  readonly interlayer: readonly (readonly number[])[];
  /** Blur by scatter in the emulsion and size of the grain clouds: one sigma, µm on film. */
  readonly scatter: number;
  readonly cloud: number;
}

interface NegativeSpec {
  name: string;
  gamma: [number, number, number];
  foot: number;
  head: number;
  toe: number;
  support: [grey: number, blue: number];
  masks: [red: number, yellow: number];
  granularity: [number, number, number];
  interlayer: number;
  reds: [centre: number, width: number];
}

function colourNegative(s: NegativeSpec): Stock {
  // The couplers are used up at an amount of about 2.4 of their layer's dye.
  const net = (dye: Spectrum, coupler: Spectrum, mask: number): Spectrum => sum(dye, scaled(coupler, -mask / 2.4));
  const dyes = [
    net(NEGATIVE_DYES.cyan, COUPLERS.red, s.masks[0]),
    net(NEGATIVE_DYES.magenta, COUPLERS.yellow, s.masks[1]),
    NEGATIVE_DYES.yellow,
  ];
  const sensitivities = [
    product(lobe(s.reds[0], s.reds[1], 23), edge(562, 8)),
    product(sum(lobe(552, 28, 19), lobe(505, 26, 20, 0.28), lobe(420, 30, 40, 0.05)), edge(600, -5)),
    product(sum(lobe(450, 32, 24), lobe(405, 20, 25, 0.1)), edge(505, -6)),
  ];
  return {
    name: s.name,
    film: "colour-negative",
    status: "M",
    layers: dyes.map((dye, i) => ({
      dye,
      sensitivity: sensitivities[i],
      curve: { gamma: s.gamma[i], foot: s.foot, head: s.head, toe: s.toe, shoulder: 0.28 },
      granularity: s.granularity[i],
    })),
    base: sum(
      support(s.support[0], s.support[1]),
      scaled(NEGATIVE_DYES.cyan, 0.05),
      scaled(COUPLERS.red, s.masks[0]),
      scaled(COUPLERS.yellow, s.masks[1]),
    ),
    interlayer: crosswise(s.interlayer),
    scatter: 3.5,
    cloud: 4.5,
  };
}

function crosswise(k: number): number[][] {
  return [
    [0, k, 0.4 * k],
    [k, 0, 0.7 * k],
    [0.4 * k, 0.8 * k, 0],
  ];
}

/** The foot lies where a mid-grey is 0.70 D above base at gamma 0.55: the convention of SMPTE ST 2065-3. */
const FOOT = -0.7 / 0.55;

export const NORTHLIGHT_400: Stock = colourNegative({
  name: "Northlight 400",
  gamma: [0.53, 0.56, 0.63],
  foot: FOOT,
  head: 2.35,
  toe: 0.11,
  support: [0.14, 0.1],
  masks: [0.45, 0.46],
  granularity: [0.21, 0.2, 0.34],
  interlayer: 0.6,
  reds: [622, 32],
});

export const SKERRY_100: Stock = colourNegative({
  name: "Skerry 100",
  gamma: [0.58, 0.58, 0.66],
  foot: FOOT,
  head: 2.0,
  toe: 0.09,
  support: [0.19, 0.14],
  masks: [0.45, 0.57],
  granularity: [0.13, 0.12, 0.22],
  interlayer: 0.75,
  reds: [628, 33],
});

export const COALFISH_125: Stock = {
  name: "Coalfish 125",
  film: "black-and-white-negative",
  status: "M",
  layers: [
    {
      dye: SILVER,
      sensitivity: product(sum(lobe(560, 110, 60), lobe(630, 40, 18, 0.7)), edge(662, -5)),
      curve: { gamma: 0.6, foot: FOOT, head: 2.3, toe: 0.13, shoulder: 0.3 },
      granularity: 0.48,
    },
  ],
  base: support(0.24, 0.03),
  interlayer: [[0]],
  scatter: 4,
  cloud: 3,
};

export const LANTERN_64: Stock = {
  name: "Lantern 64",
  film: "slide",
  status: "A",
  layers: [SLIDE_DYES.cyan, SLIDE_DYES.magenta, SLIDE_DYES.yellow].map((dye, i) => ({
    dye,
    sensitivity: [
      product(lobe(640, 34, 22), edge(585, 6)),
      product(sum(lobe(550, 28, 20), lobe(505, 20, 20, 0.2)), edge(592, -5)),
      product(lobe(440, 42, 26), edge(500, -6)),
    ][i],
    // A slide is a print too: steep, mid-grey at 0.95 above its clearest.
    curve: { gamma: 1.55, foot: -1.52, head: 0.62, toe: 0.16, shoulder: 0.12 },
    granularity: [0.3, 0.28, 0.4][i],
  })),
  base: support(0.1, 0.04),
  interlayer: crosswise(0.3),
  scatter: 3,
  cloud: 3,
};

export const STOCKS: readonly Stock[] = [NORTHLIGHT_400, SKERRY_100, COALFISH_125, LANTERN_64];
