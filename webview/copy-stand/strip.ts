/** The strip: every scan of the session, the newest at the end, to be gone through with the arrow keys. */
import type { StandEntry } from "../../extension/messages.ts";
import { el } from "../dom.ts";
import { t } from "../translate.ts";
import { markOf, wordOf } from "./marks.ts";

export interface Strip {
  readonly element: HTMLElement;
  show(entries: readonly StandEntry[], selected: string | undefined): void;
}

export function makeStrip(onSelect: (scan: string) => void): Strip {
  const element = el("div", {
    class: "strip",
    role: "listbox",
    "aria-label": t("Scans"),
    "aria-orientation": "horizontal",
  });
  let all: readonly StandEntry[] = [];
  let chosen: string | undefined;

  element.addEventListener("keydown", (event) => {
    const at = all.findIndex(({ scan }) => scan === chosen);
    const to = { ArrowLeft: at - 1, ArrowRight: at + 1, Home: 0, End: all.length - 1 }[event.key];
    if (to === undefined || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    const next = all[Math.min(all.length - 1, Math.max(0, to))];
    if (next) onSelect(next.scan);
    element.querySelector<HTMLElement>("[aria-selected=true]")?.focus();
  });

  function cell(entry: StandEntry): HTMLElement {
    const { scan, verdict, frame, used, kind } = entry;
    const name = frame ?? { blank: t("blank"), leader: t("leader"), picture: "", unreadable: t("file") }[kind];
    const state = used ? "" : `, ${t("not used")}`;
    const button = el(
      "button",
      {
        type: "button",
        role: "option",
        class: `cell ${verdict}${used ? "" : " unused"}`,
        "aria-selected": String(scan === chosen),
        tabindex: scan === chosen ? "0" : "-1",
        title: `${scan}: ${wordOf(verdict)}${state}`,
        "aria-label": `${name} ${scan}: ${wordOf(verdict)}${state}`,
      },
      el("span", { class: "name" }, name),
    );
    button.prepend(markOf(verdict));
    button.addEventListener("click", () => onSelect(scan));
    return button;
  }

  return {
    element,
    show(entries, selected) {
      const focused = element.contains(document.activeElement);
      [all, chosen] = [entries, selected];
      element.replaceChildren(...entries.map(cell));
      const now = element.querySelector<HTMLElement>("[aria-selected=true]");
      now?.scrollIntoView({ block: "nearest", inline: "nearest" });
      if (focused) now?.focus();
    },
  };
}
