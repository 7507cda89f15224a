/** The painter of the processor's path, over a canvas that keeps what is put on it. */
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { makePainter } from "../../../../webview/render/painter.ts";
import type { Grid, Source } from "../../../../webview/render/source.ts";
import type { Pane, Scene } from "../../../../webview/render/surface.ts";
import { planFor } from "../../../../webview/render/view-plans.ts";
import { chained, moving, scaling } from "../../../../webview/state/affine.ts";

const [W, H] = [60, 40];
const box = { x: 0, y: 0, width: 45, height: 30 };

/** A scan that counts how often its pixels were asked for. */
function scan(key: string, bend: number): { readonly source: Source; readonly reads: () => number } {
  let reads = 0;
  const grid: Grid = {
    width: W,
    height: H,
    codes: Uint16Array.from({ length: W * H * 3 }, (_, i) => 15_000 + ((i * bend) % 9000)),
  };
  const source: Source = {
    key,
    scanWidth: W,
    scanHeight: H,
    part: { left: 0, top: 0, width: 1, height: 1 },
    weights: [1 / 3, 1 / 3, 1 / 3],
    warnings: [],
    get levels() {
      reads++;
      return [grid];
    },
  };
  return { source, reads: () => reads };
}

function canvas(): { readonly context: CanvasRenderingContext2D; readonly put: () => readonly number[] } {
  let put: readonly number[] = [];
  const context = {
    canvas: { width: 0, height: 0 },
    fillRect() {},
    putImageData: (image: ImageData) => void (put = [...image.data]),
  };
  return { context: context as unknown as CanvasRenderingContext2D, put: () => put };
}

const SAME = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
] as const;
const plan = planFor(
  "negative",
  {
    film: "colour-negative",
    base: [0.3, 0.6, 0.75],
    gamma: [0.53, 0.56, 0.63],
    unmix: SAME,
    colour: SAME,
    exposure: 0,
    filtration: { cyan: 0, magenta: 0, yellow: 0 },
    tone: { contrast: 1.35, toe: 0.3, shoulder: 0.4, black: 0.5, points: [] },
    saturation: 1,
  },
  "srgb",
);

/** The scan in three quarters of its size, shifted by columns. */
function sceneOf(source: Source, shift = 0): Scene {
  const toCanvas = chained(scaling(0.75), moving(shift, 0));
  const pane: Pane = { box, plan, toCanvas, toPicture: scaling(1 / 45, 1 / 30), warn: "none" };
  return { width: 45, height: 30, surround: 0.5, layers: [source], panes: [pane] };
}

describe("the painter", () => {
  beforeAll(() =>
    vi.stubGlobal(
      "ImageData",
      class {
        readonly data: Uint8ClampedArray;
        constructor(data: Uint8ClampedArray) {
          this.data = data;
        }
      },
    ),
  );
  afterAll(() => void vi.unstubAllGlobals());

  it("samples a prepared scene once, and paints it as one that was not prepared", () => {
    const [here, next] = [scan("a", 7), scan("b", 13)];
    const { context, put } = canvas();
    const painter = makePainter(context);
    painter.paint(sceneOf(here.source));
    const first = put();
    const { panes, layers } = sceneOf(next.source);
    painter.prepare({ panes, layers });
    expect(put()).toEqual(first);
    const sampled = next.reads();
    expect(sampled).toBeGreaterThan(0);
    painter.paint(sceneOf(next.source));
    expect(next.reads()).toBe(sampled);
    const fresh = canvas();
    makePainter(fresh.context).paint(sceneOf(next.source));
    expect(put()).toEqual(fresh.put());
    expect(put()).not.toEqual(first);
    // The way back is prepared by having been there.
    const before = here.reads();
    painter.paint(sceneOf(here.source));
    expect(here.reads()).toBe(before);
    expect(put()).toEqual(first);
  });

  it("samples again where the scene lies elsewhere, and keeps only the last few", () => {
    const next = scan("b", 13);
    const painter = makePainter(canvas().context);
    painter.prepare(sceneOf(next.source));
    let sampled = next.reads();
    painter.paint(sceneOf(next.source, 3));
    expect(next.reads()).toBeGreaterThan(sampled);
    for (let shift = 4; shift < 8; shift++) painter.prepare(sceneOf(next.source, shift));
    sampled = next.reads();
    painter.paint(sceneOf(next.source, 7));
    expect(next.reads()).toBe(sampled);
    painter.paint(sceneOf(next.source, 0));
    expect(next.reads()).toBeGreaterThan(sampled);
  });
});
