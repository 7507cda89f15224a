/** The plot of the curve, with points to drag or to move with the keyboard. */
import { clamp } from "../../../extension/engine/math/clamp.ts";
import { svg } from "../../dom.ts";
import { rounded } from "../../state/controls.ts";
import {
  addedPoint,
  type CurvePoint,
  type CurvePoints,
  curveThrough,
  movedPoint,
  removedPoint,
} from "../../state/curve-points.ts";
import { t } from "../../translate.ts";
import type { CurveValues } from "./curve-values.ts";

const SIDE = 200;
/** Milliseconds without a press of a key after which a run of presses is written: it is one gesture. */
const KEY_REST = 450;
const ARROWS: Readonly<Record<string, CurvePoint>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

export class CurvePlot {
  readonly element: SVGElement;
  readonly #values: CurveValues;
  readonly #line = svg("path", { class: "curve-line" });
  readonly #handles = svg("g");
  #dragging: number | undefined;
  #focus: number | undefined;
  #rest: ReturnType<typeof setTimeout> | undefined;

  constructor(values: CurveValues) {
    this.#values = values;
    this.element = plotOf(this.#line, this.#handles);
    this.#followPointer();
  }

  /** The point that has the keyboard when the points are drawn next. */
  focusOn(index: number): void {
    this.#focus = index;
  }

  draw(points: CurvePoints): void {
    const at = curveThrough(points);
    const path = Array.from({ length: 101 }, (_, x) => `${x * 2} ${(SIDE - at(x) * 2).toFixed(2)}`);
    this.#line.setAttribute("d", `M${path.join("L")}`);
    const hadFocus = this.#handles.contains(document.activeElement);
    this.#handles.replaceChildren(...points.map((point, i) => this.#handle(point, i)));
    if (hadFocus && this.#focus !== undefined) (this.#handles.children[this.#focus] as SVGElement | undefined)?.focus();
  }

  #handle([x, y]: CurvePoint, index: number): SVGElement {
    const handle = svg("circle", {
      class: "curve-point",
      cx: x * 2,
      cy: SIDE - y * 2,
      r: 4.5,
      tabindex: 0,
      role: "button",
      "aria-label": t(
        "Point {0}: {1} to {2}. Arrow keys move it, Delete removes it.",
        index + 1,
        rounded(x, 1),
        rounded(y, 1),
      ),
    });
    handle.addEventListener("keydown", (event) => this.#press(event, index));
    return handle;
  }

  #press(event: KeyboardEvent, index: number): void {
    const values = this.#values;
    const by = ARROWS[event.key];
    this.#focus = index;
    if (event.key === "Delete" || event.key === "Backspace") {
      event.preventDefault();
      this.#focus = Math.max(0, index - 1);
      values.write(removedPoint(values.points(), index));
    } else if (by) {
      event.preventDefault();
      const [x, y] = values.points()[index];
      const far = event.shiftKey ? 0.2 : 1;
      const to: CurvePoint = [rounded(x + by[0] * far, 1), rounded(y + by[1] * far, 1)];
      values.show(movedPoint(values.points(), index, to));
      clearTimeout(this.#rest);
      this.#rest = setTimeout(() => values.write(values.points()), KEY_REST);
    }
  }

  #followPointer(): void {
    const { element: plot } = this;
    const values = this.#values;
    plot.addEventListener("pointerdown", (event) => {
      if (event.button !== 0 || !values.isOpen()) return;
      event.preventDefault();
      plot.setPointerCapture(event.pointerId);
      const added = addedPoint(values.points(), this.#placeOf(event));
      this.#dragging = this.#focus = added.index;
      values.show(added.points);
    });
    plot.addEventListener("pointermove", (event) => {
      if (this.#dragging !== undefined) values.show(movedPoint(values.points(), this.#dragging, this.#placeOf(event)));
    });
    plot.addEventListener("pointerup", () => {
      if (this.#dragging === undefined) return;
      this.#dragging = undefined;
      values.write(values.points());
    });
    plot.addEventListener("pointercancel", () => {
      this.#dragging = undefined;
      values.cancel();
    });
  }

  #placeOf(event: PointerEvent): CurvePoint {
    const box = this.element.getBoundingClientRect();
    const scale = (SIDE + 12) / box.width;
    const [x, y] = [(event.clientX - box.left) * scale - 6, (event.clientY - box.top) * scale - 6];
    return [rounded(clamp(x / 2, 0, 100), 1), rounded(clamp(100 - y / 2, 0, 100), 1)];
  }
}

function plotOf(line: SVGElement, handles: SVGElement): SVGElement {
  return svg(
    "svg",
    {
      class: "curve",
      viewBox: `-6 -6 ${SIDE + 12} ${SIDE + 12}`,
      role: "group",
      "aria-label": t("Curve: lightness in to lightness out"),
    },
    svg("rect", { class: "curve-field", x: 0, y: 0, width: SIDE, height: SIDE }),
    ...[25, 50, 75].flatMap((v) => [
      svg("line", { class: "curve-grid", x1: v * 2, x2: v * 2, y1: 0, y2: SIDE }),
      svg("line", { class: "curve-grid", y1: v * 2, y2: v * 2, x1: 0, x2: SIDE }),
    ]),
    svg("line", { class: "curve-straight", x1: 0, y1: SIDE, x2: SIDE, y2: 0 }),
    line,
    handles,
  );
}
