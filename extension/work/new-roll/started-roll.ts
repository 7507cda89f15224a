/** What starting a roll found: its base, its balance and its frames. */
import type { BasePlace } from "../../engine/auto/roll/base-ranking.ts";
import type { RollBalance } from "../../engine/auto/balance.ts";
import type { BaseDifference } from "../../engine/auto/roll/base-difference.ts";
import type { FilmKind } from "../../engine/auto/film-kind.ts";
import type { StartValues } from "../../engine/auto/start-values.ts";
import type { ShutterReading } from "../../engine/flat-field/shutter-times.ts";
import type { ReadingArea } from "../../engine/flat-field/densitometer.ts";
import type { UnmixOrigin } from "../../engine/calibrate/camera-unmix/index.ts";
import type { Rgb } from "../../engine/types.ts";
import type { ShotFrame } from "./pictures/join-shots.ts";
import type { FoundPicture } from "./pictures/found-picture.ts";
import type { EdgeReading } from "./edge/edge-codes.ts";
import type { SecondRoll } from "./edge/two-rolls.ts";
import type { FilmStock } from "./film/film-stock.ts";

export interface StartedFrame {
  readonly id: string;
  readonly scans: readonly string[];
  /** True where the scans are exposures of one picture that are merged. */
  readonly merged?: true;
  /** Which of several pictures on its scan it is, from 1, and how many there are. */
  readonly part?: readonly [number: number, of: number];
  /** Other scans of the same picture. */
  readonly unused: readonly string[];
  /** How the scans lie to one another, where there are several. */
  readonly join?: ShotFrame["join"];
  /** Of the scan, or of all scans laid together. */
  readonly found?: FoundPicture["frame"];
  readonly exposure: number;
  /** Contrast of its own, where the roll's would crowd its tones. */
  readonly contrast?: number;
}

export interface StartedRoll {
  readonly text: string;
  /** The stock's recipe that belongs to it, where it was written from a published film. */
  readonly filmStock?: Pick<FilmStock, "text" | "name" | "cameraFrom"> & { readonly path: string };
  /** What the film's edge says of film and frames, where a code is in view. */
  readonly edge?: EdgeReading;
  /** Where a second roll seems to begin. */
  readonly second?: SecondRoll;
  readonly blank?: string;
  readonly leaders: readonly string[];
  readonly duplicates: readonly string[];
  /** Scans that could not be read, with the reason. */
  readonly unreadable: readonly { readonly name: string; readonly reason: string }[];
  readonly base?: RollBase;
  /** What the files' shutter times are, where the base tells. */
  readonly shutter?: ShutterReading;
  readonly difference?: BaseDifference & { readonly words: string };
  readonly flare?: Rgb;
  /** Whether nothing showed the flare, and what is usual was taken. */
  readonly flareAssumed?: boolean;
  /** Kind of film, how sure, and whether it was stated or inferred from the scans. */
  readonly film: Pick<FilmKind, "film" | "certainty"> & { readonly from: "stated" | "inferred" };
  /** What the scans alone say, where no stock states a negative. */
  readonly start?: Omit<StartValues, "film" | "exposure" | "frameTones">;
  /** Density ranges of the frames on black-and-white film; see `densityRange`. */
  readonly densityRanges?: readonly number[];
  /** What would make the start surer, a sentence each. */
  readonly advice: readonly string[];
  /** Where the unmix comes from that the recipe states, where the stock states a curve or gamma but no unmix. */
  readonly unmix?: { readonly camera: string; readonly from: UnmixOrigin };
  readonly balance: RollBalance;
  readonly frames: readonly StartedFrame[];
  readonly warnings: readonly string[];
}

export interface RollBase {
  readonly density: Rgb;
  readonly scan: string;
  readonly area: ReadingArea;
  readonly scatter: Rgb;
  /** Where on the film it was read, and how sure such a reading is: standard deviation, D. */
  readonly place: BasePlace;
  readonly uncertainty: number;
  /** Greatest difference between the bases of the roll's scans, in any channel. */
  readonly spread: number;
}
