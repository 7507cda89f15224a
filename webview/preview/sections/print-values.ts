/** The print's values while they are moved and written, by sliders, keys and pickers alike: for the frame or the roll. */
import type { FrameLook } from "../../../extension/engine/types.ts";
import type { Scope } from "../../state/cascade.ts";
import { accessibleText, allowed, type Control } from "../../state/controls.ts";
import { setValue } from "../../state/edits.ts";
import { movesAll, moveRoll, statesItself } from "../../state/roll-move.ts";
import { t } from "../../translate.ts";
import { keyOf, type Session } from "../session.ts";
import { provenanceOf } from "./origin.ts";

/** The value that a control shows: of the gesture under way, of the scope, or of the frame's look. */
export function shownValue(session: Session, control: Control): number | undefined {
  const { draft, ui } = session.store.get();
  const look = session.frame()?.look;
  const stated = draft?.values?.[keyOf(control.path)] ?? provenanceOf(session, control.path, ui.scope)?.value;
  // A paper's contrast is stated as text; the slider shows the slope that it comes to.
  return typeof stated === "number" ? stated : look && control.of(look);
}

/** The roll's own value, as far as it is known. */
function rollValue(session: Session, control: Control): number | undefined {
  const value = provenanceOf(session, control.path, "roll")?.value;
  return typeof value === "number" ? value : undefined;
}

/** The frame's look with a control at a value of the scope. A frame with a value of its own does not follow the roll, or moves with it. */
function lookWith(session: Session, control: Control, value: number, scope: Scope): FrameLook | undefined {
  const frame = session.frame();
  const look = session.look();
  if (!frame || !look) return undefined;
  if (scope === "frame" || !statesItself(frame, control)) return control.with(look, value);
  const from = rollValue(session, control);
  if (!movesAll(control) || from === undefined) return look;
  return control.with(look, allowed(control, control.of(frame.look) + value - from));
}

/** Shows a control at a value, without writing it. @returns the value, held to what the recipe allows */
export function showValue(session: Session, control: Control, raw: number): number | undefined {
  const value = allowed(control, raw);
  const look = lookWith(session, control, value, session.store.get().ui.scope);
  if (!look) return undefined;
  session.preview({ look, values: { [keyOf(control.path)]: value } });
  return value;
}

/** Writes a control's value into the frame or the roll: one edit. */
export function writeValue(session: Session, control: Control, raw: number): void {
  const frame = session.frame();
  const value = showValue(session, control, raw);
  if (!frame || value === undefined) return;
  const { ui, draft, roll } = session.store.get();
  const label = `${control.label} ${accessibleText(control, value)}`;
  const from = rollValue(session, control);
  if (ui.scope === "frame" || !movesAll(control) || from === undefined)
    return void session.commit(label, setValue(ui.scope, frame.id, control.path, value), draft);
  const frames = roll?.frames ?? [];
  void session.commit(t("{0}: {1} frames", label, frames.length), moveRoll(frames, control, from, value), draft);
}

/** Sets a control so that the frame in view comes to a value: in the roll's scope by moving the roll as far. */
export function bringFrameTo(session: Session, control: Control, wanted: number): void {
  const frame = session.frame();
  if (!frame) return;
  const from = rollValue(session, control);
  const isMoved = session.store.get().ui.scope === "roll" && movesAll(control) && statesItself(frame, control);
  writeValue(session, control, isMoved && from !== undefined ? from + wanted - control.of(frame.look) : wanted);
}
