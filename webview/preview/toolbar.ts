/** The bar above the picture: frame, view, comparison, zoom, and what is done with the frame as a whole. */
import type { FrameEntry } from "../../extension/messages.ts";
import { el } from "../dom.ts";
import type { View } from "../render/view-plans.ts";
import type { Session } from "./session.ts";
import type { Model } from "./model.ts";
import type { Against, Compare } from "../state/ui-state.ts";
import { kit, rove } from "../ui/index.ts";
import { copyFrame, exportFrame, frameAbilities, setReference } from "./frame-actions.ts";
import { openFrameMenu } from "./menus.ts";
import { ICONS } from "./icons.ts";
import { proofedPrint, toggleProof } from "./proof.ts";
import type { Picture } from "./picture/picture.ts";
import { setZoom } from "./picture/set-zoom.ts";
import { t } from "../translate.ts";

const views = (): readonly (readonly [View, string, string])[] => [
  ["print", t("Print"), t("The positive")],
  ["negative", t("Negative"), t("The negative as it was scanned")],
  ["density", t("Density"), t("Density above base: lighter is denser")],
];

const sides = (): readonly (readonly [Against, string])[] => [
  ["negative", t("the negative")],
  ["density", t("the density")],
  ["inherited", t("the roll’s values")],
];

/** What there is to compare with: a reference state once there is one, and the picture itself while it is proofed. */
const offeredSides = ({ kept, ui }: Model): readonly (readonly [Against, string])[] => [
  ...sides(),
  ...(ui.proof || ui.against === "unproofed" ? [["unproofed", t("the print without proof")] as const] : []),
  ...(kept ? [["kept", t("the reference state")] as const] : []),
];

const compareWays = (): readonly (readonly [Compare, string, string])[] => [
  ["off", t("One picture"), ICONS.single],
  ["wipe", t("Wipe: compare by a line across the picture"), ICONS.wipe],
  ["beside", t("Side by side"), ICONS.beside],
];

const zooms = (): readonly (readonly [zoom: "fit" | number, label: string, title: string])[] => [
  ["fit", t("Fit"), t("Whole picture (0)")],
  [1, "100 %", t("One screen pixel to a scan pixel (1)")],
  [2, "200 %", t("Two screen pixels to a scan pixel (2)")],
];

/** A part of the bar: what it shows, and how it follows the panel's state. */
interface Part {
  readonly elements: readonly HTMLElement[];
  /** By what the style sheet knows it. */
  readonly kind?: string;
  follow(model: Model, frame: FrameEntry | undefined): void;
}

export function makeToolbar(session: Session, picture: Picture, showHelp: () => void): HTMLElement {
  const parts: readonly (readonly [name: string, part: Part])[] = [
    [t("Frame"), makeFramePart(session)],
    [t("View"), makeViewPart(session)],
    [t("Proof"), makeProofPart(session)],
    [t("Compare"), makeComparePart(session)],
    [t("Zoom"), makeZoomPart(session, picture)],
    [t("Warnings"), makeWarningPart(session)],
    [t("This frame"), makeActionPart(session, showHelp)],
  ];
  const groups = parts.map(([name, { elements, kind }]) =>
    el("div", { class: kind ? `group ${kind}` : "group", role: "group", "aria-label": name }, ...elements),
  );
  groups.at(-1)?.classList.add("end");
  const bar = el("div", { class: "toolbar", role: "toolbar", "aria-label": t("View and frame") }, ...groups);
  session.store.on((model) => {
    for (const [, part] of parts) part.follow(model, session.frame());
    bar.classList.toggle("comparing", model.ui.compare !== "off");
    const prints = model.roll?.prints.length ?? 0;
    bar.classList.toggle("with-prints", prints > 0);
    bar.classList.toggle("choosing-proof", model.ui.proof && prints > 1);
  });
  rove(bar);
  return bar;
}

/** The frame's number between the buttons that go to its neighbours. */
function makeFramePart(session: Session): Part {
  const previous = kit.button({
    label: t("Previous"),
    title: t("Previous frame (Page Up)"),
    icon: ICONS.back,
    kind: "quiet",
    onPress: () => session.step(-1),
  });
  const next = kit.button({
    label: t("Next"),
    title: t("Next frame (Page Down)"),
    icon: ICONS.on,
    kind: "quiet",
    onPress: () => session.step(1),
  });
  const title = el("strong", { class: "frame-name" });
  return {
    elements: [previous.element, title, next.element],
    follow({ roll }, frame) {
      const at = roll?.frames.findIndex((f) => f.id === frame?.id) ?? -1;
      title.textContent = frame?.id ?? "";
      title.title = frame ? [frame.scans.join(", "), frame.note].filter(Boolean).join(" · ") : "";
      previous.set({ enabled: at > 0 });
      next.set({ enabled: at >= 0 && at < (roll?.frames.length ?? 0) - 1 });
    },
  };
}

/** What the picture shows: the positive, the negative or its density. */
function makeViewPart(session: Session): Part {
  const buttons = views().map(([view, label, title]) => ({
    view,
    button: kit.button({ label, title, kind: "quiet", pressed: false, onPress: () => session.ui({ view }) }),
  }));
  return {
    elements: buttons.map(({ button }) => button.element),
    follow({ ui }) {
      for (const { view, button } of buttons) button.set({ pressed: ui.view === view });
    },
  };
}

/** The print as it looks on paper, and of which output, where several are printed. */
function makeProofPart(session: Session): Part {
  const proof = kit.button({
    label: t("Proof"),
    title: t("Soft proof: the print as it looks on its output’s paper (P)"),
    kind: "quiet",
    pressed: false,
    onPress: () => toggleProof(session),
  });
  const outputs = kit.choice<string>({
    label: t("Output that is proofed"),
    options: [],
    value: "",
    onChange: (proofed) => session.ui({ proofed }),
  });
  outputs.element.classList.add("while-proofing");
  let offered: unknown;
  return {
    elements: [proof.element, outputs.element],
    kind: "proofing",
    follow(model) {
      const { ui, roll } = model;
      proof.set({ pressed: ui.proof && ui.view === "print" });
      if (offered !== roll?.prints) {
        offered = roll?.prints;
        outputs.set({ options: (roll?.prints ?? []).map(({ output }) => [output, output] as const) });
      }
      outputs.set({ value: proofedPrint(model)?.output ?? "" });
    },
  };
}

/** How the picture is compared, with what, and setting the reference state. */
function makeComparePart(session: Session): Part {
  const buttons = compareWays().map(([compare, words, icon]) => ({
    compare,
    button: kit.button({
      label: words,
      title: words,
      icon,
      kind: "quiet",
      pressed: false,
      onPress: () => session.ui({ compare }),
    }),
  }));
  const against = kit.choice<Against>({
    label: t("Compare with (hold C to see it alone)"),
    options: sides(),
    value: session.store.get().ui.against,
    onChange: (value) => session.ui({ against: value }),
  });
  const keep = kit.button({
    label: t("Keep"),
    title: t("Use the picture as it is now as the reference state for later changes"),
    kind: "quiet",
    onPress: () => setReference(session),
  });
  against.element.classList.add("while-comparing");
  keep.element.classList.add("while-comparing");
  let offered = "";
  return {
    elements: [...buttons.map(({ button }) => button.element), against.element, keep.element],
    follow(model) {
      const { ui } = model;
      for (const { compare, button } of buttons) button.set({ pressed: ui.compare === compare });
      const options = offeredSides(model);
      const names = options.map(([name]) => name).join(" ");
      if (offered !== names) against.set({ options });
      offered = names;
      against.set({ value: ui.against });
    },
  };
}

function makeZoomPart(session: Session, picture: Picture): Part {
  const buttons = zooms().map(([zoom, label, title]) => ({
    zoom,
    button: kit.button({
      label,
      title,
      kind: "quiet",
      pressed: false,
      onPress: () => setZoom(session, picture, zoom),
    }),
  }));
  return {
    elements: buttons.map(({ button }) => button.element),
    follow({ ui }) {
      const now = ui.viewport.zoom;
      for (const { zoom, button } of buttons)
        button.set({ pressed: zoom === now || (zoom !== "fit" && now !== "fit" && Math.abs(now - zoom) < 0.005) });
    },
  };
}

function makeWarningPart(session: Session): Part {
  const clipping = kit.button({
    label: t("Clipping"),
    title: t("Hatch what is clipped, and in a proof the colours that the paper has not (the corner names the lines)"),
    icon: ICONS.warn,
    kind: "quiet",
    pressed: false,
    onPress: () => session.ui({ warn: !session.store.get().ui.warn }),
  });
  return { elements: [clipping.element], follow: ({ ui }) => clipping.set({ pressed: ui.warn }) };
}

/** What is done with the frame as a whole. */
function makeActionPart(session: Session, showHelp: () => void): Part {
  const copy = kit.button({
    label: t("Copy…"),
    title: t("Give this frame's own print values to other frames"),
    kind: "secondary",
    onPress: () => copyFrame(session),
  });
  const exporting = kit.button({
    label: t("Export…"),
    title: t("Write this frame's outputs"),
    kind: "primary",
    onPress: () => exportFrame(session),
  });
  const more = kit.button({
    label: t("More"),
    title: t("More for this frame"),
    icon: ICONS.more,
    kind: "quiet",
    onPress: () => {
      const { left, bottom } = more.element.getBoundingClientRect();
      openFrameMenu(session, [left, bottom]);
    },
  });
  const keys = kit.button({
    label: t("Keys"),
    title: t("Keys of the preview (?)"),
    icon: ICONS.keys,
    kind: "quiet",
    onPress: showHelp,
  });
  for (const one of [copy, exporting]) one.element.classList.add("in-menu");
  return {
    elements: [copy.element, exporting.element, more.element, keys.element],
    follow() {
      const { copies, exports } = frameAbilities(session);
      copy.set({ enabled: copies });
      exporting.set({ enabled: exports });
    },
  };
}
