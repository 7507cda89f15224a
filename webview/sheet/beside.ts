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

export const makeBeside = (session: SheetSession, options: BesideOptions): HTMLElement =>
  new SideBySide(session, options).element;

class SideBySide {
  readonly element: HTMLElement;
  readonly #session: SheetSession;
  readonly #options: BesideOptions;
  readonly #row = el("div", { class: "cells" });
  readonly #cells = new Map<string, Cell>();
  #viewport: Viewport = FRESH.viewport;
  #shown: readonly string[] = [];
  #roll: RollState | undefined;

  constructor(session: SheetSession, options: BesideOptions) {
    this.#session = session;
    this.#options = options;
    this.element = el(
      "div",
      { class: "beside", role: "group", "aria-label": t("Side by side") },
      this.#bar(),
      this.#row,
    );
    session.store.on(() => this.#refresh());
  }

  #bar(): HTMLElement {
    const button = (label: string, onPress: () => void) => kit.button({ label, kind: "secondary", onPress }).element;
    return el(
      "div",
      { class: "bar", role: "toolbar", "aria-label": t("Side by side") },
      el(
        "div",
        { class: "group" },
        button(t("Back to the sheet"), () => this.#session.store.set({ beside: [] })),
        button(t("Fit"), () => this.#link(FRESH.viewport)),
        button(t("1 : 1"), () => this.#zoom(this.#first(), () => 1)),
        button(t("Larger"), () => this.#zoom(this.#first(), (now) => now * STEP)),
        button(t("Smaller"), () => this.#zoom(this.#first(), (now) => now / STEP)),
      ),
      el("span", { class: "hint" }, t("Wheel zooms and dragging moves all pictures alike")),
    );
  }

  #first(): Cell | undefined {
    return this.#cells.values().next().value;
  }

  #link(viewport: Viewport): void {
    this.#viewport = viewport;
    for (const cell of this.#cells.values()) cell.session.ui({ viewport });
  }

  /** Zooms all cells, about a place of one of them; its middle where none is given. */
  #zoom(cell: Cell | undefined, to: (now: number) => number, at?: readonly [x: number, y: number]): void {
    const layout = cell?.picture.layout();
    const box = layout?.paneBoxes[0];
    if (!layout || !box) return;
    const place = at ?? [box.x + box.width / 2, box.y + box.height / 2];
    this.#link(zoomedAt(layout.transform, this.#viewport, box, to(layout.zoom), place));
  }

  #move(cell: Cell, dx: number, dy: number): void {
    const layout = cell.picture.layout();
    const box = layout?.paneBoxes[0];
    if (layout && box) this.#link(panned(layout.transform, this.#viewport, box, dx, dy));
  }

  #listenToPointer(cell: Cell): void {
    const { stage, picture } = cell;
    stage.addEventListener(
      "wheel",
      (event) => {
        event.preventDefault();
        const factor = STEP ** (-Math.sign(event.deltaY) * Math.min(1, Math.abs(event.deltaY) / 40));
        this.#zoom(cell, (now) => now * factor, picture.canvasAt(event.clientX, event.clientY).at);
      },
      { passive: false },
    );
    stage.addEventListener("pointerdown", (event) => {
      if (event.button === 0) stage.setPointerCapture(event.pointerId);
    });
    stage.addEventListener("pointermove", (event) => {
      const ratio = window.devicePixelRatio || 1;
      if (stage.hasPointerCapture(event.pointerId)) this.#move(cell, event.movementX * ratio, event.movementY * ratio);
    });
  }

  #listenToKeys(cell: Cell): void {
    cell.stage.addEventListener("keydown", (event) => {
      const box = cell.picture.layout()?.paneBoxes[0];
      const [dx, dy] = [(box?.width ?? 0) * MOVE, (box?.height ?? 0) * MOVE];
      const keys: Readonly<Record<string, () => void>> = {
        "+": () => this.#zoom(cell, (now) => now * STEP),
        "-": () => this.#zoom(cell, (now) => now / STEP),
        "0": () => this.#link(FRESH.viewport),
        "1": () => this.#zoom(cell, () => 1),
        ArrowLeft: () => this.#move(cell, dx, 0),
        ArrowRight: () => this.#move(cell, -dx, 0),
        ArrowUp: () => this.#move(cell, 0, dy),
        ArrowDown: () => this.#move(cell, 0, -dy),
      };
      const act = event.ctrlKey || event.metaKey || event.altKey ? undefined : keys[event.key];
      if (!act) return;
      event.preventDefault();
      event.stopPropagation();
      act();
    });
  }

  #refresh(): void {
    const model = this.#session.store.get();
    this.element.hidden = model.beside.length === 0;
    if (model.beside.join(" ") !== this.#shown.join(" ")) this.#replaceCells(model.beside);
    for (const [id, cell] of this.#cells) {
      cell.session.events.settings?.(model.settings);
      if (model.roll && model.roll !== this.#roll) cell.session.events.roll?.(model.roll);
      const look = model.draft?.looks.get(id);
      if (look) cell.session.preview({ look });
      else if (cell.session.store.get().draft) cell.session.store.set({ draft: undefined });
    }
    this.#roll = model.roll;
  }

  #replaceCells(ids: readonly string[]): void {
    this.#shown = ids;
    for (const cell of this.#cells.values()) cell.dispose();
    this.#cells.clear();
    this.#viewport = FRESH.viewport;
    this.#roll = undefined;
    for (const id of ids) this.#cells.set(id, makeCell(this.#session, id, this.#options));
    this.#row.replaceChildren(...[...this.#cells.values()].map((cell) => cell.element));
    this.#row.dataset["count"] = String(ids.length);
    for (const cell of this.#cells.values()) {
      this.#listenToPointer(cell);
      this.#listenToKeys(cell);
    }
    this.#first()?.stage.focus();
  }
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
