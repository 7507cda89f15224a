/** Zooming by buttons and keys, about the middle of the picture. */
import { zoomedAt } from "../../state/frame-transform.ts";
import type { Session } from "../session.ts";
import type { Picture } from "./picture.ts";

/** Zooms about the middle of the picture: to all of it, or to screen pixels per pixel of the scan. */
export function setZoom(session: Session, picture: Picture, zoom: "fit" | number): void {
  const layout = picture.layout();
  if (zoom === "fit" || !layout) return session.ui({ viewport: { zoom: "fit", centre: [0.5, 0.5] } });
  const paneBox = layout.paneBoxes[0];
  const { viewport } = session.store.get().ui;
  session.ui({
    viewport: zoomedAt(layout.transform, viewport, paneBox, zoom, [
      paneBox.x + paneBox.width / 2,
      paneBox.y + paneBox.height / 2,
    ]),
  });
}
