/** Small pictures of specks: cut out of the frame's scan as it is before anything is healed. */
import { isLine, middleOf, radiusOf, type Spot } from "../../extension/engine/image/spot.ts";
import { runCodes8 } from "../../extension/engine/plan/run.ts";
import type { FrameEntry } from "../../extension/messages.ts";
import { el } from "../dom.ts";
import { sourceOf, type Source } from "../render/source.ts";
import { makePlanCache } from "../state/scene.ts";
import { clamp } from "../../extension/engine/math/clamp.ts";
import type { Session } from "./session.ts";

/** Milliseconds; decoding a large scan on a slow disk takes its time. */
const LIMIT = 180_000;
/** Least pixels of the proxy across a small picture, and how many radii of the speck it shows to each side. */
const [MIN_PIXELS, RADII] = [16, 4];
/** Frames whose scans are kept for this: each takes about 15 MB. */
const KEPT = 3;

/** What has to be the same for a frame's scan to be fetched once. */
const scansOf = (frame: FrameEntry): string => JSON.stringify([frame.id, frame.scans]);

export class SpeckPictures {
  readonly #session: Session;
  readonly #scans = new Map<string, Promise<Source>>();
  readonly #planOf = makePlanCache();

  constructor(session: Session) {
    this.#session = session;
  }

  /** A canvas that fills as soon as the scan is there. @param size CSS pixels of its sides */
  picture(frame: FrameEntry, spot: Spot, size: number): HTMLCanvasElement {
    const ratio = window.devicePixelRatio || 1;
    const pixels = String(Math.round(size * ratio));
    const canvas = el("canvas", { class: "speck", width: pixels, height: pixels, "aria-hidden": "true" });
    canvas.style.width = canvas.style.height = `${size}px`;
    this.#scanOf(frame).then(
      (source) => this.#draw(canvas, frame, source, spot),
      () => canvas.classList.add("missing"), // why is said beside the picture itself
    );
    return canvas;
  }

  #scanOf(frame: FrameEntry): Promise<Source> {
    const key = scansOf(frame);
    const known = this.#scans.get(key);
    if (known) return known;
    const made = this.#session.client
      .request("unhealed", { frame: frame.id }, { limit: LIMIT })
      .then((proxy) => sourceOf(proxy));
    this.#scans.set(key, made);
    made.catch(() => this.#scans.delete(key));
    for (const oldest of this.#scans.keys()) {
      if (this.#scans.size <= KEPT) break;
      this.#scans.delete(oldest);
    }
    return made;
  }

  #draw(canvas: HTMLCanvasElement, { look }: FrameEntry, source: Source, spot: Spot): void {
    const [grid] = source.levels;
    const [x, y] = middleOf(spot);
    // y is counted in widths of the scan.
    const perWidth = grid.width;
    const side = Math.min(
      grid.width,
      grid.height,
      Math.max(MIN_PIXELS, Math.ceil(2 * RADII * reachOf(spot) * perWidth)),
    );
    const left = clamp(Math.round(x * perWidth - side / 2), 0, grid.width - side);
    const top = clamp(Math.round(y * perWidth - side / 2), 0, grid.height - side);
    const codes = new Uint16Array(side * side * 3);
    for (let row = 0; row < side; row++) {
      const from = ((top + row) * grid.width + left) * 3;
      codes.set(grid.codes.subarray(from, from + side * 3), row * side * 3);
    }
    const pixels = new Uint8ClampedArray(side * side * 4);
    try {
      runCodes8(this.#planOf("print", look, "srgb", source), codes, pixels, side * side);
    } catch {
      canvas.classList.add("missing"); // the recipe's problem is named beside the picture
      return;
    }
    const small = new OffscreenCanvas(side, side);
    small.getContext("2d")?.putImageData(new ImageData(pixels, side, side), 0, 0);
    const context = canvas.getContext("2d");
    if (!context) return;
    context.drawImage(small, 0, 0, canvas.width, canvas.height);
    canvas.classList.add("drawn");
  }
}

/** Half of what a spot covers, in widths of the scan: of a line, its length too. */
function reachOf(spot: Spot): number {
  if (!isLine(spot)) return radiusOf(spot);
  const [xs, ys] = [spot.line.map(([x]) => x), spot.line.map(([, y]) => y)];
  const long = Math.max(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
  return Math.max(radiusOf(spot), long / 6);
}
