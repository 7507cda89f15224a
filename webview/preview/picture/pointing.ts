/** Pointer and keyboard over the picture: panning, zooming, the wipe, and the tools. */
import type { Session } from "../session.ts";
import { apply, inverse, type Point } from "../../state/affine.ts";
import { dragged, type Handle, handleAt, levelling, tilted } from "../../state/crop.ts";
import { panned, zoomedAt } from "../../state/placing.ts";
import {
  addPin,
  addSpot,
  commitArea,
  pickGrey,
  pickNeutral,
  readBase,
  removePin,
  removeSpot,
  SPOT_RADIUS,
} from "./gestures.ts";
import type { Overlay } from "./overlay.ts";
import type { Layout, Picture } from "./picture.ts";
import { t } from "../../words.ts";
import { clamp } from "../../../extension/engine/math/clamp.ts";

/** What the tools need to know that is chosen elsewhere in the panel. */
export interface ToolChoices {
  baseScope(): "frame" | "roll";
  spotKind(): "film" | "light";
  ratio(): number | undefined;
}

/** A drag under way. */
interface Drag {
  move(to: Point, event: PointerEvent): void;
  end(to: Point): void;
}

/** A press that moved less than this (CSS pixels) is a click. */
const CLICK = 4;

export function makePointing(
  session: Session,
  picture: Picture,
  overlay: Overlay,
  stage: HTMLElement,
  choices: ToolChoices,
): void {
  let drag: Drag | undefined;
  let pressed: { x: number; y: number; moved: boolean } | undefined;

  function start(event: PointerEvent, from: Point, layout: Layout): Drag | undefined {
    const { ui } = session.store.get();
    const { target } = event;
    if (ui.tool === "base") return rectangle(from, (to) => void readBase(session, from, to, choices.baseScope()));
    if (ui.tool === "crop") return cropDrag(target instanceof Element ? target : undefined, from, layout);
    if (ui.tool === "spots" && !(target instanceof Element && target.closest("[data-spot]")))
      return circle(from, layout);
    return pan(event);
  }

  function pan(event: PointerEvent): Drag {
    let last: Point = [event.clientX, event.clientY];
    return {
      move(_to, now) {
        const layout = picture.layout();
        if (!layout) return;
        const [dx, dy] = [(now.clientX - last[0]) * layout.ratio, (now.clientY - last[1]) * layout.ratio];
        last = [now.clientX, now.clientY];
        const { ui } = session.store.get();
        session.ui({ viewport: panned(layout.transform, ui.viewport, layout.rooms[0], dx, dy) });
      },
      end() {},
    };
  }

  function rectangle(from: Point, done: (to: Point) => void): Drag {
    return {
      move: (to) => overlay.draw({ kind: "rectangle", from, to }),
      end(to) {
        overlay.draw(undefined);
        done(to);
      },
    };
  }

  function circle(from: Point, { source }: Layout): Drag {
    return {
      move: (to) => overlay.draw({ kind: "circle", from, to }),
      end(to) {
        overlay.draw(undefined);
        const radius = Math.hypot(to[0] - from[0], ((to[1] - from[1]) * source.scanHeight) / source.scanWidth);
        addSpot(session, choices.spotKind(), from, radius);
      },
    };
  }

  function cropDrag(target: Element | undefined, from: Point, { source }: Layout): Drag | undefined {
    const frame = session.frame();
    if (!frame) return undefined;
    const size = { width: source.scanWidth, height: source.scanHeight };
    const pixels = ([x, y]: Point): Point => [x * size.width, y * size.height];
    const first = frame.area;
    const handleText = target?.getAttribute("data-handle");
    const show = (area: typeof first): void => session.preview({ area });
    const write = (): void => {
      const { area } = session.store.get().draft ?? {};
      if (area) commitArea(session, area, [frame.id]);
    };
    if (target?.classList.contains("crop-outside")) {
      // Outside of the crop a drawn line says what is level.
      return {
        move: (to) => overlay.draw({ kind: "line", from, to }),
        end(to) {
          overlay.draw(undefined);
          show(tilted(first, levelling(pixels(from), pixels(to))));
          write();
        },
      };
    }
    const handle = (handleText?.split(" ").map(Number) ?? [0, 0]) as unknown as Handle;
    const hold = handleAt(first, size, handle);
    const grip = pixels(from);
    return {
      move(to) {
        const [x, y] = pixels(to);
        show(dragged(first, size, handle, [hold[0] + x - grip[0], hold[1] + y - grip[1]], choices.ratio()));
      },
      end: write,
    };
  }

  /** A click, or Enter at the keyboard's cross. */
  function click(at: Point, target?: Element): void {
    const { ui } = session.store.get();
    const pin = target?.getAttribute("data-pin");
    const spot = target?.getAttribute("data-spot")?.split(" ");
    if (ui.tool === "pin" && pin) removePin(session, Number(pin));
    else if (ui.tool === "pin") addPin(session, at);
    else if (ui.tool === "neutral") pickNeutral(session, at);
    else if (ui.tool === "grey") pickGrey(session, at);
    else if (ui.tool === "spots" && spot) removeSpot(session, spot[0] === "light" ? "light" : "film", Number(spot[1]));
    else if (ui.tool === "spots") addSpot(session, choices.spotKind(), at, SPOT_RADIUS);
    if (ui.tool === "neutral" || ui.tool === "grey") session.ui({ tool: "look" });
  }

  const inPicture = ([x, y]: Point): boolean => x >= 0 && y >= 0 && x <= 1 && y <= 1;

  stage.addEventListener("pointerdown", (event) => {
    const layout = picture.layout();
    const at = picture.scanAt(event.clientX, event.clientY);
    if (event.button !== 0 || !layout || !at || !session.store.get().current) return;
    if (event.target instanceof Element && event.target.closest(".wipe")) return;
    stage.setPointerCapture(event.pointerId);
    pressed = { x: event.clientX, y: event.clientY, moved: false };
    drag = start(event, at, layout);
  });

  stage.addEventListener("pointermove", (event) => {
    const at = picture.scanAt(event.clientX, event.clientY);
    session.store.set({ pointer: at && inPicture(at) ? at : undefined });
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
      click(at, document.elementFromPoint(event.clientX, event.clientY) ?? undefined);
    }
  });

  stage.addEventListener("pointercancel", () => {
    pressed = drag = undefined;
    overlay.draw(undefined);
    session.store.set({ draft: undefined });
  });
  stage.addEventListener("pointerleave", () => session.store.set({ pointer: undefined }));

  stage.addEventListener(
    "wheel",
    (event) => {
      const layout = picture.layout();
      if (!layout) return;
      event.preventDefault();
      const { at, room } = picture.canvasAt(event.clientX, event.clientY);
      const zoom = layout.zoom * 2 ** (-event.deltaY / (event.deltaMode === 0 ? 300 : 8));
      session.ui({
        viewport: zoomedAt(layout.transform, session.store.get().ui.viewport, layout.rooms[room], zoom, at),
      });
    },
    { passive: false },
  );

  stage.addEventListener("dblclick", (event) => {
    const layout = picture.layout();
    const { ui } = session.store.get();
    if (!layout || ui.tool !== "look") return;
    const { at, room } = picture.canvasAt(event.clientX, event.clientY);
    const viewport = zoomedAt(layout.transform, ui.viewport, layout.rooms[room], 1, at);
    session.ui({ viewport: ui.viewport.zoom === "fit" ? viewport : { zoom: "fit", centre: [0.5, 0.5] } });
  });

  let corner: Point | undefined;
  stage.addEventListener("keydown", (event) => {
    const layout = picture.layout();
    if (event.target !== stage || !layout) return;
    const way = ARROWS[event.key];
    const { ui, pointer } = session.store.get();
    if (way && !event.ctrlKey && !event.metaKey && !event.altKey) {
      event.preventDefault();
      const room = layout.rooms[0];
      if (ui.tool === "look") {
        const [dx, dy] = [-way[0] * room.width * 0.1, -way[1] * room.height * 0.1];
        return session.ui({ viewport: panned(layout.transform, ui.viewport, room, dx, dy) });
      }
      // The cross moves on the canvas, so that up is up however the picture is turned.
      const { scanWidth: w, scanHeight: h } = layout.source;
      const from: Point = pointer
        ? apply(layout.maps[0], [pointer[0] * w, pointer[1] * h])
        : [room.x + room.width / 2, room.y + room.height / 2];
      const far = (event.shiftKey ? 1 : 8) * layout.ratio;
      const [x, y] = apply(inverse(layout.maps[0]), [from[0] + way[0] * far, from[1] + way[1] * far]);
      const next: Point = [clamp(x / w, 0, 1), clamp(y / h, 0, 1)];
      session.store.set({ pointer: next });
      if (corner) overlay.draw({ kind: "rectangle", from: corner, to: next });
    } else if (event.key === "Enter" && pointer && ui.tool !== "look") {
      event.preventDefault();
      if (ui.tool !== "base") return click(pointer);
      if (!corner) {
        corner = pointer;
        return session.say(t("First corner of the area. Move on and press Enter for the opposite one."));
      }
      const from = corner;
      corner = undefined;
      overlay.draw(undefined);
      void readBase(session, from, pointer, choices.baseScope());
    } else if (event.key === "Escape") {
      corner = undefined;
      overlay.draw(undefined);
      if (ui.tool !== "look") session.ui({ tool: "look" });
    }
  });
}

const ARROWS: Readonly<Record<string, Point>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
