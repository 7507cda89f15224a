/** Two invented cameras and three invented lights. */
import { edge, lobe, product, sum, type Spectrum } from "../spectra/spectrum.ts";

export type Cfa = "RGGB" | "GBRG" | "GRBG" | "BGGR";

export interface Camera {
  readonly make: string;
  readonly model: string;
  readonly lens: string;
  /** Sensitivities of red, green and blue pixels; their relative size is the camera's unequal channel gain. */
  readonly sensitivity: readonly [Spectrum, Spectrum, Spectrum];
  readonly cfa: Cfa;
  /** Black level of the four sites of the 2×2 cell, row by row, in digital numbers. */
  readonly black: readonly [number, number, number, number];
  readonly white: number;
  readonly bits: 14;
  /** Electrons at saturation and noise of reading, in electrons, at the lowest ISO. */
  readonly fullWell: number;
  readonly readNoise: number;
  readonly baseIso: number;
  /** Width of the sensor in millimetres; its pixels are as many as the scan is asked to have. */
  readonly sensor: number;
}

const cut = product(edge(411, 4), edge(672, -7));

export const CAMERA_A: Camera = {
  make: "Fernhill",
  model: "Fernhill A24",
  lens: "Fernhill Flat 60mm",
  sensitivity: [
    product(sum(lobe(595, 9, 28, 0.76), lobe(530, 30, 25, 0.06), lobe(430, 25, 30, 0.03)), cut),
    product(sum(lobe(528, 36, 37, 0.98), lobe(455, 35, 25, 0.16)), cut),
    product(sum(lobe(458, 38, 26, 0.8), lobe(505, 22, 26, 0.16)), cut),
  ],
  cfa: "RGGB",
  black: [512, 514, 511, 513],
  white: 16300,
  bits: 14,
  fullWell: 52000,
  readNoise: 3.2,
  baseIso: 100,
  sensor: 35.7,
};

export const CAMERA_B: Camera = {
  make: "Ostrand",
  model: "Ostrand No. 2",
  lens: "Ostrand Macro 90mm",
  sensitivity: [
    product(sum(lobe(601, 15, 28, 0.66), lobe(535, 25, 25, 0.08)), cut),
    product(sum(lobe(524, 33, 40, 1), lobe(460, 30, 20, 0.08)), cut),
    product(sum(lobe(455, 30, 30, 0.7), lobe(510, 20, 22, 0.12)), cut),
  ],
  cfa: "GBRG",
  black: [1024, 1022, 1025, 1024],
  white: 15900,
  bits: 14,
  fullWell: 40000,
  readNoise: 2.4,
  baseIso: 64,
  sensor: 35.9,
};

export interface Light {
  readonly name: string;
  readonly power: Spectrum;
}

/** A white panel of high colour rendering: blue pump and broad phosphors. */
export const PANEL: Light = {
  name: "panel",
  power: sum(lobe(452, 10, 13, 0.8), lobe(500, 28, 30, 0.5), lobe(560, 45, 50, 0.72), lobe(632, 38, 30, 0.62)),
};

/** An older, warmer panel with a gap in the cyan. */
export const WARM_PANEL: Light = {
  name: "warm panel",
  power: sum(lobe(448, 9, 11, 0.45), lobe(545, 38, 45, 0.62), lobe(612, 38, 42, 0.85)),
};

/** An even light: equal power everywhere. */
export const EVEN: Light = { name: "even", power: sum(lobe(550, 1e6)) };
