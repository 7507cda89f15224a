/**
 * Where a roll's conversion begins, from the pictures that have been photographed so far: the automatic start of a roll
 * that is created from a folder (work/new-roll), asked again with each scan. A picture alone decides little, a dozen much.
 */
import { balanceRoll, type PictureSample, tonesOf } from "../../../engine/auto/balance.ts";
import { type Priors, startValues as automaticStart, type StartValues } from "../../../engine/auto/start-values.ts";
import { type UnmixOrigin, unmixOf } from "../../../engine/calibrate/camera-unmix/index.ts";
import type { Film, FrameLook, Rgb, ScanInfo } from "../../../engine/types.ts";
import { defaultOf } from "../../../recipe/schema/defaults.ts";

/** What stock and recipe state of the look; what a session wrote itself is not counted. */
export interface StatedLook {
  /** With defaults for all that neither states. */
  readonly look: FrameLook;
  readonly film?: Film;
  /** Whether curve, gamma or unmix are stated: then nothing is inferred. */
  readonly negative: boolean;
  readonly unmix: boolean;
  readonly gamma: boolean;
  readonly contrast: boolean;
  /** Whether a person has set the roll's negative or its filtration: then colours are theirs. */
  readonly byHand: boolean;
}

export interface StartRequest {
  readonly stated: StatedLook;
  readonly film: Film;
  /** Density of the base, where it was read. */
  readonly base?: Rgb;
  /** Whether the samples were measured against a blank. */
  readonly blank: boolean;
  /** Camera of the scans. */
  readonly info: Pick<ScanInfo, "model" | "colourMatrix" | "display">;
  /** Transmittance of pictures, in the order in which they were taken. */
  readonly samples: readonly PictureSample[];
}

export interface RollStart {
  /** The roll's look: base, negative, filtration and tones. */
  readonly look: FrameLook;
  /** EV for each sample, and a contrast where the roll's would crowd its tones. */
  readonly frames: readonly { readonly exposure: number; readonly contrast?: number }[];
  /** What was inferred, where nothing states the negative. */
  readonly inferred?: Pick<StartValues, "base" | "negative" | "tone" | "cast">;
  /** The unmix that was taken for a stock without one. */
  readonly unmix?: { readonly camera: string; readonly from: UnmixOrigin };
}

/**
 * @param priors others than the made ones where films are left out, for tests
 * @returns values for a roll; quick: about 20 ms of processor time a sample
 */
export function startValues(request: StartRequest, priors?: Priors): RollStart {
  return request.stated.negative || request.samples.length === 0 ? balanced(request) : inferred(request, priors);
}

/** Stock or recipe state the film: its pictures are only balanced. */
function balanced({ stated, film, base, info, samples }: StartRequest): RollStart {
  const unmix =
    stated.unmix || stated.byHand || !stated.negative || film !== "colour-negative" || info.display
      ? undefined
      : unmixOf(info.model, info.colourMatrix);
  const look: FrameLook = {
    ...lookOnFilm(stated, film),
    ...(base ? { base } : {}),
    ...(unmix ? { unmix: unmix.matrix } : {}),
  };
  const { filtration, exposure } = balanceRoll(
    samples.map((sample) => tonesOf(sample, look)),
    look,
  );
  const add = (key: keyof typeof filtration): number => look.filtration[key] + filtration[key];
  return {
    look: stated.byHand
      ? look
      : { ...look, filtration: { cyan: add("cyan"), magenta: add("magenta"), yellow: add("yellow") } },
    frames: exposure.map((ev) => ({ exposure: ev })),
    ...(unmix ? { unmix: { camera: info.model ?? "an unnamed camera", from: unmix.from } } : {}),
  };
}

function inferred({ stated, film, base, blank, info, samples }: StartRequest, priors?: Priors): RollStart {
  const look = lookOnFilm(stated, film);
  const start = automaticStart(
    {
      frames: samples,
      source: info.display ? "display" : "raw",
      blank,
      film,
      ...(base ? { base } : {}),
      camera: info,
      look,
    },
    priors,
  );
  const { curve, unmix, colour } = start.negative ?? {};
  return {
    look: {
      ...look,
      base: start.base.density,
      ...(curve ? { curve, filtration: { cyan: 0, magenta: 0, yellow: 0 } } : {}),
      ...(unmix ? { unmix } : {}),
      ...(colour ? { colour } : {}),
      tone: { ...look.tone, ...start.tone },
    },
    frames: start.exposure.map((exposure, i) => {
      const own = start.frameTones[i]?.contrast;
      return { exposure, ...(own === undefined ? {} : { contrast: own }) };
    }),
    inferred: {
      base: start.base,
      tone: start.tone,
      ...(start.negative ? { negative: start.negative } : {}),
      ...(start.cast === undefined ? {} : { cast: start.cast }),
    },
  };
}

/** The stated look on a kind of film that is not stated: defaults go by it. */
function lookOnFilm({ look, gamma, contrast }: StatedLook, film: Film): FrameLook {
  if (film === look.film) return look;
  const g = defaultOf(film, ["negative", "gamma"]) as number | Rgb;
  return {
    ...look,
    film,
    ...(gamma ? {} : { gamma: typeof g === "number" ? [g, g, g] : g }),
    ...(contrast ? {} : { tone: { ...look.tone, contrast: defaultOf(film, ["positive", "contrast"]) as number } }),
  };
}

/** At most `most` of a list, the last among them and the others evenly spread over it. */
export function spread<T>(all: readonly T[], most: number): T[] {
  if (all.length <= most) return [...all];
  return Array.from({ length: most }, (_, k) => all[Math.round((k * (all.length - 1)) / (most - 1))]);
}
