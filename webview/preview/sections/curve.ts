/** The curve editor: L* in to L* out, with points to drag, and a field for every number. */
import { el, svg } from "../../dom.ts";
import { keyOf, type Session } from "../session.ts";
import type { FrameLook } from "../../../extension/engine/types.ts";
import {
  addedPoint,
  type CurvePoint,
  type CurvePoints,
  curveThrough,
  movedPoint,
  removedPoint,
} from "../../state/curve-points.ts";
import { rounded } from "../../state/controls.ts";
import { setPoints, setValue } from "../../state/edits.ts";
import { originMark, provenanceOf } from "./origin.ts";
import { section } from "./section.ts";
import { t } from "../../words.ts";
import { clamp } from "../../../extension/engine/math/clamp.ts";

export const CURVE_PATH = ["positive", "curve"] as const;
const SIDE = 200;

export function makeCurve(session: Session): HTMLElement {
  const line = svg("path", { class: "curve-line" });
  const handles = svg("g");
  const plot = svg(
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
  const fields = el("div", { class: "curve-fields" });
  const origin = originMark(session, t("Curve"), CURVE_PATH, (v) =>
    Array.isArray(v) && v.length ? t("{0} points", v.length) : t("no points"),
  );
  const hint = el("p", { class: "hint" }, t("Click to set a point, drag to move it, Delete to take it away."));
  let shown: CurvePoints = [];
  let dragging: number | undefined;
  let focus: number | undefined;

  const points = (): CurvePoints => {
    const { draft, ui } = session.store.get();
    return (draft?.values?.[keyOf(CURVE_PATH)] ??
      provenanceOf(session, CURVE_PATH, ui.scope)?.value ??
      session.frame()?.look.tone.points ??
      []) as CurvePoints;
  };

  function show(next: CurvePoints): void {
    const look = session.look();
    const { ui } = session.store.get();
    if (!look) return;
    const follows = !provenanceOf(session, CURVE_PATH, ui.scope)?.overridden;
    const changed: FrameLook = follows ? { ...look, tone: { ...look.tone, points: next } } : look;
    session.preview({ look: changed, values: { [keyOf(CURVE_PATH)]: next } });
  }

  function write(next: CurvePoints): void {
    const frame = session.frame();
    const { ui } = session.store.get();
    if (!frame) return;
    show(next);
    const inherited = provenanceOf(session, CURVE_PATH, ui.scope)?.inherited;
    // Where a curve would be inherited, only an empty list says that there is none.
    const edits =
      next.length === 0 && Array.isArray(inherited) && inherited.length > 0
        ? setValue(ui.scope, frame.id, CURVE_PATH, [])
        : setPoints(ui.scope, frame.id, next);
    void session.commit(
      next.length ? t("Curve with {0} points", next.length) : t("Curve straight"),
      edits,
      session.store.get().draft,
    );
  }

  const placeOf = (event: PointerEvent): CurvePoint => {
    const box = plot.getBoundingClientRect();
    const scale = (SIDE + 12) / box.width;
    const [x, y] = [(event.clientX - box.left) * scale - 6, (event.clientY - box.top) * scale - 6];
    return [rounded(clamp(x / 2, 0, 100), 1), rounded(clamp(100 - y / 2, 0, 100), 1)];
  };

  plot.addEventListener("pointerdown", (event) => {
    if (event.button !== 0 || !session.frame()) return;
    event.preventDefault();
    plot.setPointerCapture(event.pointerId);
    const added = addedPoint(points(), placeOf(event));
    dragging = focus = added.index;
    show(added.points);
  });
  plot.addEventListener("pointermove", (event) => {
    if (dragging !== undefined) show(movedPoint(points(), dragging, placeOf(event)));
  });
  plot.addEventListener("pointerup", () => {
    if (dragging === undefined) return;
    dragging = undefined;
    write(points());
  });
  plot.addEventListener("pointercancel", () => {
    dragging = undefined;
    session.store.set({ draft: undefined });
  });

  let rest: ReturnType<typeof setTimeout> | undefined;
  function key(event: KeyboardEvent, index: number): void {
    const by = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
    focus = index;
    if (event.key === "Delete" || event.key === "Backspace") {
      event.preventDefault();
      focus = Math.max(0, index - 1);
      write(removedPoint(points(), index));
    } else if (by) {
      event.preventDefault();
      const [x, y] = points()[index];
      const far = event.shiftKey ? 0.2 : 1;
      show(movedPoint(points(), index, [rounded(x + by[0] * far, 1), rounded(y + by[1] * far, 1)]));
      // A run of presses is one gesture.
      clearTimeout(rest);
      rest = setTimeout(() => write(points()), 450);
    }
  }

  function field(index: number, axis: 0 | 1, value: number): HTMLInputElement {
    const input = el("input", {
      type: "number",
      min: "0",
      max: "100",
      step: "0.1",
      "aria-label": axis === 0 ? t("Point {0}, L* in", index + 1) : t("Point {0}, L* out", index + 1),
    });
    input.value = String(rounded(value, 1));
    input.addEventListener("change", () => {
      if (!Number.isFinite(input.valueAsNumber)) return;
      const [x, y] = points()[index];
      write(movedPoint(points(), index, axis === 0 ? [input.valueAsNumber, y] : [x, input.valueAsNumber]));
    });
    return input;
  }

  function refresh(): void {
    const { ui } = session.store.get();
    origin.refresh(provenanceOf(session, CURVE_PATH, ui.scope));
    const now = points();
    if (now === shown) return;
    shown = now;
    const at = curveThrough(now);
    const path = Array.from({ length: 101 }, (_, x) => `${x * 2} ${(SIDE - at(x) * 2).toFixed(2)}`);
    line.setAttribute("d", `M${path.join("L")}`);
    const hadFocus = handles.contains(document.activeElement);
    handles.replaceChildren(
      ...now.map(([x, y], i) => {
        const handle = svg("circle", {
          class: "curve-point",
          cx: x * 2,
          cy: SIDE - y * 2,
          r: 4.5,
          tabindex: 0,
          role: "button",
          "aria-label": t(
            "Point {0}: {1} to {2}. Arrow keys move it, Delete takes it away.",
            i + 1,
            rounded(x, 1),
            rounded(y, 1),
          ),
        });
        handle.addEventListener("keydown", (event) => key(event, i));
        return handle;
      }),
    );
    if (hadFocus && focus !== undefined) (handles.children[focus] as SVGElement | undefined)?.focus();
    if (!fields.contains(document.activeElement))
      fields.replaceChildren(
        ...now.map(([x, y], i) => el("span", { class: "curve-pair" }, field(i, 0, x), "→", field(i, 1, y))),
      );
  }
  session.store.on(refresh);
  const add = el("button", { type: "button", class: "link" }, t("Add a point"));
  add.addEventListener("click", () => {
    const now = points();
    const xs = [0, ...now.map((p) => p[0]), 100];
    // In the middle of the widest gap.
    const gaps = xs.slice(1).map((x, i) => x - xs[i]);
    const widest = gaps.indexOf(Math.max(...gaps));
    const x = rounded((xs[widest] + xs[widest + 1]) / 2, 1);
    const added = addedPoint(now, [x, rounded(curveThrough(now)(x), 1)]);
    focus = added.index;
    write(added.points);
  });
  return section(session, "curve", t("Curve"), el("div", { class: "row" }, hint, origin.element), plot, fields, add);
}
