/** The words of the survey: what is measured on scans, and what is said about it. Types only. */
import type { Spot } from "../image/spot.ts";
import type { LateralReading } from "../lens/lateral-colour.ts";
import type { Message } from "../messages.ts";
import type { Area, Film, Rgb, ScanInfo, Severity, Side } from "../types.ts";

/** left, top, width, height in fractions of the scan's sides. */
export type Box = readonly [left: number, top: number, width: number, height: number];

/** Where in which scan; without a scan it is about the roll. */
export interface Place {
  readonly scan?: string;
  readonly frame?: string;
  readonly area?: Box;
}

/** Something that is not as it should be. */
export interface Finding {
  readonly code: string;
  readonly severity: Severity;
  /** What was found, as a sentence with its number, in English. */
  readonly message: string;
  /** The same, to be said in another language. */
  readonly translatable: Message;
  readonly measured: number;
  readonly limit: number;
  readonly unit: string;
  /** Where the limit comes from. */
  readonly source: string;
  readonly place: Place;
  /** The likely cause at the copy stand, and what to do, each a sentence. */
  readonly cause: string;
  readonly remedy: string;
}

/** What one check of a roll finds; the rest of a finding is the same for all of its kind. */
export interface Found {
  readonly message: Message;
  readonly measured: number;
  readonly place: Place;
  /** Where a finding's own severity differs from its kind's. */
  readonly severity?: Severity;
  /** Where a finding's own limit differs from its kind's. */
  readonly limit?: number;
}

/** A kind of finding: one file each. */
export interface FindingKind {
  readonly code: string;
  readonly severity: Severity;
  /** What is measured and what it means for the pictures. */
  readonly meaning: string;
  readonly limit: number;
  readonly unit: string;
  readonly source: string;
  readonly cause: string;
  readonly remedy: string;
  find(roll: SurveyedRoll): Found[];
}

/** Noise of the sensor: spectrum and size at a known signal. */
export interface SensorNoise {
  /** Variance of ln(signal) at signal 1 at `iso`: divide by a signal for the variance there. */
  readonly variance: number;
  readonly iso?: number;
  /** Power at each frequency of a block's spectrum over its mean: demosaicing and halving shape it. */
  readonly shape: Float32Array;
}

/** A dark speck. */
export interface Speck {
  /** Centre and radius in fractions of the scan's width. */
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  /** Length over width. */
  readonly elongation: number;
  /** Part of the light that it takes, in its middle. */
  readonly opacity: number;
  /** How surely it is no part of the picture: above 0 is dust, the higher the surer. */
  readonly logOdds: number;
  /** Spots that cover it, for healing: a hair or a scratch is one line. */
  readonly spots: readonly Spot[];
}

/** Blur as the grain shows it: variances of the blur in pixels² of the full scan. */
export interface BlurReading {
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
  /** Standard deviation of the mean variance, (xx + yy) / 2; pixels² of the full scan. */
  readonly deviation?: number;
}

export interface BlurCell {
  /** Middle of the cell, fractions of the scan's sides. */
  readonly x: number;
  readonly y: number;
  /** Absent where the picture has too little even tone, or too little grain, to tell. */
  readonly blur?: BlurReading;
  /** Fine grain: where the blur is known as a lens without blur would show it; elsewhere what is seen, picture included. */
  readonly grain?: FineGrain;
}

/** Strength of the film's grain at fine frequencies. */
export interface FineGrain {
  /** Variance of ln(signal) per frequency bin (sharpness/fine-grain.ts). */
  readonly power: number;
  /** Mean transmittance there, flare included: how strong grain is depends on the density. */
  readonly signal: number;
}

export const SIDES: readonly Side[] = ["left", "right", "top", "bottom"];

/** Unexposed film beside the picture on one side. */
export interface RebateStrip {
  readonly side: Side;
  readonly area: Box;
  /** Transmittance of the strip near the holder, and of the strip near the picture. */
  readonly outer: Rgb;
  readonly inner: Rgb;
}

/** What was measured on one scan. */
export interface ScanReading {
  readonly name: string;
  /** Name of the frame that it belongs to. */
  readonly frame?: string;
  readonly info: ScanInfo;
  readonly area: Area;
  /** Signal that 99.9 % of the film's pixels stay below, 1 is saturation. */
  readonly brightest: Rgb;
  /** Part of the film's pixels at saturation. */
  readonly clipped: Rgb;
  /** Where most of the clipped pixels lie. */
  readonly clippedAt?: Box;
  /** Noise of the sensor over grain in the film's densest tones, as standard deviations. */
  readonly noiseOverGrain?: number;
  readonly densestAt?: Box;
  /** 5 × 5, row by row, over the picture. */
  readonly cells: readonly BlurCell[];
  /** Transmittance that the holder seems to have: flare. Absent where no holder is in view. */
  readonly mask?: Rgb;
  readonly maskAt?: Box;
  /** Set where a holder is in view, but so few pixels of it that its soft edge would count as flare. */
  readonly maskTooNarrow?: true;
  /** Flare that was not taken off, as the specks tell it where no holder can be read. Absent where they tell of none. */
  readonly flareFromSpecks?: number;
  readonly rebate: readonly RebateStrip[];
  /** The picture's edges where they can be seen, in fractions of the scan's sides. */
  readonly edges: Partial<Readonly<Record<Side, number>>>;
  readonly specks: readonly Speck[];
  /** Scale by the film's perforations: pixels of the full scan per millimetre, and the standard deviation of that. */
  readonly perforations?: { readonly perMm: number; readonly deviation: number; readonly holes: number };
  /** Shifts of red and blue against green, where they were looked for. */
  readonly lateral?: LateralReading;
  /** How well the frame's number on the film's edge agrees as the recipe shows it, less how well mirrored; −1 … 1. */
  readonly lettering?: number;
}

/** What was measured on a blank. */
export interface BlankReading {
  readonly name: string;
  readonly info: ScanInfo;
  /** Brightest minus darkest over brightest, of the smoothed light, in percent. */
  readonly unevenness: number;
  readonly darkestAt: Box;
  /** Largest span of a channel ratio over the field, in percent. */
  readonly colourSpan: number;
  readonly colourAt: Box;
  /** Half the swing of bands along rows or columns, in percent. */
  readonly banding: number;
  readonly bandingAlong: "rows" | "columns";
  readonly clipped: Rgb;
  readonly sensorDust: readonly Speck[];
  readonly noise: SensorNoise;
}

/** Everything that the checks look at. */
export interface SurveyedRoll {
  readonly film: Film;
  /** Size of a picture on the film in millimetres, where the format is known: longer side first. */
  readonly picture?: readonly [long: number, short: number];
  /** Density of the film's base in the recipe. */
  readonly base?: Rgb;
  /** Flare that the recipe takes off. */
  readonly flare: Rgb;
  /** Width of the camera's sensor in millimetres, where it is known. */
  readonly sensor?: number;
  readonly scans: readonly ScanReading[];
  readonly blank?: BlankReading;
}
