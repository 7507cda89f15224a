/** The print: a slider for each value, with its origin, for this frame or for the roll. */
import { el } from "../../dom.ts";
import type { Session } from "../session.ts";
import type { Scope } from "../../state/cascade.ts";
import { type Control, CONTROLS, controlsFor, accessibleText } from "../../state/controls.ts";
import { movesAll, statesItself } from "../../state/roll-move.ts";
import { kit, type Slider, slider } from "../../ui/index.ts";
import { originMark, type OriginMark, provenanceOf } from "./origin.ts";
import { makePaper } from "./paper.ts";
import { showValue, shownValue, writeValue } from "./print-values.ts";
import { section } from "./section.ts";
import { ICONS } from "../icons.ts";
import { t } from "../../translate.ts";

interface Row {
  readonly control: Control;
  readonly slider: Slider;
  readonly origin: OriginMark;
  readonly element: HTMLElement;
}

export function makePrint(session: Session): Record<"scope" | "exposure" | "tone" | "toning", HTMLElement> {
  const rows = CONTROLS.map((control) => makeRow(session, control));
  const part = (keys: readonly string[]): HTMLElement[] =>
    rows.filter((r) => keys.includes(r.control.key)).map((r) => r.element);
  const tools = el("div", { class: "buttons" });
  const neutral = kit.button({
    label: t("Pick a neutral"),
    beside: t("Neutral"),
    title: t("Click on something that was grey: sets magenta and yellow filtration"),
    icon: ICONS.pick,
    kind: "quiet",
    pressed: false,
    onPress: () => session.ui({ tool: session.store.get().ui.tool === "neutral" ? "look" : "neutral" }),
  });
  const grey = kit.button({
    label: t("Pick a mid-grey"),
    beside: t("Mid-grey"),
    title: t("Click on something of medium brightness: sets the exposure"),
    icon: ICONS.pick,
    kind: "quiet",
    pressed: false,
    onPress: () => session.ui({ tool: session.store.get().ui.tool === "grey" ? "look" : "grey" }),
  });
  tools.append(neutral.element, grey.element);
  const colours = section(
    session,
    "exposure",
    t("Exposure and filtration"),
    ...part(["exposure"]),
    makeReach(session),
    ...part(["cyan", "magenta", "yellow"]),
    tools,
  );
  const tones = section(
    session,
    "tone",
    t("Tone"),
    ...part(["contrast"]),
    makePaper(session),
    ...part(["toe", "shoulder", "black", "saturation"]),
  );
  const toning = section(
    session,
    "toning",
    t("Toning"),
    ...part(["shadowHue", "shadowStrength", "highlightHue", "highlightStrength", "paperHue", "paperStrength"]),
  );
  const scope = makeScope(session);

  session.store.on(({ ui, roll }) => {
    const look = session.frame()?.look;
    const shown = new Set(look ? controlsFor(look) : CONTROLS);
    for (const { control, slider: input, origin, element } of rows) {
      element.hidden = !shown.has(control);
      const now = provenanceOf(session, control.path, ui.scope);
      origin.refresh(now, movesAll(control));
      const value = shownValue(session, control);
      if (value !== undefined) input.set({ value, enabled: roll !== undefined && !roll.stale });
    }
    neutral.set({ pressed: ui.tool === "neutral", enabled: look?.film !== "black-and-white-negative" });
    grey.set({ pressed: ui.tool === "grey" });
  });
  return { scope, exposure: colours, tone: tones, toning };
}

/** What a move of the roll's exposure reaches. */
function makeReach(session: Session): HTMLElement {
  const element = el("p", { class: "hint" });
  const control = CONTROLS.find(movesAll);
  session.store.on(({ ui, roll }) => {
    const frames = roll?.frames ?? [];
    const own = control ? frames.filter((frame) => statesItself(frame, control)).length : 0;
    element.hidden = ui.scope !== "roll" || frames.length === 0;
    element.textContent =
      own === 0
        ? t("Moves {0} frames.", frames.length)
        : t("Moves {0} frames; {1} of them by the same amount from an exposure of their own.", frames.length, own);
  });
  return element;
}

function makeRow(session: Session, control: Control): Row {
  const origin = originMark(session, control.label, control.path, (v) =>
    typeof v === "number" ? accessibleText(control, v) : String(v),
  );
  const input = slider({
    label: control.label,
    title: control.effect,
    unit: control.unit,
    from: control.from,
    to: control.to,
    min: control.min,
    max: control.max,
    step: control.step,
    decimals: control.decimals,
    value: 0,
    onInput: (raw) => void showValue(session, control, raw),
    onCommit: (raw) => writeValue(session, control, raw),
  });
  input.element.dataset["control"] = control.key;
  return { control, slider: input, origin, element: el("div", { class: "row" }, input.element, origin.element) };
}

/** Whether edits go to this frame or to the roll. */
function makeScope(session: Session): HTMLElement {
  const radio = (scope: Scope): { element: HTMLElement; input: HTMLInputElement; words: HTMLElement } => {
    const input = el("input", { type: "radio", name: "scope", value: scope });
    const words = el("span");
    input.addEventListener("change", () => session.ui({ scope }));
    return { element: el("label", {}, input, words), input, words };
  };
  const [frame, roll] = [radio("frame"), radio("roll")];
  const element = el("fieldset", { class: "scope" }, el("legend", {}, t("Changes go to")), frame.element, roll.element);
  session.store.on(({ ui }) => {
    frame.input.checked = ui.scope === "frame";
    roll.input.checked = ui.scope === "roll";
    frame.words.textContent = t("Frame {0}", session.frame()?.id ?? "").trim();
    roll.words.textContent = t("Whole roll");
  });
  return element;
}
