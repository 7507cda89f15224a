/** One tile of the sheet: the picture of a frame, its number, and what is noted of it. */
import type { FrameEntry } from "../../../extension/messages.ts";
import { el } from "../../dom.ts";
import { t } from "../../translate.ts";

/** What a tile says beside its picture. */
export interface TileFacts {
  readonly frame: FrameEntry;
  readonly selected: boolean;
  readonly focused: boolean;
  readonly findings: number;
  readonly wrong: boolean;
  /** Place among the frames that are shown, from 1, and how many there are. */
  readonly place: number;
  readonly count: number;
  /** The frame is missing in the revision that is shown. */
  readonly absent: boolean;
}

export interface TileElement {
  readonly element: HTMLElement;
  /** The frame that it shows; undefined where it is empty. */
  readonly frame: string | undefined;
  /** The picture that was drawn in it last. */
  readonly drawn: ImageBitmap | undefined;
  tell(facts: TileFacts): void;
  show(picture: ImageBitmap): void;
  fail(reason: string): void;
  /** Empties and hides it. */
  clear(): void;
}

/** @param draw draws a picture in the tile's place on its row's canvas, or clears that place */
export function makeTileElement(draw: (picture: ImageBitmap | undefined) => void): TileElement {
  const number = el("span", { class: "number" });
  const marks = el("span", { class: "marks" });
  const element = el(
    "div",
    { class: "sheet-tile", role: "option", tabindex: "-1", hidden: true },
    el("div", { class: "room" }),
    el("div", { class: "caption", "aria-hidden": "true" }, number, marks),
  );
  let shownText = "";
  let shownFrame: string | undefined;
  let drawn: ImageBitmap | undefined;

  const erase = (): void => {
    if (drawn) draw(undefined);
    drawn = undefined;
    element.classList.remove("pictured", "missing");
    element.removeAttribute("title");
  };

  return {
    element,
    get frame() {
      return shownFrame;
    },
    get drawn() {
      return drawn;
    },
    tell(facts) {
      const { frame, selected, focused, place, count } = facts;
      if (shownFrame !== frame.id) erase();
      shownFrame = frame.id;
      element.hidden = false;
      element.setAttribute("aria-selected", String(selected));
      element.tabIndex = focused ? 0 : -1;
      element.classList.toggle("focused", focused);
      const text = [frame.id, ...marksOf(facts)].join(" ");
      const name = nameOf(facts);
      // Most tiles stay as they are while others change.
      const now = `${name}\n${text}\n${place} ${count}`;
      if (now === shownText) return;
      shownText = now;
      element.id = `frame-${frame.id}`;
      element.dataset["frame"] = frame.id;
      element.setAttribute("aria-label", name);
      element.setAttribute("aria-posinset", String(place));
      element.setAttribute("aria-setsize", String(count));
      number.textContent = frame.id;
      marks.textContent = marksOf(facts).join("  ");
      element.classList.toggle("rejected", frame.choice === "reject" || frame.skip);
      element.classList.toggle("wrong", facts.wrong);
      element.classList.toggle("absent", facts.absent);
    },
    show(picture) {
      draw(picture);
      drawn = picture;
      element.classList.add("pictured");
      element.classList.remove("missing");
      element.removeAttribute("title");
    },
    fail(reason) {
      element.classList.add("missing");
      element.title = reason;
    },
    clear() {
      if (shownFrame === undefined) return;
      shownFrame = undefined;
      erase();
      element.hidden = true;
      // Another element may be made for the same frame.
      element.removeAttribute("id");
      delete element.dataset["frame"];
      shownText = "";
    },
  };
}

/** What stands beside the number: short, and in words or digits, so that it needs no key to colours. */
function marksOf({ frame, findings, wrong, absent }: TileFacts): string[] {
  return [
    ...(frame.choice === "keep" ? [t("keep")] : frame.choice === "reject" ? [t("reject")] : []),
    ...(frame.rank === undefined ? [] : [t("rank {0}", frame.rank)]),
    ...(frame.skip ? [t("skipped")] : []),
    ...(absent ? [t("not there")] : []),
    ...(wrong ? ["!"] : []),
    ...(findings > 0 ? [`△ ${findings}`] : []),
  ];
}

function nameOf({ frame, findings, wrong, absent }: TileFacts): string {
  return [
    t("Frame {0}", frame.id),
    ...(frame.title ? [frame.title] : []),
    frame.scans.length > 0 ? frame.scans.join(", ") : t("no scan"),
    ...(frame.choice === "keep" ? [t("keep")] : frame.choice === "reject" ? [t("reject")] : []),
    ...(frame.rank === undefined ? [] : [t("rank {0} of 5", frame.rank)]),
    ...(frame.skip ? [t("skipped")] : []),
    ...(absent ? [t("not in the revision shown")] : []),
    ...(wrong ? [t("with problems")] : []),
    ...(findings === 0 ? [] : [findings === 1 ? t("1 finding") : t("{0} findings", findings)]),
  ].join(", ");
}
