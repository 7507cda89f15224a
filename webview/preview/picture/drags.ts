/** What a drag over the picture does, by the tool that is chosen: pan, draw an area, draw a spot, crop. */
import type { Session } from "../session.ts";
import type { Point } from "../../state/affine.ts";
import { dragged, type Handle, handleAt, levelling, tilted } from "../../state/crop.ts";
import { panned } from "../../state/frame-transform.ts";
import { addSpot, commitArea, readBase } from "./gestures.ts";
import type { LineDrawing } from "./line-drawing.ts";
import type { Overlay } from "./overlay.ts";
import type { Layout, Picture } from "./picture.ts";
import type { Drag, ToolChoices } from "./tool.ts";

/** What pointer and keyboard act upon. */
export interface PointingTools {
  readonly session: Session;
  readonly picture: Picture;
  readonly overlay: Overlay;
  readonly choices: ToolChoices;
  readonly lines: LineDrawing;
}

/** The drag that a press at a point begins; undefined where there is nothing to drag. */
export function startDrag(tools: PointingTools, event: PointerEvent, from: Point, layout: Layout): Drag | undefined {
  const { session, choices, lines } = tools;
  const { ui } = session.store.get();
  const { target } = event;
  if (ui.tool === "base") return rectangle(tools, from, (to) => void readBase(session, from, to, choices.baseScope()));
  const drawArea = ui.tool === "local" ? choices.localDrawing() : undefined;
  if (drawArea) return rectangle(tools, from, (to) => drawArea.done(from, to), drawArea.shape);
  if (ui.tool === "crop") return cropDrag(tools, target instanceof Element ? target : undefined, from, layout);
  if (ui.tool === "spots" && !(target instanceof Element && target.closest("[data-spot]")))
    return choices.spotShape() === "line" ? lines.drag(from) : circle(tools, from, layout);
  return pan(tools, event);
}

function pan({ session, picture }: PointingTools, event: PointerEvent): Drag {
  let last: Point = [event.clientX, event.clientY];
  return {
    move(_to, now) {
      const layout = picture.layout();
      if (!layout) return;
      const [dx, dy] = [(now.clientX - last[0]) * layout.ratio, (now.clientY - last[1]) * layout.ratio];
      last = [now.clientX, now.clientY];
      const { ui } = session.store.get();
      session.ui({ viewport: panned(layout.transform, ui.viewport, layout.paneBoxes[0], dx, dy) });
    },
    end() {},
  };
}

function rectangle(
  { overlay }: PointingTools,
  from: Point,
  done: (to: Point) => void,
  kind: "rectangle" | "line" = "rectangle",
): Drag {
  return {
    move: (to) => overlay.draw({ kind, from, to }),
    end(to) {
      overlay.draw(undefined);
      done(to);
    },
  };
}

function circle({ session, overlay, choices }: PointingTools, from: Point, { source }: Layout): Drag {
  return {
    move: (to) => overlay.draw({ kind: "circle", from, to }),
    end(to) {
      overlay.draw(undefined);
      const radius = Math.hypot(to[0] - from[0], ((to[1] - from[1]) * source.scanHeight) / source.scanWidth);
      addSpot(session, choices.spotKind(), from, radius);
    },
  };
}

function cropDrag(
  { session, overlay, choices }: PointingTools,
  target: Element | undefined,
  from: Point,
  { source }: Layout,
): Drag | undefined {
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
