/** The negative: the base's density, and reading it. */
import { el } from "../../dom.ts";
import type { Session } from "../session.ts";
import type { Scope } from "../../state/cascade.ts";
import { kit } from "../../ui/index.ts";
import { ICONS } from "../icons.ts";
import { BASE_PATH } from "../../state/edits.ts";
import { originMark, provenanceOf } from "./origin.ts";
import { section } from "./section.ts";
import { t } from "../../translate.ts";

const threeNumbers = (value: unknown): string =>
  Array.isArray(value) ? value.map((v) => (typeof v === "number" ? v.toFixed(3) : String(v))).join(" · ") : t("none");

export function makeNegative(session: Session): { element: HTMLElement; scope: () => Scope } {
  // The base belongs to the film, not to a picture of it: the roll, unless somebody says otherwise.
  let scope: Scope = "roll";
  const value = el("output", { class: "triple" });
  const origin = originMark(session, t("Base"), BASE_PATH, threeNumbers, () => scope);
  const read = kit.button({
    label: t("Read the base"),
    beside: t("Read"),
    title: t("Draw a rectangle over the rebate: reads the density of the film base there"),
    icon: ICONS.area,
    kind: "quiet",
    pressed: false,
    onPress: () => session.ui({ tool: session.store.get().ui.tool === "base" ? "look" : "base" }),
  });
  const where = kit.choice<Scope>({
    label: t("The base is written to"),
    options: [
      ["roll", t("for the roll")],
      ["frame", t("for this frame")],
    ],
    value: scope,
    onChange: (next) => {
      scope = next;
      refresh();
    },
  });
  const hint = el(
    "p",
    { class: "hint" },
    t("Draw a rectangle over clear rebate, away from the picture and the holder."),
  );
  function refresh(): void {
    const { ui } = session.store.get();
    const now = provenanceOf(session, BASE_PATH, scope);
    value.textContent = threeNumbers(now?.value);
    origin.refresh(now);
    read.set({ pressed: ui.tool === "base" });
    hint.hidden = ui.tool !== "base";
    element.hidden = session.frame()?.look.film === "slide";
  }
  const element = section(
    session,
    "negative",
    t("Base"),
    el(
      "div",
      { class: "row" },
      el("span", { class: "wide" }, t("Density "), value, el("span", { class: "unit" }, " D")),
      origin.element,
    ),
    el("div", { class: "buttons" }, read.element, where.element),
    hint,
  );
  session.store.on(refresh);
  return { element, scope: () => scope };
}
