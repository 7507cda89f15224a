/** The print: a slider for each value, with its origin, for this frame or for the roll. */
import { el } from "../../dom.ts";
import { keyOf, type Session } from "../session.ts";
import { type Scope } from "../../state/cascade.ts";
import { allowed, type Control, CONTROLS, controlsFor, accessibleText } from "../../state/controls.ts";
import { setValue } from "../../state/edits.ts";
import { kit, type Slider, slider } from "../../ui/index.ts";
import { originMark, type OriginMark, provenanceOf } from "./origin.ts";
import { makePaper } from "./paper.ts";
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
    ...part(["exposure", "cyan", "magenta", "yellow"]),
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

  session.store.on(({ ui, draft, roll }) => {
    const look = session.frame()?.look;
    const shown = new Set(look ? controlsFor(look) : CONTROLS);
    for (const { control, slider: input, origin, element } of rows) {
      element.hidden = !shown.has(control);
      const now = provenanceOf(session, control.path, ui.scope);
      origin.refresh(now);
      const drafted = draft?.values?.[keyOf(control.path)];
      const stated = drafted ?? now?.value;
      // A paper's contrast is stated as text; the slider shows the slope that it comes to.
      const value = typeof stated === "number" ? stated : look && control.of(look);
      if (value !== undefined) input.set({ value, enabled: roll !== undefined && !roll.stale });
    }
    neutral.set({ pressed: ui.tool === "neutral", enabled: look?.film !== "black-and-white-negative" });
    grey.set({ pressed: ui.tool === "grey" });
  });
  return { scope, exposure: colours, tone: tones, toning };
}

function makeRow(session: Session, control: Control): Row {
  const origin = originMark(session, control.label, control.path, (v) =>
    typeof v === "number" ? accessibleText(control, v) : String(v),
  );
  const follow = (raw: number): { value: number; scope: Scope } | undefined => {
    const [frame, look] = [session.frame(), session.look()];
    if (!frame || !look) return undefined;
    const value = allowed(control, raw);
    const { scope } = session.store.get().ui;
    // A frame with a value of its own does not follow the roll.
    const follows = !provenanceOf(session, control.path, scope)?.overridden;
    session.preview({ look: follows ? control.with(look, value) : look, values: { [keyOf(control.path)]: value } });
    return { value, scope };
  };
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
    ...(control.path[1] === "filtration" ? { tint: control.key } : {}),
    onInput: follow,
    onCommit(raw) {
      const frame = session.frame();
      const now = follow(raw);
      if (!frame || !now) return;
      void session.commit(
        `${control.label} ${accessibleText(control, now.value)}`,
        setValue(now.scope, frame.id, control.path, now.value),
        session.store.get().draft,
      );
    },
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
