/** The bar above the picture: frame, view, comparison, zoom, and what is done with the frame as a whole. */
import { el } from "../dom.ts";
import type { View } from "../render/view-plans.ts";
import type { Session } from "./session.ts";
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

/** Writing a frame's files may take minutes. */
const EXPORT_LIMIT = 1_800_000;
/** People take their time over a list of frames. */
const COPY_LIMIT = 600_000;

export function makeToolbar(session: Session, picture: Picture): HTMLElement {
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
  const viewButtons = views().map(([view, label, title]) => ({
    view,
    button: kit.button({ label, title, kind: "quiet", pressed: false, onPress: () => session.ui({ view }) }),
  }));
  const others = sides();
  const compares = (
    [
      ["off", t("One picture"), ICONS.single],
      ["wipe", t("Wipe: compare by a line across the picture"), ICONS.wipe],
      ["beside", t("Side by side"), ICONS.beside],
    ] as const
  ).map(([compare, words, icon]) => ({
    compare: compare as Compare,
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
    options: others,
    value: session.store.get().ui.against,
    onChange: (value) => session.ui({ against: value }),
  });
  const keep = kit.button({
    label: t("Keep"),
    title: t("Use the picture as it is now as the reference state for later changes"),
    kind: "quiet",
    onPress: () => {
      session.store.set({ kept: session.look() });
      session.ui({
        against: "kept",
        compare: session.store.get().ui.compare === "off" ? "wipe" : session.store.get().ui.compare,
      });
      session.announce(t("This is the reference state for comparison"));
    },
  });
  const zooms = (
    [
      ["fit", t("Fit")],
      [1, "100 %"],
      [2, "200 %"],
    ] as const
  ).map(([zoom, label]) => ({
    zoom,
    button: kit.button({
      label,
      title:
        zoom === "fit"
          ? t("Whole picture (0)")
          : zoom === 1
            ? t("One screen pixel to a scan pixel (1)")
            : t("Two screen pixels to a scan pixel (2)"),
      kind: "quiet",
      pressed: false,
      onPress: () => setZoom(session, picture, zoom),
    }),
  }));
  const warn = kit.button({
    label: t("Clipping"),
    title: t("Show clipping: red at white, blue at the deepest black, yellow where the camera was saturated"),
    icon: ICONS.warn,
    kind: "quiet",
    pressed: false,
    onPress: () => session.ui({ warn: !session.store.get().ui.warn }),
  });
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
  const group = (label: string, ...children: Node[]): HTMLElement =>
    el("div", { class: "group", role: "group", "aria-label": label }, ...children);
  const element = el(
    "header",
    { class: "toolbar" },
    group(t("Frame"), previous.element, title, next.element),
    group(t("View"), ...viewButtons.map((v) => v.button.element)),
    group(t("Compare"), ...compares.map((c) => c.button.element), against.element, keep.element),
    group(t("Zoom"), ...zooms.map((z) => z.button.element)),
    group(t("Warnings"), warn.element),
    el("div", { class: "group end", role: "group", "aria-label": t("This frame") }, copy.element, exporting.element),
  );

  let options = "";
  session.store.on(({ ui, roll, kept }) => {
    const frame = session.frame();
    const at = roll?.frames.findIndex((f) => f.id === frame?.id) ?? -1;
    title.textContent = frame?.id ?? "";
    title.title = frame ? [frame.scans.join(", "), frame.note].filter(Boolean).join(" · ") : "";
    previous.set({ enabled: at > 0 });
    next.set({ enabled: at >= 0 && at < (roll?.frames.length ?? 0) - 1 });
    for (const { view, button } of viewButtons) button.set({ pressed: ui.view === view });
    for (const { compare, button } of compares) button.set({ pressed: ui.compare === compare });
    const wanted = kept ? "kept" : "plain";
    if (wanted !== options) {
      options = wanted;
      against.set({ options: kept ? [...others, ["kept", t("the reference state")]] : others });
    }
    against.set({ value: ui.against });
    const { zoom } = ui.viewport;
    for (const z of zooms)
      z.button.set({
        pressed: z.zoom === zoom || (zoom !== "fit" && z.zoom !== "fit" && Math.abs(zoom - z.zoom) < 0.005),
      });
    warn.set({ pressed: ui.warn });
    const usable = frame !== undefined && roll !== undefined && !roll.stale && roll.trusted;
    copy.set({ enabled: usable && (roll?.frames.length ?? 0) > 1 });
    exporting.set({ enabled: usable && !frame?.skip });
  });
  return element;
}

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
