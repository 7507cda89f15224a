/**
 * Areas of local exposure over the picture: their outlines, handles to drag or to move with arrow keys, and, in neutral
 * grey, where the chosen one counts and how much.
 */
import { aspectOf, strengthOf } from "../../../extension/engine/local/areas.ts";
import { localShapeOf, type StatedArea } from "../../../extension/engine/local/stated.ts";
import type { ShownPoint } from "../../../extension/engine/types.ts";
import { el, svg } from "../../dom.ts";
import { type Affine, apply, chained, inverse, type Point, scaling } from "../../state/affine.ts";
import { type AreaHandle, handlesOf, movedHandle, outlineOf, withoutCorner } from "../../state/local-areas.ts";
import { t } from "../../translate.ts";
import type { Layout, Picture } from "../picture/picture.ts";
import type { Session } from "../session.ts";
import { areaName, type LocalTool } from "./local-tool.ts";

/** CSS pixels of one cell of the mask: as fine as its soft edges need. */
const CELL = 3;

/** Neutral grey at full strength, and how much of the picture it covers then. */
const [GREY, COVER] = [128, 0.7];

/** How far an arrow key moves a handle, in parts of the picture's height; with Shift a fifth of it. */
const STEP = 0.01;

export function makeLocalOverlay(session: Session, picture: Picture, tool: LocalTool): HTMLElement {
  const mask = el("canvas", { class: "area-mask", "aria-hidden": "true" });
  const shapes = svg("svg", { class: "areas-drawn" });
  const element = el("div", { class: "local-areas" }, mask, shapes);
  const gestures = new HandleGestures(tool);
  let drawn: unknown;

  function refresh(layout = picture.layout()): void {
    const isOn = session.store.get().ui.tool === "local" && layout !== undefined && session.store.get().current;
    element.hidden = !isOn;
    element.parentElement?.toggleAttribute("data-drawing", tool.pending !== undefined);
    if (!isOn || !layout) {
      gestures.leave();
      return void (drawn = undefined);
    }
    const { areas, chosen } = tool;
    const maps = layout.maps.slice(0, 1).map((map) => shownToPage(layout, map));
    // Beside another view the areas lie over the first pane alone.
    element.style.clipPath = clipTo(layout);
    gestures.redraw(shapes, [
      ...maps.flatMap((map) => areas.map((area, i) => outline(area, i === chosen, tool.aspect, map))),
      ...maps.flatMap((map) => (areas[chosen] ? gestures.handles(areas[chosen], chosen, map) : [])),
    ]);
    const now = JSON.stringify([areas[chosen], tool.showsMask, layout.maps[0], mask.clientWidth, mask.clientHeight]);
    if (now !== drawn) drawMask(mask, tool.showsMask ? areas[chosen] : undefined, layout);
    drawn = now;
  }
  picture.onLayout(refresh);
  tool.on(() => refresh());
  return element;
}

/** From fractions of the picture as shown to CSS pixels of the stage. */
const shownToPage = ({ transform, ratio }: Layout, toCanvas: Affine): Affine =>
  chained(scaling(transform.width, transform.height), inverse(transform.toFinished), toCanvas, scaling(1 / ratio));

const text = (points: readonly Point[]): string => points.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(" ");

/** The first pane's room on the stage, as CSS clips to it. */
function clipTo({ paneBoxes: [{ x, y, width, height }], ratio }: Layout): string {
  const corners = [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ];
  return `polygon(${corners.map((p) => p.map((v) => `${(v / ratio).toFixed(1)}px`).join(" ")).join(", ")})`;
}

/** The line of an area; of a gradient also the two sides that it runs between. */
function outline(area: StatedArea, isChosen: boolean, aspect: number, map: Affine): SVGElement {
  const name = isChosen ? "area-outline chosen" : "area-outline";
  if (area.line) {
    const [from, to] = area.line.map((p) => apply(map, p));
    const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    const length = Math.max(1, Math.hypot(dx, dy));
    const [sx, sy] = [(-dy / length) * 40, (dx / length) * 40];
    const bar = ([x, y]: Point): SVGElement =>
      svg("line", { class: name, x1: x - sx, y1: y - sy, x2: x + sx, y2: y + sy });
    return svg(
      "g",
      {},
      bar(from),
      bar(to),
      svg("line", { class: name, x1: from[0], y1: from[1], x2: to[0], y2: to[1] }),
    );
  }
  const points: readonly ShownPoint[] = area.oval
    ? Array.from({ length: 72 }, (_, i) => outlineOf(area, aspect, 5 * i))
    : (area.polygon ?? []);
  return svg("polygon", { class: name, points: text(points.map((p) => apply(map, p))) });
}

/** Paints how strongly an area counts, over the first pane. */
function drawMask(canvas: HTMLCanvasElement, area: StatedArea | undefined, layout: Layout): void {
  const [width, height] = [Math.ceil(canvas.clientWidth / CELL), Math.ceil(canvas.clientHeight / CELL)];
  canvas.width = Math.max(1, width);
  canvas.height = Math.max(1, height);
  const shape = area && localShapeOf(area);
  const context = canvas.getContext("2d");
  if (!shape || !context || width < 1 || height < 1) return;
  const { transform } = layout;
  const strength = strengthOf(shape, aspectOf(transform.width, transform.height));
  const toShown = inverse(shownToPage(layout, layout.maps[0]));
  const image = new ImageData(width, height);
  for (let y = 0, k = 0; y < height; y++)
    for (let x = 0; x < width; x++, k += 4) {
      const [u, v] = apply(toShown, [(x + 0.5) * CELL, (y + 0.5) * CELL]);
      if (u < 0 || u > 1 || v < 0 || v > 1) continue;
      image.data[k] = image.data[k + 1] = image.data[k + 2] = GREY;
      image.data[k + 3] = 255 * COVER * strength(u, v);
    }
  context.putImageData(image, 0, 0);
}

/** Handles of the chosen area: each drag and each run of key presses is one edit. */
class HandleGestures {
  readonly #tool: LocalTool;
  #focused: string | undefined;
  #isRedrawing = false;

  constructor(tool: LocalTool) {
    this.#tool = tool;
  }

  handles(area: StatedArea, index: number, map: Affine): SVGElement[] {
    return handlesOf(area, this.#tool.aspect).map((handle) => {
      const [cx, cy] = apply(map, handle.at);
      const [x, y] = handle.at.map((v) => (100 * v).toFixed(0));
      const element = svg("circle", {
        class: `area-handle ${handle.role}`,
        cx,
        cy,
        r: handle.role === "between" ? 4 : 6,
        tabindex: 0,
        role: "button",
        "data-handle": handle.key,
        "aria-label": t("{0} of area {1}, at {2}, {3} %", handleWord(handle), areaName(area, index), x, y),
      });
      element.addEventListener("pointerdown", (event) => this.#drag(event, element, handle, area, map));
      element.addEventListener("keydown", (event) => this.#press(event, handle));
      element.addEventListener("focus", () => (this.#focused = handle.key));
      element.addEventListener("blur", () => {
        if (!this.#isRedrawing && this.#focused === handle.key) this.leave();
      });
      return element;
    });
  }

  /** No handle has the focus any more. */
  leave(): void {
    this.#focused = undefined;
  }

  /** Drawing makes the handles anew: the one that had the focus has it again; where it is gone, the picture has it. */
  redraw(shapes: SVGElement, drawn: readonly SVGElement[]): void {
    this.#isRedrawing = true;
    shapes.replaceChildren(...drawn);
    const key = this.#focused;
    if (key !== undefined) {
      const again = shapes.querySelector<SVGElement>(`[data-handle="${key}"]`);
      if (again) again.focus();
      else this.#leaveToPicture(shapes);
    }
    this.#isRedrawing = false;
  }

  #leaveToPicture(shapes: Element): void {
    this.leave();
    shapes.closest<HTMLElement>(".stage")?.focus();
  }

  #drag(event: PointerEvent, element: SVGElement, { key, role }: AreaHandle, area: StatedArea, map: Affine): void {
    if (event.button !== 0) return;
    event.preventDefault();
    event.stopPropagation();
    const tool = this.#tool;
    void tool.flush();
    const box = element.ownerSVGElement?.getBoundingClientRect();
    if (!box) return;
    this.#focused = key;
    const back = inverse(map);
    const shown = (at: PointerEvent): ShownPoint => apply(back, [at.clientX - box.left, at.clientY - box.top]);
    const start = shown(event);
    const handle = handlesOf(area, tool.aspect).find((one) => one.key === key)?.at ?? start;
    let moved: readonly StatedArea[] | undefined;
    // The handle is drawn anew with each move: the window hears the rest of the gesture.
    const stop = new AbortController();
    const { signal } = stop;
    const follow = (at: PointerEvent): void => {
      const [x, y] = shown(at);
      const to: ShownPoint = [handle[0] + x - start[0], handle[1] + y - start[1]];
      if (role === "between") this.#focused = afterOf(key);
      moved = tool.areas.map((one, i) => (i === tool.chosen ? movedHandle(area, key, to, tool.aspect) : one));
      tool.preview(moved);
    };
    const end = (): void => {
      stop.abort();
      if (moved) tool.commit(t("Area {0} moved", tool.chosen + 1), moved);
    };
    window.addEventListener("pointermove", follow, { signal });
    window.addEventListener("pointerup", end, { signal });
    window.addEventListener("pointercancel", () => (stop.abort(), tool.drop()), { signal });
  }

  #press(event: KeyboardEvent, { key, role }: AreaHandle): void {
    const tool = this.#tool;
    if ((event.key === "Delete" || event.key === "Backspace") && (role === "corner" || role === "all")) {
      event.preventDefault();
      event.stopPropagation();
      // A key held down removes one.
      if (event.repeat) return;
      if (role === "all") return tool.remove(tool.chosen);
      const areas = tool.changed((area) => withoutCorner(area, key));
      if (areas[tool.chosen]?.polygon?.length === tool.areas[tool.chosen]?.polygon?.length) return;
      this.#focused = "all";
      tool.commit(t("Corner of area {0} removed", tool.chosen + 1), areas);
      return;
    }
    const way = ARROWS[event.key];
    if (!way || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    event.stopPropagation();
    const far = STEP * (event.shiftKey ? 0.2 : 1);
    const areas = tool.changed((area) => {
      const at = handlesOf(area, tool.aspect).find((one) => one.key === key)?.at ?? [0, 0];
      return movedHandle(area, key, [at[0] + (way[0] * far) / tool.aspect, at[1] + way[1] * far], tool.aspect);
    });
    // A point between two corners has become a corner.
    if (role === "between") this.#focused = afterOf(key);
    tool.nudge(t("Area {0} moved", tool.chosen + 1), areas);
  }
}

/** Key of the corner that a point between two corners becomes when it is moved. */
const afterOf = (between: string): string => String(Number(between.split(" ")[1]) + 1);

const handleWord = ({ role, key }: AreaHandle): string =>
  ({
    all: t("Middle"),
    end: key === "0" ? t("First point") : t("Second point"),
    radius: t("Radius"),
    corner: t("Corner"),
    between: t("Point between corners"),
  })[role];

const ARROWS: Readonly<Record<string, Point>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
