/** The two pictures: wipe, side by side, blink, difference; one zoom and one centre for all of them. */
import { el } from "../dom.ts";
import { differenceScale } from "../../extension/review-report.ts";
import { listenToPointer } from "./pointer.ts";
import type { ReviewState, Session } from "./session.ts";
import type { ShownFrame, ShownPicture } from "./shown.ts";
import { placed, scaleOf, type Size } from "./view.ts";
import { t } from "../translate.ts";

/** Milliseconds that a blink shows each side: well under the three flashes a second that can harm (WCAG 2.3.1). */
const BLINK = 700;

export function makeStage(session: Session): HTMLElement {
  const first = makePane();
  const second = makePane();
  const wipe = el("input", { type: "range", min: "0", max: "100", "aria-label": t("Place of the wipe, percent") });
  const line = el("div", { class: "wipe" }, wipe);
  first.element.append(line);
  const empty = el("p", { class: "empty" });
  const stage = el("div", { class: "stage" }, first.element, second.element, empty, makeLegend());
  wipe.addEventListener("input", () => session.set({ wipe: wipe.valueAsNumber / 100 }));
  const panes = [first, second];

  const draw = (state: ReviewState): void => {
    const { entry, mode, view, showsBefore, blink } = state;
    const frame = entry?.frame;
    const some = frame?.after ?? frame?.before;
    stage.dataset["mode"] = showsBefore ? "before" : mode;
    stage.classList.toggle("bare", !some);
    empty.textContent = some ? "" : emptyText(state);
    if (!frame || !some) return;
    second.element.hidden = mode !== "side" || showsBefore;
    const sides = sideText();
    const shows = showsBefore
      ? [[frame.before, sides.before] as const]
      : mode === "side"
        ? [[frame.before, sides.before] as const, [frame.after, sides.now] as const]
        : mode === "difference"
          ? [[frame.map, sides.difference] as const]
          : mode === "blink"
            ? [blink.side === "before" ? ([frame.before, sides.before] as const) : ([frame.after, sides.now] as const)]
            : [[frame.after, sides.now] as const];
    for (const [i, pane] of panes.entries()) {
      const [picture, label] = shows[i] ?? [undefined, ""];
      const over = mode === "wipe" && !showsBefore && frame.before && frame.after ? frame.before : undefined;
      pane.show(picture, i === 0 ? over : undefined, label, missingText(frame, label));
      pane.place(view, sizeOf(picture ?? some));
    }
    const wiping = mode === "wipe" && !showsBefore && frame.before !== undefined && frame.after !== undefined;
    line.hidden = !wiping;
    const cut = first.cut(state.wipe);
    line.style.left = `${cut}px`;
    wipe.value = String(Math.round(state.wipe * 100));
  };
  session.on(draw);
  new ResizeObserver(() => draw(session.state)).observe(stage);
  listenToPointer(
    session,
    panes.map((pane) => pane.element),
    line,
  );

  setInterval(() => {
    const { mode, blink } = session.state;
    if (mode === "blink" && blink.running && !document.hidden) flip(session);
  }, BLINK);
  return stage;
}

/** The other side of a blink. */
export function flip(session: Session): void {
  const { blink } = session.state;
  session.set({ blink: { ...blink, side: blink.side === "before" ? "after" : "before" } });
}

/** What the pictures are called. */
const sideText = () => ({ before: t("before"), now: t("now"), difference: t("difference") });

export const sizeOf = ({ width, height }: Size): Size => ({ width, height });

function makePane() {
  const picture = el("img", { alt: "", draggable: "false" });
  const over = el("img", { alt: "", class: "over", draggable: "false" });
  const tag = el("span", { class: "tag" });
  const overTag = el("span", { class: "tag left" }, t("before"));
  const missing = el("span", { class: "missing" });
  const element = el("div", { class: "pane" }, picture, over, missing, overTag, tag);
  let box = { left: 0, top: 0, width: 0, height: 0 };
  return {
    element,
    show(shown: ShownPicture | undefined, above: ShownPicture | undefined, label: string, words: string): void {
      put(picture, shown, label);
      put(over, above, t("before"));
      tag.textContent = label;
      overTag.hidden = !above;
      missing.textContent = shown ? "" : words;
    },
    place(view: ReviewState["view"], size: Size): void {
      const pane = { width: element.clientWidth, height: element.clientHeight };
      box = placed(view, size, pane);
      for (const image of [picture, over]) {
        image.style.transform = `translate(${box.left}px, ${box.top}px)`;
        image.style.width = `${box.width}px`;
        image.style.height = `${box.height}px`;
        image.classList.toggle("coarse", scaleOf(view, size, pane) >= 2.5);
      }
    },
    /** Cuts the upper picture at a part of the pane's width; returns the place of the cut in screen pixels. */
    cut(part: number): number {
      const at = part * element.clientWidth;
      over.style.clipPath = `inset(0 ${Math.max(0, box.left + box.width - at)}px 0 0)`;
      return at;
    },
  };
}

function put(image: HTMLImageElement, shown: ShownPicture | undefined, label: string): void {
  image.hidden = !shown;
  if (!shown || image.src === shown.source) return;
  image.src = shown.source;
  image.alt = label;
}

function missingText({ status, difference }: ShownFrame, label: string): string {
  const sides = sideText();
  if (label === sides.difference && !difference)
    return status === "changed"
      ? t("There is nothing to compare.")
      : status === "added"
        ? t("The frame is new: there is nothing to compare.")
        : t("The frame was deleted: there is nothing to compare.");
  if (label === sides.before && status === "added") return t("The frame is new.");
  if (label === sides.now && status === "removed") return t("The frame was deleted.");
  return t("There is no picture: {0}.", label);
}

function emptyText({ entry, review }: ReviewState): string {
  if (!entry?.frame) return "";
  if (!entry.frame.looksDifferent) return t("The picture is as it was.");
  return review.rendered
    ? t("There is no picture; the notes below give the reason.")
    : t("This review was made without pictures.");
}

function makeLegend(): HTMLElement {
  const ramp = el("span", { class: "ramp" });
  const last = differenceScale.length - 1;
  const stops = differenceScale.map(([, r, g, b], i) => `rgb(${r} ${g} ${b}) ${(i / last) * 100}%`);
  ramp.style.backgroundImage = `linear-gradient(to right, ${stops.join(", ")})`;
  const marks = el("span", { class: "marks" }, ...differenceScale.map(([at]) => el("span", {}, String(at))));
  return el("div", { class: "legend" }, el("span", { class: "unit" }, "ΔE00"), el("span", {}, ramp, marks));
}
