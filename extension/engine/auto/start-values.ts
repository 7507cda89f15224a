/**
 * The start of a roll from nothing but its scans' blocks: kind of film, base, neutral axis as unmix and curve, brightness
 * and tones, each with how sure it is. A pure function, quick enough to be asked again after every scan.
 */
import { brightnessOf, type FrameTones, tonesOf } from "./balance.ts";
import { STOP } from "../colour/density.ts";
import type { CurveTable, Film, FrameLook, Matrix3, Rgb } from "../types.ts";
import { baseFromPictures } from "./base-estimate.ts";
import { type Blocks, densitiesAbove } from "./blocks.ts";
import { crosstalkOf, partOf, type CrosstalkOrigin } from "./crosstalk.ts";
import { type FilmKind, filmKindOf } from "./film-kind.ts";
import { interpolate, lookFromAxis } from "./look-from-axis.ts";
import { fitNeutralAxis, type NeutralAxis } from "./neutral-axis.ts";
import type { NeutralPrior } from "./prior.ts";
import { middleOf, type StartTone, toneFor } from "./exposure/start-tone.ts";
import { INFERRED_FILM } from "./exposure/exposure-estimate.ts";
import { COLOUR, DISPLAY, RAW } from "./table.ts";

/** Where a value comes from: read from film or stated by a person; worked out from the pictures; taken as usual. */
export type Provenance = "measured" | "inferred" | "assumed";

export interface StartRequest {
  /** Blocks of the pictures, 60 × 40 a frame (balance.ts), in the roll's order. */
  readonly frames: readonly Blocks[];
  /** Linear camera signals, or files that were developed for display. */
  readonly source: "raw" | "display";
  /** Whether blocks are measured against a blank. */
  readonly blank: boolean;
  /** Kind of film where it is stated. */
  readonly film?: Film;
  /** Base where it was read. */
  readonly base?: Rgb;
  readonly camera?: { readonly model?: string; readonly colourMatrix?: Matrix3 };
  /** What is published of the film, where it has been named: neutrals, crosstalk and colour in place of all films'. */
  readonly published?: {
    readonly neutrals: NeutralPrior;
    readonly crosstalk: Matrix3;
    readonly colour: Matrix3;
    readonly from: CrosstalkOrigin;
  };
  /** The look that everything else is taken from. */
  readonly look: FrameLook;
}

export interface StartValues {
  readonly film: FilmKind & { readonly from: Provenance };
  readonly base: { readonly density: Rgb; readonly from: Provenance; readonly spread: number };
  /** Absent on other film than colour negatives. */
  readonly negative?: {
    readonly curve: CurveTable;
    readonly unmix?: Matrix3;
    readonly colour?: Matrix3;
    readonly crosstalk?: CrosstalkOrigin;
  };
  readonly axis?: NeutralAxis;
  /** Expected chroma error of greys, ΔC*ab; see `expectedCast`. */
  readonly cast?: number;
  /** Stops for each frame. */
  readonly exposure: readonly number[];
  readonly brightness: Provenance;
  readonly tone: StartTone;
  /** Tones of the frames that need others than the roll's. */
  readonly frameTones: readonly (StartTone | undefined)[];
}

/** See docs/automatic-start.md for how these were chosen; all are flat about their values. */
const FIT = {
  raw: {
    narrow: 0.02,
    grey: 0.12,
    colours: [{ part: 0.48, mean: [0.01, -0.055], tilt: [-0.02, 0.02], spread: [0.065, 0.065], correlation: -0.2 }],
    start: 0.06,
    votes: 6,
    unknown: 0.12,
  },
  /** The film is named, and the camera's sensitivities are published: its neutrals are nearly right before a picture is seen. */
  named: {
    narrow: 0.02,
    grey: 0.16,
    colours: [{ part: 0.44, mean: [0.01, -0.05], tilt: [-0.02, 0.02], spread: [0.07, 0.07], correlation: -0.2 }],
    start: 0.06,
    votes: 3,
    unknown: 0.12,
  },
  display: {
    narrow: 0.02,
    grey: 0.12,
    colours: [{ part: 0.48, mean: [0.01, -0.05], tilt: [-0.03, 0.03], spread: [0.08, 0.08], correlation: -0.5 }],
    start: 0.06,
    votes: 3,
    unknown: 0.15,
  },
} as const;
/**
 * A film that is named: how far its neutrals may lie off what its sheet gives, in parts of how far films in general do
 * (its dyes and the light may be others than those taken), by whether the camera's sensitivities are published; and the
 * part of its crosstalk that is taken out.
 */
const NAMED = { measured: 0.3, unmeasured: 0.5, removed: 0.7 } as const;
/** Density of a picture's deepest shadow above base: at least, and of one picture alone. */
const SHADOW = { raw: [0.01, 0.085], display: [0.06, 0.06] } as const;
/** Standard deviation of the colour of a base that was not read, D. */
const COLOUR_SPREAD = { raw: 0.05, display: 0.08 } as const;

/** Priors by source of the scans. */
export interface Priors {
  readonly raw: NeutralPrior;
  readonly display: NeutralPrior;
}

/**
 * Values for a roll. Frames may be as few as one; more make it surer.
 * @param priors others than the made ones where films are left out, for tests
 */
export function startValues(request: StartRequest, priors: Priors = { raw: RAW, display: DISPLAY }): StartValues {
  const { frames, source, blank, look } = request;
  const kind = kindOf(request);
  if (kind.film === "slide") return slideStart(request, kind);
  if (kind.film === "black-and-white-negative") return silverStart(request, kind);
  const { published } = request;
  const isMeasured = published?.from === "model";
  const prior = published
    ? widened(published.neutrals, priors.raw, isMeasured ? NAMED.measured : NAMED.unmeasured)
    : priors[source];
  const estimate = request.base
    ? { density: request.base, spread: [0, 0] as const }
    : baseFromPictures(frames, { prior, masked: blank && source === "raw", shadow: SHADOW[source] });
  const fit = FIT[isMeasured ? "named" : source];
  const densities = frames.map((f) => densitiesAbove(f, estimate.density));
  const axis = fitNeutralAxis(densities, {
    prior,
    baseSpread: request.base ? 0 : COLOUR_SPREAD[source],
    narrow: fit.narrow,
    grey: fit.grey,
    colours: fit.colours,
    start: request.base ? fit.start : fit.unknown,
    observations: fit.votes,
  });
  const density: Rgb = [
    estimate.density[0] + axis.offset[0],
    estimate.density[1],
    estimate.density[2] + axis.offset[1],
  ];
  const crosstalk = published
    ? { matrix: partOf(published.crosstalk, NAMED.removed), from: published.from }
    : source === "raw"
      ? crosstalkOf(request.camera)
      : undefined;
  const colour = published?.colour ?? COLOUR;
  const { unmix, curve } = lookFromAxis(axis, prior, crosstalk?.matrix);
  const own: FrameLook = {
    ...look,
    film: kind.film,
    base: density,
    curve,
    unmix,
    colour: crosstalk ? colour : look.colour,
    filtration: { cyan: 0, magenta: 0, yellow: 0 },
  };
  return {
    film: kind,
    base: { density, from: request.base ? "measured" : "inferred", spread: estimate.spread[0] },
    negative: {
      curve,
      ...(crosstalk ? { unmix, colour, crosstalk: crosstalk.from } : {}),
    },
    axis,
    cast: expectedCast(axis, frames.length),
    ...printedValues(frames, own, source === "raw"),
  };
}

/** A film's own neutrals, which may also vary as all films' do, by a part of it. */
function widened(own: NeutralPrior, all: NeutralPrior, part: number): NeutralPrior {
  const at = (table: readonly number[]): number[] => own.green.map((g) => part * interpolate(all.green, table, g));
  const more = all.components.map(({ red, blue }) => ({ red: at(red), blue: at(blue) }));
  return { ...own, components: [...own.components, ...more] };
}

function kindOf({ frames, source, blank, film, camera }: StartRequest): StartValues["film"] {
  const white = camera?.colourMatrix && source === "raw" && !blank ? whiteOf(camera.colourMatrix) : undefined;
  const against = source === "display" ? "display" : blank ? "blank" : "raw";
  const found = filmKindOf(frames, { against, white });
  return film ? { ...found, film, certainty: 1, from: "measured" } : { ...found, from: "inferred" };
}

/** What a camera sees of daylight (CIE D55, XYZ with Y = 1): near enough to a copy light's white. */
export function whiteOf(matrix: Matrix3): Rgb | undefined {
  const white = matrix.map((row) => row[0] * 0.9568 + row[1] + row[2] * 0.9214) as unknown as Rgb;
  return white.every((v) => v > 0) ? white : undefined;
}

/** Brightness and tones of frames under a look; on an absolute scale where the base fixes it. */
export function printedValues(
  frames: readonly Blocks[],
  look: FrameLook,
  absolute: boolean,
): Pick<StartValues, "exposure" | "brightness" | "tone" | "frameTones"> {
  const tones = frames.map((f) => tonesOf(f, look));
  const exposure = absolute
    ? brightnessOf(tones, look.film === "colour-negative", INFERRED_FILM)
    : relativeBrightness(tones);
  const shifted = tones.map(({ luminance }, i) => luminance.map((v) => v + STOP * exposure[i]));
  const version = look.tone.version ?? 1;
  const tone = toneFor(sorted(shifted), version);
  const frameTones = shifted.map((frame) => {
    const own = toneFor(sorted([frame]), version);
    // A frame whose tones have no room gets less contrast; a flat one is left flat beside its neighbours.
    return own.contrast < tone.contrast - 0.15 ? own : undefined;
  });
  return { exposure, brightness: absolute ? "measured" : "inferred", tone, frameTones };
}

function sorted(frames: readonly Float32Array[]): Float64Array {
  const all: number[] = [];
  for (const frame of frames) for (const v of frame) if (Number.isFinite(v)) all.push(v);
  return Float64Array.from(all).sort();
}

/** How much of a frame's distance from the roll's middle is taken out where nothing fixes the scale. */
const FRAME_CORRECTION = 0.8;

/** Stops that bring the roll's middle to mid-grey, and each frame most of the way to it. */
function relativeBrightness(tones: readonly FrameTones[]): number[] {
  const middles = tones.map(({ luminance }) => middleOf(sorted([luminance])));
  const known = middles.filter(Number.isFinite).sort((a, b) => a - b);
  const roll = known.length ? known[known.length >> 1] : 0;
  return middles.map((m) => {
    const shift = Number.isFinite(m) ? roll + FRAME_CORRECTION * (m - roll) : roll;
    return Math.round((-20 * shift) / STOP) / 20 + 0;
  });
}

function slideStart({ frames, look, base }: StartRequest, film: StartValues["film"]): StartValues {
  return {
    film,
    base: { density: base ?? [0, 0, 0], from: base ? "measured" : "assumed", spread: 0 },
    exposure: frames.map(() => 0),
    brightness: "measured",
    tone: { contrast: look.tone.contrast, toe: look.tone.toe, shoulder: look.tone.shoulder },
    frameTones: frames.map(() => undefined),
  };
}

function silverStart(request: StartRequest, film: StartValues["film"]): StartValues {
  const { frames, look, base, source } = request;
  const estimate = base
    ? { density: base, spread: [0, 0] as const }
    : baseFromPictures(frames, { prior: RAW, masked: false, shadow: SHADOW[source] });
  const own: FrameLook = { ...look, film: film.film, base: estimate.density };
  return {
    film,
    base: { density: estimate.density, from: base ? "measured" : "inferred", spread: estimate.spread[0] },
    ...printedValues(frames, own, source === "raw"),
  };
}

/**
 * Chroma error of greys to be expected, ΔC*ab: grows with the posterior's spread and where few blocks are near the axis.
 * Read from rolls with truth (docs/automatic-start.md).
 */
export function expectedCast({ uncertainty, share }: NeutralAxis, frames: number): number {
  const spread = Math.hypot(...uncertainty);
  return Math.min(15, 1 + 60 * spread + (frames < 4 ? 3 : 0.8) * (1 - Math.min(1, share / 0.6)));
}
