/** What is judged at the copy stand, and how it is judged. Types only. */
import type { FoundFrame } from "../detect/frame.ts";
import type { DensityMap } from "../detect/overlap.ts";
import type { GrainPrint } from "../detect/same-film.ts";
import type { Message } from "../messages.ts";
import type { NumberMatch } from "../survey/lettering.ts";
import type { BlankReading, Box, ScanReading } from "../survey/types.ts";
import type { Film, Rgb } from "../types.ts";

/**
 * The first word of a verdict. `good`: go on. `look`: usable, but look at it before you go on. `again`: photograph this
 * again while the film lies in the holder.
 */
export type VerdictWord = "good" | "look" | "again";

/** One thing that a verdict rests on. */
export interface Reason {
  /** A code of the survey (docs/findings.md) or of the copy stand (docs/copy-stand.md). */
  readonly code: string;
  readonly word: VerdictWord;
  /** What is wrong, as a sentence with its number. */
  readonly message: Message;
  /** What to do at the stand, as a sentence. */
  readonly remedy: Message;
  /** Where in the scan, in fractions of its sides. */
  readonly areas: readonly Box[];
}

export interface Verdict {
  readonly word: VerdictWord;
  /** The most pressing first; empty for a good scan. */
  readonly reasons: readonly Reason[];
}

/** A scan of a picture as the copy stand knows it. */
export interface JudgedScan {
  readonly name: string;
  /** Frame of the roll that it belongs to. */
  readonly frame: string;
  readonly reading: ScanReading;
  /** The picture's rectangle as it was found on this scan alone. */
  readonly found?: FoundFrame;
  readonly map: DensityMap;
  readonly grain?: GrainPrint;
  /** How well numbers near the expected one agree with the film's edge. */
  readonly numbers: readonly NumberMatch[];
  /** What the code on the film's edge says, where it shows one. */
  readonly edge?: {
    /** The film by its code, "36-2". */
    readonly film: string;
    /** The frame in the roll's own count, where the code has a number. */
    readonly frame?: string;
    /** Whether the code lies as a mirror shows it. */
    readonly mirrored: boolean;
  };
}

/** What is known of the roll when a scan is judged. */
export interface StandRoll {
  readonly film: Film;
  readonly base?: Rgb;
  readonly flare: Rgb;
  /** Whether the recipe mirrors the roll's pictures: the emulsion faced the camera. */
  readonly mirror?: boolean;
  /** Sides of the format's picture in millimetres, the longer first. */
  readonly picture?: readonly [long: number, short: number];
  readonly blank?: BlankReading;
  /** The scan of the same picture that this one was taken again for, and its verdict. */
  readonly earlier?: { readonly name: string; readonly word: VerdictWord };
  /** Scans that the roll's other frames use, in the order in which they were taken. */
  readonly before: readonly JudgedScan[];
  /** Earlier scans of the same picture. */
  readonly retakes: readonly JudgedScan[];
  /** The scan that was taken last before this one, used or not. */
  readonly last?: JudgedScan;
}
