/** From what one looks at to what is painted: panes with plans and maps. */
import type { Plan } from "../../extension/engine/plan/compile.ts";
import type { FrameLook } from "../../extension/engine/types.ts";
import type { FrameEntry } from "../../extension/messages.ts";
import type { Framing } from "../../extension/engine/image/geometry.ts";
import { placeIn, type Source } from "../render/source.ts";
import { holderLimit } from "../render/holder.ts";
import type { Proof } from "../render/proof.ts";
import type { Pane, Scene } from "../render/surface.ts";
import { planFor, type View } from "../render/view-plans.ts";
import { type Affine, chained } from "./affine.ts";
import { type Box, type FrameTransform, croppedFrame, pictureToCanvas, toUnit, wholeScan } from "./frame-transform.ts";
import type { UiState } from "./ui-state.ts";

/** One side of what is shown. */
export interface SideLook {
  readonly view: View;
  readonly look: FrameLook;
  /** Whether it is shown as it looks on paper. */
  readonly proofed: boolean;
}

/** The sides in force: one, or two to be compared. With `showsOther` the other side shows alone. */
export function sidesOf(
  ui: UiState,
  look: FrameLook,
  others: { inherited: FrameLook; kept?: FrameLook },
  showsOther: boolean,
): readonly SideLook[] {
  const here: SideLook = { view: ui.view, look, proofed: ui.proof && ui.view === "print" };
  const there = otherSide(ui, look, others);
  if (showsOther) return [there];
  return ui.compare === "off" ? [here] : [there, here];
}

function otherSide(
  { against, proof: proofed }: UiState,
  look: FrameLook,
  { inherited, kept = look }: { inherited: FrameLook; kept?: FrameLook },
): SideLook {
  switch (against) {
    case "inherited":
      return { view: "print", look: inherited, proofed };
    case "kept":
      return { view: "print", look: kept, proofed };
    case "unproofed":
      return { view: "print", look, proofed: false };
    case "negative":
    case "density":
      return { view: against, look, proofed: false };
  }
}

/** Where the frame stands: cropped as the recipe says, or whole while it is being cropped or its rebate is read. */
export function transformOf(frame: FrameEntry, source: Source, ui: UiState): FrameTransform {
  const { scanWidth: w, scanHeight: h } = source;
  const whole = ui.tool === "crop" || ui.tool === "base";
  return whole ? wholeScan(w, h, frame.mirror, frame.turn) : croppedFrame(w, h, frame);
}

/** Rooms of the sides on a canvas: side by side they share it, otherwise each has all of it. */
export function paneBoxesOf(width: number, height: number, sides: number, ui: UiState): readonly Box[] {
  const all = { x: 0, y: 0, width, height };
  if (sides < 2 || ui.compare !== "beside") return Array.from({ length: sides }, () => all);
  const upright = height > width * 1.15;
  const [w, h] = upright ? [width, Math.floor(height / 2)] : [Math.floor(width / 2), height];
  return [
    { x: 0, y: 0, width: w, height: h },
    upright ? { x: 0, y: height - h, width, height: h } : { x: width - w, y: 0, width: w, height },
  ];
}

/** From pixels of the scan to the canvas. */
export const scanToCanvas = (transform: FrameTransform, ui: UiState, paneBox: Box): Affine =>
  chained(transform.toFinished, pictureToCanvas(transform, ui.viewport, paneBox));

/** Plans are compiled once for each view of each look; without a framing, areas of local exposure are left out. */
export function makePlanCache(): (
  view: View,
  look: FrameLook,
  space: Scene["panes"][number]["plan"]["space"],
  source: Source,
  framing?: Framing,
) => Plan {
  const kept = new WeakMap<FrameLook, Map<string, Plan>>();
  return (view, look, space, source, framing) => {
    const plans = kept.get(look) ?? new Map<string, Plan>();
    kept.set(look, plans);
    const at = look.local && framing && placeIn(source, framing);
    const key = `${view} ${space} ${source.weights.join(" ")} ${JSON.stringify(at)}`;
    const plan = plans.get(key) ?? planFor(view, look, space, source.weights, at);
    plans.set(key, plan);
    return plan;
  };
}

/** Boxes that the sides may paint: with a wipe, left and right of its place. */
export function clipBoxesOf(paneBoxes: readonly Box[], ui: UiState): readonly Box[] {
  if (paneBoxes.length < 2 || ui.compare !== "wipe") return paneBoxes;
  const [{ x, y, width, height }] = paneBoxes;
  const at = Math.round(width * ui.wipe);
  return [
    { x, y, width: at, height },
    { x: x + at, y, width: width - at, height },
  ];
}

/** The crop, where the whole scan is shown around it. */
export function cropWithin(frame: FrameEntry, source: Source, { tool }: UiState): FrameTransform | undefined {
  return tool === "crop" || tool === "base" ? croppedFrame(source.scanWidth, source.scanHeight, frame) : undefined;
}

/** @param crop see `cropWithin` */
export function panesOf(
  transform: FrameTransform,
  ui: UiState,
  paneBoxes: readonly Box[],
  sides: readonly { readonly plan: Plan; readonly view: View; readonly look: FrameLook; readonly proof?: Proof }[],
  crop: FrameTransform | undefined,
): readonly Pane[] {
  const boxes = clipBoxesOf(paneBoxes, ui);
  return sides.map(({ plan, view, look, proof }, i) => {
    const toCanvas = scanToCanvas(transform, ui, paneBoxes[i]);
    const warn = !ui.warn ? "none" : view === "print" ? "print" : "scan";
    const limit = crop && view === "print" ? holderLimit(look) : undefined;
    const holder = crop && limit !== undefined ? { holder: { limit, toCrop: toUnit(crop, toCanvas) } } : {};
    return {
      box: boxes[i],
      plan,
      toCanvas,
      toPicture: toUnit(transform, toCanvas),
      warn,
      ...holder,
      ...(proof ? { proof } : {}),
    };
  });
}
