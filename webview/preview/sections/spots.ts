/** Spots: specks to heal, on the film or on sensor and lens; added and removed in the picture or in this list. */
import { isLine, middleOf, type Spot } from "../../../extension/engine/image/spot.ts";
import { el } from "../../dom.ts";
import type { Session } from "../session.ts";
import { kit } from "../../ui/index.ts";
import { removeSpot } from "../picture/gestures.ts";
import { ICONS } from "../icons.ts";
import { section } from "./section.ts";
import { t } from "../../translate.ts";

type Kind = "film" | "light";

export function makeSpots(session: Session): { element: HTMLElement; kind: () => Kind } {
  let kind: Kind = "film";
  const tool = kit.button({
    label: t("Spots"),
    beside: t("Mark"),
    title: t("Click a speck to heal it, drag for a larger one, click a spot to remove it"),
    icon: ICONS.spot,
    kind: "quiet",
    pressed: false,
    onPress: () => session.ui({ tool: session.store.get().ui.tool === "spots" ? "look" : "spots" }),
  });
  const where = kit.choice<Kind>({
    label: t("New spots are"),
    options: [
      ["film", t("on the film")],
      ["light", t("on sensor or lens")],
    ],
    value: kind,
    onChange: (next) => (kind = next),
  });
  const list = el("ul", { class: "spots" });
  const element = section(
    session,
    "spots",
    t("Spots"),
    el("div", { class: "buttons" }, tool.element, where.element),
    list,
  );
  let shown: unknown;
  session.store.on(({ ui }) => {
    const frame = session.frame();
    tool.set({ pressed: ui.tool === "spots" });
    if (!frame || shown === frame) return;
    shown = frame;
    const item = (which: Kind, index: number, spot: Spot): HTMLElement => {
      const size = isLine(spot) ? spot.width : spot[2];
      const numbers = [...middleOf(spot).map((v) => (v * 100).toFixed(1)), (size * 100).toFixed(2)];
      const words = isLine(spot)
        ? which === "film"
          ? t("Film: hair or scratch at {0}, {1}, {2} % of the width wide", ...numbers)
          : t("Sensor or lens: hair at {0}, {1}, {2} % of the width wide", ...numbers)
        : which === "film"
          ? t("Film: {0}, {1}, radius {2} % of the width", ...numbers)
          : t("Sensor or lens: {0}, {1}, radius {2} % of the width", ...numbers);
      const remove = el(
        "button",
        { type: "button", class: "link", "aria-label": t("Remove spot. {0}", words) },
        t("Remove"),
      );
      remove.addEventListener("click", () => removeSpot(session, which, index));
      return el("li", {}, words, remove);
    };
    list.replaceChildren(
      ...frame.spots.map((s, i) => item("film", i, s)),
      ...frame.lightSpots.map((s, i) => item("light", i, s)),
    );
    if (list.children.length === 0) list.append(el("li", { class: "hint" }, t("No spots.")));
  });
  return { element, kind: () => kind };
}
