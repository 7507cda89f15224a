/** The border between picture and values: dragged, or moved by arrow keys. The picture keeps half of the panel's area. */
import { clamp } from "../../extension/engine/math/clamp.ts";
import { el } from "../dom.ts";
import { t } from "../translate.ts";
import type { Session } from "./session.ts";

/** The picture's least part of the panel's area. */
const MIN_SHARE = 0.5;
/** Widths of the values beside the picture, CSS pixels. */
const [MIN_SIDE, MAX_SIDE, USUAL_SIDE] = [240, 640, 300];
/** Height of the values below the picture. */
const MIN_BELOW = 60;
const STEP = 16;
/** The border itself. */
const BORDER = 6;

export interface Split {
  readonly element: HTMLElement;
}

/** @param work the grid with the picture, the border, and the values */
export function makeSplit(session: Session, work: HTMLElement): Split {
  const element = el("div", {
    class: "split",
    role: "separator",
    tabindex: "0",
    "aria-label": t("Size of the values"),
  });
  const stacked = matchMedia("(max-width: 820px)");

  /** Least and most that the values may take. */
  function limits(): readonly [min: number, max: number] {
    const { width, height } = work.getBoundingClientRect();
    const half = MIN_SHARE * innerWidth * innerHeight;
    const [own, across, least] = stacked.matches ? [height, width, MIN_BELOW] : [width, height, MIN_SIDE];
    const most = Math.max(0, Math.floor(own - half / Math.max(1, across)) - BORDER);
    return [Math.min(least, most), stacked.matches ? most : Math.min(MAX_SIDE, most)];
  }

  const wanted = (max: number): number => {
    const { sizes } = session.store.get().ui;
    return (stacked.matches ? sizes.below : sizes.side) ?? (stacked.matches ? max : USUAL_SIDE);
  };

  function lay(): void {
    const [min, max] = limits();
    const size = clamp(wanted(max), min, max);
    work.style.setProperty("--values", `${size}px`);
    element.setAttribute("aria-orientation", stacked.matches ? "horizontal" : "vertical");
    for (const [name, value] of [
      ["min", min],
      ["max", max],
      ["now", size],
    ] as const)
      element.setAttribute(`aria-value${name}`, String(Math.round(value)));
    element.setAttribute("aria-valuetext", t("{0} px", Math.round(size)));
  }

  function resize(size: number): void {
    const [min, max] = limits();
    const held = clamp(Math.round(size), min, max);
    const { sizes } = session.store.get().ui;
    session.ui({ sizes: { ...sizes, [stacked.matches ? "below" : "side"]: held } });
  }

  element.addEventListener("pointerdown", (event) => {
    event.preventDefault();
    element.setPointerCapture(event.pointerId);
  });
  element.addEventListener("pointermove", (event) => {
    if (!element.hasPointerCapture(event.pointerId)) return;
    const box = work.getBoundingClientRect();
    resize(stacked.matches ? box.bottom - event.clientY : box.right - event.clientX);
  });
  element.addEventListener("dblclick", () => session.ui({ sizes: {} }));
  element.addEventListener("keydown", (event) => {
    const by = { ArrowLeft: STEP, ArrowUp: STEP, ArrowRight: -STEP, ArrowDown: -STEP }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    resize(Number(element.getAttribute("aria-valuenow")) + by);
  });
  new ResizeObserver(lay).observe(work);
  let followed: unknown;
  session.store.on(({ ui: { sizes } }) => {
    // Measuring makes the browser lay the page out at once, which other changes of the state need not wait for.
    if (sizes !== followed) lay();
    followed = sizes;
  });
  return { element };
}
