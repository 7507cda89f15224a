/** Keys of the whole sheet, wherever the focus is, as long as it is in nothing that is typed into. */
import { handlesKeys } from "../dom.ts";
import { t } from "../translate.ts";
import type { SheetSession } from "./sheet-session.ts";
import type { makeGestures } from "./work.ts";

export function listenToSheetKeys(session: SheetSession, gestures: ReturnType<typeof makeGestures>): void {
  const plain: Readonly<Record<string, () => void>> = {
    k: gestures.keep,
    r: gestures.reject,
    "+": gestures.rankUp,
    "-": gestures.rankDown,
    "−": gestures.rankDown,
    s: gestures.beside,
    m: gestures.match,
  };
  window.addEventListener("keydown", (event) => {
    const key = event.key.toLowerCase();
    const typing = event.target instanceof HTMLInputElement && event.target.type === "number";
    if ((event.ctrlKey || event.metaKey) && (key === "z" || key === "y") && !typing) {
      // The sheet's changes are the text's: so is their undoing.
      event.preventDefault();
      event.stopPropagation();
      const redo = event.shiftKey || key === "y";
      void session.attempt(() => session.client.request("undo", { redo }));
      return;
    }
    if (event.ctrlKey || event.metaKey || event.altKey || handlesKeys(event.target)) return;
    const { draft, beside, selection } = session.store.get();
    if (key === "escape" && draft?.offer) {
      session.store.set({ draft: undefined });
      session.announce(t("The match is discarded."));
    } else if (key === "escape" && beside.length > 0) session.store.set({ beside: [] });
    else if (key === "enter" && isTile(event.target) && selection.focus !== undefined) {
      const frame = selection.focus;
      void session.attempt(() => session.client.request("openPreview", { frame }));
    } else if (Object.hasOwn(plain, key) && beside.length === 0) plain[key]!();
    else return;
    event.preventDefault();
  });
}

const isTile = (target: EventTarget | null): boolean =>
  target instanceof Element && target.closest(".sheet-tile") !== null;
