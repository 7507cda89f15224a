/** Printing paper for black-and-white film: its contrast as a grade or an ISO range, and the one that fits the negative. */
import {
  densityRange,
  fittingRange,
  nearestGrade,
  PAPER_GRADES,
  printedRange,
  toneWithContrast,
} from "../../../extension/engine/film/paper.ts";
import type { FrameEntry } from "../../../extension/messages.ts";
import { el } from "../../dom.ts";
import { ICONS } from "../icons.ts";
import { setValue } from "../../state/edits.ts";
import type { Source } from "../../render/source.ts";
import { pictureSample } from "../../state/sheet/picture-sample.ts";
import { t } from "../../translate.ts";
import { kit } from "../../ui/index.ts";
import { keyOf, type Session } from "../session.ts";
import { provenanceOf } from "./origin.ts";

const PATH = ["positive", "contrast"] as const;
/** Stands for a slope in the list of papers. */
const SLOPE = "slope";

/** Density range of the picture in view, measured once for each picture and crop. */
function rangeReader(): (source: Source, frame: FrameEntry) => number | undefined {
  let known: { source: Source; area: FrameEntry["area"]; range: number | undefined } | undefined;
  return (source, { area }) => {
    if (known?.source !== source || known.area !== area)
      known = { source, area, range: densityRange(pictureSample(source, area), source.weights) };
    return known.range;
  };
}

/** The row below the contrast's slider; hidden for film with colours, which has papers of one contrast. */
export function makePaper(session: Session): HTMLElement {
  const measured = rangeReader();
  const rangeNow = (): number | undefined => {
    const { source, current } = session.store.get();
    const frame = session.frame();
    return source && current && frame ? measured(source, frame) : undefined;
  };
  function write(contrast: number | string): void {
    const [frame, look] = [session.frame(), session.look()];
    if (!frame || !look) return;
    const { scope } = session.store.get().ui;
    const follows = !provenanceOf(session, PATH, scope)?.overridden;
    const tone = toneWithContrast(look, contrast);
    session.preview({ look: follows ? { ...look, tone } : look, values: { [keyOf(PATH)]: contrast } });
    void session.commit(
      t("Contrast {0}", String(contrast)),
      setValue(scope, frame.id, PATH, contrast),
      session.store.get().draft,
    );
  }
  const grades: [string, string][] = PAPER_GRADES.map(({ grade, range }) => [
    `grade ${grade}`,
    t("Grade {0} (R{1})", String(grade).replace("-", "−"), range),
  ]);
  const paper = kit.choice<string>({
    label: t("Paper"),
    options: [[SLOPE, t("By slope")], ...grades],
    value: SLOPE,
    onChange(value) {
      const look = session.look();
      if (look) write(value === SLOPE ? Number(look.tone.contrast.toFixed(2)) : value);
    },
  });
  const fit = kit.button({
    label: t("Fit to the negative"),
    beside: t("Fit"),
    title: t("Sets the paper's ISO range to the density range of this picture"),
    icon: ICONS.fit,
    kind: "quiet",
    onPress: () => {
      const range = rangeNow();
      if (range !== undefined) write(`R${fittingRange(range)}`);
    },
  });
  let shown: string = SLOPE;
  const words = el("p", { class: "hint", "data-control": "density-range" });
  const element = el("div", { class: "paper" }, el("div", { class: "buttons" }, paper.element, fit.element), words);
  session.store.on(({ ui, roll, draft }) => {
    const look = session.look();
    element.hidden = look?.film !== "black-and-white-negative";
    if (element.hidden || !look) return;
    const stated = draft?.values?.[keyOf(PATH)] ?? provenanceOf(session, PATH, ui.scope)?.value;
    const value = typeof stated === "string" ? stated : SLOPE;
    const enabled = roll !== undefined && !roll.stale;
    if (value !== shown) {
      const known = value === SLOPE || grades.some(([name]) => name === value);
      paper.set({ options: [[SLOPE, t("By slope")], ...grades, ...(known ? [] : [[value, value] as const])], value });
      shown = value;
    }
    paper.set({ enabled });
    const range = rangeNow();
    fit.set({ enabled: enabled && range !== undefined });
    const print = t("The print holds R{0}.", Math.round(printedRange(look)));
    const text =
      range === undefined
        ? print
        : t(
            "This negative spans {0} D: R{1} fits, nearest grade {2}. {3}",
            range.toFixed(2),
            fittingRange(range),
            String(nearestGrade(fittingRange(range)).grade).replace("-", "−"),
            print,
          );
    if (words.textContent !== text) words.textContent = text;
  });
  return element;
}
