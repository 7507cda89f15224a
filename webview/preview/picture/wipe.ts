/** The wipe's line: dragged, or moved with the arrow keys of a native slider that lies under it. */
import { el } from "../../dom.ts";
import type { Session } from "../session.ts";
import { t } from "../../translate.ts";
import { clamp } from "../../../extension/engine/math/clamp.ts";

export function makeWipe(session: Session, stage: HTMLElement): HTMLElement {
  const range = el("input", {
    type: "range",
    min: "0",
    max: "100",
    step: "1",
    "aria-label": t("Place of the wipe, percent"),
  });
  const element = el("div", { class: "wipe" }, range);
  range.addEventListener("input", () => session.ui({ wipe: range.valueAsNumber / 100 }));
  element.addEventListener("pointerdown", (event) => {
    event.preventDefault();
    event.stopPropagation();
    range.focus();
    element.setPointerCapture(event.pointerId);
  });
  element.addEventListener("pointermove", (event) => {
    if (!element.hasPointerCapture(event.pointerId)) return;
    event.stopPropagation();
    const box = stage.getBoundingClientRect();
    session.ui({ wipe: clamp((event.clientX - box.left) / box.width, 0, 1) });
  });
  session.store.on(({ ui, showsOther, source }) => {
    element.hidden = ui.compare !== "wipe" || showsOther || !source;
    element.style.setProperty("--at", String(ui.wipe));
    range.value = String(Math.round(ui.wipe * 100));
  });
  return element;
}
