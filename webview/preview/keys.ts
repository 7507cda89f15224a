/** Keys of the whole panel, wherever the focus is; letters and digits where nothing is typed into. */
import { handlesKeys } from "../dom.ts";
import { reasonOf } from "../reason.ts";
import type { Help } from "./help.ts";
import type { Nudges } from "./nudges.ts";
import { refuse } from "./picture/gestures.ts";
import type { Picture } from "./picture/picture.ts";
import { toggleProof } from "./proof.ts";
import type { Session } from "./session.ts";
import { setZoom } from "./picture/set-zoom.ts";

export interface KeyTools {
  readonly session: Session;
  readonly picture: Picture;
  readonly stage: HTMLElement;
  readonly nudges: Nudges;
  /** Writes runs of key presses that are under way. */
  readonly flush: () => Promise<void>;
  readonly help: Help;
  /** Opens the sheet of all specks. */
  readonly showSpecks: () => void;
}

export function listenToKeys(tools: KeyTools): void {
  const { session, flush } = tools;
  window.addEventListener("keydown", (event) => {
    if (isUndo(event)) {
      // The panel's changes are the text's: so is their undoing.
      event.preventDefault();
      event.stopPropagation();
      const redo = event.shiftKey || event.key.toLowerCase() === "y";
      flush()
        .then(() => session.client.request("undo", { redo }))
        .catch((error: unknown) => refuse(session, reasonOf(error)));
      return;
    }
    if (event.ctrlKey || event.metaKey || event.altKey || tools.help.element.open) return;
    // No field takes a question mark.
    const isMine = event.key === "?" || !handlesKeys(event.target);
    if (stepsFrame(tools, event) || (isMine && pressesKey(tools, event))) event.preventDefault();
  });
  const release = (): void => session.store.set({ showsOther: false });
  window.addEventListener("keyup", (event) => {
    if (event.key === "c" || event.key === "C") release();
  });
  window.addEventListener("blur", () => {
    release();
    void flush();
  });
}

/** Undo and redo, but for what is typed into a field. */
function isUndo({ key, ctrlKey, metaKey, target }: KeyboardEvent): boolean {
  const typing = target instanceof HTMLInputElement && (target.type === "number" || target.type === "text");
  return (ctrlKey || metaKey) && /^[zy]$/i.test(key) && !typing;
}

/** Page keys step from everywhere: sliders and fields have written their value by now. */
function stepsFrame({ session, flush }: KeyTools, { key }: KeyboardEvent): boolean {
  if (key !== "PageUp" && key !== "PageDown") return false;
  void flush();
  session.step(key === "PageUp" ? -1 : 1);
  return true;
}

/** @returns whether the key is one of the panel's */
function pressesKey({ session, picture, stage, nudges, help, showSpecks }: KeyTools, event: KeyboardEvent): boolean {
  const { ui, showsOther } = session.store.get();
  const { key } = event;
  if (document.activeElement === stage && nudges.press(event)) return true;
  if (key === "?") help.toggle();
  else if (key === "s" || key === "S") showSpecks();
  else if (key === "p" || key === "P") toggleProof(session);
  else if (key === "c" || key === "C") {
    if (!showsOther) session.store.set({ showsOther: true });
  } else if (key === "0") setZoom(session, picture, "fit");
  else if (key === "1" || key === "2") setZoom(session, picture, Number(key));
  else if (key === "+" || key === "-") {
    const zoom = picture.layout()?.zoom ?? 1;
    setZoom(session, picture, key === "+" ? zoom * 1.25 : zoom / 1.25);
  } else if (key === "Escape" && ui.tool !== "look") session.ui({ tool: "look" });
  else return false;
  return true;
}
