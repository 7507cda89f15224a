/** Framing: crop and tilt, turn, mirror, and the same for other frames. */
import type { Turn } from "../../../extension/engine/image/geometry.ts";
import type { Area } from "../../../extension/engine/types.ts";
import { el } from "../../dom.ts";
import type { FrameEntry } from "../../../extension/messages.ts";
import type { Session } from "../session.ts";
import type { Model } from "../model.ts";
import { insideScan, tilted } from "../../state/crop.ts";
import { rounded } from "../../state/controls.ts";
import { following, setMirror, setTurn } from "../../state/edits.ts";
import { kit, slider } from "../../ui/index.ts";
import { commitArea } from "../picture/gestures.ts";
import { ICONS } from "../icons.ts";
import { section } from "./section.ts";
import { t } from "../../translate.ts";

const sides = () =>
  [
    ["left", t("left"), t("Crop, left, percent of the scan")],
    ["top", t("top"), t("Crop, top, percent of the scan")],
    ["width", t("width"), t("Crop, width, percent of the scan")],
    ["height", t("height"), t("Crop, height, percent of the scan")],
  ] as const;
const WHOLE: Area = { left: 0, top: 0, width: 1, height: 1, tilt: 0 };

/** Shapes of a crop, width over height of the picture as it lies. */
const SHAPES = [
  ["free", ""],
  ["kept", ""],
  ["3:2", "3 : 2"],
  ["4:3", "4 : 3"],
  ["5:4", "5 : 4"],
  ["1:1", "1 : 1"],
  ["7:6", "7 : 6"],
] as const;
type Shape = (typeof SHAPES)[number][0];

/** A control, and how it follows the panel's state. */
interface Part {
  readonly element: HTMLElement;
  refresh(frame: FrameEntry, area: Area, model: Model): void;
}

export function makeFraming(session: Session): { element: HTMLElement; ratio: () => number | undefined } {
  let shape: Shape = "free";
  const shapes = kit.choice<Shape>({
    label: t("Shape of the crop"),
    options: SHAPES.map(([key, label]) => [key, key === "free" ? t("Free") : key === "kept" ? t("As it is") : label]),
    value: shape,
    onChange: (next) => (shape = next),
  });
  const [crop, turn, mirror] = [cropButton(session), turnButton(session), mirrorButton(session)];
  const [tilt, fields, same] = [tiltSlider(session), cropFields(session), sameButton(session)];
  const parts: readonly Part[] = [crop, turn, mirror, tilt, fields, same];
  const element = section(
    session,
    "framing",
    t("Framing"),
    el("div", { class: "buttons" }, crop.element, turn.element, mirror.element, shapes.element),
    el("div", { class: "row" }, tilt.element),
    fields.element,
    el("div", { class: "buttons" }, same.element, wholeButton(session)),
  );
  session.store.on((model) => {
    const [frame, now] = [session.frame(), areaOf(session)];
    if (frame && now) for (const part of parts) part.refresh(frame, now, model);
  });
  return { element, ratio: () => ratioOf(session, shape) };
}

/** The crop in force: of the gesture under way, or of the recipe. */
const areaOf = (session: Session): Area | undefined => session.store.get().draft?.area ?? session.frame()?.area;

function write(session: Session, next: Area): void {
  const frame = session.frame();
  if (frame) commitArea(session, insideScan(next), [frame.id]);
}

function cropButton(session: Session): Part {
  const crop = kit.button({
    label: t("Crop"),
    beside: t("Crop"),
    title: t("Crop over the whole scan; outside of the crop, draw a line along something level"),
    icon: ICONS.crop,
    kind: "quiet",
    pressed: false,
    onPress: () => session.ui({ tool: session.store.get().ui.tool === "crop" ? "look" : "crop" }),
  });
  return { element: crop.element, refresh: (_, __, { ui }) => crop.set({ pressed: ui.tool === "crop" }) };
}

function turnButton(session: Session): Part {
  const turn = kit.button({
    label: t("Turn"),
    beside: t("Turn"),
    title: t("Turn a quarter clockwise"),
    icon: ICONS.turn,
    kind: "quiet",
    onPress: () => {
      const frame = session.frame();
      if (!frame) return;
      const next = ((frame.turn + 90) % 360) as Turn;
      void session.commit(t("Turned to {0}°", next), setTurn(frame.id, next));
    },
  });
  return {
    element: turn.element,
    refresh: (frame) => turn.set({ title: t("Turn a quarter clockwise (now {0}°)", frame.turn) }),
  };
}

function mirrorButton(session: Session): Part {
  const mirror = kit.button({
    label: t("Mirror"),
    beside: t("Mirror"),
    title: t("Swap left and right: the emulsion faced the camera"),
    icon: ICONS.mirror,
    kind: "quiet",
    pressed: false,
    onPress: () => {
      const frame = session.frame();
      if (frame)
        void session.commit(frame.mirror ? t("Not mirrored") : t("Mirrored"), setMirror(frame.id, !frame.mirror));
    },
  });
  return { element: mirror.element, refresh: (frame) => mirror.set({ pressed: frame.mirror }) };
}

function tiltSlider(session: Session): Part {
  const tilt = slider({
    label: t("Tilt"),
    title: t("Clockwise rotation of the picture in the scan; the positive is rotated back"),
    unit: "°",
    from: -5,
    to: 5,
    min: -45,
    max: 45,
    step: 0.05,
    decimals: 2,
    value: 0,
    onInput: (value) => {
      const now = areaOf(session);
      if (now) session.preview({ area: tilted(now, value) });
    },
    onCommit: (value) => {
      const now = session.frame()?.area;
      if (now) write(session, tilted(now, rounded(value, 2)));
    },
  });
  return { element: tilt.element, refresh: (_, area) => tilt.set({ value: area.tilt }) };
}

/** A field for each number of the crop. */
function cropFields(session: Session): Part {
  const fields = sides().map(([side, label, words]) => {
    const input = el("input", {
      type: "number",
      min: "0",
      max: "100",
      step: "0.1",
      "aria-label": words,
    });
    input.addEventListener("change", () => {
      const now = session.frame()?.area;
      if (now && Number.isFinite(input.valueAsNumber))
        write(session, {
          ...now,
          [side]: Math.max(side === "width" || side === "height" ? 0.01 : 0, input.valueAsNumber / 100),
        });
    });
    return { side, label, input };
  });
  return {
    element: el(
      "div",
      { class: "fields" },
      ...fields.map(({ label, input }) => el("label", {}, label, input, el("span", { class: "unit" }, "%"))),
    ),
    refresh(_, area) {
      for (const { side, input } of fields)
        if (document.activeElement !== input) input.value = (area[side] * 100).toFixed(1);
    },
  };
}

function sameButton(session: Session): Part {
  const same = kit.button({
    label: t("Same for the following frames"),
    title: t("Copies this crop to every following frame"),
    kind: "secondary",
    onPress: () => {
      const [frame, { roll }] = [session.frame(), session.store.get()];
      const next = frame && following(roll?.frames.map((f) => f.id) ?? [], frame.id);
      if (frame && next?.length) commitArea(session, frame.area, next);
    },
  });
  return {
    element: same.element,
    refresh: (frame, _, { roll }) =>
      same.set({ enabled: following(roll?.frames.map((f) => f.id) ?? [], frame.id).length > 0 }),
  };
}

function wholeButton(session: Session): HTMLElement {
  const whole = kit.button({
    label: t("Whole scan"),
    title: t("Takes the crop away"),
    kind: "secondary",
    onPress: () => write(session, WHOLE),
  });
  return whole.element;
}

/** Width over height that a crop is held to; undefined where it is free. */
function ratioOf(session: Session, shape: Shape): number | undefined {
  const [now, { source }] = [session.frame()?.area, session.store.get()];
  if (shape === "free" || !now || !source) return undefined;
  const is = (now.width * source.scanWidth) / (now.height * source.scanHeight);
  if (shape === "kept") return is;
  const [w, h] = shape.split(":").map(Number);
  return is >= 1 ? w / h : h / w;
}
