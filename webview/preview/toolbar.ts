/** The bar above the picture: frame, view, comparison, zoom, and what is done with the frame as a whole. */
import type { FrameEntry } from "../../extension/messages.ts";
import { el } from "../dom.ts";
import type { View } from "../render/view-plans.ts";
import type { Session } from "./session.ts";
import type { Model } from "./model.ts";
import { zoomedAt } from "../state/frame-transform.ts";
import type { Against, Compare } from "../state/ui-state.ts";
import { kit } from "../ui/index.ts";
import { refuse } from "./picture/gestures.ts";
import { ICONS } from "./icons.ts";
import type { Picture } from "./picture/picture.ts";
import { t } from "../translate.ts";
import { reasonOf } from "../reason.ts";

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

/** Writing a frame's files may take minutes. */
const EXPORT_LIMIT = 1_800_000;
/** People take their time over a list of frames. */
const COPY_LIMIT = 600_000;

/** A part of the bar: what it shows, and how it follows the panel's state. */
interface Part {
  readonly elements: readonly HTMLElement[];
  follow(model: Model, frame: FrameEntry | undefined): void;
}

export function makeToolbar(session: Session, picture: Picture): HTMLElement {
  const parts: readonly (readonly [name: string, part: Part])[] = [
    [t("Frame"), makeFramePart(session)],
    [t("View"), makeViewPart(session)],
    [t("Compare"), makeComparePart(session)],
    [t("Zoom"), makeZoomPart(session, picture)],
    [t("Warnings"), makeWarningPart(session)],
    [t("This frame"), makeActionPart(session)],
  ];
  const groups = parts.map(([name, { elements }]) =>
    el("div", { class: "group", role: "group", "aria-label": name }, ...elements),
  );
  groups.at(-1)?.classList.add("end");
  session.store.on((model) => {
    for (const [, part] of parts) part.follow(model, session.frame());
  });
  return el("header", { class: "toolbar" }, ...groups);
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
  const others = sides();
  const against = kit.choice<Against>({
    label: t("Compare with (hold C to see it alone)"),
    options: others,
    value: session.store.get().ui.against,
    onChange: (value) => session.ui({ against: value }),
  });
  const keep = kit.button({
    label: t("Keep"),
    title: t("Use the picture as it is now as the reference state for later changes"),
    kind: "quiet",
    onPress: () => setReference(session),
  });
  let offersReference = false;
  return {
    elements: [...buttons.map(({ button }) => button.element), against.element, keep.element],
    follow({ ui, kept }) {
      for (const { compare, button } of buttons) button.set({ pressed: ui.compare === compare });
      if (offersReference !== (kept !== undefined)) {
        offersReference = kept !== undefined;
        against.set({ options: offersReference ? [...others, ["kept", t("the reference state")]] : others });
      }
      against.set({ value: ui.against });
    },
  };
}

/** Takes the picture as it is as the reference state, and compares with it. */
function setReference(session: Session): void {
  const { compare } = session.store.get().ui;
  session.store.set({ kept: session.look() });
  session.ui({ against: "kept", compare: compare === "off" ? "wipe" : compare });
  session.announce(t("This is the reference state for comparison"));
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
    title: t("Show clipping: red at white, blue at the deepest black, yellow where the camera was saturated"),
    icon: ICONS.warn,
    kind: "quiet",
    pressed: false,
    onPress: () => session.ui({ warn: !session.store.get().ui.warn }),
  });
  return { elements: [clipping.element], follow: ({ ui }) => clipping.set({ pressed: ui.warn }) };
}

/** What is done with the frame as a whole. */
function makeActionPart(session: Session): Part {
  const copy = kit.button({
    label: t("Copy…"),
    title: t("Give this frame's own print values to other frames"),
    kind: "secondary",
    onPress: () => void ask(session, "copy", COPY_LIMIT, (files) => t("Copied to frames: {0}", files.join(", "))),
  });
  const exporting = kit.button({
    label: t("Export…"),
    title: t("Write this frame's outputs"),
    kind: "primary",
    onPress: () => void ask(session, "export", EXPORT_LIMIT, (files) => t("Files written: {0}", files.length)),
  });
  return {
    elements: [copy.element, exporting.element],
    follow({ roll }, frame) {
      const usable = frame !== undefined && roll !== undefined && !roll.stale && roll.trusted;
      copy.set({ enabled: usable && roll.frames.length > 1 });
      exporting.set({ enabled: usable && !frame.skip });
    },
  };
}

/** Zooms about the middle of the picture: to all of it, or to screen pixels per pixel of the scan. */
export function setZoom(session: Session, picture: Picture, zoom: "fit" | number): void {
  const layout = picture.layout();
  if (zoom === "fit" || !layout) return session.ui({ viewport: { zoom: "fit", centre: [0.5, 0.5] } });
  const paneBox = layout.paneBoxes[0];
  const { viewport } = session.store.get().ui;
  session.ui({
    viewport: zoomedAt(layout.transform, viewport, paneBox, zoom, [
      paneBox.x + paneBox.width / 2,
      paneBox.y + paneBox.height / 2,
    ]),
  });
}

async function ask(
  session: Session,
  name: "copy" | "export",
  limit: number,
  describe: (list: readonly string[]) => string,
): Promise<void> {
  const frame = session.frame();
  if (!frame) return;
  try {
    const answer = await session.client.request(name, { frame: frame.id }, { limit });
    const list = "files" in answer ? answer.files : answer.frames;
    if (list.length) session.announce(describe(list));
  } catch (error) {
    refuse(session, reasonOf(error));
  }
}
