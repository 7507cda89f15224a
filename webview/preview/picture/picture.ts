/** The picture: canvas, drawing, and what is known of where things are on it. */
import type { Surface } from "../../render/surface.ts";
import type { Source } from "../../render/source.ts";
import { apply, inverse, type Affine, type Point } from "../../state/affine.ts";
import { type Box, type FrameTransform, zoomOf } from "../../state/frame-transform.ts";
import { makePlanCache, panesOf, transformOf, paneBoxesOf, scanToCanvas, sidesOf } from "../../state/scene.ts";
import { luminanceOf } from "../../../extension/engine/colour/lab.ts";
import { SPACES } from "../../../extension/engine/colour/spaces.ts";
import type { Model, Session } from "../session.ts";
import { reasonOf } from "../../reason.ts";

/** Where things are, in device pixels of the canvas. */
export interface Layout {
  readonly source: Source;
  readonly transform: FrameTransform;
  readonly paneBoxes: readonly Box[];
  /** From pixels of the scan to the canvas, for each room. */
  readonly maps: readonly Affine[];
  readonly zoom: number;
  readonly ratio: number;
}

export interface Picture {
  layout(): Layout | undefined;
  /** Place of a client position in fractions of the scan; undefined without a picture. */
  scanAt(clientX: number, clientY: number): Point | undefined;
  /** Room that a client position lies in, and the position in device pixels. */
  canvasAt(clientX: number, clientY: number): { at: Point; pane: number };
  /** Called after each change of the layout. */
  onLayout(listener: (layout: Layout | undefined) => void): void;
  /** Takes another surface on another canvas, after the graphics were lost. */
  setSurface(surface: Surface, canvas: HTMLCanvasElement): void;
  redraw(): void;
  /** Milliseconds from the last change to the picture. */
  lastDraw(): number;
}

export function makePicture(session: Session, firstCanvas: HTMLCanvasElement, first: Surface): Picture {
  let canvas = firstCanvas;
  let surface = first;
  let layout: Layout | undefined;
  let due = false;
  let drawTime = 0;
  const listeners: ((layout: Layout | undefined) => void)[] = [];
  const planOf = makePlanCache();

  function layOut(model: Model): Layout | undefined {
    const frame = session.frame();
    const { source, ui } = model;
    if (!frame || !source) return undefined;
    const ratio = window.devicePixelRatio || 1;
    const [width, height] = [Math.round(canvas.clientWidth * ratio), Math.round(canvas.clientHeight * ratio)];
    if (width < 2 || height < 2) return undefined; // hidden: sizes mean nothing now
    const shown = model.draft?.area ? { ...frame, area: model.draft.area } : frame;
    const transform = transformOf(shown, source, ui);
    const sides = ui.compare === "off" || model.held ? 1 : 2;
    const paneBoxes = paneBoxesOf(width, height, sides, ui);
    return {
      source,
      transform,
      paneBoxes,
      maps: paneBoxes.map((pane) => scanToCanvas(transform, ui, pane)),
      zoom: zoomOf(ui.viewport, transform, paneBoxes[0]),
      ratio,
    };
  }

  function draw(): void {
    due = false;
    const model = session.store.get();
    const look = session.look();
    const ratio = window.devicePixelRatio || 1;
    const [width, height] = [Math.round(canvas.clientWidth * ratio), Math.round(canvas.clientHeight * ratio)];
    if (width < 2 || height < 2) return;
    const start = performance.now();
    layout = layOut(model);
    for (const listener of listeners) listener(layout);
    const surround = SPACES.srgb.encode(luminanceOf(model.settings.surround));
    if (!layout || !look) return void surface.draw({ width, height, surround, layers: [], panes: [] });
    const { source, transform: frameTransform, paneBoxes } = layout;
    const inherited = model.roll?.shared ?? look;
    const sides = sidesOf(model.ui, look, { inherited, kept: model.kept }, model.held);
    const planned = sides.map(({ view, look: of }) => ({ view, plan: planOf(view, of, surface.space, source) }));
    const layers = model.detail?.key === source.key ? [source, model.detail] : [source];
    const panes = panesOf(frameTransform, model.ui, paneBoxes, planned);
    surface.draw({ width, height, surround, layers, panes }).then(
      () => (drawTime = performance.now() - start),
      (error: unknown) => session.store.set({ failure: reasonOf(error) }),
    );
  }

  function redraw(): void {
    if (due) return;
    due = true;
    requestAnimationFrame(draw);
  }

  session.store.on(redraw);
  const sizes = new ResizeObserver(redraw);
  sizes.observe(canvas);

  const canvasAt: Picture["canvasAt"] = (x, y) => {
    const box = canvas.getBoundingClientRect();
    const ratio = layout?.ratio ?? 1;
    const at: Point = [(x - box.left) * ratio, (y - box.top) * ratio];
    const paneBoxes = layout?.paneBoxes ?? [];
    const inside = paneBoxes.findIndex(
      (r) => at[0] >= r.x && at[0] < r.x + r.width && at[1] >= r.y && at[1] < r.y + r.height,
    );
    return { at, pane: Math.max(0, inside) };
  };

  return {
    layout: () => layout,
    canvasAt,
    scanAt(x, y) {
      if (!layout) return undefined;
      const { at, pane } = canvasAt(x, y);
      const [px, py] = apply(inverse(layout.maps[pane]), at);
      return [px / layout.source.scanWidth, py / layout.source.scanHeight];
    },
    onLayout: (listener) => listeners.push(listener),
    setSurface(next, on) {
      sizes.unobserve(canvas);
      sizes.observe(on);
      canvas = on;
      surface = next;
      redraw();
    },
    redraw,
    lastDraw: () => drawTime,
  };
}
