/** The histograms: densities of the negative above base, and tones of the print, with what is lost at both ends. */
import { el, svg } from "../../dom.ts";
import type { Source } from "../../render/source.ts";
import type { FrameEntry } from "../../../extension/messages.ts";
import type { Session } from "../session.ts";
import {
  DENSITY_BINS,
  densityHistogram,
  MIN_DENSITY,
  MAX_DENSITY,
  printHistogram,
  type Samples,
  samplesOf,
} from "../../state/histogram.ts";
import { croppedFrame } from "../../state/frame-transform.ts";
import { makePlanCache } from "../../state/scene.ts";
import { section } from "./section.ts";
import { t } from "../../translate.ts";

const [WIDTH, HEIGHT] = [240, 64];
const NAMES = ["red", "green", "blue"] as const;

export function makeHistograms(session: Session): HTMLElement {
  const density = chart(t("Densities above base"));
  const print = chart(t("Tones of the print"));
  for (let d = 0; d <= 2.5; d += 0.5) {
    const x = ((d - MIN_DENSITY) / (MAX_DENSITY - MIN_DENSITY)) * WIDTH;
    density.grid.append(svg("line", { x1: x, x2: x, y1: 0, y2: HEIGHT }));
  }
  const ends = el("p", { class: "hint", "aria-live": "off" });
  const element = section(
    session,
    "histogram",
    t("Histograms"),
    el(
      "figure",
      {},
      density.element,
      el(
        "figcaption",
        {},
        el("span", {}, t("base")),
        el("span", {}, t("Density above base")),
        el("span", {}, String(MAX_DENSITY)),
      ),
    ),
    el(
      "figure",
      {},
      print.element,
      el("figcaption", {}, el("span", {}, t("black")), el("span", {}, t("Print")), el("span", {}, t("white"))),
    ),
    ends,
  );
  const planOf = makePlanCache();
  let taken: { source: Source; frame: FrameEntry; samples: Samples } | undefined;
  let shown: unknown;

  session.store.on(({ source, current }) => {
    const [frame, look] = [session.frame(), session.look()];
    if (!element.open || !frame || !look || !source || !current) return;
    if (!taken || taken.source !== source || taken.frame.area !== frame.area)
      taken = { source, frame, samples: samplesOf(source, croppedFrame(source.scanWidth, source.scanHeight, frame)) };
    if (shown === look && taken.frame === frame) return;
    shown = look;
    taken.frame = frame;
    const mono = look.film === "black-and-white-negative";
    density.draw(densityHistogram(taken.samples.light, look), DENSITY_BINS, false);
    const tones = printHistogram(taken.samples, planOf("print", look, "srgb", source, frame));
    print.draw(tones.counts, 256, mono);
    const percent = (v: number): string => `${(v * 100).toFixed(v > 0 && v < 0.01 ? 2 : 1)} %`;
    ends.textContent = t(
      "At white {0}, at the deepest black {1} of the picture.",
      percent(tones.white),
      percent(tones.black),
    );
  });
  return element;
}

function chart(name: string): {
  element: SVGSVGElement;
  grid: SVGGElement;
  draw(counts: Float64Array, bins: number, mono: boolean): void;
} {
  const grid = svg("g", { class: "histogram-grid" });
  const lines = NAMES.map((c) => svg("path", { class: `histogram-line ${c}` }));
  const element = svg(
    "svg",
    {
      class: "histogram",
      viewBox: `0 0 ${WIDTH} ${HEIGHT}`,
      preserveAspectRatio: "none",
      role: "img",
      "aria-label": name,
    },
    grid,
    ...lines,
  );
  return {
    element,
    grid,
    draw(counts, bins, mono) {
      // The ends hold everything beyond them: they must not press the rest down.
      let top = 1;
      for (let k = 0; k < counts.length; k++) if (k % bins > 0 && k % bins < bins - 1) top = Math.max(top, counts[k]);
      for (const [c, line] of lines.entries()) {
        const points = Array.from({ length: bins }, (_, i) => {
          const y = HEIGHT - Math.min(1, Math.sqrt(counts[c * bins + i] / top)) * (HEIGHT - 2);
          return `${((i / (bins - 1)) * WIDTH).toFixed(1)} ${y.toFixed(1)}`;
        });
        line.setAttribute("d", `M0 ${HEIGHT}L${points.join("L")}L${WIDTH} ${HEIGHT}Z`);
        line.classList.toggle("grey", mono && c === 0);
        line.toggleAttribute("hidden", mono && c > 0);
      }
    },
  };
}
