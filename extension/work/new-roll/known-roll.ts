/** What a recipe states already when its automatic values are renewed: it is taken as given, and the rest is found again. */
import type { Area, LensFaults, Rgb } from "../../engine/types.ts";
import type { PlacedFalloff } from "../../engine/flat-field/falloff.ts";
import type { ShutterTimes } from "../../engine/flat-field/shutter-times.ts";
import type { StockLook } from "./film/stock-look.ts";
import type { ShotFrame } from "./pictures/join-shots.ts";

export interface KnownFrame {
  readonly id: string;
  /** Names of its scans, relative to the roll's folder of scans. */
  readonly scans: readonly string[];
  /** True where the scans are exposures of one picture that are merged. */
  readonly merged?: true;
  /** Where each scan lies on the first. */
  readonly places?: NonNullable<ShotFrame["join"]>["places"];
  /** Its rectangle, where that is kept. */
  readonly area?: Area;
  /** Its rectangle as the recipe has it, whether that is kept or found again. */
  readonly place: Area;
}

export interface KnownRoll {
  /** Look of the recipe with its stock, without what is to be found again. */
  readonly stock: StockLook;
  /** Whether curve or gamma are the roll's own: then its tones are as well. */
  readonly ownCurve: boolean;
  /** Whether a blank counts: none that is in the folder, where the recipe names none and its base is kept. */
  readonly hasBlank: boolean;
  /** Kept shutter times, flare and base; absent where they are found again. */
  readonly times?: ShutterTimes;
  readonly flare?: Rgb;
  readonly base?: Rgb;
  /** Faults of the lens that the recipe corrects. */
  readonly lens?: LensFaults;
  /** Falloff that the recipe corrects, measured from where the kept base was read. */
  readonly falloff?: PlacedFalloff;
  readonly frames: readonly KnownFrame[];
}
