/** Dragging, wheel and double click on the pictures; dragging the wipe's line. */
import type { Session } from "./session.ts";
import { dragged, FIT, scaleOf, type Size, zoomedAt } from "./view.ts";
import { clamp } from "../../extension/engine/math/clamp.ts";

export function listenToPointer(session: Session, panes: readonly HTMLElement[], line: HTMLElement): void {
  for (const pane of panes) listenToPane(session, pane);
  line.addEventListener("pointerdown", (event) => {
    event.preventDefault();
    event.stopPropagation();
    line.querySelector("input")?.focus();
    line.setPointerCapture(event.pointerId);
  });
  line.addEventListener("pointermove", (event) => {
    if (!line.hasPointerCapture(event.pointerId)) return;
    event.stopPropagation();
    const box = panes[0].getBoundingClientRect();
    session.set({ wipe: clamp((event.clientX - box.left) / box.width, 0, 1) });
  });
}

function listenToPane(session: Session, pane: HTMLElement): void {
  const size = (): Size => ({ width: pane.clientWidth, height: pane.clientHeight });
  let at: readonly [number, number] | undefined;
  pane.addEventListener("pointerdown", (event) => {
    if (event.button !== 0) return;
    at = [event.clientX, event.clientY];
    pane.setPointerCapture(event.pointerId);
  });
  pane.addEventListener("pointermove", (event) => {
    const picture = pictureOf(session);
    if (!at || !picture || !pane.hasPointerCapture(event.pointerId)) return;
    const view = dragged(session.state.view, picture, size(), event.clientX - at[0], event.clientY - at[1]);
    at = [event.clientX, event.clientY];
    session.set({ view });
  });
  pane.addEventListener("pointerup", () => (at = undefined));
  pane.addEventListener("pointercancel", () => (at = undefined));
  pane.addEventListener(
    "wheel",
    (event) => {
      event.preventDefault();
      zoomBy(session, pane, Math.exp(-event.deltaY * (event.deltaMode === 1 ? 0.05 : 0.0015)), event);
    },
    { passive: false },
  );
  pane.addEventListener("dblclick", (event) => {
    const { view } = session.state;
    if (view.zoom === "fit") zoomTo(session, pane, 1, event);
    else session.set({ view: FIT });
  });
}

export const pictureOf = ({ state }: Session): Size | undefined =>
  state.entry?.frame?.after ?? state.entry?.frame?.before;

/** Zooms about a place on the screen, or about the pane's middle. */
export function zoomTo(
  session: Session,
  pane: HTMLElement,
  zoom: number,
  at?: { clientX: number; clientY: number },
): void {
  const picture = pictureOf(session);
  if (!picture) return;
  const box = pane.getBoundingClientRect();
  const [x, y] = at ? [at.clientX - box.left, at.clientY - box.top] : [box.width / 2, box.height / 2];
  const paneSize = { width: pane.clientWidth, height: pane.clientHeight };
  session.set({ view: zoomedAt(session.state.view, zoom, picture, paneSize, x, y) });
}

export function zoomBy(
  session: Session,
  pane: HTMLElement,
  factor: number,
  at?: { clientX: number; clientY: number },
): void {
  const picture = pictureOf(session);
  if (!picture) return;
  const paneSize = { width: pane.clientWidth, height: pane.clientHeight };
  zoomTo(session, pane, scaleOf(session.state.view, picture, paneSize) * factor, at);
}
