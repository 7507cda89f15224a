/** The panel's one state. Everything that is drawn follows from it. */
import type { Spot } from "../../extension/engine/image/spot.ts";
import type { Area, FrameLook } from "../../extension/engine/types.ts";
import type { Cascade, PanelSettings, RollState } from "../../extension/messages.ts";
import type { Proof } from "../render/proof.ts";
import type { Source } from "../render/source.ts";
import type { Point } from "../state/affine.ts";
import type { UiState } from "../state/ui-state.ts";

/** What a gesture shows before the text has it. */
export interface Draft {
  readonly look?: FrameLook;
  readonly area?: Area;
  /** Values by path key, for the controls. */
  readonly values?: Readonly<Record<string, unknown>>;
}

export interface Model {
  readonly ui: UiState;
  readonly roll?: RollState;
  readonly settings: PanelSettings;
  /** Proxy of the frame in view: its thumbnail, or the last good one, while another loads. */
  readonly source?: Source;
  /** The picture of a neighbour that was fetched last. */
  readonly ahead?: Source;
  /** Whether `source` shows the frame in view. */
  readonly current: boolean;
  /** Full-resolution part of the scan, where one is zoomed in. */
  readonly detail?: Source;
  /** The proof that `ui.proof` asks for, and why there is none. */
  readonly proof?: Proof;
  readonly proofFailure?: string;
  /** Why there is no picture of this frame. */
  readonly failure?: string;
  readonly loading: boolean;
  readonly draft?: Draft;
  /** A gesture that could not be written. */
  readonly editFailure?: string;
  /** Something to be decided before it is written. */
  readonly question?: Question;
  /** Whether the other side of the comparison shows alone: for as long as the compare key is down. */
  readonly showsOther: boolean;
  readonly kept?: FrameLook;
  /** Where the pointer, or the keyboard's cross, is: fractions of the scan. */
  readonly pointer?: Point;
  readonly cascades: Readonly<Record<string, Cascade>>;
  /** Spots that are proposed in the picture; `chosen` is the one that the list is at. */
  readonly proposals?: Proposals;
  /** Spots that were marked and are not in the text yet. */
  readonly pending: readonly PendingSpot[];
  /** Counts surveys: proposals of an earlier one are asked for again. */
  readonly surveys: number;
  /** Spoken to screen readers. */
  readonly announcement: string;
}

export interface Question {
  readonly text: string;
  /** Words of the button that does it. */
  readonly accept: string;
  readonly run: () => void;
}

export interface PendingSpot {
  readonly frame: string;
  readonly spot: Spot;
}

export interface Proposals {
  readonly spots: readonly Spot[];
  readonly chosen?: number;
}
