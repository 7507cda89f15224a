/** Where a picture lies in its pane, for a zoom and a centre that all panes share. */
import { clamp } from "../../extension/engine/math/clamp.ts";

export interface View {
  /** "fit", or screen pixels for each pixel of the picture. */
  readonly zoom: "fit" | number;
  /** The place of the picture that is in the middle of the pane, in fractions of its sides. */
  readonly x: number;
  readonly y: number;
}

export const FIT: View = { zoom: "fit", x: 0.5, y: 0.5 };

export interface Size {
  readonly width: number;
  readonly height: number;
}

export interface Placed extends Size {
  readonly left: number;
  readonly top: number;
}

const MIN_SCALE = 0.05;
const MAX_SCALE = 16;

/** The scale that shows the whole picture, never enlarged beyond 2. */
export const fitScale = (picture: Size, pane: Size): number =>
  Math.min(2, pane.width / picture.width, pane.height / picture.height);

export const scaleOf = ({ zoom }: View, picture: Size, pane: Size): number =>
  zoom === "fit" ? fitScale(picture, pane) : zoom;

/** The picture's box in its pane; centred along a side that it does not fill, else held to the pane's edges. */
export function placed(view: View, picture: Size, pane: Size): Placed {
  const scale = scaleOf(view, picture, pane);
  const along = (length: number, available: number, at: number): number => {
    const size = length * scale;
    return size <= available
      ? (available - size) / 2
      : Math.min(0, Math.max(available - size, available / 2 - at * size));
  };
  return {
    left: along(picture.width, pane.width, view.x),
    top: along(picture.height, pane.height, view.y),
    width: picture.width * scale,
    height: picture.height * scale,
  };
}

/** Another zoom, with the picture's place under (x, y) of the pane staying there. */
export function zoomedAt(view: View, zoom: View["zoom"], picture: Size, pane: Size, x: number, y: number): View {
  if (zoom === "fit") return FIT;
  const wanted = clamp(zoom, MIN_SCALE, MAX_SCALE);
  const box = placed(view, picture, pane);
  const [u, v] = [(x - box.left) / box.width, (y - box.top) / box.height];
  return withinPicture({
    zoom: wanted,
    x: u - (x - pane.width / 2) / (picture.width * wanted),
    y: v - (y - pane.height / 2) / (picture.height * wanted),
  });
}

/** The view after the picture was dragged by (dx, dy) screen pixels. */
export function dragged(view: View, picture: Size, pane: Size, dx: number, dy: number): View {
  const scale = scaleOf(view, picture, pane);
  return withinPicture({
    ...view,
    x: view.x - dx / (picture.width * scale),
    y: view.y - dy / (picture.height * scale),
  });
}

const withinPicture = (view: View): View => ({ ...view, x: clamp(view.x, 0, 1), y: clamp(view.y, 0, 1) });
