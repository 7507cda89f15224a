/** Spots: specks to heal, on the film or on sensor and lens; added and removed in the picture or in this list. */
import { isLine, middleOf, type Spot } from "../../../extension/engine/image/spot.ts";
import type { FrameEntry } from "../../../extension/messages.ts";
import { el } from "../../dom.ts";
import type { Session } from "../session.ts";
import { kit, rove, slider } from "../../ui/index.ts";
import { LINE_WIDTH, removeSpot } from "../picture/gestures.ts";
import { ICONS } from "../icons.ts";
import type { SpeckPictures } from "../specks.ts";
import { section } from "./section.ts";
import { t } from "../../translate.ts";

type Kind = "film" | "light";

type Shape = "speck" | "line";

export interface SpotsSection {
  readonly element: HTMLElement;
  readonly kind: () => Kind;
  readonly shape: () => Shape;
  /** Width of a new line, as a fraction of the scan's width. */
  readonly lineWidth: () => number;
}

export function makeSpots(session: Session, specks: SpeckPictures): SpotsSection {
  let kind: Kind = "film";
  const tool = kit.button({
    label: t("Spots"),
    beside: t("Mark"),
    title: t(
      "Click a speck to heal it, drag for a larger one; drag along a hair or a scratch; click a spot to remove it",
    ),
    icon: ICONS.spot,
    kind: "quiet",
    pressed: false,
    onPress: () => session.ui({ tool: session.store.get().ui.tool === "spots" ? "look" : "spots" }),
  });
  const where = kit.choice<Kind>({
    label: t("New spots lie"),
    options: [
      ["film", t("on the film")],
      ["light", t("on sensor or lens")],
    ],
    value: kind,
    onChange: (next) => (kind = next),
  });
  const { what, width, shape, lineWidth } = makeShapeChoice(session);
  const list = el("ul", { class: "spots specks", "aria-label": t("Spots") });
  rove(list);
  const buttons = el("div", { class: "buttons" }, tool.element, what, where.element);
  const element = section(session, "spots", t("Spots"), buttons, width, list);
  let shown: FrameEntry | undefined;
  session.store.on(({ ui }) => {
    const frame = session.frame();
    tool.set({ pressed: ui.tool === "spots" });
    const isSame = shown && frame && isSameList(shown, frame);
    if (!frame || !element.open || isSame) return;
    shown = frame;
    list.replaceChildren(...itemsOf(session, specks, frame));
  });
  return { element, kind: () => kind, shape, lineWidth };
}

/** What a new spot is, a speck or a line, and how wide a line. */
function makeShapeChoice(
  session: Session,
): Pick<SpotsSection, "shape" | "lineWidth"> & { readonly what: HTMLElement; readonly width: HTMLElement } {
  let shape: Shape = "speck";
  let lineWidth = LINE_WIDTH;
  const setWidth = (percent: number): void => void (lineWidth = percent / 100);
  const width = slider({
    label: t("Width"),
    title: t("Width of a line that is drawn next, in percent of the scan's width"),
    unit: "%",
    from: 0.05,
    to: 0.6,
    min: 0.02,
    max: 5,
    step: 0.01,
    decimals: 2,
    value: 100 * LINE_WIDTH,
    onInput: setWidth,
    onCommit: setWidth,
  });
  width.element.hidden = true;
  const what = kit.choice<Shape>({
    label: t("New spots are"),
    options: [
      ["speck", t("specks")],
      ["line", t("lines")],
    ],
    value: shape,
    onChange(next) {
      shape = next;
      width.element.hidden = next !== "line";
      if (session.store.get().ui.tool !== "spots") session.ui({ tool: "spots" });
    },
  });
  return { what: what.element, width: width.element, shape: () => shape, lineWidth: () => lineWidth };
}

/** CSS pixels of a small picture's sides. */
const SIZE = 44;

/** Whether two states of a frame show the same list: other values leave it alone, and its small pictures with it. */
const isSameList = (a: FrameEntry, b: FrameEntry): boolean =>
  a === b || (a.id === b.id && a.look === b.look && a.spots === b.spots && a.lightSpots === b.lightSpots);

/** The frame's spots as rows of a list. */
function itemsOf(session: Session, specks: SpeckPictures, frame: FrameEntry): readonly HTMLElement[] {
  const { spots, lightSpots } = frame;
  const item = (kind: Kind, spot: Spot, index: number): HTMLElement => {
    const words = describeSpot(kind, spot);
    const remove = el(
      "button",
      { type: "button", class: "link", "aria-label": t("Remove spot. {0}", words) },
      t("Remove"),
    );
    remove.addEventListener("click", () => removeSpot(session, kind, index));
    return el(
      "li",
      { title: words },
      specks.picture(frame, spot, SIZE),
      el("span", { class: "speck-actions" }, remove),
    );
  };
  const items = [
    ...spots.map((spot, i) => item("film", spot, i)),
    ...lightSpots.map((spot, i) => item("light", spot, i)),
  ];
  return items.length === 0 ? [el("li", { class: "hint" }, t("No spots."))] : items;
}

/** Where a spot is and how large, in percent of the scan's sides. */
function describeSpot(kind: Kind, spot: Spot): string {
  const size = isLine(spot) ? spot.width : spot[2];
  const numbers = [...middleOf(spot).map((v) => (v * 100).toFixed(1)), (size * 100).toFixed(2)];
  if (isLine(spot))
    return kind === "film"
      ? t("Film: hair or scratch at {0}, {1}, {2} % of the width wide", ...numbers)
      : t("Sensor or lens: hair at {0}, {1}, {2} % of the width wide", ...numbers);
  return kind === "film"
    ? t("Film: {0}, {1}, radius {2} % of the width", ...numbers)
    : t("Sensor or lens: {0}, {1}, radius {2} % of the width", ...numbers);
}
