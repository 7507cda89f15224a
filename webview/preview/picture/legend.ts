/** What lies in the picture's corner: what is proofed, the legend of the hatching, and a note on colours that this screen cannot show. */
import { el } from "../../dom.ts";
import type { Surface } from "../../render/surface.ts";
import type { Source } from "../../render/source.ts";
import type { FrameEntry } from "../../../extension/messages.ts";
import type { FrameLook } from "../../../extension/engine/types.ts";
import { croppedFrame } from "../../state/frame-transform.ts";
import { beyondScreen } from "../../state/gamut.ts";
import { samplesOf } from "../../state/histogram.ts";
import { t } from "../../translate.ts";
import { proofedPrint } from "../proof.ts";
import type { Session } from "../session.ts";

/** Milliseconds that values rest before the picture's colours are looked through. */
const REST = 350;
/** A part of the picture below this is a few noisy pixels. */
const MIN_SHARE = 0.0005;

export function makeLegend(session: Session, surface: () => Surface): HTMLElement {
  const swatch = (kind: string, words: string): HTMLElement =>
    el("span", { class: "swatch-line" }, el("span", { class: `swatch ${kind}`, "aria-hidden": "true" }), words);
  const [white, black] = [swatch("white", t("a channel at white")), swatch("black", t("deepest black"))];
  const beyond = swatch("gamut", t("not on this paper"));
  const clipping = el(
    "span",
    { class: "legend-part" },
    white,
    black,
    swatch("saturated", t("camera saturated")),
    beyond,
  );
  const proof = el("span", { class: "legend-part" });
  const gamut = el("span", { class: "legend-part" });
  const element = el("div", { class: "legend" }, proof, clipping, gamut);
  followGamut(session, surface, gamut);
  session.store.on((model) => {
    const { ui, current } = model;
    clipping.hidden = !ui.warn || !current;
    white.hidden = black.hidden = ui.view !== "print";
    const print = proofedPrint(model);
    proof.hidden = beyond.hidden = !print || !model.proof || !current || ui.view !== "print";
    if (print) proof.textContent = t("Proof: {0} · {1} · {2}", print.output, print.profile, print.intent);
  });
  return element;
}

/** Reports the part of the picture whose colours one of its outputs holds and the screen does not. */
function followGamut(session: Session, surface: () => Surface, element: HTMLElement): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let asked: { frame: FrameEntry; look: FrameLook; source: Source } | undefined;
  let taken: { source: Source; area: FrameEntry["area"]; samples: Float32Array } | undefined;

  function measure(): void {
    if (!asked) return;
    const { frame, look, source } = asked;
    if (taken?.source !== source || taken.area !== frame.area) {
      const { light: samples } = samplesOf(source, croppedFrame(source.scanWidth, source.scanHeight, frame));
      taken = { source, area: frame.area, samples };
    }
    const { samples } = taken;
    const screen = surface().space;
    const parts = frame.spaces.map((space) => beyondScreen(samples, look, space, screen, source.weights));
    const most = Math.max(0, ...parts);
    element.hidden = most < MIN_SHARE;
    if (most < MIN_SHARE) return;
    const space = frame.spaces[parts.indexOf(most)]!;
    const percent = (100 * most).toFixed(most < 0.01 ? 2 : 1);
    element.textContent = t("Export ({0}): {1} % in colours that this screen cannot show", space, percent);
    element.title = t(
      "They are shown as the nearest colours of {0}. The file holds them as they are.",
      nameOfScreen(screen),
    );
  }

  session.store.on(({ source, current, ui, proof }) => {
    const [frame, look] = [session.frame(), session.look()];
    // What is proofed is seen on paper, not in its output's space.
    if (!frame || !look || !source || !current || proof || ui.view !== "print") {
      element.hidden = true;
      asked = undefined;
      return;
    }
    if (asked?.frame === frame && asked.look === look && asked.source === source) return;
    asked = { frame, look, source };
    clearTimeout(timer);
    timer = setTimeout(measure, REST);
  });
}

const nameOfScreen = (space: Surface["space"]): string => (space === "p3" ? "Display P3" : "sRGB");
