/** The list of recipes and frames, the greatest impact first. */
import { el } from "../dom.ts";
import type { Session } from "./session.ts";
import { type Entry, entriesOf, framesText, keyOf, kindText, type ShownFrame, type ShownRecipe } from "./shown.ts";
import { t } from "../translate.ts";

/** A bar's full length stands for this ΔE00. */
const FULL = 10;

export function makeList(session: Session): HTMLElement {
  const list = el("div", {
    class: "list",
    role: "listbox",
    "aria-label": t("Changed rolls and frames"),
    tabindex: "0",
  });
  let shown: unknown;
  let options = new Map<string, HTMLElement>();
  let shownFolds: unknown;
  session.on(({ review, entry, unfolded }) => {
    if (review !== shown || unfolded !== shownFolds) {
      shown = review;
      shownFolds = unfolded;
      options = new Map(entriesOf(review, unfolded).map((one, i) => [keyOf(one), optionOf(session, one, i)]));
      list.replaceChildren(...options.values());
    }
    const key = entry && keyOf(entry);
    for (const [name, option] of options) option.setAttribute("aria-selected", String(name === key));
    const current = key === undefined ? undefined : options.get(key);
    if (current) {
      list.setAttribute("aria-activedescendant", current.id);
      current.scrollIntoView({ block: "nearest" });
    } else list.removeAttribute("aria-activedescendant");
  });
  return list;
}

function optionOf(session: Session, entry: Entry, index: number): HTMLElement {
  const { recipe, frame, fold } = entry;
  const isOpen = session.state.unfolded.has(recipe.file);
  const option = el(
    "div",
    { class: frame ? "frame" : fold ? "fold" : "recipe", role: "option", id: `entry-${index}` },
    ...(frame ? frameParts(frame) : fold ? foldParts(fold, isOpen) : recipeParts(recipe)),
  );
  if (fold)
    option.setAttribute(
      "aria-label",
      isOpen
        ? t("No visible change: {0}, listed below. Enter folds them.", framesText(fold.length))
        : t("No visible change: {0}, folded. Enter lists them.", framesText(fold.length)),
    );
  option.addEventListener("click", () => {
    session.look(entry);
    if (fold) session.toggleFold(recipe);
  });
  return option;
}

function recipeParts(recipe: ShownRecipe): HTMLElement[] {
  const { kind, file, title, status, was, impact, formattingOnly } = recipe;
  const state = formattingOnly
    ? t("layout only")
    : was
      ? t("was {0}", was)
      : {
          added: t("new"),
          removed: t("removed"),
          changed: "",
          renamed: t("renamed"),
          affected: t("through its stock"),
        }[status];
  const frames = impact.reduce((sum, roll) => sum + roll.frames, 0);
  const reach =
    impact.length > 0
      ? impact.length === 1
        ? t("{0} in 1 roll", framesText(frames))
        : t("{0} in {1} rolls", framesText(frames), impact.length)
      : "";
  return [
    el("span", { class: "kind" }, kindText(kind)),
    el("span", { class: "name" }, title ?? file),
    el("span", { class: "state" }, [reach, state].filter(Boolean).join(" · ")),
    ...(title === undefined ? [] : [el("span", { class: "file" }, file)]),
  ];
}

/** The row that stands for frames whose change nobody sees. */
function foldParts(fold: readonly ShownFrame[], isOpen: boolean): HTMLElement[] {
  return [
    el("span", { class: "twist", "aria-hidden": "true" }, isOpen ? "▾" : "▸"),
    el("span", { class: "name" }, t("No visible change")),
    el("span", { class: "count" }, framesText(fold.length)),
  ];
}

function frameParts(frame: ShownFrame): HTMLElement[] {
  const { id, title, status, difference, looksDifferent, notes, pending } = frame;
  const words = status === "added" ? t("new") : status === "removed" ? t("removed") : looksDifferent ? "?" : t("same");
  const meter = el("span", { class: "meter" });
  const bar = el("span", { class: "bar" });
  if (difference) bar.style.width = `${Math.max(3, Math.min(1, difference.p95 / FULL) * 100)}%`;
  meter.append(bar);
  return [
    el("span", { class: "id" }, id),
    el("span", { class: "name" }, title ?? ""),
    ...(notes.length > 0 ? [el("span", { class: "flag", title: notes.join("\n") }, "!")] : []),
    difference ? meter : el("span", { class: "meter none" }),
    el("span", { class: "number" }, pending ? "…" : difference ? difference.p95.toFixed(2) : words),
  ];
}
