/** Local exposure: the list of the frame's areas, buttons that draw new ones, and the values of the chosen one. */
import type { StatedArea } from "../../../extension/engine/local/stated.ts";
import { el } from "../../dom.ts";
import { kindOf, type ShapeKind } from "../../state/local-areas.ts";
import { t } from "../../translate.ts";
import { kit, slider } from "../../ui/index.ts";
import { ICONS } from "../icons.ts";
import { section } from "../sections/section.ts";
import type { Session } from "../session.ts";
import { areaName, type LocalTool } from "./local-tool.ts";

/** What a slider moves of the chosen area. */
interface Value {
  readonly label: string;
  readonly title: string;
  readonly unit: string;
  readonly range: readonly [from: number, to: number, min: number, max: number, step: number, decimals: number];
  readonly tint?: string;
  of(area: StatedArea): number;
  with(area: StatedArea, value: number): StatedArea;
  /** Whether the area has it. */
  applies(area: StatedArea, isColour: boolean): boolean;
}

export function makeLocal(session: Session, tool: LocalTool): HTMLElement {
  const buttons = drawButtons(session, tool);
  const list = el("ul", { class: "areas" });
  const name = nameField(session, tool);
  const rows = values().map((value) => valueRow(session, tool, value));
  const mask = el("input", { type: "checkbox" });
  mask.addEventListener("change", () => tool.showMask(mask.checked));
  const maskLabel = el("label", { class: "mask-choice" }, mask, el("span", {}, t("Show where the chosen area counts")));
  const details = el("div", { class: "area-values" }, name.element, ...rows.map(({ element }) => element), maskLabel);
  const element = section(session, "local", t("Local exposure"), buttons.element, list, details);
  let shown: readonly StatedArea[] | undefined;

  function refresh(): void {
    const { areas, chosen } = tool;
    buttons.refresh();
    mask.checked = tool.showsMask;
    if (shown !== areas) {
      const focus = document.activeElement;
      const at = list.contains(focus) ? [...list.querySelectorAll("button")].indexOf(focus as HTMLButtonElement) : -1;
      list.replaceChildren(...items(session, tool));
      // Where the last area was removed, the button that draws one comes next.
      if (at >= 0) (list.querySelectorAll("button")[at] ?? list.querySelector("button") ?? buttons.first).focus();
      shown = areas;
    }
    for (const [i, item] of [...list.children].entries()) {
      const button = item.querySelector("button[aria-pressed]");
      if (button) button.setAttribute("aria-pressed", String(i === chosen));
    }
    const area = areas[chosen];
    details.hidden = area === undefined;
    if (!area) return;
    name.refresh(area);
    const isColour = session.frame()?.look.film !== "black-and-white-negative";
    for (const row of rows) row.refresh(area, isColour);
  }
  session.store.on(refresh);
  tool.on(refresh);
  return element;
}

function drawButtons(
  session: Session,
  tool: LocalTool,
): { readonly element: HTMLElement; readonly first: HTMLElement; refresh(): void } {
  const kinds: readonly (readonly [ShapeKind, string, string, string])[] = [
    ["line", t("Line"), t("Draw a gradient: whole where you begin, nothing where you end"), ICONS.gradient],
    ["oval", t("Oval"), t("Draw an oval from corner to corner"), ICONS.oval],
    ["polygon", t("Polygon"), t("Draw four corners; drag the points between them for more"), ICONS.polygon],
  ];
  const made = kinds.map(([kind, label, title, icon]) => ({
    kind,
    button: kit.button({
      label: t("{0} of local exposure", label),
      beside: label,
      title,
      icon,
      kind: "quiet",
      pressed: false,
      onPress: () => tool.prepare(kind),
    }),
  }));
  const handles = kit.button({
    label: t("Move areas"),
    beside: t("Move"),
    title: t("Show the areas over the picture, with handles to drag"),
    icon: ICONS.handles,
    kind: "quiet",
    pressed: false,
    onPress() {
      const isOn = session.store.get().ui.tool === "local";
      session.ui({ tool: isOn ? "look" : "local" });
      const missing = tool.missing();
      if (!isOn && missing) session.announce(missing);
    },
  });
  return {
    first: made[0].button.element,
    element: el("div", { class: "buttons" }, ...made.map(({ button }) => button.element), handles.element),
    refresh() {
      for (const { kind, button } of made) button.set({ pressed: tool.pending === kind });
      handles.set({ pressed: session.store.get().ui.tool === "local" });
    },
  };
}

/** The areas as rows: one is chosen, each can be removed. */
function items(session: Session, tool: LocalTool): readonly HTMLElement[] {
  if (tool.areas.length === 0) return [el("li", { class: "hint" }, t("No areas."))];
  return tool.areas.map((area, i) => {
    const choose = el(
      "button",
      { type: "button", class: "link", "aria-pressed": "false" },
      `${shapeWord(area)} ${areaName(area, i)}: ${effect(area)}`,
    );
    choose.addEventListener("click", () => {
      tool.choose(i);
      if (session.store.get().ui.tool !== "local") session.ui({ tool: "local" });
    });
    const remove = el(
      "button",
      { type: "button", class: "link", "aria-label": t("Remove area {0}", areaName(area, i)) },
      t("Remove"),
    );
    remove.addEventListener("click", () => tool.remove(i));
    return el("li", {}, choose, remove);
  });
}

const shapeWord = (area: StatedArea): string =>
  ({ line: t("Line"), oval: t("Oval"), polygon: t("Polygon"), none: t("Area") })[kindOf(area) ?? "none"];

/** "−0.50 EV, contrast × 1.20" */
function effect({ exposure = 0, contrast = 1, filtration = {} }: StatedArea): string {
  const signed = `${exposure > 0 ? "+" : ""}${exposure.toFixed(2)}`.replace("-", "−");
  return [
    t("{0} EV", signed),
    ...(contrast === 1 ? [] : [t("contrast × {0}", contrast.toFixed(2))]),
    ...(Object.values(filtration).some((cc) => cc !== 0) ? [t("filtered")] : []),
  ].join(", ");
}

function renamed(area: StatedArea, name: string): StatedArea {
  const { name: _, ...rest } = area;
  return name === "" ? rest : { ...rest, name };
}

function nameField(session: Session, tool: LocalTool): { element: HTMLElement; refresh(area: StatedArea): void } {
  const input = el("input", { type: "text", maxlength: "60" });
  let [shown, of] = ["", ""];
  function write(): void {
    const name = input.value.trim();
    if (name === shown) return;
    shown = name;
    tool.commit(
      name === "" ? t("Area {0} unnamed", tool.chosen + 1) : t("Area {0} named {1}", tool.chosen + 1, name),
      tool.changed((area) => renamed(area, name)),
    );
  }
  input.addEventListener("change", write);
  // Page keys go to another frame and leave the focus here: what was typed belongs to this one.
  input.addEventListener("keydown", ({ key }) => {
    if (key === "PageUp" || key === "PageDown") write();
  });
  return {
    element: el("label", { class: "area-name" }, el("span", {}, t("Name of the area")), input),
    refresh({ name = "" }) {
      const now = `${session.frame()?.id} ${tool.chosen}`;
      if (now !== of || document.activeElement !== input) input.value = shown = name;
      of = now;
    },
  };
}

function values(): readonly Value[] {
  const filter = (key: "cyan" | "magenta" | "yellow", label: string): Value => ({
    label,
    title: t("More filtration of a colour removes its cast, in this area"),
    unit: t("CC"),
    range: [-30, 30, -200, 200, 1, 1],
    tint: key,
    of: ({ filtration = {} }) => filtration[key] ?? 0,
    with: (area, value) => ({ ...area, filtration: { ...area.filtration, [key]: value } }),
    applies: (_, isColour) => isColour,
  });
  return [
    {
      label: t("Exposure of the area"),
      title: t("Above 0 dodges (lighter), below 0 burns (darker)"),
      unit: t("EV"),
      range: [-2, 2, -5, 5, 0.01, 2],
      of: ({ exposure = 0 }) => exposure,
      with: (area, exposure) => ({ ...area, exposure }),
      applies: () => true,
    },
    {
      label: t("Contrast of the area"),
      title: t("Factor of the frame's contrast; mid-grey stays"),
      unit: "×",
      range: [0.5, 2, 0.25, 4, 0.01, 2],
      of: ({ contrast = 1 }) => contrast,
      with: (area, contrast) => ({ ...area, contrast }),
      applies: () => true,
    },
    filter("cyan", t("Cyan in the area")),
    filter("magenta", t("Magenta in the area")),
    filter("yellow", t("Yellow in the area")),
    {
      label: t("Feather"),
      title: t("Width of the soft edge, in percent of the longest side"),
      unit: "%",
      range: [0, 50, 0, 100, 0.5, 1],
      of: ({ feather = 0.1 }) => 100 * feather,
      with: (area, percent) => ({ ...area, feather: percent / 100 }),
      applies: (area) => area.line === undefined,
    },
  ];
}

function valueRow(session: Session, tool: LocalTool, value: Value) {
  const [from, to, min, max, step, decimals] = value.range;
  const input = slider({
    label: value.label,
    title: value.title,
    unit: value.unit,
    from,
    to,
    min,
    max,
    step,
    decimals,
    value: 0,
    ...(value.tint === undefined ? {} : { tint: value.tint }),
    onInput: (v) => tool.preview(tool.changed((area) => value.with(area, v))),
    onCommit: (v) =>
      tool.commit(
        `${t("Area {0}", tool.chosen + 1)}: ${value.label} ${v.toFixed(decimals)} ${value.unit}`
          .trim()
          .replace("-", "−"),
        tool.changed((area) => value.with(area, v)),
      ),
  });
  const element = el("div", { class: "row" }, input.element);
  return {
    element,
    refresh(area: StatedArea, isColour: boolean): void {
      element.hidden = !value.applies(area, isColour);
      input.set({ value: value.of(area), enabled: session.store.get().roll?.stale === false });
    },
  };
}
