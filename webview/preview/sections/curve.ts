/** The curve editor: L* in to L* out, with points to drag, and a field for every number. */
import { el } from "../../dom.ts";
import type { Session } from "../session.ts";
import { addedPoint, type CurvePoints, curveThrough, movedPoint } from "../../state/curve-points.ts";
import { rounded } from "../../state/controls.ts";
import { CurvePlot } from "./curve-plot.ts";
import { CURVE_PATH, type CurveValues, curveValues } from "./curve-values.ts";
import { originMark, provenanceOf } from "./origin.ts";
import { section } from "./section.ts";
import { t } from "../../translate.ts";

export function makeCurve(session: Session): HTMLElement {
  const values = curveValues(session);
  const plot = new CurvePlot(values);
  const fields = el("div", { class: "curve-fields" });
  const origin = originMark(session, t("Curve"), CURVE_PATH, (v) =>
    Array.isArray(v) && v.length ? t("{0} points", v.length) : t("no points"),
  );
  const hint = el("p", { class: "hint" }, t("Click to set a point, drag to move it, Delete to remove it."));
  let shown: CurvePoints = [];

  session.store.on(({ ui }) => {
    origin.refresh(provenanceOf(session, CURVE_PATH, ui.scope));
    const now = values.points();
    if (now === shown) return;
    shown = now;
    plot.draw(now);
    if (!fields.contains(document.activeElement)) fields.replaceChildren(...pairsOf(now, values));
  });
  const row = el("div", { class: "row" }, hint, origin.element);
  return section(session, "curve", t("Curve"), row, plot.element, fields, addButton(values, plot));
}

/** Two fields for each point. */
const pairsOf = (points: CurvePoints, values: CurveValues): HTMLElement[] =>
  points.map(([x, y], i) =>
    el("span", { class: "curve-pair" }, fieldOf(values, i, 0, x), "→", fieldOf(values, i, 1, y)),
  );

function fieldOf(values: CurveValues, index: number, axis: 0 | 1, value: number): HTMLInputElement {
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
    const points = values.points();
    const [x, y] = points[index];
    values.write(movedPoint(points, index, axis === 0 ? [input.valueAsNumber, y] : [x, input.valueAsNumber]));
  });
  return input;
}

/** Adds a point in the middle of the widest gap. */
function addButton(values: CurveValues, plot: CurvePlot): HTMLElement {
  const add = el("button", { type: "button", class: "link" }, t("Add a point"));
  add.addEventListener("click", () => {
    const now = values.points();
    const xs = [0, ...now.map((p) => p[0]), 100];
    const gaps = xs.slice(1).map((x, i) => x - xs[i]);
    const widest = gaps.indexOf(Math.max(...gaps));
    const x = rounded((xs[widest] + xs[widest + 1]) / 2, 1);
    const added = addedPoint(now, [x, rounded(curveThrough(now)(x), 1)]);
    plot.focusOn(added.index);
    values.write(added.points);
  });
  return add;
}
