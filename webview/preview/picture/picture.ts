/** The picture: canvas, drawing, and what is known of where things are on it. */
import type { Plan } from "../../../extension/engine/plan/compile.ts";
import type { FrameLook } from "../../../extension/engine/types.ts";
import type { FrameEntry } from "../../../extension/messages.ts";
import { type Proof, PROOF_SPACE } from "../../render/proof.ts";
import type { Scene, Surface } from "../../render/surface.ts";
import type { Source } from "../../render/source.ts";
import { apply, inverse, type Affine, type Point } from "../../state/affine.ts";
import { type Box, type FrameTransform, zoomOf } from "../../state/frame-transform.ts";
import {
  cropWithin,
  makePlanCache,
  panesOf,
  transformOf,
  paneBoxesOf,
  scanToCanvas,
  type SideLook,
  sidesOf,
} from "../../state/scene.ts";
import { luminanceOf } from "../../../extension/engine/colour/lab.ts";
import { SPACES } from "../../../extension/engine/colour/spaces.ts";
import type { Session } from "../session.ts";
import type { Model } from "../model.ts";
import { reasonOf } from "../../reason.ts";

/** Where things are, in device pixels of the canvas. */
export interface Layout {
  readonly source: Source;
  readonly transform: FrameTransform;
  /** The crop, where the whole scan is shown around it. */
  readonly crop?: FrameTransform;
  readonly paneBoxes: readonly Box[];
  /** From pixels of the scan to the canvas, for each pane. */
  readonly maps: readonly Affine[];
  readonly zoom: number;
  readonly ratio: number;
}

export interface Picture {
  layout(): Layout | undefined;
  /** Place of a client position in fractions of the scan; undefined without a picture. */
  scanAt(clientX: number, clientY: number): Point | undefined;
  /** Pane that a client position lies in, and the position in device pixels. */
  canvasAt(clientX: number, clientY: number): { at: Point; pane: number };
  /** Called after each change of the layout. */
  onLayout(listener: (layout: Layout | undefined) => void): void;
  /** Takes another surface on another canvas, after the graphics were lost. */
  setSurface(surface: Surface, canvas: HTMLCanvasElement): void;
  redraw(): void;
  /** Milliseconds from the last change to the picture. */
  lastDraw(): number;
  /** Key of the scan that stands on the canvas. */
  drawn(): string | undefined;
}

/** Size of the canvas in device pixels; undefined while it is hidden, when sizes mean nothing. */
function deviceSize(canvas: HTMLCanvasElement): { width: number; height: number; ratio: number } | undefined {
  const ratio = window.devicePixelRatio || 1;
  const [width, height] = [Math.round(canvas.clientWidth * ratio), Math.round(canvas.clientHeight * ratio)];
  return width < 2 || height < 2 ? undefined : { width, height, ratio };
}

type DeviceSize = NonNullable<ReturnType<typeof deviceSize>>;

function layOut(
  { ui, showsOther }: Pick<Model, "ui" | "showsOther">,
  shown: FrameEntry,
  source: Source,
  { width, height, ratio }: DeviceSize,
): Layout {
  const transform = transformOf(shown, source, ui);
  const sides = ui.compare === "off" || showsOther ? 1 : 2;
  const paneBoxes = paneBoxesOf(width, height, sides, ui);
  return {
    source,
    transform,
    crop: cropWithin(shown, source, ui),
    paneBoxes,
    maps: paneBoxes.map((pane) => scanToCanvas(transform, ui, pane)),
    zoom: zoomOf(ui.viewport, transform, paneBoxes[0]),
    ratio,
  };
}

/** What a layout shows: the sides' plans, drawn from the scan's proxy and its detail. */
function sceneOf(
  model: Model,
  look: FrameLook,
  { source, transform, paneBoxes, crop }: Layout,
  planOf: (side: SideLook, source: Source, proof: Proof | undefined) => Plan,
): Pick<Scene, "layers" | "panes"> {
  const inherited = model.roll?.shared ?? look;
  const sides = sidesOf(model.ui, look, { inherited, kept: model.kept }, model.showsOther);
  const planned = sides.map((side) => {
    const proof = side.proofed ? model.proof : undefined;
    return { ...side, plan: planOf(side, source, proof), ...(proof ? { proof } : {}) };
  });
  const layers = model.detail?.key === source.key ? [source, model.detail] : [source];
  return { layers, panes: panesOf(transform, model.ui, paneBoxes, planned, crop) };
}

/** Milliseconds without a change of the picture until its neighbours are prepared. */
const PREPARE_DELAY = 200;

/** Whether two scenes make the same picture: plans, proofs and scans are compared by identity, all else by value. */
function isSameScene(a: Scene, b: Scene): boolean {
  const numbersOf = ({ panes, ...scene }: Scene): string =>
    JSON.stringify([{ ...scene, layers: 0 }, panes.map((pane) => ({ ...pane, plan: 0, proof: 0 }))]);
  return (
    a.layers.length === b.layers.length &&
    a.panes.length === b.panes.length &&
    a.layers.every((layer, k) => layer === b.layers[k]) &&
    a.panes.every(({ plan, proof }, k) => plan === b.panes[k]?.plan && proof === b.panes[k]?.proof) &&
    numbersOf(a) === numbersOf(b)
  );
}

/** The pane that a place of the canvas lies in; the first one where it lies in none. */
const paneAt = ([x, y]: Point, paneBoxes: readonly Box[]): number =>
  Math.max(
    0,
    paneBoxes.findIndex((b) => x >= b.x && x < b.x + b.width && y >= b.y && y < b.y + b.height),
  );

export function makePicture(session: Session, firstCanvas: HTMLCanvasElement, first: Surface): Picture {
  let canvas = firstCanvas;
  let surface = first;
  let layout: Layout | undefined;
  let due = false;
  let drawTime = 0;
  let drawn: string | undefined;
  let last: { readonly scene: Scene; readonly surface: Surface } | undefined;
  let preparing: ReturnType<typeof setTimeout> | undefined;
  let prepared: { readonly scenes: readonly Scene[]; readonly surface: Surface } | undefined;
  const listeners: ((layout: Layout | undefined) => void)[] = [];
  const planOf = makePlanCache();

  /** The empty canvas. */
  const emptyOf = ({ settings }: Model, size: DeviceSize): Scene => {
    const surround = SPACES.srgb.encode(luminanceOf(settings.surround));
    return { ...size, surround, layers: [], panes: [] };
  };

  function sceneOfFrame(frame: FrameEntry, look: FrameLook, on: Layout, size: DeviceSize): Scene {
    const model = session.store.get();
    const plan = ({ view, look: own }: SideLook, source: Source, proof: Proof | undefined): Plan =>
      planOf(view, own, proof ? PROOF_SPACE : surface.space, source, frame);
    return { ...emptyOf(model, size), ...sceneOf(model, look, on, plan) };
  }

  /** Compiles and hands over what a step to a frame beside this one shows, while nothing else is drawn. */
  function prepare(): void {
    preparing = undefined;
    const size = deviceSize(canvas);
    if (!size || !surface.prepare) return;
    const model = session.store.get();
    const scenes = session.neighbours().flatMap(({ entry, source }) => {
      try {
        return [sceneOfFrame(entry, entry.look, layOut(model, entry, source, size), size)];
      } catch {
        return []; // a look that cannot be computed is reported when the frame is shown
      }
    });
    const isKnown =
      prepared?.surface === surface &&
      prepared.scenes.length === scenes.length &&
      scenes.every((scene, k) => isSameScene(scene, prepared!.scenes[k]!));
    if (isKnown) return;
    surface.prepare(scenes);
    prepared = { scenes, surface };
  }

  /** A change of the picture comes first: what lies beside it waits until it has rested. */
  function planPrepare(isDrawing: boolean): void {
    if (isDrawing) clearTimeout(preparing);
    else if (preparing !== undefined) return;
    preparing = setTimeout(prepare, PREPARE_DELAY);
  }

  function draw(): void {
    due = false;
    const { draft, source } = session.store.get();
    const look = session.look();
    const size = deviceSize(canvas);
    if (!size) return;
    const start = performance.now();
    const frame = session.frame();
    const shown = frame && draft?.area ? { ...frame, area: draft.area } : frame;
    layout = shown && source && layOut(session.store.get(), shown, source, size);
    for (const listener of listeners) listener(layout);
    if (!layout || !look || !frame) {
      last = undefined;
      return void surface.draw(emptyOf(session.store.get(), size));
    }
    const scene = sceneOfFrame(frame, look, layout, size);
    // Most changes of the panel's state are none of the picture.
    const isSame = last?.surface === surface && isSameScene(last.scene, scene);
    planPrepare(!isSame);
    if (isSame) return;
    prepared = undefined;
    const { key } = layout.source;
    last = { scene, surface };
    surface.draw(scene).then(
      () => {
        drawTime = performance.now() - start;
        if (last?.scene === scene) drawn = key;
      },
      (error: unknown) => {
        last = undefined;
        session.store.set({ failure: reasonOf(error) });
      },
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
    return { at, pane: paneAt(at, layout?.paneBoxes ?? []) };
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
    redraw() {
      last = undefined;
      redraw();
    },
    lastDraw: () => drawTime,
    drawn: () => drawn,
  };
}
