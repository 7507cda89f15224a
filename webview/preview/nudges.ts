/** Keys that move exposure and filtration a step while the picture has the focus. A run of presses is one gesture. */
import { type Control, type ControlKey, CONTROLS, controlsFor } from "../state/controls.ts";
import { shownValue, showValue, writeValue } from "./sections/print-values.ts";
import type { Session } from "./session.ts";

/** Each value has two keys, one above the other on the keyboard: the upper one for more. */
interface NudgeKeys {
  readonly key: ControlKey;
  readonly more: string;
  readonly less: string;
  /** A press, and a press with Shift, in the value's unit. */
  readonly step: number;
  readonly fine: number;
}

export const NUDGES: readonly NudgeKeys[] = [
  { key: "exposure", more: "e", less: "d", step: 0.1, fine: 0.02 },
  { key: "cyan", more: "t", less: "g", step: 2, fine: 0.5 },
  { key: "magenta", more: "u", less: "j", step: 2, fine: 0.5 },
  { key: "yellow", more: "o", less: "l", step: 2, fine: 0.5 },
];

/** Milliseconds without a press after which a run of presses is written. */
const REST = 450;

export class Nudges {
  readonly #session: Session;
  /** The value is kept here: a roll that arrives meanwhile drops what is shown. */
  #run?: {
    readonly control: Control;
    readonly value: number;
    readonly timer: ReturnType<typeof setTimeout>;
    readonly frame: string;
  };

  constructor(session: Session) {
    this.#session = session;
  }

  /** @returns whether the key is one of these */
  press({ key, shiftKey }: KeyboardEvent): boolean {
    const pressed = key.toLowerCase();
    const nudge = NUDGES.find(({ more, less }) => more === pressed || less === pressed);
    const control = nudge && CONTROLS.find((one) => one.key === nudge.key);
    const frame = this.#session.frame();
    const { roll } = this.#session.store.get();
    if (!nudge || !control || !frame || !roll || roll.stale || !controlsFor(frame.look).includes(control)) return false;
    if (this.#run && this.#run.control !== control) this.flush();
    const before = this.#run?.frame === frame.id ? this.#run.value : shownValue(this.#session, control);
    if (before === undefined) return false;
    const step = shiftKey ? nudge.fine : nudge.step;
    const value = showValue(this.#session, control, before + (pressed === nudge.more ? step : -step));
    clearTimeout(this.#run?.timer);
    if (value === undefined) return false;
    this.#run = { control, value, frame: frame.id, timer: setTimeout(() => this.flush(), REST) };
    return true;
  }

  /** Writes the run that is under way: another frame or another gesture comes. */
  flush(): void {
    const run = this.#run;
    if (!run) return;
    clearTimeout(run.timer);
    this.#run = undefined;
    if (this.#session.frame()?.id === run.frame) writeValue(this.#session, run.control, run.value);
  }
}
