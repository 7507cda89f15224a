/** The print values of the selection: changed by an amount, each frame keeping its own balance, or set alike for all. */
import type { FrameLook } from "../../extension/engine/types.ts";
import { el } from "../dom.ts";
import { accessibleText, allowed, type Control, CONTROLS, controlsFor, rounded } from "../state/controls.ts";
import { changeBy, changedBy, setTo } from "../state/sheet/sheet-edits.ts";
import { t } from "../translate.ts";
import { type Slider, slider } from "../ui/index.ts";
import { countText, type SheetSession } from "./sheet-session.ts";

/** How far a slider changes values by, to either side. */
const AMOUNTS: Readonly<Record<Control["key"], number>> = {
  exposure: 3,
  cyan: 40,
  magenta: 40,
  yellow: 40,
  contrast: 1,
  toe: 0.5,
  shoulder: 0.5,
  black: 10,
  saturation: 1,
  shadowHue: 90,
  shadowStrength: 15,
  highlightHue: 90,
  highlightStrength: 15,
  paperHue: 90,
  paperStrength: 8,
};

interface Row {
  readonly control: Control;
  readonly by: Slider;
  readonly to: Slider;
  /** Said where the selected frames' values differ. */
  readonly spread: HTMLElement;
  readonly element: HTMLElement;
}

export function makeValues(session: SheetSession): HTMLElement {
  const rows = CONTROLS.map((control) => makeRow(session, control));
  session.store.on(({ ui, roll, draft }) => {
    const frames = session.targets();
    const focused = session.focused() ?? frames[0];
    const shown = new Set(focused ? controlsFor(focused.look) : CONTROLS);
    const enabled = frames.length > 0 && roll?.stale === false && draft?.offer === undefined;
    for (const { control, by, to, spread, element } of rows) {
      element.hidden = !shown.has(control);
      by.element.hidden = !ui.relative;
      to.element.hidden = ui.relative;
      by.set({ enabled, ...(draft ? {} : { value: 0 }) });
      to.set({ enabled, ...(focused && !draft ? { value: control.of(focused.look) } : {}) });
      const values = frames.map(({ look }) => control.of(look));
      const [low, high] = [Math.min(...values), Math.max(...values)];
      const text =
        values.length > 1 && low !== high
          ? t("{0} to {1}", low.toFixed(control.decimals), high.toFixed(control.decimals)).replaceAll("-", "−")
          : "";
      if (spread.textContent !== text) spread.textContent = text;
    }
  });
  return el(
    "section",
    { class: "part values", "aria-labelledby": "part-values" },
    el("h3", { id: "part-values" }, t("Print values")),
    makeMode(session),
    ...rows.map(({ element }) => element),
  );
}

function makeRow(session: SheetSession, control: Control): Row {
  const draft = (change: (look: FrameLook) => FrameLook): void =>
    session.show(new Map(session.targets().map((frame) => [frame.id, change(frame.look)])));
  const all = () => session.store.get().roll?.frames ?? [];
  const { label, unit, step, decimals } = control;
  const most = AMOUNTS[control.key];
  const by = slider({
    label,
    title: t("Changes each of the selected frames by this much. {0}", control.effect),
    unit: unit === "" || unit === "×" ? "±" : `± ${unit}`,
    from: -most,
    to: most,
    min: control.min - control.max,
    max: control.max - control.min,
    step,
    decimals,
    value: 0,
    onInput: (amount) => draft((look) => changedBy(look, control, amount)),
    onCommit(raw) {
      const amount = rounded(raw, decimals);
      const ids = new Set(session.targets().map(({ id }) => id));
      const sign = amount > 0 ? "+" : "";
      const text = `${label} ${sign}${amount.toFixed(decimals)} ${unit}`.replace("-", "−").trim();
      // The next change begins where this one ended, also where the keys are quicker than the text.
      by.set({ value: 0 });
      void session.commitInTurn(t("{0}: {1}", text, countText(ids.size)), () => {
        const frames = all().filter(({ id }) => ids.has(id));
        return changeBy(all(), frames, control, amount);
      });
    },
  });
  const to = slider({
    label,
    title: t("Sets the selected frames to this value. {0}", control.effect),
    unit,
    from: control.from,
    to: control.to,
    min: control.min,
    max: control.max,
    step,
    decimals,
    value: 0,
    onInput: (value) => draft((look) => control.with(look, allowed(control, value))),
    onCommit(value) {
      const frames = session.targets();
      void session.commit(
        t("{0}: {1}", `${label} ${accessibleText(control, allowed(control, value))}`, countText(frames.length)),
        setTo(all(), frames, control, value),
      );
    },
  });
  const spread = el("span", { class: "spread" });
  const element = el("div", { class: "row", "data-control": control.key }, by.element, to.element, spread);
  return { control, by, to, spread, element };
}

/** Whether sliders change by an amount or set a value. */
function makeMode(session: SheetSession): HTMLElement {
  const radio = (relative: boolean, label: string): { element: HTMLElement; input: HTMLInputElement } => {
    const input = el("input", { type: "radio", name: "mode" });
    input.addEventListener("change", () => session.ui({ relative }));
    return { element: el("label", {}, input, el("span", {}, label)), input };
  };
  const [by, to] = [radio(true, t("Change by")), radio(false, t("Set to"))];
  session.store.on(({ ui }) => {
    by.input.checked = ui.relative;
    to.input.checked = !ui.relative;
  });
  return el("div", { class: "scope", role: "radiogroup", "aria-label": t("What sliders do") }, by.element, to.element);
}
