/** A list of proposed spots: one row a spot, with a small picture of it and what can be done with it. */
import { isLine, middleOf } from "../../../extension/engine/image/spot.ts";
import type { FrameEntry } from "../../../extension/messages.ts";
import { el } from "../../dom.ts";
import { t } from "../../translate.ts";
import { rove } from "../../ui/index.ts";
import type { SpeckPictures } from "../specks.ts";
import type { Proposal } from "./proposal-actions.ts";

export interface RowAction {
  readonly name: string;
  readonly run: (one: Proposal) => void;
}

export interface ProposalList {
  readonly element: HTMLElement;
  /** Puts rows in place of the list's. The keyboard goes on with what has come in the place of the one that is done. */
  show(frame: FrameEntry, proposals: readonly Proposal[]): void;
}

/** CSS pixels of a small picture's sides. */
const SIZE = 44;

/** @param choose called with the proposal whose row the pointer or the keyboard comes to */
export function makeProposalList(
  label: string,
  specks: SpeckPictures,
  actions: readonly RowAction[],
  choose: (one: Proposal) => void,
): ProposalList {
  const element = el("ul", { class: "spots specks", "aria-label": label });
  const rowWithFocus = (): number => [...element.children].findIndex((row) => row.contains(document.activeElement));
  const focusRow = (index: number): void => element.children[index]?.querySelector("button")?.focus();
  rove(element, { across: true });

  element.addEventListener("keydown", (event) => {
    const step = event.key === "ArrowDown" ? 1 : event.key === "ArrowUp" ? -1 : 0;
    const at = rowWithFocus();
    if (step === 0 || at < 0) return;
    event.preventDefault();
    event.stopPropagation();
    focusRow(Math.min(element.children.length - 1, Math.max(0, at + step)));
  });
  return {
    element,
    show(frame, proposals) {
      const focused = rowWithFocus();
      element.replaceChildren(
        ...proposals.map((one) => rowOf(one, specks.picture(frame, one.spot, SIZE), actions, choose)),
      );
      if (focused >= 0) focusRow(Math.min(focused, proposals.length - 1));
    },
  };
}

function rowOf(
  one: Proposal,
  picture: HTMLElement,
  actions: readonly RowAction[],
  choose: (one: Proposal) => void,
): HTMLElement {
  const words = speckText(one);
  const buttons = actions.map(({ name, run }) => {
    const button = el("button", { type: "button", class: "link", "aria-label": `${name}. ${words}` }, name);
    button.addEventListener("click", () => run(one));
    return button;
  });
  const row = el("li", { title: words }, picture, el("span", { class: "speck-actions" }, ...buttons));
  row.addEventListener("pointerenter", () => choose(one));
  row.addEventListener("focusin", () => choose(one));
  return row;
}

/** Where a spot lies, in percent of the scan's width: for tooltips and screen readers. */
export function speckText({ kind, spot }: Proposal): string {
  const [x, y] = middleOf(spot);
  const place = [(x * 100).toFixed(1), (y * 100).toFixed(1)];
  if (isLine(spot))
    return kind === "film"
      ? t("Film: hair or scratch at {0}, {1} % of the width", ...place)
      : t("Sensor or lens: hair at {0}, {1} % of the width", ...place);
  return kind === "film"
    ? t("Film: {0}, {1} % of the width", ...place)
    : t("Sensor or lens: {0}, {1} % of the width", ...place);
}
