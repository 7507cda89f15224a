/** The panel's own menus: over the picture, and over a frame of the strip. */
import type { Point } from "../state/affine.ts";
import { t } from "../translate.ts";
import { type MenuEntry, openMenu } from "../ui/index.ts";
import { copyFrame, exportFrame, frameAbilities, setReference, showInText } from "./frame-actions.ts";
import { addPin, addSpot, pickGrey, pickNeutral, SPOT_RADIUS } from "./picture/gestures.ts";
import type { Picture } from "./picture/picture.ts";
import type { Session } from "./session.ts";
import { setZoom } from "./picture/set-zoom.ts";

const isInside = ([x, y]: Point): boolean => x >= 0 && y >= 0 && x <= 1 && y <= 1;

/** What is done with the frame in view. */
export function frameEntries(session: Session): readonly MenuEntry[] {
  const { copies, exports } = frameAbilities(session);
  return [
    { label: t("Copy values to other frames…"), enabled: copies, run: () => copyFrame(session) },
    { label: t("Export…"), enabled: exports, run: () => exportFrame(session) },
    { label: t("Use as the reference state"), run: () => setReference(session) },
    { label: t("Show in the text"), run: () => showInText(session) },
  ];
}

export function openFrameMenu(session: Session, at: readonly [number, number]): void {
  openMenu(t("Frame {0}", session.frame()?.id ?? ""), frameEntries(session), at);
}

/** A right click, or the menu key: at the pointer's place, or with the keyboard at the tool's cross. */
export function listenToMenus(session: Session, picture: Picture, stage: HTMLElement): void {
  stage.addEventListener("contextmenu", (event) => {
    event.preventDefault();
    const box = stage.getBoundingClientRect();
    const byKey = event.button !== 2;
    const at = byKey ? session.store.get().pointer : picture.scanAt(event.clientX, event.clientY);
    const place: readonly [number, number] = byKey
      ? [box.left + box.width / 2, box.top + box.height / 2]
      : [event.clientX, event.clientY];
    const { current } = session.store.get();
    openMenu(
      t("Picture"),
      [
        ...placeEntries(session, current && at && isInside(at) ? at : undefined),
        "line",
        ...zoomEntries(session, picture),
        "line",
        ...frameEntries(session),
      ],
      place,
    );
  });
}

/** What is done at a place of the scan; without one nothing. */
function placeEntries(session: Session, at: Point | undefined): readonly MenuEntry[] {
  const isColour = session.frame()?.look.film !== "black-and-white-negative";
  const run = (action: (place: Point) => void) => (): void => {
    if (at) action(at);
  };
  const enabled = at !== undefined;
  return [
    { label: t("Make this place neutral"), enabled: enabled && isColour, run: run((p) => pickNeutral(session, p)) },
    { label: t("Make this place mid-grey"), enabled, run: run((p) => pickGrey(session, p)) },
    { label: t("Heal a speck here"), enabled, run: run((p) => addSpot(session, "film", p, SPOT_RADIUS)) },
    { label: t("Pin the reading here"), enabled, run: run((p) => addPin(session, p)) },
  ];
}

function zoomEntries(session: Session, picture: Picture): readonly MenuEntry[] {
  return [
    { label: t("Whole picture"), key: "0", run: () => setZoom(session, picture, "fit") },
    { label: "100 %", key: "1", run: () => setZoom(session, picture, 1) },
    { label: "200 %", key: "2", run: () => setZoom(session, picture, 2) },
  ];
}
