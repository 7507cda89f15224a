/** The list of keys, over the whole panel: opened by ?, closed by Escape or ? again. */
import { el } from "../dom.ts";
import { CONTROLS } from "../state/controls.ts";
import { t } from "../translate.ts";
import { kit } from "../ui/index.ts";
import { NUDGES } from "./nudges.ts";

type KeyLine = readonly [keys: readonly string[], does: string];

const groups = (): readonly (readonly [title: string, lines: readonly KeyLine[]])[] => [
  [
    t("Anywhere in the panel"),
    [
      [[t("Page Up"), t("Page Down")], t("previous, next frame")],
      [[t("Ctrl+Z"), t("Ctrl+Y")], t("undo and redo in the text")],
      [["?"], t("this list")],
      [[t("Esc")], t("back to looking")],
    ],
  ],
  [
    t("With the picture in focus"),
    [
      ...NUDGES.map(({ key, more, less, step, fine }): KeyLine => {
        const { label, unit } = CONTROLS.find((control) => control.key === key)!;
        const words = t("{0}: {1} {2} more, less; with Shift {3} {2}", label, step, unit, fine);
        return [[more.toUpperCase(), less.toUpperCase()], words];
      }),
      [["←", "→", "↑", "↓"], t("pan; with a tool they move its cross, with Shift in small steps")],
      [[t("Enter")], t("what a click with the tool would do")],
      [[t("Backspace")], t("reverts the last point of a line")],
    ],
  ],
  [
    t("On a handle of local exposure"),
    [
      [["←", "→", "↑", "↓"], t("move it, with Shift in small steps")],
      [[t("Delete")], t("on the middle: removes the area; on a corner: removes the corner")],
      [[t("Tab")], t("next handle")],
    ],
  ],
  [
    t("Outside of fields"),
    [
      [["0"], t("whole picture")],
      [["1", "2"], t("100 %, 200 %")],
      [["+", "−"], t("nearer, farther")],
      [["C"], t("held: the other side of the comparison alone")],
      [["P"], t("proof: the print as it looks on paper")],
      [["S"], t("all specks of the frame as small pictures")],
    ],
  ],
];

export interface Help {
  readonly element: HTMLDialogElement;
  toggle(): void;
}

export function makeHelp(): Help {
  const tables = groups().map(([title, lines]) => {
    const rows = lines.map(([keys, does]) =>
      el(
        "tr",
        {},
        el("th", { scope: "row" }, ...keys.flatMap((key, i) => (i ? [" ", el("kbd", {}, key)] : [el("kbd", {}, key)]))),
        el("td", {}, does),
      ),
    );
    return el("section", {}, el("h3", {}, title), el("table", {}, el("tbody", {}, ...rows)));
  });
  const close = kit.button({ label: t("Close"), kind: "secondary", onPress: () => element.close() });
  const element = el(
    "dialog",
    { class: "help", "aria-label": t("Keys of the preview") },
    el("h2", {}, t("Keys of the preview")),
    el("div", { class: "help-groups" }, ...tables),
    el("div", { class: "buttons" }, close.element),
  );
  element.addEventListener("keydown", (event) => {
    if (event.key !== "?") return;
    event.preventDefault();
    event.stopPropagation();
    element.close();
  });
  // A press beside the list closes it.
  element.addEventListener("pointerdown", (event) => {
    if (event.target === element) element.close();
  });
  return {
    element,
    toggle: () => (element.open ? element.close() : element.showModal()),
  };
}
