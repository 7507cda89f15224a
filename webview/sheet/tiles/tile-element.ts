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
  readonly canvas: HTMLCanvasElement;
  frame: string | undefined;
  place(x: number, y: number, width: number, height: number): void;
  tell(facts: TileFacts): void;
  show(picture: ImageBitmap): void;
  fail(reason: string): void;
  /** Empties it for another frame. */
  clear(): void;
}

export function makeTileElement(): TileElement {
  const canvas = el("canvas", { "aria-hidden": "true" });
  const room = el("div", { class: "room" }, canvas);
  const number = el("span", { class: "number" });
  const marks = el("span", { class: "marks" });
  const element = el(
    "div",
    { class: "sheet-tile", role: "option", tabindex: "-1" },
    room,
    el("div", { class: "caption", "aria-hidden": "true" }, number, marks),
  );
  // Drawn by the processor: a canvas of the graphics card is a layer of its own, and a hundred layers make scrolling slow.
  const context = canvas.getContext("2d", { alpha: false, willReadFrequently: true });
  let shownText = "";

  const tile: TileElement = {
    element,
    canvas,
    frame: undefined,
    place(x, y, width, height) {
      // Not by a transform: one of those for each tile makes painting several times as long.
      element.style.left = `${x}px`;
      element.style.top = `${y}px`;
      element.style.width = `${width}px`;
      room.style.height = `${height}px`;
    },
    tell(facts) {
      const { frame, selected, focused, place, count } = facts;
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
      const width = `${picture.width / (window.devicePixelRatio || 1)}px`;
      if (canvas.width !== picture.width) canvas.width = picture.width;
      if (canvas.height !== picture.height) canvas.height = picture.height;
      if (canvas.style.width !== width) canvas.style.width = width;
      context?.drawImage(picture, 0, 0);
      picture.close();
      element.classList.add("drawn");
      element.classList.remove("missing");
      element.title = "";
    },
    fail(reason) {
      element.classList.add("missing");
      element.title = reason;
    },
    clear() {
      element.classList.remove("drawn", "missing");
      element.title = "";
      // Another element may be made for the same frame.
      element.removeAttribute("id");
      delete element.dataset["frame"];
      shownText = "";
    },
  };
  return tile;
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
