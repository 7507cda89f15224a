/** Keys of the whole panel, wherever the focus is, as long as it is in nothing that is typed into. */
import { handlesKeys } from "../dom.ts";
import { refuse } from "./picture/gestures.ts";
import type { Picture } from "./picture/picture.ts";
import { setZoom } from "./toolbar.ts";
import type { Session } from "./session.ts";
import { reasonOf } from "../reason.ts";

export function listenToKeys(session: Session, picture: Picture): void {
  window.addEventListener("keydown", (event) => {
    const undo = event.key.toLowerCase() === "z" || event.key.toLowerCase() === "y";
    const typing = event.target instanceof HTMLInputElement && event.target.type === "number";
    if ((event.ctrlKey || event.metaKey) && undo && !typing) {
      // The panel's changes are the text's: so is their undoing.
      event.preventDefault();
      event.stopPropagation();
      const redo = event.shiftKey || event.key.toLowerCase() === "y";
      session.client.request("undo", { redo }).catch((error: unknown) => refuse(session, reasonOf(error)));
      return;
    }
    if (event.ctrlKey || event.metaKey || event.altKey || handlesKeys(event.target)) return;
    const { ui, showsOther } = session.store.get();
    if (event.key === "PageUp") session.step(-1);
    else if (event.key === "PageDown") session.step(1);
    else if (event.key === "c" || event.key === "C") {
      if (!showsOther) session.store.set({ showsOther: true });
    } else if (event.key === "0") setZoom(session, picture, "fit");
    else if (event.key === "1" || event.key === "2") setZoom(session, picture, Number(event.key));
    else if (event.key === "+" || event.key === "-") {
      const zoom = picture.layout()?.zoom ?? 1;
      setZoom(session, picture, event.key === "+" ? zoom * 1.25 : zoom / 1.25);
    } else if (event.key === "Escape" && ui.tool !== "look") session.ui({ tool: "look" });
    else return;
    event.preventDefault();
  });
  const release = (): void => session.store.set({ showsOther: false });
  window.addEventListener("keyup", (event) => {
    if (event.key === "c" || event.key === "C") release();
  });
  window.addEventListener("blur", release);
}
