/**
 * Paints scenes without WebGL: the same in the worker and, where there is none, in the page. What lies under each pixel
 * of the canvas is kept as codes, so that a move of a slider is one run of the plan over the visible pixels.
 */
import { runCodes8 } from "../../extension/engine/plan/run.ts";
import { apply, inverse } from "../state/affine.ts";
import type { Box } from "../state/frame-transform.ts";
import { hatch, hatchClipping } from "./clipping.ts";
import { blackenHolder, HOLDER_EDGE } from "./holder.ts";
import { type LocalRows, runLocalRows } from "./local-pass.ts";
import { runProofRows } from "./proof.ts";
import { clippedOn, type Sampled, sampledOn } from "./sampler.ts";
import type { Source } from "./source.ts";
import { type Pane, saturatedPixels, type Scene } from "./surface.ts";
import { clamp } from "../../extension/engine/math/clamp.ts";

type Context = CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D;

/** What lies under panes that share a map, and saturated pixels once somebody asks. */
interface Ground {
  readonly key: string;
  readonly sampled: Sampled;
  lost?: Uint8Array;
}

/** Where panes lie, over what: all that their ground depends on. */
export interface PlacedScene extends Pick<Scene, "layers"> {
  readonly panes: readonly PlacedPane[];
}
type PlacedPane = Omit<Pane, "plan">;

export interface Painter {
  paint(scene: Scene): void;
  /** Samples what lies under a scene that may be painted next. */
  prepare(scene: PlacedScene): void;
}

/** Grounds that are kept beside those of the last scene: both neighbours', and one that was left. */
const MAX_AHEAD = 3;

export function makePainter(context: Context): Painter {
  let grounds: readonly Ground[] = [];
  let ahead: readonly Ground[] = [];
  let pixels = new Uint8ClampedArray(0);
  const lost = new WeakMap<Source["levels"][number], Uint8Array>();
  const numbers = new WeakMap<Source, number>();
  let count = 0;

  function numberOf(source: Source): number {
    let number = numbers.get(source);
    if (number === undefined) numbers.set(source, (number = ++count));
    return number;
  }

  function clippedOf(source: Source, level: number): Uint8Array {
    const grid = source.levels[level];
    let made = lost.get(grid);
    if (!made) lost.set(grid, (made = saturatedPixels(source, level)));
    return made;
  }

  /** Panes of one map share a ground: a wipe that moves samples nothing again. */
  function groundOf(pane: PlacedPane, { panes, layers }: PlacedScene): Ground {
    const map = mapKey(pane);
    const together = panes.filter((p) => mapKey(p) === map);
    const area = overlap(around(together.map((p) => p.box)), picture(pane));
    const key = `${map} ${Object.values(area).join(" ")} ${layers.map(numberOf).join(" ")}`;
    const known = (ground: Ground): boolean => ground.key === key;
    return grounds.find(known) ?? ahead.find(known) ?? { key, sampled: sampledOn(area, layers, pane.toCanvas) };
  }

  const keepAhead = (more: readonly Ground[]): void => {
    ahead = [...ahead.filter((ground) => !more.includes(ground)), ...more].slice(-MAX_AHEAD);
  };

  function paintPane(pane: Pane, ground: Ground, scene: Scene): void {
    const { sampled } = ground;
    const part = overlap(pane.box, sampled);
    const { width, height } = part;
    if (width === 0 || height === 0) return;
    const size = width * height * 4;
    if (pixels.length !== size) pixels = new Uint8ClampedArray(size);
    const [left, top] = [part.x - sampled.x, part.y - sampled.y];
    const back = inverse(pane.toCanvas);
    const [{ scanWidth, scanHeight }] = scene.layers;
    const rows: LocalRows = {
      width,
      height,
      codes: sampled.codes,
      codesAt: (y) => (top + y) * sampled.width + left,
      pixels,
      placeOf(y) {
        const [u, v] = apply(back, [part.x + 0.5, part.y + y + 0.5]);
        return { x: u / scanWidth, y: v / scanHeight, dx: back.a / scanWidth, dy: back.b / scanHeight };
      },
    };
    const kinds = pane.proof && runProofRows(pane.plan, pane.proof, rows);
    if (!kinds) {
      if (width === sampled.width) runCodes8(pane.plan, sampled.codes, pixels, width * height, top * sampled.width);
      else
        for (let y = 0; y < height; y++) runCodes8(pane.plan, sampled.codes, pixels, width, rows.codesAt(y), y * width);
      runLocalRows(pane.plan, rows);
    }
    if (pane.warn !== "none") {
      ground.lost ??= clippedOn(sampled, scene.layers, pane.toCanvas, clippedOf);
      const place = { ...part, ratio: scene.ratio ?? 1 };
      const saturated = cut(ground.lost, sampled, part);
      if (kinds) hatch(pixels, place, kinds, saturated);
      else hatchClipping(pixels, place, pane.plan, pane.warn, saturated);
    }
    if (pane.holder) {
      const ground = {
        codes: sampled.codes,
        offset: (row: number): number => (top + row) * sampled.width + left,
        reach: Math.ceil(HOLDER_EDGE * Math.max(scanWidth, scanHeight) * Math.hypot(pane.toCanvas.a, pane.toCanvas.b)),
      };
      blackenHolder(pixels, part, ground, pane.holder);
    }
    clearCover(pixels, part, sampled, Math.round(scene.surround * 255));
    context.putImageData(new ImageData(pixels, width, height), part.x, part.y);
  }

  return {
    paint(scene) {
      const { canvas } = context;
      const [width, height] = [Math.max(1, scene.width), Math.max(1, scene.height)];
      if (canvas.width !== width) canvas.width = width;
      if (canvas.height !== height) canvas.height = height;
      const grey = Math.round(scene.surround * 255);
      context.fillStyle = `rgb(${grey} ${grey} ${grey})`;
      context.fillRect(0, 0, width, height);
      const now: Ground[] = [];
      for (const pane of scene.panes) {
        const ground = groundOf(pane, scene);
        if (!now.includes(ground)) now.push(ground);
        if (!grounds.includes(ground)) grounds = [ground, ...grounds];
        paintPane(pane, ground, scene);
      }
      keepAhead(grounds.filter((ground) => !now.includes(ground)));
      ahead = ahead.filter((ground) => !now.includes(ground));
      grounds = now;
    },
    prepare(scene) {
      for (const pane of scene.panes) {
        const ground = groundOf(pane, scene);
        if (!grounds.includes(ground)) keepAhead([ground]);
      }
    },
  };
}

const mapKey = ({ toCanvas, toPicture }: PlacedPane): string =>
  [...Object.values(toCanvas), ...Object.values(toPicture)].join(" ");

/** The picture's place on the canvas in whole pixels: it always stands upright there. */
function picture({ toPicture }: PlacedPane): Box {
  const back = inverse(toPicture);
  const [x0, y0] = apply(back, [0, 0]).map(Math.round);
  const [x1, y1] = apply(back, [1, 1]).map(Math.round);
  return { x: Math.min(x0, x1), y: Math.min(y0, y1), width: Math.abs(x1 - x0), height: Math.abs(y1 - y0) };
}

function around(boxes: readonly Box[]): Box {
  const x = Math.min(...boxes.map((b) => b.x));
  const y = Math.min(...boxes.map((b) => b.y));
  const right = Math.max(...boxes.map((b) => b.x + b.width));
  const bottom = Math.max(...boxes.map((b) => b.y + b.height));
  return { x, y, width: right - x, height: bottom - y };
}

function overlap(a: Box, b: Box): Box {
  const [x, y] = [Math.max(a.x, b.x), Math.max(a.y, b.y)];
  const width = Math.max(0, Math.min(a.x + a.width, b.x + b.width) - x);
  return { x, y, width, height: Math.max(0, Math.min(a.y + a.height, b.y + b.height) - y) };
}

/** A part of a rectangle's bytes. */
function cut(bytes: Uint8Array, whole: Box, part: Box): Uint8Array {
  if (part.width === whole.width && part.height === whole.height) return bytes;
  const out = new Uint8Array(part.width * part.height);
  for (let y = 0; y < part.height; y++) {
    const from = (part.y - whole.y + y) * whole.width + part.x - whole.x;
    out.set(bytes.subarray(from, from + part.width), y * part.width);
  }
  return out;
}

/** Where no scan lies under the picture, the surround shows. */
function clearCover(pixels: Uint8ClampedArray, part: Box, { x, y, spans }: Sampled, grey: number): void {
  const opaque = [grey, grey, grey, 255];
  const clear = (row: number, from: number, to: number): void => {
    for (let k = (row * part.width + from) * 4; k < (row * part.width + to) * 4; k++) pixels[k] = opaque[k % 4];
  };
  for (let row = 0; row < part.height; row++) {
    const at = 2 * (part.y - y + row);
    const hold = (column: number): number => clamp(column - (part.x - x), 0, part.width);
    const [first, last] = [hold(spans[at]), hold(spans[at + 1])];
    clear(row, 0, first);
    clear(row, Math.max(first, last), part.width);
  }
}
