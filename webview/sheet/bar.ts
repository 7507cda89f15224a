/** The bar above the grid: size, order, filter, the revision that is shown, and what is selected. */
import type { Filter, Order } from "../state/sheet/arrangement.ts";
import { CHOICES, EXPOSURES, FINDINGS, NEAR_STOPS, NO_FILTER, ORDERS, RANKS } from "../state/sheet/arrangement.ts";
import { SIZES, type Size } from "../state/sheet/sheet-layout.ts";
import { el } from "../dom.ts";
import { t } from "../translate.ts";
import { kit } from "../ui/index.ts";
import type { SheetSession } from "./sheet-session.ts";

type Texts<T extends string> = Readonly<Record<T, string>>;
const optionsOf = <T extends string>(all: readonly T[], texts: Texts<T>): (readonly [T, string])[] =>
  all.map((key) => [key, texts[key]] as const);

export function makeBar(session: SheetSession): HTMLElement {
  const size = kit.choice<Size>({
    label: t("Size of the pictures"),
    options: optionsOf(SIZES, {
      contact: t("Contact print"),
      small: t("Small"),
      medium: t("Medium"),
      four: t("Four across"),
    }),
    value: "small",
    onChange: (next) => session.ui({ size: next }),
  });
  const order = kit.choice<Order>({
    label: t("Order of the frames"),
    options: optionsOf(ORDERS, {
      film: t("By number"),
      choice: t("By choice"),
      rank: t("By rank"),
      exposure: t("By exposure"),
      findings: t("By findings"),
    }),
    value: "film",
    onChange: (next) => session.ui({ order: next }),
  });
  const count = el("span", { class: "count", role: "status" });
  session.store.on(({ ui, frames, roll, selection }) => {
    size.set({ value: ui.size });
    order.set({ value: ui.order });
    const whole = roll?.frames.length ?? 0;
    const shown = frames.length === whole ? t("{0} frames", whole) : t("{0} of {1} frames", frames.length, whole);
    const { size: chosen } = selection.chosen;
    const text = chosen === 0 ? shown : t("{0} · {1} selected", shown, chosen);
    if (count.textContent !== text) count.textContent = text;
  });
  return el(
    "div",
    { class: "bar", role: "toolbar", "aria-label": t("Sheet") },
    el("div", { class: "group" }, size.element, order.element),
    makeFilters(session),
    makeEarlier(session),
    el("div", { class: "group end" }, count),
  );
}

function makeFilters(session: SheetSession): HTMLElement {
  const change = (part: Partial<Filter>): void => session.ui({ filter: { ...session.store.get().ui.filter, ...part } });
  const choice = kit.choice<Filter["choice"]>({
    label: t("Show by choice"),
    options: optionsOf(CHOICES, {
      any: t("Any choice"),
      keep: t("Keep"),
      reject: t("Reject"),
      open: t("No choice yet"),
      "not-reject": t("All but rejected"),
    }),
    value: "any",
    onChange: (next) => change({ choice: next }),
  });
  const rank = kit.choice<Filter["rank"]>({
    label: t("Show by rank"),
    options: RANKS.map((key) => [
      key,
      key === "any"
        ? t("Any rank")
        : key === "none"
          ? t("No rank")
          : key === "5"
            ? t("Rank 5")
            : t("Rank {0} or more", key),
    ]),
    value: "any",
    onChange: (next) => change({ rank: next }),
  });
  const exposure = kit.choice<Filter["exposure"]>({
    label: t("Show by exposure, against the roll’s median"),
    options: optionsOf(EXPOSURES, {
      any: t("Any exposure"),
      below: t("Below median − {0} EV", NEAR_STOPS),
      near: t("Within {0} EV of the median", NEAR_STOPS),
      above: t("Above median + {0} EV", NEAR_STOPS),
    }),
    value: "any",
    onChange: (next) => change({ exposure: next }),
  });
  const findings = kit.choice<Filter["findings"]>({
    label: t("Show by findings of the survey"),
    options: optionsOf(FINDINGS, { any: t("Any findings"), some: t("With findings"), none: t("Without findings") }),
    value: "any",
    onChange: (next) => change({ findings: next }),
  });
  const everything = kit.button({
    label: t("Show all"),
    kind: "quiet",
    onPress: () => session.ui({ filter: NO_FILTER }),
  });
  session.store.on(({ ui: { filter }, counts }) => {
    choice.set({ value: filter.choice });
    rank.set({ value: filter.rank });
    exposure.set({ value: filter.exposure });
    findings.set({ value: filter.findings, enabled: counts !== undefined });
    everything.element.hidden = Object.values(filter).every((value) => value === "any");
  });
  return el(
    "div",
    { class: "group", role: "group", "aria-label": t("Filter") },
    choice.element,
    rank.element,
    exposure.element,
    findings.element,
    everything.element,
  );
}

/** Another revision of the roll in place of the present one: chosen once, then switched on and off. */
function makeEarlier(session: SheetSession): HTMLElement {
  const choose = async (): Promise<void> => {
    const found = await session.attempt(() => session.client.request("earlier", {}, { limit: 600_000 }));
    if (found?.label === undefined) return;
    const frames = new Map(found.frames.map((frame) => [frame.id, frame]));
    session.store.set({ earlier: { label: found.label, frames, shown: true } });
    session.announce(t("The roll as it was in {0}", found.label));
  };
  const button = kit.button({
    label: t("Earlier revision…"),
    title: t("Show the roll as another revision of the recipe has it"),
    kind: "quiet",
    onPress: () => void choose(),
  });
  const shown = kit.check({
    label: "",
    title: t("Show the earlier revision in place of the present one"),
    checked: false,
    onChange(checked) {
      const { earlier } = session.store.get();
      if (earlier) session.store.set({ earlier: { ...earlier, shown: checked } });
    },
  });
  const label = el("span", { class: "earlier-label" });
  shown.element.append(label);
  session.store.on(({ earlier }) => {
    shown.element.hidden = earlier === undefined;
    if (!earlier) return;
    shown.set({ checked: earlier.shown });
    const text = t("As in {0}", earlier.label);
    if (label.textContent !== text) label.textContent = text;
  });
  return el("div", { class: "group" }, button.element, shown.element);
}
