/** Keys of the whole page, as long as nothing has the focus that needs them itself. */
import { pictureOf, zoomBy, zoomTo } from "./pointer.ts";
import { type Mode, type Session } from "./session.ts";
import { flip } from "./stage.ts";
import { FIT } from "./view.ts";
import { t } from "../translate.ts";
import { clamp } from "../../extension/engine/math/clamp.ts";

/** What each key does; the help lists them. */
export const keyHelp = (): readonly (readonly [keys: string, does: string])[] => [
  [t("↑ ↓  or  k j"), t("frame before, next frame")],
  [t("Enter"), t("list frames without a visible change, or fold them")],
  ["w  s  b  d", t("wipe, side by side, blink, difference")],
  ["← →", t("move the wipe")],
  ["c", t("hold: the picture as it was")],
  [t("space"), t("stop the blinking, or change sides")],
  ["0  1  2", t("fit, 100 %, 200 %")],
  ["+ −", t("zoom; drag to move, wheel to zoom")],
  ["?", t("these keys")],
];

const modeKeys: Readonly<Record<string, Mode>> = { w: "wipe", s: "side", b: "blink", d: "difference" };

export function listenToKeys(session: Session, stage: HTMLElement, help: HTMLDialogElement): void {
  const pane = stage.querySelector<HTMLElement>(".pane") as HTMLElement;
  addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || help.open) return;
    if (!act(event)) return;
    event.preventDefault();
  });
  const release = (): void => {
    if (session.state.showsBefore) session.set({ showsBefore: false });
  };
  addEventListener("keyup", (event) => {
    if (event.key.toLowerCase() === "c") release();
  });
  addEventListener("blur", release);

  function act({ key, target }: KeyboardEvent): boolean {
    const onButton = target instanceof HTMLButtonElement;
    const onWipe = target instanceof HTMLInputElement;
    const { mode, wipe, blink } = session.state;
    const letter = key.length === 1 ? key.toLowerCase() : key;
    const wanted = modeKeys[letter];
    if (wanted) session.set({ mode: wanted });
    else if (letter === "c") session.set({ showsBefore: true });
    else if (letter === "Enter" && session.state.entry?.fold && !onButton)
      session.toggleFold(session.state.entry.recipe);
    else if ((letter === "ArrowDown" || letter === "j") && !onWipe) session.step(1);
    else if ((letter === "ArrowUp" || letter === "k") && !onWipe) session.step(-1);
    else if ((letter === "ArrowLeft" || letter === "ArrowRight") && mode === "wipe" && !onWipe)
      session.set({ wipe: clamp(wipe + (letter === "ArrowLeft" ? -0.02 : 0.02), 0, 1) });
    else if (letter === " " && mode === "blink" && !onButton) {
      if (blink.running) session.set({ blink: { ...blink, running: false } });
      else flip(session);
    } else if (letter === "0") session.set({ view: FIT });
    else if ((letter === "1" || letter === "2") && pictureOf(session)) zoomTo(session, pane, Number(letter));
    else if (letter === "+" || letter === "=") zoomBy(session, pane, 1.25);
    else if (letter === "-") zoomBy(session, pane, 1 / 1.25);
    else if (letter === "?") help.showModal();
    else return false;
    return true;
  }
}
