/**
 * Where a roll's conversion begins, from the pictures that have been photographed so far. It is computed anew with each
 * scan: a picture alone decides little, a dozen of them much.
 */
import { balanceRoll, type PictureSample, tonesOf } from "../../engine/auto/balance.ts";
import { type UnmixOrigin, unmixOf } from "../../engine/calibrate/camera-unmix/index.ts";
import type { FrameLook, Rgb, ScanInfo } from "../../engine/types.ts";

export interface StartRequest {
  /** The look of the stock or the recipe, with defaults for all that neither states. */
  readonly look: FrameLook;
  /** Density of the base where it is known; the look's own where not given. */
  readonly base?: Rgb;
  /** Whether stock or recipe state an unmix. */
  readonly statesUnmix: boolean;
  /** Camera of the scans. */
  readonly info: Pick<ScanInfo, "model" | "colourMatrix">;
  /** Transmittance of the pictures, in the order in which they were taken. */
  readonly samples: readonly PictureSample[];
}

export interface StartValues {
  /** The roll's look: base, unmix and filtration. */
  readonly look: FrameLook;
  /** EV for each picture. */
  readonly exposures: readonly number[];
  readonly unmix?: { readonly camera: string; readonly from: UnmixOrigin };
}

export function startValues({ look, base, statesUnmix, info, samples }: StartRequest): StartValues {
  const unmix = statesUnmix || look.film !== "colour-negative" ? undefined : unmixOf(info.model, info.colourMatrix);
  const based: FrameLook = { ...look, ...(base ? { base } : {}), ...(unmix ? { unmix: unmix.matrix } : {}) };
  const balance = balanceRoll(
    samples.map((sample) => tonesOf(sample, based)),
    based,
  );
  const add = (key: keyof typeof balance.filtration): number => look.filtration[key] + balance.filtration[key];
  return {
    look: { ...based, filtration: { cyan: add("cyan"), magenta: add("magenta"), yellow: add("yellow") } },
    exposures: balance.exposure,
    ...(unmix ? { unmix: { camera: info.model ?? "an unnamed camera", from: unmix.from } } : {}),
  };
}
