/** The large picture, with the places that the verdict speaks of. */
import { clamp } from "../../extension/engine/math/clamp.ts";
import type { StandScan } from "../../extension/messages.ts";
import { el, svg } from "../dom.ts";
import { t } from "../translate.ts";
import { imageOf } from "./focus-aid.ts";

export interface StandPicture {
  readonly element: HTMLElement;
  /** @param bytes a JPEG file; absent while there is none */
  show(name: string, bytes: Uint8Array | undefined): void;
  mark(scan: StandScan | undefined): void;
}

type Box = readonly [left: number, top: number, width: number, height: number];

export function makePicture(): StandPicture {
  const frame = el("div", { class: "print" });
  const empty = el("p", { class: "empty" });
  const element = el("div", { class: "picture" }, frame, empty);
  const marks = svg("svg", { class: "marks", viewBox: "0 0 1 1", preserveAspectRatio: "none", "aria-hidden": "true" });
  return {
    element,
    show(name, bytes) {
      marks.replaceChildren();
      frame.replaceChildren(...(bytes ? [imageOf(bytes, t("Positive of {0}", name)), marks] : []));
      frame.hidden = !bytes;
      empty.textContent = bytes ? "" : name;
    },
    mark(scan) {
      const areas = scan?.reasons.flatMap((reason) => reason.areas) ?? [];
      const boxes = areas.map((area) => scan && inPicture(area, scan)).filter((box) => box !== undefined);
      marks.replaceChildren(
        ...boxes
          .slice(0, 200)
          .map(([x, y, width, height]) => svg("rect", { x, y, width, height, "vector-effect": "non-scaling-stroke" })),
      );
    },
  };
}

/** Smallest mark, in parts of the picture: a speck would not be seen. */
const MIN_BOX = 0.012;

/** A place in the scan as a place in the turned and cropped picture; undefined where it lies outside. */
function inPicture([left, top, width, height]: Box, { area, mirror, turn }: StandScan): Box | undefined {
  if (!area) return undefined;
  let x0 = clamp((left - area.left) / area.width, 0, 1);
  let x1 = clamp((left + width - area.left) / area.width, 0, 1);
  let y0 = clamp((top - area.top) / area.height, 0, 1);
  let y1 = clamp((top + height - area.top) / area.height, 0, 1);
  // A place beside the picture is marked at the nearest edge.
  const grow = (a: number, b: number): [number, number] => {
    const more = Math.max(0, MIN_BOX - (b - a)) / 2;
    return [Math.max(0, a - more), Math.min(1, b + more)];
  };
  [x0, x1] = grow(x0, x1);
  [y0, y1] = grow(y0, y1);
  if (mirror) [x0, x1] = [1 - x1, 1 - x0];
  if (turn === 90) [x0, y0, x1, y1] = [1 - y1, x0, 1 - y0, x1];
  else if (turn === 180) [x0, y0, x1, y1] = [1 - x1, 1 - y1, 1 - x0, 1 - y0];
  else if (turn === 270) [x0, y0, x1, y1] = [y0, 1 - x1, y1, 1 - x0];
  return [x0, y0, x1 - x0, y1 - y0];
}
