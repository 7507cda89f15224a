/** Two to four frames side by side, in place of the grid, with one zoom and one place for all of them. */
import type { RollState } from "../../extension/messages.ts";
import { el } from "../dom.ts";
import { makeDetail } from "../preview/picture/detail.ts";
import { makePicture, type Picture } from "../preview/picture/picture.ts";
import { makeSession, type Session } from "../preview/session.ts";
import { makeCpuSurface } from "../render/cpu-surface.ts";
import { isSoftwareGl, makeGpuSurface } from "../render/gpu-surface.ts";
import type { Surface } from "../render/surface.ts";
import { panned, type Viewport, zoomedAt } from "../state/frame-transform.ts";
import { switchChoice } from "../state/sheet/sheet-edits.ts";
import { FRESH } from "../state/ui-state.ts";
import { t } from "../translate.ts";
import { kit } from "../ui/index.ts";
import type { SheetSession } from "./sheet-session.ts";

export interface BesideOptions {
  /** Makes the worker of a picture on the CPU path. */
  readonly makeWorker: () => Promise<Worker | undefined>;
  readonly gpu: "real" | "never" | "always";
}

interface Cell {
  readonly session: Session;
  readonly picture: Picture;
  readonly element: HTMLElement;
  readonly stage: HTMLElement;
  dispose(): void;
}

/** A step of the zoom keys and buttons, and of a notch of the wheel. */
const STEP = 1.25;
/** Part of the cell's size that an arrow key moves the pictures by. */
const MOVE = 0.15;

export function makeBeside(session: SheetSession, options: BesideOptions): HTMLElement {
  const cells = new Map<string, Cell>();
  let viewport: Viewport = FRESH.viewport;
  let shown: readonly string[] = [];
  let roll: RollState | undefined;
  const row = el("div", { class: "cells" });

  function link(next: Viewport): void {
    viewport = next;
    for (const cell of cells.values()) cell.session.ui({ viewport });
  }

  /** Zooms all cells, about a place of one of them; its middle where none is given. */
  function zoom(cell: Cell | undefined, to: (now: number) => number, at?: readonly [x: number, y: number]): void {
    const layout = cell?.picture.layout();
    const box = layout?.paneBoxes[0];
    if (!layout || !box) return;
    const place = at ?? [box.x + box.width / 2, box.y + box.height / 2];
    link(zoomedAt(layout.transform, viewport, box, to(layout.zoom), place));
  }

  function move(cell: Cell, dx: number, dy: number): void {
    const layout = cell.picture.layout();
    const box = layout?.paneBoxes[0];
    if (layout && box) link(panned(layout.transform, viewport, box, dx, dy));
  }

  const first = (): Cell | undefined => cells.values().next().value;
  const button = (label: string, onPress: () => void) => kit.button({ label, kind: "secondary", onPress });
  const fit = button(t("Fit"), () => link(FRESH.viewport));
  const back = button(t("Back to the sheet"), () => session.store.set({ beside: [] }));
  const bar = el(
    "div",
    { class: "bar", role: "toolbar", "aria-label": t("Side by side") },
    el(
      "div",
      { class: "group" },
      back.element,
      fit.element,
      button(t("1 : 1"), () => zoom(first(), () => 1)).element,
      button(t("Larger"), () => zoom(first(), (now) => now * STEP)).element,
      button(t("Smaller"), () => zoom(first(), (now) => now / STEP)).element,
    ),
    el("span", { class: "hint" }, t("Wheel zooms and dragging moves all pictures alike")),
  );
  const element = el("div", { class: "beside", role: "group", "aria-label": t("Side by side") }, bar, row);

  function listen(cell: Cell): void {
    const { stage, picture } = cell;
    stage.addEventListener(
      "wheel",
      (event) => {
        event.preventDefault();
        const factor = STEP ** (-Math.sign(event.deltaY) * Math.min(1, Math.abs(event.deltaY) / 40));
        zoom(cell, (now) => now * factor, picture.canvasAt(event.clientX, event.clientY).at);
      },
      { passive: false },
    );
    stage.addEventListener("pointerdown", (event) => {
      if (event.button === 0) stage.setPointerCapture(event.pointerId);
    });
    stage.addEventListener("pointermove", (event) => {
      const ratio = window.devicePixelRatio || 1;
      if (stage.hasPointerCapture(event.pointerId)) move(cell, event.movementX * ratio, event.movementY * ratio);
    });
    stage.addEventListener("keydown", (event) => {
      const box = picture.layout()?.paneBoxes[0];
      const [dx, dy] = [(box?.width ?? 0) * MOVE, (box?.height ?? 0) * MOVE];
      const keys: Readonly<Record<string, () => void>> = {
        "+": () => zoom(cell, (now) => now * STEP),
        "-": () => zoom(cell, (now) => now / STEP),
        "0": () => link(FRESH.viewport),
        "1": () => zoom(cell, () => 1),
        ArrowLeft: () => move(cell, dx, 0),
        ArrowRight: () => move(cell, -dx, 0),
        ArrowUp: () => move(cell, 0, dy),
        ArrowDown: () => move(cell, 0, -dy),
      };
      const act = event.ctrlKey || event.metaKey || event.altKey ? undefined : keys[event.key];
      if (!act) return;
      event.preventDefault();
      event.stopPropagation();
      act();
    });
  }

  function refresh(): void {
    const model = session.store.get();
    element.hidden = model.beside.length === 0;
    if (model.beside.join(" ") !== shown.join(" ")) {
      shown = model.beside;
      for (const cell of cells.values()) cell.dispose();
      cells.clear();
      viewport = FRESH.viewport;
      roll = undefined;
      for (const id of shown) cells.set(id, makeCell(session, id, options));
      row.replaceChildren(...[...cells.values()].map((cell) => cell.element));
      row.dataset["count"] = String(shown.length);
      for (const cell of cells.values()) listen(cell);
      first()?.stage.focus();
    }
    for (const [id, cell] of cells) {
      cell.session.events.settings?.(model.settings);
      if (model.roll && model.roll !== roll) cell.session.events.roll?.(model.roll);
      const look = model.draft?.looks.get(id);
      if (look) cell.session.preview({ look });
      else if (cell.session.store.get().draft) cell.session.store.set({ draft: undefined });
    }
    roll = model.roll;
  }

  session.store.on(refresh);
  return element;
}

/** A picture with a session of its own, which asks the sheet's host. */
function makeCell(sheet: SheetSession, id: string, { makeWorker, gpu }: BesideOptions): Cell {
  const host = { postMessage() {}, getState: () => ({ frame: id }), setState() {} };
  const session = makeSession(host, sheet.client);
  const canvas = el("canvas", { class: "picture" });
  const stage = el(
    "div",
    { class: "stage", tabindex: "0", role: "img", "aria-label": t("Picture of frame {0}", id) },
    canvas,
  );
  const wanted = gpu === "always" || (gpu === "real" && !isSoftwareGl());
  let surface: Surface =
    (wanted && makeGpuSurface(canvas, matchMedia("(color-gamut: p3)").matches)) || makeCpuSurface(canvas);
  let closed = false;
  const picture = makePicture(session, canvas, surface);
  makeDetail(session, picture);
  if (surface.kind === "cpu")
    void makeWorker()
      .catch(() => undefined)
      .then((worker) => {
        if (closed || !worker) return worker?.terminate();
        // A canvas keeps the kind of context that it first gave: another kind needs another canvas.
        const fresh = el("canvas", { class: "picture" });
        stage.replaceChildren(fresh);
        surface = makeCpuSurface(fresh, () => worker);
        picture.setSurface(surface, fresh);
      });
  const state = el("span", { class: "state" });
  const choose = (choice: "keep" | "reject", label: string, done: string) =>
    kit.button({
      label,
      kind: "secondary",
      pressed: false,
      onPress() {
        const entry = session.frame();
        if (entry?.id === id) void sheet.commit(done, switchChoice([entry], choice));
      },
    });
  const keep = choose("keep", t("Keep"), t("Keep: frame {0}", id));
  const reject = choose("reject", t("Reject"), t("Reject: frame {0}", id));
  session.store.on(({ loading, failure }) => {
    const entry = session.frame();
    keep.set({ pressed: entry?.choice === "keep" });
    reject.set({ pressed: entry?.choice === "reject" });
    const text = failure ?? (loading ? t("Preparing the scan …") : "");
    if (state.textContent !== text) state.textContent = text;
  });
  const element = el(
    "figure",
    { class: "cell" },
    stage,
    el("figcaption", {}, el("span", { class: "number" }, t("Frame {0}", id)), keep.element, reject.element, state),
  );
  return {
    session,
    picture,
    element,
    stage,
    dispose() {
      closed = true;
      surface.dispose();
    },
  };
}
