/** One frame in the strip: its thumbnail, drawn as the recipe says, its number and its marks. */
import { runCodes8 } from "../../extension/engine/plan/run.ts";
import type { FrameEntry } from "../../extension/messages.ts";
import { el } from "../dom.ts";
import { placeIn, type Source } from "../render/source.ts";
import { gridRows, runLocalRows } from "../render/local-pass.ts";
import { planFor } from "../render/view-plans.ts";
import { chained, scaling } from "../state/affine.ts";
import { croppedFrame } from "../state/frame-transform.ts";
import { t } from "../translate.ts";

/** Height of a thumbnail in CSS pixels. */
const HEIGHT = 64;

export class FrameTile {
  readonly button: HTMLButtonElement;
  readonly #canvas = el("canvas", { width: "96", height: "64", "aria-hidden": "true" });
  readonly #mark = el("span", { class: "mark", "aria-hidden": "true" });
  #painted?: FrameEntry;
  /** Whether the tile is scrolled into view, or nearly so. */
  visible = false;
  /** The source that was last asked for, whether it came or not. */
  requested?: string;
  /** The scan's proxy, once it has come. */
  source?: Source;
  entry: FrameEntry;

  constructor(entry: FrameEntry, onPress: () => void) {
    this.entry = entry;
    this.button = el(
      "button",
      { type: "button", role: "option", class: "tile", tabindex: "-1", "data-frame": entry.id },
      this.#canvas,
      el("span", { class: "number" }, entry.id, this.#mark),
    );
    this.button.addEventListener("click", onPress);
  }

  /** Follows the recipe: marks and spoken name. Problems of the severity "info" do not count. */
  follow(entry: FrameEntry, hasProblems: boolean): void {
    this.entry = entry;
    this.button.classList.toggle("wrong", hasProblems);
    this.button.classList.toggle("skipped", entry.skip);
    this.#mark.textContent = hasProblems ? "!" : entry.skip ? "–" : "";
    const name = [
      t("Frame {0}", entry.id),
      entry.scans.length ? entry.scans.join(", ") : t("no scan"),
      ...(entry.skip ? [t("skipped")] : []),
      ...(hasProblems ? [t("with problems")] : []),
    ];
    this.button.setAttribute("aria-label", name.join(", "));
  }

  /** Makes the tile the selected one, the only one that Tab reaches, or one of the others. */
  setSelected(isSelected: boolean): void {
    this.button.setAttribute("aria-selected", String(isSelected));
    this.button.tabIndex = isSelected ? 0 : -1;
  }

  showSource(source: Source): void {
    this.source = source;
    this.button.classList.remove("missing");
  }

  showFailure(reason: string): void {
    this.button.classList.add("missing");
    this.button.title = reason;
  }

  /** Draws the thumbnail, if the recipe has changed since it was drawn. */
  paint(): void {
    if (!this.source || this.#painted === this.entry) return;
    this.#painted = this.entry;
    const print = printOf(this.source, this.entry);
    if (!print) return;
    drawCropped(this.#canvas, print, this.source, this.entry);
    this.button.classList.add("drawn");
  }
}

/** The whole scan's positive in the proxy's size; undefined where the recipe's look cannot be computed. */
function printOf(source: Source, entry: FrameEntry): OffscreenCanvas | undefined {
  const [grid] = source.levels;
  const pixels = new Uint8ClampedArray(grid.width * grid.height * 4);
  try {
    const plan = planFor("print", entry.look, "srgb", source.weights, placeIn(source, entry));
    const { width, height, codes } = grid;
    runCodes8(plan, codes, pixels, width * height);
    runLocalRows(plan, {
      width,
      height,
      codes,
      codesAt: (y) => y * width,
      pixels,
      placeOf: gridRows(grid, source.part),
    });
  } catch {
    return undefined; // the recipe's problem is named beside the picture
  }
  const scan = new OffscreenCanvas(grid.width, grid.height);
  scan.getContext("2d")?.putImageData(new ImageData(pixels, grid.width, grid.height), 0, 0);
  return scan;
}

/** Sizes the canvas to the cropped frame and draws the scan's positive through the crop. */
function drawCropped(canvas: HTMLCanvasElement, print: OffscreenCanvas, source: Source, entry: FrameEntry): void {
  const transform = croppedFrame(source.scanWidth, source.scanHeight, entry);
  const scale = (HEIGHT * (window.devicePixelRatio || 1)) / transform.height;
  canvas.width = Math.max(1, Math.round(transform.width * scale));
  canvas.height = Math.max(1, Math.round(transform.height * scale));
  canvas.style.width = `${Math.round((transform.width / transform.height) * HEIGHT)}px`;
  const to = canvas.getContext("2d");
  const m = chained(
    scaling(source.scanWidth / print.width, source.scanHeight / print.height),
    transform.toFinished,
    scaling(scale),
  );
  to?.setTransform(m.a, m.b, m.c, m.d, m.e, m.f);
  to?.drawImage(print, 0, 0);
}
