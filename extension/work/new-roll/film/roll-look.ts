/** The look of a new roll: what the stock states, completed from the scans, and balanced. */
import { balanceRoll, type RollBalance, tonesOf } from "../../../engine/auto/balance.ts";
import { printedValues, type StartValues, startValues } from "../../../engine/auto/start-values.ts";
import { type UnmixOrigin, unmixOf } from "../../../engine/calibrate/camera-unmix/index.ts";
import type { Film, FrameLook, Matrix3, Rgb } from "../../../engine/types.ts";
import type { FirstPassScan } from "../../../engine/auto/roll/first-pass.ts";
import type { StartedRoll } from "../started-roll.ts";
import type { FilmStock } from "./film-stock.ts";
import type { StockLook } from "./stock-look.ts";

/** What is known of the roll before it is balanced. */
export interface LookEvidence {
  readonly pictures: readonly FirstPassScan[];
  readonly film: Film;
  readonly stock: StockLook;
  /** The stock's recipe where it was written from a published film. */
  readonly filmStock?: FilmStock;
  /** Density of the base where it was read, or is kept. */
  readonly base?: Rgb;
  readonly hasBlank: boolean;
  /** Whether a curve is stated that belongs to this roll alone: its tones follow from its pictures. */
  readonly ownCurve?: boolean;
}

export interface RollUnmix {
  readonly matrix: Matrix3;
  readonly camera: string;
  readonly from: UnmixOrigin;
}

export interface RollLook {
  readonly look: FrameLook;
  /** Absent where the stock states one, or the scans need none. */
  readonly unmix?: RollUnmix;
}

/** Whether all pictures were developed for display. */
export const isDisplay = (pictures: readonly FirstPassScan[]): boolean => pictures.every(({ info }) => info.display);

/** The first picture that names its camera, or the first of all. */
const cameraOf = (pictures: readonly FirstPassScan[]): FirstPassScan["info"] =>
  (pictures.find((p) => p.info.model) ?? pictures[0]).info;

/** The stock's look with the roll's own film, base and unmix. */
export function rollLook({ pictures, film, stock, base }: LookEvidence): RollLook {
  // Files that were developed for display have been unmixed by the camera's own matrix.
  const needsUnmix = !stock.statesUnmix && stock.statesNegative && film === "colour-negative" && !isDisplay(pictures);
  const unmix = needsUnmix ? unmixFor(cameraOf(pictures)) : undefined;
  return {
    look: {
      ...stock.look,
      film,
      ...(base ? { base } : {}),
      ...(unmix ? { unmix: unmix.matrix } : {}),
    },
    ...(unmix ? { unmix } : {}),
  };
}

/** One unmix for the roll, of its camera: of its model, its colour matrix, or no camera. */
function unmixFor({ model, colourMatrix }: FirstPassScan["info"]): RollUnmix {
  return { ...unmixOf(model, colourMatrix), camera: model ?? "an unnamed camera" };
}

export interface BalancedRoll {
  /** What the scans alone say, where no stock states a negative. */
  readonly start?: Omit<StartValues, "film">;
  readonly balance: RollBalance;
}

/** Where the roll's own curve balances it. */
const UNFILTERED: Omit<RollBalance, "exposure"> = {
  filtration: { cyan: 0, magenta: 0, yellow: 0 },
  fromPictures: { cyan: 0, yellow: 0 },
  followed: 0,
};

/**
 * Balances a roll: by filtration where a stock states the negative, else by a curve fitted to its pictures.
 * @param samples of the frames, in the roll's order
 */
export function balanceSamples(
  samples: readonly Float32Array[],
  look: FrameLook,
  { pictures, film, stock, filmStock, base, hasBlank, ownCurve }: LookEvidence,
): BalancedRoll {
  const named = filmStock?.numbers;
  if (stock.statesNegative && !named) {
    const tones = samples.map((sample) => tonesOf(sample, look));
    const balance = balanceRoll(tones, look);
    if (!ownCurve) return { balance };
    const printed = printedValues(samples, look, !isDisplay(pictures));
    return { start: { base: { density: look.base, from: "measured", spread: 0 }, ...printed }, balance };
  }
  const start = startValues({
    frames: samples,
    source: isDisplay(pictures) ? "display" : "raw",
    blank: hasBlank,
    film,
    ...(base ? { base } : {}),
    camera: cameraOf(pictures),
    ...(named ? { published: { ...named, from: filmStock.cameraFrom === "model" ? "model" : "mean" } } : {}),
    look,
  });
  return { start, balance: { ...UNFILTERED, exposure: start.exposure } };
}

/** What of the start holds for the whole roll. */
export const withoutFrames = ({
  exposure: _exposure,
  frameTones: _tones,
  ...rest
}: Omit<StartValues, "film">): NonNullable<StartedRoll["start"]> => rest;
