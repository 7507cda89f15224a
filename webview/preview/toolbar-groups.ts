/** Groups of the toolbar that choose how the picture is looked at. */
import { el } from "../dom.ts";
import type { View } from "../render/view-plans.ts";
import { zoomedAt } from "../state/frame-transform.ts";
import type { Against, Compare } from "../state/ui-state.ts";
import { t } from "../translate.ts";
import { kit } from "../ui/index.ts";
import { ICONS } from "./icons.ts";
import type { Picture } from "./picture/picture.ts";
import type { Model, Session } from "./session.ts";

/** Buttons that belong together. */
export interface Group {
  readonly element: HTMLElement;
  /** Follows the panel's state. */
  refresh(model: Model): void;
}

export const groupOf = (label: string, ...children: Node[]): HTMLElement =>
  el("div", { class: "group", role: "group", "aria-label": label }, ...children);

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

/** What of the frame is shown. */
export function viewGroup(session: Session): Group {
  const viewButtons = views().map(([view, label, title]) => ({
    view,
    button: kit.button({ label, title, kind: "quiet", pressed: false, onPress: () => session.ui({ view }) }),
  }));
  return {
    element: groupOf(t("View"), ...viewButtons.map((v) => v.button.element)),
    refresh({ ui }) {
      for (const { view, button } of viewButtons) button.set({ pressed: ui.view === view });
    },
  };
}

/** Whether the picture is compared, and with what. */
export function compareGroup(session: Session): Group {
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
  const keep = keepButton(session);
  let options = "";
  return {
    element: groupOf(t("Compare"), ...compares.map((c) => c.button.element), against.element, keep),
    refresh({ ui, kept }) {
      for (const { compare, button } of compares) button.set({ pressed: ui.compare === compare });
      const wanted = kept ? "kept" : "plain";
      if (wanted !== options) {
        options = wanted;
        against.set({ options: kept ? [...others, ["kept", t("the reference state")]] : others });
      }
      against.set({ value: ui.against });
    },
  };
}

function keepButton(session: Session): HTMLElement {
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
      session.announce(t("This state is kept for comparison"));
    },
  });
  return keep.element;
}

export function zoomGroup(session: Session, picture: Picture): Group {
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
  return {
    element: groupOf(t("Zoom"), ...zooms.map((z) => z.button.element)),
    refresh({ ui }) {
      const { zoom } = ui.viewport;
      for (const z of zooms)
        z.button.set({
          pressed: z.zoom === zoom || (zoom !== "fit" && z.zoom !== "fit" && Math.abs(zoom - z.zoom) < 0.005),
        });
    },
  };
}

export function warningGroup(session: Session): Group {
  const warn = kit.button({
    label: t("Clipping"),
    title: t("Show clipping: red at white, blue at the deepest black, yellow where the camera was saturated"),
    icon: ICONS.warn,
    kind: "quiet",
    pressed: false,
    onPress: () => session.ui({ warn: !session.store.get().ui.warn }),
  });
  return {
    element: groupOf(t("Warnings"), warn.element),
    refresh: ({ ui }) => warn.set({ pressed: ui.warn }),
  };
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
