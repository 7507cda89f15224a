/** A changed value between two states of a recipe, and where it is stated. */
import type { Origin } from "../resolve/cascade.ts";
import type { RecipePath } from "../path.ts";
import type { Value } from "../yaml/values.ts";
import type { Group } from "./wording/key-wordings.ts";

/** A value that one of the texts states otherwise than before: what has to be edited to take a change back. */
export interface Source {
  /** As it is called now; as it was called where it is gone. */
  readonly file: string;
  readonly path: RecipePath;
  readonly before: Value | undefined;
  readonly after: Value | undefined;
}

/** One side of a change. */
export interface ChangeSide {
  readonly value: Value;
  /** In words, with its unit. */
  readonly shown: string;
  readonly origin?: Origin;
}

/** One thing that a roll, a stock or a frame says otherwise than before. */
export interface Change {
  readonly group: Group;
  /** The frame it is about, by its name now; undefined for the roll or stock as a whole. */
  readonly frame?: string;
  /** Below the roll, the stock or the frame. */
  readonly path: RecipePath;
  /** Which item of a list: an output's name, a speck's position. */
  readonly item?: string;
  /** Which of the item's keys; absent where the item as a whole changed. */
  readonly field?: string;
  /** What people call it. */
  readonly name: string;
  /** "restated": the value is the same, but another level of the cascade states it now. */
  readonly kind: "changed" | "added" | "removed" | "renamed" | "restated";
  readonly before?: ChangeSide;
  readonly after?: ChangeSide;
  /** Without the subject: "exposure +0.00 → +0.33 EV (own value; was from the roll)". */
  readonly text: string;
  /** Whose value it is: "own value; was from the roll". Absent for a subject's own value before and after. */
  readonly origin?: string;
  /** Names of the frames whose value changed with the roll's; for changes of the roll or stock alone. */
  readonly followers: readonly string[];
  /** The statement that made the change; none where only the order or the choice of files changed. */
  readonly sources: readonly Source[];
}

/** Who a change is about: "frame 07", "roll", "stock". */
export const subjectOf = (change: Pick<Change, "frame">, kind: "roll" | "stock"): string =>
  change.frame === undefined ? kind : `frame ${change.frame}`;
