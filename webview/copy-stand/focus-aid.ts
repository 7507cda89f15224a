/** The focus aid: sharpness in the middle and the corners against the best so far, its course, and grain to compare by eye. */
import type { StandPlace, StandRequests, StandScan, StandState } from "../../extension/messages.ts";
import { el, svg } from "../dom.ts";
import { t } from "../translate.ts";

export interface FocusAid {
  readonly element: HTMLElement;
  show(scan: StandScan | undefined, trend: StandState["trend"]): void;
  showCrops(crops: StandRequests["crops"]["reply"] | undefined): void;
}

const PLACES: readonly StandPlace[] = ["topLeft", "topRight", "middle", "bottomLeft", "bottomRight"];

const nameOf = (place: StandPlace): string =>
  ({
    middle: t("middle"),
    topLeft: t("top left"),
    topRight: t("top right"),
    bottomLeft: t("bottom left"),
    bottomRight: t("bottom right"),
  })[place];

const CHANGES = { better: "▲", same: "=", worse: "▼" } as const;
const changeName = (change: keyof typeof CHANGES): string =>
  ({ better: t("better than before"), same: t("as before"), worse: t("worse than before") })[change];

export function makeFocusAid(onCompare: (on: boolean) => void): FocusAid {
  const grid = el("div", { class: "places" });
  const crops = el("div", { class: "crops", hidden: true });
  const compare = el("button", { type: "button", "aria-pressed": "false" }, t("Compare with best"));
  compare.addEventListener("click", () => {
    const on = compare.getAttribute("aria-pressed") !== "true";
    compare.setAttribute("aria-pressed", String(on));
    crops.hidden = !on;
    onCompare(on);
  });
  const element = el(
    "section",
    { class: "focus", "aria-label": t("Focus") },
    el("div", { class: "head" }, el("h2", {}, t("Focus")), compare),
    grid,
    crops,
  );

  function cell(place: StandPlace, scan: StandScan | undefined, trend: StandState["trend"]): HTMLElement {
    const reading = scan?.focus[place];
    const box = el("div", { class: `place ${place}` }, el("span", { class: "where" }, nameOf(place)));
    if (!reading) {
      box.append(el("span", { class: "none" }, t("no even grain")));
      return box;
    }
    const { response, change, best = response } = reading;
    box.append(
      el(
        "span",
        { class: "value" },
        `${response.toFixed(0)} %`,
        change && el("span", { class: `change ${change}`, title: changeName(change) }, ` ${CHANGES[change]}`),
        change && el("span", { class: "hidden-words" }, `, ${changeName(change)}`),
      ),
      barOf(response, best),
      sparklineOf(trend.map((one) => one[place])),
    );
    box.title = t(
      "Response falls to half at {0} % of half the sampling frequency; best so far {1} %.",
      response.toFixed(0),
      best.toFixed(0),
    );
    return box;
  }

  const row = (title: string, bytes: Uint8Array | undefined): HTMLElement =>
    el("figure", {}, bytes && imageOf(bytes, title), el("figcaption", {}, title));

  return {
    element,
    show(scan, trend) {
      grid.replaceChildren(...PLACES.map((place) => cell(place, scan, trend)));
    },
    showCrops(reply) {
      crops.replaceChildren(
        ...(reply?.own ? [row(t("This scan: middle, top left, top right, bottom left, bottom right"), reply.own)] : []),
        ...(reply?.best ? [row(t("Sharpest so far: {0}", reply.best.scan), reply.best.bytes)] : []),
        ...(reply?.own ? [] : [el("p", {}, t("There is no grain to compare on this scan."))]),
      );
    },
  };
}

function barOf(response: number, best: number): SVGSVGElement {
  const part = Math.min(1, response / Math.max(best, 1));
  const bar = svg("svg", { viewBox: "0 0 100 8", preserveAspectRatio: "none", class: "bar", "aria-hidden": "true" });
  bar.append(
    svg("rect", { x: 0, y: 0, width: 100, height: 8, class: "of" }),
    svg("rect", { x: 0, y: 0, width: 100 * part, height: 8, class: "is" }),
  );
  return bar;
}

/** The last scans as a line; a gap where a scan could not be measured there. */
function sparklineOf(values: readonly (number | undefined)[]): SVGSVGElement {
  const course = svg("svg", {
    viewBox: "0 0 100 24",
    preserveAspectRatio: "none",
    class: "course",
    "aria-hidden": "true",
  });
  const top = Math.max(1, ...values.map((v) => v ?? 0));
  const points = values.flatMap((v, i) =>
    v === undefined ? [] : [[(100 * (i + 0.5)) / Math.max(1, values.length), 23 - (21 * v) / top] as const],
  );
  course.append(svg("polyline", { points: points.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(" ") }));
  const last = points.at(-1);
  if (last) course.append(svg("rect", { x: last[0] - 1.2, y: last[1] - 2, width: 2.4, height: 4, class: "now" }));
  return course;
}

export function imageOf(bytes: Uint8Array, alt: string): HTMLImageElement {
  const image = el("img", { alt });
  const url = URL.createObjectURL(new Blob([new Uint8Array(bytes)], { type: "image/jpeg" }));
  image.addEventListener("load", () => URL.revokeObjectURL(url), { once: true });
  image.src = url;
  return image;
}
