/** Pointer and keyboard over the picture: panning, zooming, the wipe, and the tools. */
import { clamp } from "../../../extension/engine/math/clamp.ts";
import { apply, inverse, type Point } from "../../state/affine.ts";
import { panned, zoomedAt } from "../../state/frame-transform.ts";
import { type PointingTools, startDrag } from "./drags.ts";
import { addPin, addSpot, pickGrey, pickNeutral, readBase, removePin, removeSpot, SPOT_RADIUS } from "./gestures.ts";
import type { Layout } from "./picture.ts";
import type { Drag } from "./tool.ts";
import { t } from "../../translate.ts";

/** A press that moved less than this (CSS pixels) is a click. */
const CLICK = 4;

/** Lets pointer and keyboard work the tools on the stage that holds the picture. */
export function makePointing(tools: PointingTools, stage: HTMLElement): void {
  followPointer(tools, stage);
  zoomOnWheelAndDoubleClick(tools, stage);
  const cross = new KeyboardCross(tools);
  stage.addEventListener("keydown", (event) => {
    const layout = tools.picture.layout();
    if (event.target === stage && layout) cross.press(event, layout);
  });
}

/** A click, or Enter at the keyboard's cross. */
function click({ session, choices, lines }: PointingTools, at: Point, target?: Element): void {
  const { ui } = session.store.get();
  const pin = target?.getAttribute("data-pin");
  const spot = target?.getAttribute("data-spot")?.split(" ");
  if (ui.tool === "pin" && pin) removePin(session, Number(pin));
  else if (ui.tool === "pin") addPin(session, at);
  else if (ui.tool === "neutral") pickNeutral(session, at);
  else if (ui.tool === "grey") pickGrey(session, at);
  else if (ui.tool === "spots" && lines.isUnderWay) lines.add(at);
  else if (ui.tool === "spots" && spot) removeSpot(session, spot[0] === "light" ? "light" : "film", Number(spot[1]));
  else if (ui.tool === "spots" && choices.spotShape() === "line") lines.add(at);
  else if (ui.tool === "spots") addSpot(session, choices.spotKind(), at, SPOT_RADIUS);
  if (ui.tool === "neutral" || ui.tool === "grey") session.ui({ tool: "look" });
}

const inPicture = ([x, y]: Point): boolean => x >= 0 && y >= 0 && x <= 1 && y <= 1;

/** Presses, drags and clicks. */
function followPointer(tools: PointingTools, stage: HTMLElement): void {
  const { session, picture, overlay } = tools;
  let drag: Drag | undefined;
  let pressed: { x: number; y: number; moved: boolean } | undefined;

  stage.addEventListener("pointerdown", (event) => {
    const layout = picture.layout();
    const at = picture.scanAt(event.clientX, event.clientY);
    if (event.button !== 0 || !layout || !at || !session.store.get().current) return;
    if (event.target instanceof Element && event.target.closest(".wipe")) return;
    stage.setPointerCapture(event.pointerId);
    pressed = { x: event.clientX, y: event.clientY, moved: false };
    drag = startDrag(tools, event, at, layout);
  });

  stage.addEventListener("pointermove", (event) => {
    const at = picture.scanAt(event.clientX, event.clientY);
    session.store.set({ pointer: at && inPicture(at) ? at : undefined });
    if (!pressed && at) tools.lines.point(at);
    if (!pressed || !at) return;
    if (!pressed.moved && Math.hypot(event.clientX - pressed.x, event.clientY - pressed.y) < CLICK) return;
    pressed.moved = true;
    drag?.move(at, event);
  });

  stage.addEventListener("pointerup", (event) => {
    const at = picture.scanAt(event.clientX, event.clientY);
    const [was, under] = [pressed, drag];
    pressed = drag = undefined;
    if (!was || !at) return;
    if (was.moved) under?.end(at);
    else if (inPicture(at)) {
      // The capture makes the stage the target: ask what really lies there.
      click(tools, at, document.elementFromPoint(event.clientX, event.clientY) ?? undefined);
    }
  });

  stage.addEventListener("pointercancel", () => {
    pressed = drag = undefined;
    overlay.draw(undefined);
    session.store.set({ draft: undefined });
  });
  stage.addEventListener("pointerleave", () => session.store.set({ pointer: undefined }));
}

function zoomOnWheelAndDoubleClick({ session, picture }: PointingTools, stage: HTMLElement): void {
  stage.addEventListener(
    "wheel",
    (event) => {
      const layout = picture.layout();
      if (!layout) return;
      event.preventDefault();
      const { at, pane } = picture.canvasAt(event.clientX, event.clientY);
      const zoom = layout.zoom * 2 ** (-event.deltaY / (event.deltaMode === 0 ? 300 : 8));
      session.ui({
        viewport: zoomedAt(layout.transform, session.store.get().ui.viewport, layout.paneBoxes[pane], zoom, at),
      });
    },
    { passive: false },
  );

  stage.addEventListener("dblclick", (event) => {
    const layout = picture.layout();
    const { ui } = session.store.get();
    if (!layout || ui.tool !== "look") return;
    const { at, pane } = picture.canvasAt(event.clientX, event.clientY);
    const viewport = zoomedAt(layout.transform, ui.viewport, layout.paneBoxes[pane], 1, at);
    session.ui({ viewport: ui.viewport.zoom === "fit" ? viewport : { zoom: "fit", centre: [0.5, 0.5] } });
  });
}

/** The keyboard's way over the picture: arrows move a cross, Enter clicks there, Escape leaves the tool. */
class KeyboardCross {
  readonly #tools: PointingTools;
  /** First corner of an area, between the two presses of Enter that mark it. */
  #corner: Point | undefined;

  constructor(tools: PointingTools) {
    this.#tools = tools;
  }

  press(event: KeyboardEvent, layout: Layout): void {
    const { session, lines } = this.#tools;
    const way = ARROWS[event.key];
    const { ui, pointer } = session.store.get();
    if (way && !event.ctrlKey && !event.metaKey && !event.altKey) {
      event.preventDefault();
      this.#move(way, event.shiftKey, layout);
    } else if (event.key === "Enter" && pointer && ui.tool !== "look") {
      event.preventDefault();
      this.#enter(pointer);
    } else if (lines.isUnderWay && (event.key === "Backspace" || event.key === "Escape")) {
      event.preventDefault();
      // The panel's own Escape would leave the tool.
      event.stopPropagation();
      if (event.key === "Backspace") lines.back();
      else lines.cancel();
    } else if (event.key === "Escape") {
      this.#clearCorner();
      if (ui.tool !== "look") session.ui({ tool: "look" });
    }
  }

  #move(way: Point, isFine: boolean, layout: Layout): void {
    const { session, overlay, lines } = this.#tools;
    const { ui, pointer } = session.store.get();
    const pane = layout.paneBoxes[0];
    // With the tool for areas, arrows mark points only where something is to be drawn.
    if (ui.tool === "look" || (ui.tool === "local" && !this.#tools.choices.localDrawing())) {
      const missing = ui.tool === "local" ? this.#tools.choices.localMissing() : undefined;
      if (missing) session.announce(missing);
      const [dx, dy] = [-way[0] * pane.width * 0.1, -way[1] * pane.height * 0.1];
      return session.ui({ viewport: panned(layout.transform, ui.viewport, pane, dx, dy) });
    }
    // The cross moves on the canvas, so that up is up however the picture is turned.
    const { scanWidth: w, scanHeight: h } = layout.source;
    const from: Point = pointer
      ? apply(layout.maps[0], [pointer[0] * w, pointer[1] * h])
      : [pane.x + pane.width / 2, pane.y + pane.height / 2];
    const far = (isFine ? 1 : 8) * layout.ratio;
    const [x, y] = apply(inverse(layout.maps[0]), [from[0] + way[0] * far, from[1] + way[1] * far]);
    const next: Point = [clamp(x / w, 0, 1), clamp(y / h, 0, 1)];
    session.store.set({ pointer: next });
    if (this.#corner) {
      const drawn = ui.tool === "local" ? this.#tools.choices.localDrawing() : undefined;
      overlay.draw({ kind: drawn?.shape ?? "rectangle", from: this.#corner, to: next });
    } else lines.point(next);
  }

  #enter(pointer: Point): void {
    const { session, choices } = this.#tools;
    const { tool } = session.store.get().ui;
    const drawArea = tool === "local" ? choices.localDrawing() : undefined;
    if (tool !== "base" && !drawArea) return click(this.#tools, pointer);
    const from = this.#corner;
    if (!from) {
      this.#corner = pointer;
      return session.announce(
        drawArea?.shape === "line"
          ? t("First point of the line. Move on and press Enter for the second one.")
          : t("First corner of the area. Move on and press Enter for the opposite one."),
      );
    }
    this.#clearCorner();
    if (drawArea) return drawArea.done(from, pointer);
    void readBase(session, from, pointer, choices.baseScope());
  }

  #clearCorner(): void {
    this.#corner = undefined;
    this.#tools.overlay.draw(undefined);
  }
}

const ARROWS: Readonly<Record<string, Point>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
