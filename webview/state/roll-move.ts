/** A value of the whole roll that is moved: frames that state it themselves move by the same amount. */
import type { FrameEntry, ValueEdit } from "../../extension/messages.ts";
import { allowed, type Control } from "./controls.ts";

/** Whether a frame states a control's value itself. */
export const statesItself = ({ own }: FrameEntry, control: Control): boolean => own.includes(control.path.join("."));

/** Controls whose roll value is moved relative to the frames' own ones; the others do not reach such frames. */
export const movesAll = (control: Control): boolean => control.key === "exposure";

/**
 * @param from the roll's value as it is
 * @param to the roll's new value
 * @returns the edits of one gesture: the roll's value, and the frames' own ones, held to what the recipe allows
 */
export function moveRoll(
  frames: readonly FrameEntry[],
  control: Control,
  from: number,
  to: number,
): readonly ValueEdit[] {
  const own = frames.filter((frame) => statesItself(frame, control));
  return [
    { path: control.path, value: allowed(control, to) },
    ...own.map((frame) => ({
      path: ["frames", frame.id, ...control.path],
      value: allowed(control, control.of(frame.look) + to - from),
    })),
  ];
}
